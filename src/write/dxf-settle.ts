/** What a path is in DXF: points on the file's grid, and the entity that tells it without loss. */
import { arcPoint, arcShape, arcsToCubics, distance, fitArcs, lerp } from '../geom/index.js';
import type { Arc, Cubic, Path, Point, Segment } from '../model.js';
import { FILE_STEP_MM } from '../units/tolerances.js';
import { exact, finite, inDecimals, onGrid } from './number.js';

/** One path as one entity, whatever the version calls it. */
export type Shape =
  | { readonly kind: 'line'; readonly from: Point; readonly to: Point }
  | ({ readonly kind: 'arc'; readonly centre: Point; readonly radius: number } & {
      readonly startDeg: number;
      readonly endDeg: number;
    })
  | { readonly kind: 'circle'; readonly centre: Point; readonly radius: number }
  | { readonly kind: 'polyline'; readonly path: Path }
  /** All its segments are cubics. */
  | { readonly kind: 'spline'; readonly path: Path };

/** A layer of the file: an operation. */
export interface DxfLayer {
  readonly name: string;
  /** AutoCAD's colour index, as text. */
  readonly aci: string;
  readonly shapes: readonly Shape[];
}

/** A file's content, in its own numbers. */
export interface DxfSheet {
  /** Corners of the sheet: what is lower left and upper right to a person. */
  readonly low: Point;
  readonly high: Point;
  /** Of what is drawn; of the sheet where nothing is. */
  readonly extent: { readonly least: Point; readonly most: Point };
  readonly layers: readonly DxfLayer[];
}

const gridPoint = ([x, y]: Point): Point => [onGrid(x), onGrid(y)];
const same = (a: Point, b: Point) => a[0] === b[0] && a[1] === b[1];

/** An arc in two halves. */
function halves(from: Point, arc: Arc): readonly Segment[] {
  const shape = arcShape(from, arc);
  const bulge = Math.tan(shape.sweep / 8);
  return [
    { kind: 'arc', to: arcPoint(shape, 0.5), bulge },
    { kind: 'arc', to: arc.to, bulge },
  ];
}

/** Whether a path's cubics are kept, or fitted with arcs. */
export type Curves = 'arcs' | 'splines';

/** A path as the file tells it: either of lines and arcs only or of cubics only, points on the file's
 *  grid, nothing of no length; undefined if nothing is left. */
export const settle = (path: Path, curves: Curves): Path | undefined =>
  curves === 'splines' && path.segments.some(s => s.kind === 'cubic')
    ? settleCubics(path)
    : settleArcs(path);

/** Bulges stay as they were: they do not depend on size or place. */
function settleArcs(path: Path): Path | undefined {
  const fitted = fitArcs(finite(path));
  const start = gridPoint(fitted.start);
  let from = fitted.start;
  let last = start;
  const segments: Segment[] = [];
  const add = (s: Segment) => {
    const to = gridPoint(s.to);
    if (!same(last, to)) segments.push(bent(last, to, s) ? { ...s, to } : { kind: 'line', to });
    last = to;
  };
  for (const segment of fitted.segments) {
    // A nearly full circle must not vanish because its ends round to one point.
    if (
      segment.kind === 'arc' &&
      Math.abs(segment.bulge) > 1 &&
      same(last, gridPoint(segment.to))
    ) {
      halves(from, segment).forEach(add);
    } else add(segment);
    from = segment.to;
  }
  return segments.length > 0 ? { start, segments, closed: path.closed } : undefined;
}

/** An arc that the file can tell from its chord: one flatter than half a step is its chord, and
 *  would only have a centre miles away. */
const bent = (from: Point, to: Point, s: Segment): s is Arc =>
  s.kind === 'arc' && (Math.abs(s.bulge) * distance(from, to)) / 2 >= FILE_STEP_MM / 2;

/** A path with curves as cubics throughout, so that one entity holds it whole: lines by their thirds,
 *  arcs by cubics within `FIT_MM` of them. Points on the grid, nothing of no length. */
function settleCubics(path: Path): Path | undefined {
  const start = gridPoint(path.start);
  let last = start;
  const segments: Cubic[] = [];
  for (const s of arcsToCubics(finite(path)).segments) {
    const to = gridPoint(s.to);
    const [c1, c2] =
      s.kind === 'cubic'
        ? [gridPoint(s.c1), gridPoint(s.c2)]
        : [gridPoint(lerp(last, to, 1 / 3)), gridPoint(lerp(last, to, 2 / 3))];
    if (same(last, to) && same(last, c1) && same(last, c2)) continue;
    segments.push({ kind: 'cubic', c1, c2, to });
    last = to;
  }
  return segments.length > 0 ? { start, segments, closed: path.closed } : undefined;
}

/** A half circle, counter-clockwise: tan(π / 4) is one bit short of 1. */
const isHalf = (s: Segment): boolean => s.kind === 'arc' && exact(s.bulge) === '1';
const degrees = (radians: number) => ((((radians * 180) / Math.PI) % 360) + 360) % 360;

/**
 * The entity of a settled path. ARC and CIRCLE always run counter-clockwise, and a CIRCLE from its right:
 * where that would turn a path around or move its start, it stays a polyline.
 */
export function shapeOf(path: Path): Shape {
  const [first, second] = path.segments;
  const { start, closed, segments } = path;
  if (first!.kind === 'cubic') return { kind: 'spline', path };
  if (segments.length === 1 && !closed) {
    if (first!.kind === 'line') return { kind: 'line', from: start, to: first!.to };
    if (first!.kind === 'arc' && first!.bulge > 0) {
      const { centre, radius, startAngle, sweep } = arcShape(start, first!);
      const [startDeg, endDeg] = [degrees(startAngle), degrees(startAngle + sweep)];
      return { kind: 'arc', centre, radius, startDeg, endDeg };
    }
  }
  const round = segments.length === 2 && closed && isHalf(first!) && isHalf(second!);
  if (round && start[1] === first!.to[1] && start[0] > first!.to[0]) {
    const centre: Point = [(start[0] + first!.to[0]) / 2, start[1]];
    return { kind: 'circle', centre, radius: (start[0] - first!.to[0]) / 2 };
  }
  return { kind: 'polyline', path };
}

/** The corners of a polyline, each with the bulge, as text, of an arc that begins there. A closed one does
 *  not repeat its start: the closed flag draws the last segment. */
export function cornersOf({ start, segments, closed }: Path): { at: Point; bulge?: string }[] {
  const corners: { at: Point; bulge?: string }[] = [];
  let at = start;
  for (const s of segments) {
    corners.push(s.kind === 'arc' ? { at, bulge: bulgeText(s.bulge, distance(at, s.to)) } : { at });
    at = s.to;
  }
  if (!closed) corners.push({ at });
  return corners;
}

/** A bulge with as many decimals as keep the arc's height over its chord, bulge × chord / 2, to a hundredth
 *  of the file's step. A sheet has tens of thousands: twelve decimals each made its file a fifth larger. */
function bulgeText(bulge: number, chord: number): string {
  const decimals = Math.ceil(Math.log10((25 * chord) / FILE_STEP_MM));
  return inDecimals(bulge, Math.min(Math.max(decimals, 1), 12));
}
