/** Bridges: strips of paper that hold the middles of cut-out letters, and strips that join the parts of
 *  a word that is cut out whole. */
import {
  bounds,
  counterClockwise,
  cross,
  distance,
  dot,
  flatten,
  lerp,
  polygon,
  signedArea,
  subtractRegions,
  unit,
  uniteRegions,
} from '../../geom/index.js';
import type { Path, Point, Region } from '../../model.js';
import { MEASURE_MM } from '../../units/tolerances.js';

/** Where a bridge could stand: a strip from a letter's middle to other paper. */
interface Strip {
  /** The middle that it holds, and what it leads to: −1 is the paper around the letter. */
  readonly from: number;
  readonly to: number;
  readonly direction: number;
  readonly length: number;
  readonly corners: readonly Point[];
}

/** Strips run up, down, left and right as the letters stand; sideways ones are wider to the eye. */
const DIRECTIONS = [0, 1, 2, 3].map(i => (i * Math.PI) / 2);
const SIDEWAYS = 1.6;
/** From the middle of an island, parts of its width: the middle first. */
const ASIDE = [0, 0.22, -0.22];
/** A second bridge is made where it is no more than this many times as long as the first. */
const SECOND = 2.5;

/**
 * Letters to be cut out, with bridges `width` mm wide across their strokes, so that their middles stay:
 * one to hold each and, where there is room, one opposite. Middles smaller than a bridge is wide are
 * given up. `up` is the letters' way up. Letters without middles are returned as they are.
 */
export function bridged(
  regions: readonly Region[],
  width: number,
  up: (p: Point) => Point,
): Region[] {
  return regions.flatMap(region => {
    const holes = region.holes.filter(h => -signedArea(h) > width * width);
    if (holes.length === 0)
      return holes.length === region.holes.length ? region : { ...region, holes };
    const strips = chosen(holes.length, stripsOf(region.outer, holes, width, up));
    const letter = { ...region, holes };
    if (strips.length === 0) return letter;
    const bars = strips.map(s => ({ outer: counterClockwise(polygon(s.corners)), holes: [] }));
    return subtractRegions([letter], uniteRegions(bars));
  });
}

