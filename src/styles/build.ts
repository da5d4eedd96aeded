/**
 * A net written down as a box maker would describe it: a base, and what is folded to which of its
 * sides. Hinges, frames and outlines in the net's own frame are worked out here.
 */
import {
  angleOf,
  apply,
  compose,
  distance,
  dot,
  endOf,
  lerp,
  line,
  openPath,
  partOf,
  reverse,
  rotation,
  steps,
  sub,
  translation,
} from '../geom/index.js';
import type {
  Affine,
  Closure,
  EdgeRef,
  Hinge,
  Join,
  Net,
  Panel,
  PanelRef,
  PanelRole,
  Path,
  Point,
  Seat,
  Stands,
} from '../model.js';
import { moveShape, type Shape, sideOf } from './shapes.js';

/** The fold of a wall on its base. */
export const SQUARE = Math.PI / 2;

type Pair = number | readonly [left: number, right: number];
const pair = (p: Pair): readonly [number, number] => (typeof p === 'number' ? [p, p] : p);

/** A panel in its place. */
export interface Face {
  readonly id: string;
  /** A side by its name, in the net's frame. */
  side(name: string): EdgeRef;
  /** A point of the panel's own frame in the net's. */
  at(own: Point): Point;
}

export interface FoldOptions {
  /** Radians; positive toward the inside. A right angle if not said. */
  readonly angle?: number;
  /** Of a fold right over: the distance of the two mid-surfaces, mm. */
  readonly lift?: number;
  /** Not scored: the paper curls over it, or goes on straight. */
  readonly soft?: boolean;
  /** How far the child's foot stays away from the ends of the parent's side, mm: left and right
   *  as seen with the hinge below. */
  readonly inset?: Pair;
  /** How much of the hinge is cut instead of scored, from its ends, mm. */
  readonly slit?: Pair;
  /** As in `Hinge`. */
  readonly packed?: number;
}

export interface NetBuilder {
  /** The panel that stays still; its own frame is the net's. */
  root(id: string, role: PanelRole, shape: Shape): Face;
  /** A panel folded to a side of another. The shape is made for the width that the insets leave. */
  fold(
    to: EdgeRef,
    id: string,
    role: PanelRole,
    shape: Shape | ((width: number) => Shape),
    options?: FoldOptions,
  ): Face;
  /** A fold between two panels that are both in their places: it closes a ring of panels. It runs
   *  where the two sides lie on each other. */
  ring(a: EdgeRef, b: EdgeRef, angle: number): void;
  /** Panel a is glued onto panel b; one thickness apart if not said. */
  glue(a: Face, b: Face, gap?: number): void;
  /** An edge hooks in over panel b. */
  hook(a: EdgeRef, b: Face, gap?: number): void;
  /** Panel a is tucked in behind panel b. */
  tuck(a: Face, b: Face, gap?: number): void;
  /** Panel a is glued onto a panel of another part. */
  seat(a: Face, net: string, panel: string, gap?: number): void;
  /** The panel lies flat on the floor under the net. */
  rest(a: Face): void;
  /** Two edges meet. */
  meet(a: EdgeRef, b: EdgeRef, gap?: number): void;
  /** An edge catches in another and holds. */
  lock(a: EdgeRef, b: EdgeRef, gap?: number): void;
  /** A closure dot on panel a, at a point of its own frame; its other half is on panel b. */
  dot(a: Face, b: Face, own: Point, diameter: number): void;
  /** A ribbon through holes in these panels holds the box closed. */
  tie(panels: readonly string[]): void;
  /** `up` as in `Net`: toward the inside of the root if not said; `stands` of a part of several. */
  done(up?: Net['up'], stands?: Stands): Net;
}

