/**
 * Shapes of panels, each in its own frame: it stands on its `foot`, which lies on y = 0 from left
 * to right, and rises to its `head`. Sides are named as seen so; all run counter-clockwise.
 */
import {
  arcTo,
  distance,
  endOf,
  lerp,
  line,
  openPath,
  roundedPolygon,
  samePoint,
  startTangent,
  steps,
  transform,
} from '../geom/index.js';
import type { Affine, Bend, Path, Point, Segment, Stroke } from '../model.js';

export interface Shape {
  readonly outline: Path;
  /** Parts of the outline that another panel can be folded to or meet. */
  readonly sides: Readonly<Record<string, Path>>;
  readonly holes?: readonly Path[];
  readonly strokes?: readonly Stroke[];
  readonly bend?: Bend;
}

/** A corner, the radius it is rounded with, and the name of the side that leaves it. */
export interface Corner {
  readonly at: Point;
  readonly round?: number;
  readonly side?: string;
}

/** A polygon from its corners, counter-clockwise. A rounded side is what is left straight of it.
 *  Throws `RangeError` for a radius that the sides cannot hold. */
export function polygonShape(corners: readonly Corner[]): Shape {
  // A corner that coincides with the next one leaves no side: a full mitre, a notch of no width.
  const kept = corners.filter((c, i) => !samePoint(c.at, corners[(i + 1) % corners.length]!.at));
  const outline = roundedPolygon(
    kept.map(c => c.at),
    kept.map(c => c.round ?? 0),
  );
  const straight = [...steps(outline)].filter(s => s.segment.kind === 'line');
  const sides: Record<string, Path> = {};
  kept.forEach((c, i) => {
    if (c.side === undefined) return;
    const next = kept[(i + 1) % kept.length]!.at;
    for (const { from, segment } of straight) {
      if (within(from, c.at, next) && within(segment.to, c.at, next)) {
        sides[c.side] = openPath(from, [segment]);
      }
    }
  });
  return { outline, sides };
}

// The triangle inequality is an equality on the segment; 1e-9 of its length is rounding.
const within = (p: Point, a: Point, b: Point) =>
  distance(a, p) + distance(p, b) <= distance(a, b) * (1 + 1e-9);

/** A flap that is the same on both sides, from the corners of its left half, upward from the foot's
 *  left end; `top` names the side between the last corner and its mirror image. */
export function mirrored(width: number, left: readonly Omit<Corner, 'side'>[], top: string): Shape {
  const right = left.map(c => ({ ...c, at: [width - c.at[0], c.at[1]] as const }));
  const named = (list: readonly Corner[], i: number, side: string) =>
    list.map((c, k) => (k === i ? { ...c, side } : c));
  return polygonShape([
    ...named(left.slice(0, 1), 0, 'foot'),
    ...named(right, right.length - 1, top),
    ...left.slice(1).reverse(),
  ]);
}

/** A flap turned left for right: what was on its left is on its right. */
export function flipped(width: number, corners: readonly Corner[]): readonly Corner[] {
  // The side that leaves a corner leaves the next one when the corners run the other way.
  return corners
    .map((c, i) => {
      const { side } = corners[(i + corners.length - 1) % corners.length]!;
      const { side: _, ...bare } = c;
      const at = [width - c.at[0], c.at[1]] as const;
      return side === undefined ? { ...bare, at } : { ...bare, at, side };
    })
    .reverse();
}

/** A rectangle, its head corners rounded by `round`. */
export const rect = (width: number, height: number, round = 0): Shape =>
  polygonShape([
    { at: [0, 0], side: 'foot' },
    { at: [width, 0], side: 'right' },
    { at: [width, height], round, side: 'head' },
    { at: [0, height], round, side: 'left' },
  ]);

export interface FlapCut {
  /** Angle by which the sides lean in, radians: one for both, or left and right. */
  readonly mitre?: number | readonly [left: number, right: number];
  /** Radius of the head corners, mm. */
  readonly round?: number;
  /** Instead of `round`: about this, less on a small flap. */
  readonly soft?: number;
}

/** A flap as wide as its hinge, its sides leaning in by the mitre. Throws `RangeError` when the
 *  mitres meet before the head. */