function stripsOf(
  outer: Path,
  holes: readonly Path[],
  width: number,
  up: (p: Point) => Point,
): Strip[] {
  const loops = [
    holes.map(h => flatten(h, 10 * MEASURE_MM)),
    [flatten(outer, 10 * MEASURE_MM)],
  ].flat();
  return holes.flatMap((hole, from) => {
    const b = bounds(hole);
    const middle: Point = [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
    const size = Math.min(b.maxX - b.minX, b.maxY - b.minY);
    return DIRECTIONS.flatMap((turn, direction) => {
      const [ux, uy] = up(middle);
      const way: Point = [
        ux * Math.cos(turn) - uy * Math.sin(turn),
        ux * Math.sin(turn) + uy * Math.cos(turn),
      ];
      for (const aside of ASIDE) {
        const side: Point = [way[1], -way[0]];
        const at: Point = [middle[0] + side[0] * aside * size, middle[1] + side[1] * aside * size];
        const strip = stripAt(loops, from, at, way, width);
        if (strip) return [{ ...strip, direction }];
      }
      return [];
    });
  });
}

/** A strip along three rays that all lead from the island across one stroke to the same paper. */
function stripAt(
  loops: readonly (readonly Point[])[],
  from: number,
  at: Point,
  way: Point,
  width: number,
): Omit<Strip, 'direction'> | undefined {
  const side: Point = [way[1], -way[0]];
  const rays = [-0.5, 0, 0.5].map(k => {
    const start: Point = [at[0] + side[0] * k * width, at[1] + side[1] * k * width];
    return strokeAlong(loops, from, start, way);
  });
  const [left, mid, right] = rays;
  if (!left || !mid || !right || left.to !== mid.to || right.to !== mid.to) return undefined;
  const begin = Math.min(left.begin, mid.begin, right.begin);
  const end = Math.max(left.end, mid.end, right.end);
  const length = mid.end - mid.begin;
  // Where the stroke runs along the strip there is no bridge.
  if (!(end - begin <= 2 * length + width)) return undefined;
  const over = width / 4;
  const corner = (k: number, t: number): Point => [
    at[0] + side[0] * k * width + way[0] * t,
    at[1] + side[1] * k * width + way[1] * t,
  ];
  return {
    from,
    to: mid.to === loops.length - 1 ? -1 : mid.to,
    length,
    corners: [
      corner(-0.5, begin - over),
      corner(0.5, begin - over),
      corner(0.5, end + over),
      corner(-0.5, end + over),
    ],
  };
}

/** The first stretch of stroke that a ray crosses on its way out of the island. */
function strokeAlong(
  loops: readonly (readonly Point[])[],
  from: number,
  start: Point,
  way: Point,
): { begin: number; end: number; to: number } | undefined {
  const met = loops
    .flatMap((points, loop) => rayCrossings(points, start, way).map(t => ({ t, loop })))
    .filter(m => m.t > 0)
    .sort((a, b) => a.t - b.t);
  const i = met.findIndex((m, k) => m.loop === from && met[k + 1]?.loop !== from);
  const [leave, reach] = [met[i], met[i + 1]];
  return leave && reach ? { begin: leave.t, end: reach.t, to: reach.loop } : undefined;
}

function rayCrossings(points: readonly Point[], start: Point, way: Point): number[] {
  return points.flatMap((a, i) => {
    const b = points[(i + 1) % points.length]!;
    const [p, q] = [a, b].map((v): Point => [v[0] - start[0], v[1] - start[1]]) as [Point, Point];
    const [sa, sb] = [cross(way, p), cross(way, q)];
    if (sa > 0 === sb > 0) return [];
    return [dot(way, lerp(p, q, sa / (sa - sb)))];
  });
}

/** The strips that hold every middle, each by a way to the paper around, and their opposites. */
function chosen(holes: number, strips: readonly Strip[]): Strip[] {
  const cost = (s: Strip) => s.length * (s.direction % 2 === 0 ? 1 : SIDEWAYS);
  const held = new Set([-1]);
  const kept: Strip[] = [];
  for (let n = 0; n < holes; n++) {
    const next = strips
      .filter(s => held.has(s.from) !== held.has(s.to))
      .reduce<Strip | undefined>((a, b) => (a && cost(a) <= cost(b) ? a : b), undefined);
    if (!next) break;
    kept.push(next);
    held.add(next.from).add(next.to);
  }
  const second = kept.flatMap(
    first =>
      strips.find(
        s =>
          s.from === first.from &&
          s.direction === (first.direction + 2) % 4 &&
          s.length <= SECOND * first.length &&
          !kept.some(k => k.from === s.to && k.to === s.from),
      ) ?? [],
  );
  return [...kept, ...second];
}

/**
 * Bars `width` mm wide that join regions into one, between the nearest points of those that do not touch;
 * the fewest bars, the shortest first. What lies inside a part's hole is joined as well.
 */
export function barsBetween(regions: readonly Region[], width: number): Region[] {
  if (regions.length < 2) return [];
  const edges = regions.map(({ outer, holes }) => [outer, ...holes].flatMap(p => dense(p)));
  const boxes = regions.map(r => bounds(r.outer));
  const reached = new Set([0]);
  const bars: Region[] = [];
  const near = regions.map((_, i) => (i === 0 ? undefined : nearest(edges[0]!, edges[i]!)));
  while (reached.size < regions.length) {
    const i = near.reduce<number>((best, n, k) => {
      if (!n || reached.has(k)) return best;
      return best < 0 || n.far < near[best]!.far ? k : best;
    }, -1);
    const { a, b } = near[i]!;
    bars.push(bar(a, b, width));
    reached.add(i);
    for (let k = 0; k < regions.length; k++) {
      if (reached.has(k) || !(boxGap(boxes[i]!, boxes[k]!) < near[k]!.far)) continue;
      const other = nearest(edges[i]!, edges[k]!);
      if (other.far < near[k]!.far) near[k] = other;
    }
  }
  return bars;
}

/** Points along an edge this near to each other, mm: what a bar's end moves by is not seen. */
const DENSE = 0.4;

function dense(path: Path): Point[] {
  const points = flatten(path, 0.05);
  return points.flatMap((a, i) => {
    const b = points[(i + 1) % points.length]!;
    const n = Math.max(1, Math.ceil(distance(a, b) / DENSE));
    return Array.from({ length: n }, (_, k) => lerp(a, b, k / n));
  });
}

/** Every so many points are looked at first, then those around the nearest of them. */
const COARSE = 6;

function nearest(one: readonly Point[], other: readonly Point[]) {
  const some = (points: readonly Point[]) => points.map((_, i) => i).filter(i => i % COARSE === 0);
  const rough = nearestOf(one, other, some(one), some(other));
  const around = (points: readonly Point[], i: number) =>
    Array.from(
      { length: 2 * COARSE + 1 },
      (_, k) => (i + k - COARSE + COARSE * points.length) % points.length,
    );
  const { i, j, far } = nearestOf(one, other, around(one, rough.i), around(other, rough.j));
  return { a: one[i]!, b: other[j]!, far };
}

function nearestOf(
  one: readonly Point[],
  other: readonly Point[],
  first: readonly number[],
  second: readonly number[],
) {
  let best = { i: first[0]!, j: second[0]!, far: Number.POSITIVE_INFINITY };
  for (const i of first) {
    const [x, y] = one[i]!;
    for (const j of second) {
      const far = Math.hypot(x - other[j]![0], y - other[j]![1]);
      if (far < best.far) best = { i, j, far };
    }
  }
  return best;
}

const boxGap = (a: ReturnType<typeof bounds>, b: ReturnType<typeof bounds>) =>
  Math.hypot(
    Math.max(0, a.minX - b.maxX, b.minX - a.maxX),
    Math.max(0, a.minY - b.maxY, b.minY - a.maxY),
  );

/** A bar from point to point, run on into both parts by half its width. */
function bar(a: Point, b: Point, width: number): Region {
  const far = distance(a, b);
  const way = far > 0 ? unit([b[0] - a[0], b[1] - a[1]]) : ([0, 1] as const);
  const w = width / 2;
  const corner = (p: Point, on: number, side: number): Point => [
    p[0] + way[0] * on - way[1] * side,
    p[1] + way[1] * on + way[0] * side,
  ];
  const corners = [corner(a, -w, w), corner(a, -w, -w), corner(b, w, -w), corner(b, w, w)];
  return { outer: counterClockwise(polygon(corners)), holes: [] };
}