export function newNet(id: string, title: string, thickness: number): NetBuilder {
  const panels: Panel[] = [];
  const hinges: Hinge[] = [];
  const ringHinges: Hinge[] = [];
  const seats: Seat[] = [];
  const rests: PanelRef[] = [];
  const tied: string[] = [];
  const joins: Join[] = [];
  const closures: Closure[] = [];

  const add = (panelId: string, role: PanelRole, own: Shape, frame: Affine): Face => {
    if (panels.some(p => p.id === panelId)) throw new Error(`${id}: two panels ${panelId}`);
    const shape = moveShape(own, frame);
    panels.push({
      id: panelId,
      role,
      outline: shape.outline,
      holes: shape.holes ?? [],
      strokes: shape.strokes ?? [],
      ...(shape.bend && { bend: shape.bend }),
    });
    return {
      id: panelId,
      side: name => ({ panel: panelId, along: sideOf(shape, name) }),
      at: own => apply(frame, own),
    };
  };

  const withGap = (gap: number | undefined) => (gap === undefined ? {} : { gap });
  return {
    root: (panelId, role, shape) => add(panelId, role, shape, translation(0, 0)),
    fold(to, panelId, role, shape, options = {}) {
      const { angle = SQUARE, lift = 0, soft = false, inset = 0, slit = 0, packed = 0 } = options;
      const [left, right] = pair(inset);
      const width = distance(to.along.start, endOf(to.along)) - left - right;
      const own = typeof shape === 'function' ? shape(width) : shape;
      const foot = sideOf(own, 'foot');
      const frame = standOn(to.along, foot, left);
      const face = add(panelId, role, own, frame);
      const along = hingeOf(to.along, face.side('foot').along, pair(slit), `${id}: ${panelId}`);
      hinges.push({
        parent: to.panel,
        child: panelId,
        along,
        angle,
        ...(lift > 0 && { lift }),
        ...(soft && { soft }),
        ...(packed !== 0 && { packed }),
      });
      return face;
    },
    ring(a, b, angle) {
      const along = hingeOf(a.along, b.along, [0, 0], `${id}: ${a.panel}–${b.panel}`);
      ringHinges.push({ parent: a.panel, child: b.panel, along, angle });
    },
    glue: (a, b, gap) =>
      joins.push({ kind: 'glue', a: { panel: a.id }, b: { panel: b.id }, ...withGap(gap) }),
    tuck: (a, b, gap) =>
      joins.push({ kind: 'tuck', a: { panel: a.id }, b: { panel: b.id }, ...withGap(gap) }),
    hook: (a, b, gap) => joins.push({ kind: 'tuck', a, b: { panel: b.id }, ...withGap(gap) }),
    seat: (a, other, panel, gap) =>
      seats.push({ panel: a.id, onto: { net: other, panel }, ...withGap(gap) }),
    tie: panels => tied.push(...panels),
    rest: a => rests.push({ panel: a.id }),
    meet: (a, b, gap) => joins.push({ kind: 'edge', a, b, ...withGap(gap) }),
    lock: (a, b, gap) => joins.push({ kind: 'lock', a, b, ...withGap(gap) }),
    dot: (a, b, own, diameter) => closures.push({ a: a.id, b: b.id, at: a.at(own), diameter }),
    done(up, stands) {
      const root = panels[0];
      if (!root) throw new Error(`${id}: a net without panels`);
      const rings = ringHinges.length > 0 ? { ringHinges } : {};
      const facts = { id, title, thickness, root: root.id, panels, hinges, joins, closures };
      return {
        ...facts,
        ...rings,
        ...(tied.length > 0 && { tied }),
        ...(up && { up }),
        ...(stands && { stands }),
        ...(seats.length > 0 && { seats }),
        ...(rests.length > 0 && { rests }),
      };
    },
  };
}

/** The frame in which the child's foot lies back to front on the parent's side, its left end
 *  `left` mm from the side's end. */
function standOn(side: Path, foot: Path, left: number): Affine {
  const chord = sub(side.start, endOf(side));
  const turn = angleOf(chord) - angleOf(sub(endOf(foot), foot.start));
  const whole = Math.hypot(chord[0], chord[1]);
  const at = lerp(endOf(side), side.start, left / whole);
  const start = apply(rotation(turn), foot.start);
  return compose(translation(at[0] - start[0], at[1] - start[1]), rotation(turn));
}

/** The part of the side that the foot covers, less what is slit. Curved sides are covered whole. */
function hingeOf(side: Path, foot: Path, slit: readonly [number, number], name: string): Path {
  const straight = [...steps(side)].length === 1 && side.segments[0]!.kind === 'line';
  if (!straight) return reverse(foot);
  const end = endOf(side);
  const whole = distance(side.start, end);
  const run = (p: Point) => dot(sub(p, side.start), sub(end, side.start)) / whole;
  const [left, right] = slit;
  const from = Math.max(0, run(endOf(foot)) + right);
  const to = Math.min(whole, run(foot.start) - left);
  if (!(to > from)) throw new RangeError(`${name} has no hinge left`);
  return openPath(lerp(side.start, end, from / whole), [line(lerp(side.start, end, to / whole))]);
}

/** A part of an edge, by lengths along it, mm. */
export const part = (edge: EdgeRef, from: number, to: number): EdgeRef => ({
  panel: edge.panel,
  along: partOf(edge.along, from, to),
});
