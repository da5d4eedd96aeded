/** What figures of several papers are put together from: shapes drawn by eye on a sheet of any unit,
 *  then brought to size all together. */
import {
  add,
  apply,
  arcTo,
  bounds,
  circle,
  closedPath,
  closedSpline,
  compose,
  corner,
  cubic,
  heading,
  intersectRegions,
  type Knot,
  openSpline,
  rotation,
  scale,
  scaling,
  steps,
  sub,
  tangentAt,
  transform,
  translation,
} from '../geom/index.js';
import type { Affine, Layer, Path, Point, Stroke } from '../model.js';
import { layer, mirrored } from './layers.js';

/** Width of the line of a fine pen for paper, mm (common practice, no source). */
const PEN_MM = 0.5;
/** Rings of a dot that is filled with the pen. */
const MOST_RINGS = 40;

/** Layers brought to a bounding width all together, the middle of their bounds on the origin. What
 *  lies under a layer in mm, its foam, stays. */
export function figure(layers: readonly Layer[], width: number): Layer[] {
  const b = bounds(...layers.map(l => l.outline));
  const middle = translation(-(b.minX + b.maxX) / 2, -(b.minY + b.maxY) / 2);
  const m = compose(scaling(width / (b.maxX - b.minX)), middle);
  return layers.map(l => moved(l, m));
}

/** A layer turned, scaled or moved with all that is on it; never mirrored. */
export function moved(l: Layer, m: Affine): Layer {
  const move = (p: Path) => transform(p, m);
  return {
    ...l,
    outline: move(l.outline),
    holes: l.holes.map(move),
    strokes: l.strokes.map(s => ({ ...s, path: move(s.path) })),
    fills: l.fills.map(f => ({
      ...f,
      regions: f.regions.map(r => ({ outer: move(r.outer), holes: r.holes.map(move) })),
    })),
  };
}

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

export const drawn = (path: Path): Stroke => ({ operation: 'draw', path });
export const scored = (path: Path): Stroke => ({ operation: 'score', path });

/** Width of the pen's line in the unit of a sheet `drawnWidth` wide that becomes `size` mm. */
export const penOf = (drawnWidth: number, size: number): number => (PEN_MM * drawnWidth) / size;

/** A dot filled with the pen: rings from its edge inward, no gap between them. */
export function inked(centre: Point, radius: number, pen: number): Stroke[] {
  const outer = radius - pen / 2;
  if (!(outer > pen / 4)) return [drawn(circle(centre, radius / 2))];
  const rings = Math.min(MOST_RINGS, Math.ceil(outer / (0.5 * pen)));
  return Array.from({ length: rings }, (_, i) =>
    drawn(circle(centre, (outer * (rings - i)) / rings)),
  );
}

/** An eye: a disc of white paper with its pupil drawn, looking `look` of its radius aside. */
export function eye(id: string, centre: Point, radius: number, look: Point, pen: number): Layer {
  const [x, y] = centre;
  const pupil: Point = [x + look[0] * radius, y + look[1] * radius];
  return layer(id, circle(centre, radius), {
    paper: 'eye',
    strokes: inked(pupil, radius * 0.5, pen),
  });
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

/** What two shapes share, in one part without holes. Throws where it is not so. */
export function shared(a: Path, b: Path): Path {
  const found = intersectRegions([{ outer: a, holes: [] }], [{ outer: b, holes: [] }]);
  const [only] = found;
  if (!only || found.length !== 1 || only.holes.length > 0) {
    throw new RangeError(`two shapes share ${found.length} parts, not one`);
  }
  return only.outer;
}
