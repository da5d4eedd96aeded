/**
 * A box's nets as JSON, so that anyone can fold them with a program of their own and check. The schema
 * is in `presets/schemas/net.schema.json` (JSON Schema 2020-12); in words:
 *
 * - Lengths are millimetres and angles radians. Everything flat is in the net's own frame: x to the
 *   right, y up, seen from the inside of the box; z points at the viewer, toward the inside.
 * - A path is a `start` and `segments` that run on from it: a `line` to `to`; an `arc` to `to` with its
 *   `bulge`, the tangent of a quarter of its sweep, positive counter-clockwise; a `cubic` (Bézier)
 *   with control points `c1`, `c2`. A closed path ends on its start.
 * - A panel's `outline` is counter-clockwise. `holes` are cut out; `strokes` are lines inside it; a score by
 *   which the empty box is pressed flat has the way of its `fold`, seen from the inside. With
 *   `bend` it curls when the box is closed: from the point `from` on, in the direction `across`, each
 *   stretch of `length` turns evenly by `turn`, positive toward the inside; the lines square to
 *   `across` stay straight.
 * - A hinge is a line that `parent` and `child` share. `along` runs counter-clockwise on the parent.
 *   The hinges are a tree over all panels; `root` has no parent. To close the box, each child and all
 *   that hangs on it is turned about its hinge by `angle` out of the parent's plane, positive toward
 *   the inside: with u the direction of `along`, the turn is right-handed about −u. The root stays.
 *   On a curled parent the plane is its tangent plane at the middle of `along`, and a curled child has
 *   its own there. `curved`: along this line the paper bends, and no rigid turn closes it. A hinge with `lift` is
 *   folded right over: the child is also moved away from the parent by `lift` along the parent's
 *   normal, toward the side to which it is folded. `soft` hinges are not creased.
 * - `ringHinges` are folds that follow from the others: both panels must share them at that angle.
 * - Joins must hold in the closed box: `glue`, panel a lies on panel b, parallel, `gap` away; `tuck`, a
 *   lies behind b, no further off than `gap`; `edge` and `lock`, the edges `along` on a and on b lie on
 *   each other point for point, in one direction or the other, `gap` apart.
 * - `seats`: panels that are glued onto a panel of another part, `gap` away.
 * - `glue`: the areas that take glue, each on a face of `panel`, with the panel it is glued to. `shown`:
 *   outlined by the pen on the sheet (`draw`), or in the guide only (`guide`).
 * - `rests`: panels that lie flat on the floor under the closed net, as low as any of its paper.
 * - `thickness` is the paper's; panels are its middle surface.
 * - `steps`: an order in which it can be folded. The hinges of a step, each by its child, are folded
 *   all at once; `joins` are those that meet at its end, by their place in the list.
 */
import type {
  AssemblyStep,
  Bend,
  GlueArea,
  Hinge,
  Join,
  Net,
  Panel,
  PanelRef,
  Path,
  Point,
  Segment,
} from '../model.js';
import { SAME_POINT_MM } from '../units/tolerances.js';
import { finite } from './number.js';

/** Marks the format and its version. */
export const NET_FORMAT = 'foldwright net 1';

export interface NetFile {
  readonly style: string;
  readonly nets: readonly NetInFile[];
}
export interface NetInFile {
  readonly net: Net;
  readonly steps: readonly AssemblyStep[];
  readonly glue: readonly GlueArea[];
}

const PER_MM = Math.round(1 / SAME_POINT_MM);

function length(v: number): number {
  if (!Number.isFinite(v)) throw new RangeError(`${v} mm cannot stand in a file`);
  return Math.round(v * PER_MM) / PER_MM + 0;
}
/** Angles and ratios: their digits count whatever the size. */
function ratio(v: number): number {
  if (!Number.isFinite(v)) throw new RangeError(`${v} cannot stand in a file`);
  return Number(v.toPrecision(15)) + 0;
}
const point = (p: Point): Point => [length(p[0]), length(p[1])];

