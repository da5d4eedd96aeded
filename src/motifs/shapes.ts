/** Outlines drawn by eye that several motifs are made of, on a sheet of any unit. */
import {
  add,
  apply,
  arcTo,
  circle,
  closedPath,
  closedSpline,
  compose,
  corner,
  counterClockwise,
  cubic,
  heading,
  type Knot,
  line,
  openSpline,
  polar,
  rotation,
  roundedPolygon,
  scale,
  scaling,
  steps,
  sub,
  tangentAt,
  transform,
  translation,
  uniteRegions,
} from '../geom/index.js';
import type { Affine, Path, Point, Segment } from '../model.js';
import { mirrored } from './layers.js';

export const EAST: Point = [1, 0];
export const NORTH: Point = [0, 1];
export const WEST: Point = [-1, 0];

/** The closed curve through knots, counter-clockwise. */
export const shape = (knots: readonly Knot[]): Path => counterClockwise(closedSpline(knots));

/** The same on both sides of x = 0, from knots of its right half, from the bottom up. */
export const mirroredSpline = (knots: readonly Knot[]): Path => mirrored(openSpline(knots));

/** The mirror image about x = 0, counter-clockwise again. */
export function flipped(path: Path): Path {
  const [first, ...rest] = [path.start, ...path.segments.map(s => s.to)].reverse();
  const flip = ([x, y]: Point): Point => [-x, y];
  const segments = [...path.segments].reverse().map((s, i) => {
    const to = flip(rest[i]!);
    // Mirroring turns an arc about, walking it backwards turns it back.
    return s.kind === 'cubic' ? { ...s, c1: flip(s.c2), c2: flip(s.c1), to } : { ...s, to };
  });
  return { start: flip(first!), segments, closed: path.closed };
}

/** Four cubics, counter-clockwise; within 2.8e-4 of the larger radius of a true ellipse. */
export function ellipse(centre: Point, rx: number, ry: number, turn = 0): Path {
  const k = (4 / 3) * Math.tan(Math.PI / 8);
  const unit = closedPath(
    [1, 0],
    [
      cubic([1, k], [k, 1], [0, 1]),
      cubic([-k, 1], [-1, k], [-1, 0]),
      cubic([-1, -k], [-k, -1], [0, -1]),
      cubic([k, -1], [1, -k], [1, 0]),
    ],
  );
  return transform(unit, compose(translation(...centre), compose(rotation(turn), scaling(rx, ry))));
}

/** A stalk of changing width round a smooth line: `[x, y, width]` from end to end, both ends round. */
export function stalk(along: readonly (readonly [x: number, y: number, width: number])[]): Path {
  const spine = openSpline(along.map(([x, y]): Point => [x, y]));
  const all = [...steps(spine)];
  const sides = along.map(([x, y, width], i) => {
    const [tx, ty] = i === 0 ? tangentAt(all[0]!, 0) : tangentAt(all[i - 1]!, 1);
    const out: Point = [(ty * width) / 2, (-tx * width) / 2];
    const go: Point = [tx, ty];
    return { right: add([x, y], out), left: sub([x, y], out), go, back: scale(go, -1) };
  });
  const [first, last] = [sides[0]!, sides.at(-1)!];
  const right = openSpline(sides.map(s => heading(s.right, s.go)));
  const left = openSpline([...sides].reverse().map(s => heading(s.left, s.back)));
  const segments = [
    ...right.segments,
    arcTo(last.left, Math.PI),
    ...left.segments,
    arcTo(first.right, Math.PI),
  ];
  return closedPath(right.start, segments);
}

/** A leaf with a point at both ends, and its rib: from base to tip, `fullness` of its length wide. `lean`
 *  bends it to the left of its way when positive. */
export function leafBlade(
  base: Point,
  tip: Point,
  fullness: number,
  lean = 0,
): { readonly outline: Path; readonly rib: Path } {
  const frame = toFrame(base, tip);
  const side = fullness / 2;
  const at = (x: number, y: number) => apply(frame, [x, y + lean * 4 * x * (1 - x)]);
  const outline = closedSpline([corner(base), at(0.42, -side), corner(tip), at(0.42, side)]);
  const rib = openSpline([at(0.1, 0), at(0.45, 0), at(0.8, 0)]);
  return { outline, rib };
}

/** From a frame whose x runs from 0 at `from` to 1 at `to`, without mirroring. */
export function toFrame(from: Point, to: Point): Affine {
  const [dx, dy] = sub(to, from);
  return [dx, dy, -dy, dx, ...from];
}

/** A shape that never changes, drawn when it is first asked for: welding is slow. */
export function once<T>(draw: () => T): () => T {
  let drawn: T | undefined;
  return () => {
    drawn ??= draw();
    return drawn;
  };
}

/** Round puffs on a flat foot, as one outline of arcs. */
export function puffs(
  foot: Path,
  discs: readonly (readonly [x: number, y: number, r: number])[],
): Path {
  const all = [foot, ...discs.map(([x, y, r]) => circle([x, y], r))];
  const [welded] = uniteRegions(all.map(outer => ({ outer, holes: [] })));
  return welded!.outer;
}

/** A bar with half-round ends. */
export const pill = (x0: number, x1: number, y0: number, y1: number): Path =>
  roundedPolygon(
    [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ],
    (y1 - y0) / 2,
  );

/** A star whose points are rounded, the first one up. */
export function star([x, y]: Point, radius: number, points: number, turn: number): Path {
  const corners = Array.from({ length: 2 * points }, (_, i) =>
    polar(i % 2 === 0 ? radius : 0.52 * radius, Math.PI / 2 + turn + (i * Math.PI) / points, [
      x,
      y,
    ]),
  );
  return roundedPolygon(
    corners,
    corners.map((_, i) => (i % 2 === 0 ? 0.14 * radius : 0.1 * radius)),
  );
}

/** An outline again, smaller about a point on the axis. */
export const within = (outline: Path, middle: number, kx: number, ky: number): Path =>
  transform(
    outline,
    compose(translation(0, middle), compose(scaling(kx, ky), translation(0, -middle))),
  );

/** Equal arcs that hang in a row from (−half, y) to (half, y): eaves, or the hem of a fir. */
function scallops(half: number, y: number, count: number): Segment[] {
  const x = (i: number) => -half + (2 * half * i) / count;
  return Array.from({ length: count }, (_, i) => arcTo([x(i + 1), y], (Math.PI * 5) / 6));
}

/** A hem of scallops with sides that curve up to a blunt top on the axis. */
export function gable(half: number, y: number, top: number, count: number): Path {
  const side = openSpline([
    [half, y],
    [0.46 * half, y + 0.42 * (top - y)],
    heading([0.09 * half, top - 0.05 * (top - y)], [-0.5, 1]),
    heading([0, top], WEST),
  ]);
  const back = mirrored({ ...side, start: [0, y], segments: [line([half, y]), ...side.segments] });
  return closedPath([-half, y], [...scallops(half, y, count), ...back.segments.slice(1, -1)]);
}
