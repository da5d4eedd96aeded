/**
 * Boxes with leaning walls, gussets and roofs, described as they stand when closed: panels by their
 * corners in space (mid-surfaces; x right, y back, z up). Shapes in the flat, places and fold angles
 * follow from that.
 */
import { endOf } from '../geom/index.js';
import type { EdgeRef, Net, PanelRole, Point } from '../model.js';
import { SAME_ANGLE, SAME_POINT_MM } from '../units/tolerances.js';
import type { Face, FoldOptions, NetBuilder } from './build.js';
import { polygonShape, type Shape, sideOf } from './shapes.js';

export type Point3 = readonly [x: number, y: number, z: number];

const minus = (a: Point3, b: Point3): Point3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const inner = (a: Point3, b: Point3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const outer = (a: Point3, b: Point3): Point3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
/** a + k·d. */
export const along = (a: Point3, d: Point3, k: number): Point3 => [
  a[0] + k * d[0],
  a[1] + k * d[1],
  a[2] + k * d[2],
];
/** Throws for a direction of no length: two corners that should differ do not. */
export function toward(a: Point3, b: Point3): Point3 {
  const d = minus(b, a);
  const whole = Math.hypot(...d);
  if (!(whole > 0)) throw new RangeError('two corners of a panel are one');
  return [d[0] / whole, d[1] / whole, d[2] / whole];
}
export const apart = (a: Point3, b: Point3): number => Math.hypot(...minus(a, b));

/** A corner and the name of the side that leaves it, counter-clockwise as seen from the inside. */
export interface Corner3 {
  readonly at: Point3;
  readonly side?: string;
  readonly round?: number;
}

/** A panel in its place in the closed box. */
export interface Solid {
  readonly face: Face;
  readonly shape: Shape;
  /** Unit normal toward the inside. */
  readonly normal: Point3;
  /** From the panel's own frame to space, and back. */
  place(own: Point): Point3;
  own(at: Point3): Point;
}

interface Frame {
  readonly at: Point3;
  readonly ex: Point3;
  readonly ey: Point3;
  readonly normal: Point3;
}

const edgeOf = (corners: readonly Corner3[], side: string) => {
  const i = corners.findIndex(c => c.side === side);
  const from = corners[i];
  if (!from) throw new Error(`no side ${side}`);
  return [from.at, corners[(i + 1) % corners.length]!.at] as const;
};

/** The frame that stands on a side: its x runs along it, its z toward the inside. */
function frameOf(corners: readonly Corner3[], foot: string): Frame {
  // Newell's normal: twice the area, whichever way the panel lies.
  let sum: Point3 = [0, 0, 0];
  const first = corners[0]!.at;
  corners.forEach((c, i) => {
    const next = corners[(i + 1) % corners.length]!.at;
    sum = along(sum, outer(minus(c.at, first), minus(next, first)), 1);
  });
  const normal = toward([0, 0, 0], sum);
  const [a, b] = edgeOf(corners, foot);
  const ex = toward(a, b);
  const off = Math.max(...corners.map(c => Math.abs(inner(normal, minus(c.at, a)))));
  if (!(off <= SAME_POINT_MM)) throw new Error(`a panel is ${off} mm out of its plane`);
  return { at: a, ex, ey: outer(normal, ex), normal };
}

const ownIn = (f: Frame, p: Point3): Point => {
  const d = minus(p, f.at);
  return [inner(d, f.ex), inner(d, f.ey)];
};

/** A change made to a panel in its own frame, where the side it hangs on is its foot. */
export type Change = (shape: Shape) => Shape;

export interface SpaceBuilder {
  /** The panel that stays still, its frame standing on the side named. */
  root(
    id: string,
    role: PanelRole,
    corners: readonly Corner3[],
    foot: string,
    change?: Change,
  ): Solid;
  /** A panel that hangs on a side of another by its own side `foot`. */
  fold(
    to: Solid,
    side: string,
    id: string,
    role: PanelRole,
    corners: readonly Corner3[],
    foot: string,
    change?: Change,
    options?: Pick<FoldOptions, 'slit' | 'soft'>,
  ): Solid;
  /** A fold between two panels that are both there. Folded right over, two panels do not tell which
   *  way they came: toward the inside if not said. */
  ring(a: Solid, aSide: string, b: Solid, bSide: string, over?: 1 | -1): void;
  /** Which way is up in the root's frame. */
  up(): NonNullable<Net['up']>;
}

/** The fold from one panel to another about a direction that runs counter-clockwise on the first. */
function foldAngle(from: Point3, to: Point3, direction: Point3, over: 1 | -1 = 1): number {
  const angle = Math.atan2(-inner(outer(from, to), direction), inner(from, to));
  return Math.abs(angle) > Math.PI - SAME_ANGLE ? over * Math.abs(angle) : angle;
}

export function inSpace(net: NetBuilder): SpaceBuilder {
  let first: Frame | undefined;
  const shaped = (corners: readonly Corner3[], foot: string, change: Change = s => s) => {
    const frame = frameOf(corners, foot);
    const plain = polygonShape(corners.map(c => ({ ...c, at: ownIn(frame, c.at) })));
    const own = { ...plain, sides: { ...plain.sides, foot: sideOf(plain, foot) } };
    return { frame, shape: change(own) };
  };
  const solid = (face: Face, frame: Frame, shape: Shape): Solid => ({
    face,
    shape,
    normal: frame.normal,
    place: ([x, y]) => along(along(frame.at, frame.ex, x), frame.ey, y),
    own: at => ownIn(frame, at),
  });
  const sideIn = (s: Solid, name: string): readonly [Point3, Point3] => {
    const path = sideOf(s.shape, name);
    return [s.place(path.start), s.place(endOf(path))];
  };
  return {
    root(id, role, corners, foot, change) {
      const { frame, shape } = shaped(corners, foot, change);
      first = frame;
      return solid(net.root(id, role, shape), frame, shape);
    },
    fold(to, side, id, role, corners, foot, change, options = {}) {
      const { frame, shape } = shaped(corners, foot, change);
      const [start, end] = sideIn(to, side);
      const direction = toward(start, end);
      const [a, b] = edgeOf(corners, foot);
      for (const p of [a, b]) {
        const d = minus(p, start);
        const off = apart(d, along([0, 0, 0], direction, inner(d, direction)));
        if (!(off <= SAME_POINT_MM)) throw new Error(`${id} is ${off} mm off its hinge`);
      }
      const inset = [inner(minus(end, a), direction), inner(minus(b, start), direction)] as const;
      const angle = foldAngle(to.normal, frame.normal, direction);
      const face = net.fold(to.face.side(side), id, role, shape, { ...options, angle, inset });
      return solid(face, frame, shape);
    },
    ring(a, aSide, b, bSide, over) {
      const [start, end] = sideIn(a, aSide);
      const angle = foldAngle(a.normal, b.normal, toward(start, end), over);
      net.ring(a.face.side(aSide), b.face.side(bSide), angle);
    },
    up() {
      if (!first) throw new Error('a net without panels');
      return [first.ex[2], first.ey[2], first.normal[2]];
    },
  };
}

/** The stretch of an edge between two places on it, in space. */
export function stretch(s: Solid, side: string, from: Point3, to: Point3): EdgeRef {
  const own = sideOf(s.shape, side);
  const { along: whole, panel } = s.face.side(side);
  const end = endOf(own);
  const d: Point = [end[0] - own.start[0], end[1] - own.start[1]];
  const length2 = d[0] * d[0] + d[1] * d[1];
  const share = (p: Point3) => {
    const q = s.own(p);
    return ((q[0] - own.start[0]) * d[0] + (q[1] - own.start[1]) * d[1]) / length2;
  };
  const [i, j] = [share(from), share(to)].sort((x, y) => x - y) as [number, number];
  const [p, q] = [whole.start, endOf(whole)];
  const at = (k: number): Point => [p[0] + (q[0] - p[0]) * k, p[1] + (q[1] - p[1]) * k];
  const [low, high] = [Math.max(0, i), Math.min(1, j)];
  return {
    panel,
    along: { start: at(low), segments: [{ kind: 'line', to: at(high) }], closed: false },
  };
}