export function flap(width: number, depth: number, cut: FlapCut = {}): Shape {
  const { mitre = 0, soft = 0 } = cut;
  const [left, right] = typeof mitre === 'number' ? [mitre, mitre] : mitre;
  const x0 = depth * Math.tan(left);
  const x1 = width - depth * Math.tan(right);
  if (!(x1 > x0)) throw new RangeError(`mitres of a flap ${width} × ${depth} mm meet`);
  const round = cut.round ?? Math.min(soft, depth / 4, (x1 - x0) / 4);
  return polygonShape([
    { at: [0, 0], side: 'foot' },
    { at: [width, 0], side: 'right' },
    { at: [x1, depth], round, side: 'head' },
    { at: [x0, depth], round, side: 'left' },
  ]);
}

/** The deepest flap whose mitres leave a head of at least `head` mm. */
export const deepestFlap = (width: number, mitre: number, head: number): number =>
  mitre > 0 ? (width - head) / (2 * Math.tan(mitre)) : Number.POSITIVE_INFINITY;

/**
 * A half-round thumb notch of `radius`, in the middle of a straight side, or `at` (0 to 1) along it.
 * The side is left in two: `<side>-1` before the notch and `<side>-2` after it.
 */
export function notched(shape: Shape, side: string, radius: number, at = 0.5): Shape {
  const old = sideOf(shape, side);
  const end = endOf(old);
  const width = distance(old.start, end);
  if (!(radius > 0 && radius <= width * Math.min(at, 1 - at))) {
    throw new RangeError(`a notch of radius ${radius} mm does not fit a side of ${width} mm`);
  }
  const a = lerp(old.start, end, at - radius / width);
  const b = lerp(old.start, end, at + radius / width);
  const outline = replaceSide(shape.outline, old, [line(a), arcTo(b, -Math.PI), line(end)]);
  const { [side]: _, ...others } = shape.sides;
  return {
    ...shape,
    outline,
    sides: {
      ...others,
      [`${side}-1`]: openPath(old.start, [line(a)]),
      [`${side}-2`]: openPath(b, [line(end)]),
    },
  };
}

/**
 * A straight side made an arc that rises `rise` mm out of it, or sinks into the panel where that is
 * negative; no more than half a circle.
 */
export function arched(shape: Shape, side: string, rise: number): Shape {
  const old = sideOf(shape, side);
  const end = endOf(old);
  const width = distance(old.start, end);
  if (!(Math.abs(rise) <= width / 2)) {
    throw new RangeError(`an arc ${rise} mm high does not stand on a side of ${width} mm`);
  }
  if (rise === 0) return shape;
  const arc = arcTo(end, 4 * Math.atan((2 * rise) / width));
  const sides = { ...shape.sides, [side]: openPath(old.start, [arc]) };
  return { ...shape, outline: replaceSide(shape.outline, old, [arc]), sides };
}

function replaceSide(outline: Path, old: Path, by: readonly Segment[]): Path {
  let found = false;
  const segments = [...steps(outline)].flatMap(({ from, segment }) => {
    if (!samePoint(from, old.start) || !samePoint(segment.to, endOf(old))) return [segment];
    found = true;
    return by;
  });
  if (!found) throw new Error('the side is not one line of the outline');
  return { ...outline, segments };
}

export function sideOf(shape: Shape, name: string): Path {
  const side = shape.sides[name];
  if (!side) throw new Error(`no side ${name} among ${Object.keys(shape.sides).join(', ')}`);
  return side;
}

/** Moves a shape: a turn and a shift, never a mirror. */
export function moveShape(shape: Shape, m: Affine): Shape {
  const move = (p: Path) => transform(p, m);
  const { bend } = shape;
  return {
    outline: move(shape.outline),
    sides: Object.fromEntries(Object.entries(shape.sides).map(([k, p]) => [k, move(p)])),
    ...(shape.holes && { holes: shape.holes.map(move) }),
    ...(shape.strokes && { strokes: shape.strokes.map(s => ({ ...s, path: move(s.path) })) }),
    ...(bend && { bend: moveBend(bend, m) }),
  };
}

function moveBend(bend: Bend, m: Affine): Bend {
  const ray = transform(
    openPath(bend.from, [line([bend.from[0] + bend.across[0], bend.from[1] + bend.across[1]])]),
    m,
  );
  return { ...bend, from: ray.start, across: startTangent(ray) };
}
