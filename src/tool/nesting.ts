/** Which closed contour holds which path: what is inside must be worked before what holds it. */
import Flatbush from 'flatbush';
import type { Path } from '../geom/index.js';
import { TIP_MM } from '../units/tolerances.js';
import { chordsOf } from './chords.js';

/**
 * For each path the index of the smallest closed contour that holds all of it, or -1. `contours[i]`
 * stands for path i where it is a part of a contour that was closed once. A path that crosses a
 * contour is not held by it; of contours that lie on each other the later holds the earlier.
 * `outlines` are closed contours that lost edges to others. Where no path is left that stands for one,
 * a path that runs along it holds what is inside: the piece is not loose before that is cut.
 */
export function holders(
  paths: readonly Path[],
  contours: readonly (Path | undefined)[] = [],
  outlines: readonly Path[] = [],
): Int32Array {
  const n = paths.length;
  const held = new Int32Array(n).fill(-1);
  if (n === 0) return held;
  const rings = paths.map((path, i) => {
    const ring = contours[i] ?? (path.closed ? path : undefined);
    return ring && chordsOf(ring, TIP_MM);
  });
  const own = paths.map((path, i) =>
    contours[i] || !path.closed ? chordsOf(path, TIP_MM) : rings[i]!,
  );
  const boxes = rings.map(ring => (ring ? boxOf(ring) : undefined));
  const areas = rings.map(ring => (ring ? Math.abs(areaOf(ring)) : 0));
  const index = new Flatbush(n);
  for (const box of boxes) {
    if (box) index.add(...box);
    else index.add(0, 0, 0, 0);
  }
  index.finish();
  const least = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
  for (let i = 0; i < n; i++) {
    const xy = own[i]!;
    const [x0, y0, x1, y1] = boxOf(xy);
    for (const j of index.search(x0, y0, x1, y1)) {
      const box = boxes[j];
      if (j === i || !box || !(areas[j]! < least[i]!) || contours[i] === paths[j]) continue;
      // Twins (a contour and what was one with it) hold nothing of each other.
      if (contours[i] !== undefined && contours[i] === contours[j]) continue;
      const slack = TIP_MM;
      const within =
        box[0] <= x0 + slack &&
        box[1] <= y0 + slack &&
        box[2] >= x1 - slack &&
        box[3] >= y1 - slack;
      if (!within || (rings[i] && !(areas[i]! < areas[j]! || (areas[i] === areas[j] && i < j)))) {
        continue;
      }
      if (holdsAll(rings[j]!, xy)) {
        least[i] = areas[j]!;
        held[i] = j;
      }
    }
  }
  const stood = new Set(contours);
  const gone = outlines.filter(path => !stood.has(path)).map(path => chordsOf(path, TIP_MM));
  if (gone.length > 0) holdByEdges(gone, { held, own, areas, least });
  return held;
}

interface Nest {
  readonly held: Int32Array;
  /** Chords of each path. */
  readonly own: readonly Float64Array[];
  readonly areas: readonly number[];
  /** Area of what holds each. */
  readonly least: Float64Array;
}

/** Lets what lies in outlines that no path stands for be held by a path that runs along them. */
function holdByEdges(gone: readonly Float64Array[], { held, own, areas, least }: Nest): void {
  const index = new Flatbush(own.length);
  for (const xy of own) index.add(...boxOf(xy));
  index.finish();
  const leadsTo = (from: number, to: number): boolean => {
    for (let at = from; at >= 0; at = held[at]!) if (at === to) return true;
    return false;
  };
  const sized = gone.map(ring => ({ ring, area: Math.abs(areaOf(ring)) }));
  for (const { ring, area } of sized.sort((a, b) => a.area - b.area)) {
    const near = index.search(...boxOf(ring)).sort((a, b) => a - b);
    const edges = near.filter(j => runsAlong(own[j]!, ring));
    for (const i of near) {
      if (edges.includes(i) || areas[i]! >= area || least[i]! <= area) continue;
      if (!holdsAll(ring, own[i]!)) continue;
      // Not in a circle, and still before what holds it now.
      const now = held[i]!;
      const edge = edges.find(j => !leadsTo(j, i) && (now < 0 || leadsTo(j, now)));
      if (edge === undefined) continue;
      held[i] = edge;
      least[i] = area;
    }
  }
}

/** Most chords whose middles are asked about, so that the time grows only with the other's length. */
const MOST_MIDDLES = 128;

/** Whether the middle of some chord of the ring lies on the path, or of the path on the ring. */
function runsAlong(xy: Float64Array, ring: Float64Array): boolean {
  const touches = (a: Float64Array, b: Float64Array) => {
    const step = Math.max(1, Math.floor(a.length / 2 / MOST_MIDDLES));
    for (let i = 2; i < a.length; i += 2 * step) {
      const x = (a[i - 2]! + a[i]!) / 2;
      const y = (a[i - 1]! + a[i + 1]!) / 2;
      if (inside(b, x, y) === undefined) return true;
    }
    return false;
  };
  return touches(xy, ring) || touches(ring, xy);
}

function boxOf(xy: Float64Array): [number, number, number, number] {
  const box: [number, number, number, number] = [xy[0]!, xy[1]!, xy[0]!, xy[1]!];
  for (let i = 2; i < xy.length; i += 2) {
    box[0] = Math.min(box[0], xy[i]!);
    box[1] = Math.min(box[1], xy[i + 1]!);
    box[2] = Math.max(box[2], xy[i]!);
    box[3] = Math.max(box[3], xy[i + 1]!);
  }
  return box;
}

function areaOf(xy: Float64Array): number {
  let twice = 0;
  for (let i = 2; i < xy.length; i += 2) {
    twice += xy[i - 2]! * xy[i + 1]! - xy[i]! * xy[i - 1]!;
  }
  return twice / 2;
}

/** Most points asked of one path: enough to see that it crosses the ring. */
const MOST_ASKED = 32;

/** Every asked corner and chord middle of `xy` is in the ring; those on its edge say nothing, and
 *  where all are on the edge the path counts as held. */
function holdsAll(ring: Float64Array, xy: Float64Array): boolean {
  const step = Math.max(1, Math.floor(xy.length / 2 / MOST_ASKED));
  for (let i = 0; i < xy.length; i += 2 * step) {
    if (inside(ring, xy[i]!, xy[i + 1]!) === false) return false;
    if (i + 3 < xy.length) {
      const mid = inside(ring, (xy[i]! + xy[i + 2]!) / 2, (xy[i + 1]! + xy[i + 3]!) / 2);
      if (mid === false) return false;
    }
  }
  return true;
}

/** Even–odd; `undefined` within `TIP_MM` of the edge. */
function inside(ring: Float64Array, x: number, y: number): boolean | undefined {
  let odd = false;
  for (let i = 2; i < ring.length; i += 2) {
    const x0 = ring[i - 2]!;
    const y0 = ring[i - 1]!;
    const dx = ring[i]! - x0;
    const dy = ring[i + 1]! - y0;
    const size = dx * dx + dy * dy;
    const t = size > 0 ? Math.max(0, Math.min(1, ((x - x0) * dx + (y - y0) * dy) / size)) : 0;
    const ex = x - x0 - t * dx;
    const ey = y - y0 - t * dy;
    if (ex * ex + ey * ey <= TIP_MM * TIP_MM) return undefined;
    if (y0 > y !== y0 + dy > y && x < x0 + (dx * (y - y0)) / dy) odd = !odd;
  }
  return odd;
}