function segment(s: Segment): Segment {
  if (s.kind === 'arc') return { kind: 'arc', to: point(s.to), bulge: ratio(s.bulge) };
  if (s.kind === 'cubic')
    return { kind: 'cubic', c1: point(s.c1), c2: point(s.c2), to: point(s.to) };
  return { kind: 'line', to: point(s.to) };
}
function path(p: Path): Path {
  const { start, segments, closed } = finite(p);
  return { closed, start: point(start), segments: segments.map(segment) };
}

const bend = ({ from, across, stretches }: Bend): Bend => ({
  from: point(from),
  across: [ratio(across[0]), ratio(across[1])],
  stretches: stretches.map(s => ({ length: length(s.length), turn: ratio(s.turn) })),
});

const panel = (p: Panel) => ({
  id: p.id,
  role: p.role,
  outline: path(p.outline),
  holes: p.holes.map(path),
  strokes: p.strokes.map(s => ({
    operation: s.operation,
    path: path(s.path),
    ...(s.fold && { fold: s.fold }),
  })),
  ...(p.bend && { bend: bend(p.bend) }),
});

/** A hinge is straight when it is one line; where a panel curls beside it, it bends too. */
const hinge = (h: Hinge, curled: ReadonlySet<string>) => ({
  parent: h.parent,
  child: h.child,
  along: path(h.along),
  angle: ratio(h.angle),
  curved:
    h.along.segments.length > 1 ||
    h.along.segments[0]!.kind !== 'line' ||
    curled.has(h.parent) !== curled.has(h.child),
  ...(h.lift !== undefined && { lift: length(h.lift) }),
  ...(h.soft === true && { soft: true }),
});

function join(j: Join, thickness: number) {
  const ref = (r: PanelRef & { readonly along?: Path }) => ({
    panel: r.panel,
    ...(r.along && { along: path(r.along) }),
  });
  const due = j.kind === 'glue' || j.kind === 'tuck' ? thickness : 0;
  return { kind: j.kind, a: ref(j.a), b: ref(j.b), gap: length(j.gap ?? due) };
}

function net({ net: n, steps, glue }: NetInFile) {
  const curled = new Set(n.panels.filter(p => p.bend).map(p => p.id));
  return {
    id: n.id,
    title: n.title,
    thickness: length(n.thickness),
    root: n.root,
    up: (n.up ?? [0, 0, 1]).map(ratio),
    panels: n.panels.map(panel),
    hinges: n.hinges.map(h => hinge(h, curled)),
    ringHinges: (n.ringHinges ?? []).map(h => hinge(h, curled)),
    joins: n.joins.map(j => join(j, n.thickness)),
    seats: (n.seats ?? []).map(s => ({
      panel: s.panel,
      onto: { net: s.onto.net, panel: s.onto.panel },
      gap: length(s.gap ?? n.thickness),
    })),
    glue: glue.map(g => ({
      panel: g.panel,
      face: g.face,
      onto: g.onto,
      area: path(g.area),
      shown: g.drawn ? 'draw' : 'guide',
    })),
    rests: (n.rests ?? []).map(r => r.panel),
    closures: n.closures.map(c => ({
      a: c.a,
      b: c.b,
      at: point(c.at),
      diameter: length(c.diameter),
      means: c.means ?? 'hook-and-loop',
    })),
    steps: steps.map(s => ({
      step: s.step,
      hinges: s.hinges.map(h => h.child),
      joins: s.joins,
    })),
  };
}

/** Throws on NaN and infinities. */
export function writeNetJson({ style, nets }: NetFile): string {
  const file = {
    format: NET_FORMAT,
    style,
    units: { length: 'mm', angle: 'radian' },
    nets: nets.map(net),
  };
  return `${JSON.stringify(file, undefined, 1)}\n`;
}
