/** A net that is too large for the sheet, cut in two along a fold and joined again with a glue flap. */
import {
  bounds,
  circle,
  contains,
  distance,
  distanceToPath,
  dot,
  endOf,
  line,
  openPath,
  perp,
  polygon,
  reverse,
  scale,
  signedArea,
  steps,
  sub,
  subtractRegions,
  unit,
} from '../geom/index.js';
import { add } from '../geom/vec.js';
import type { Closure, Hinge, Net, Panel, Path, Point } from '../model.js';
import { ON_PATH_MM } from '../units/tolerances.js';
import { closureMate } from './outline.js';
import { isStraight, pose } from './pose.js';
import { trimmedHinges, trimmedJoins } from './trim-joins.js';

/** Shorter folds hold no glued joint, mm. */
const LEAST_SEAM = 20;
/** Panels that lie flatter or sharper on each other (sine) have no room for a flap between them. */
const LEAST_SINE = 0.5;
/** The smaller part is at least this much of the net: a joint for a flap alone saves no sheet. */
const LEAST_SHARE = 0.08;
/** The flap: as deep as makers make them, less on a small panel (common practice, no source), mm. */
const DEPTH = 12;
const LEAST_DEPTH = 5;
/** Its ends stay clear of the seam's, and lean in by this. */
const INSET = 1;
const MITRE = Math.PI / 6;

/** One net as two, and how they belong together. */
export interface Split {
  readonly parts: readonly [Net, Net];
  readonly hinge: Hinge;
  /** The added flap, the panel it hangs on and the one it is glued to. */
  readonly flap: string;
  readonly on: string;
  readonly onto: string;
  /** Both parts glued together, for the laws of the closed box. Its fold at the seam is for posing
   *  only: the trimmed panel ends short of it. */
  readonly joined: Net;
}

/** Every way to cut a net in two at a straight fold, the best first: even parts, long seams, no lid
 *  parted from its box. */
export function splitsOf(net: Net): Split[] {
  const area = new Map(net.panels.map(p => [p.id, signedArea(p.outline)]));
  const sum = (ids: Iterable<string>) => [...ids].reduce((s, id) => s + area.get(id)!, 0);
  const whole = sum(area.keys());
  const b = bounds(...net.panels.map(p => p.outline));
  const span = Math.max(b.maxX - b.minX, b.maxY - b.minY);
  const panels = new Map(net.panels.map(p => [p.id, p]));
  const ranked = net.hinges.flatMap(hinge => {
    const [parent, child] = [panels.get(hinge.parent)!, panels.get(hinge.child)!];
    const seam = distance(hinge.along.start, endOf(hinge.along));
    const flat = isStraight(hinge.along) && !hinge.lift && !hinge.soft;
    if (!flat || parent.bend || child.bend || seam < LEAST_SEAM) return [];
    if (!(Math.abs(Math.sin(hinge.angle)) >= LEAST_SINE)) return [];
    const share = sum(below(net, hinge.child)) / whole;
    const even = Math.min(share, 1 - share);
    if (!(even >= LEAST_SHARE)) return [];
    const lid = parent.role === 'lid' || child.role === 'lid' ? 0 : 0.2;
    return [{ hinge, worth: even + lid + (0.2 * seam) / span }];
  });
  ranked.sort((a, c) => c.worth - a.worth);
  return ranked.flatMap(({ hinge }) =>
    (['child', 'parent'] as const).flatMap(side => splitAt(net, hinge, side) ?? []),
  );
}

/** A panel and all that hangs on it. */
function below(net: Net, id: string): Set<string> {
  const found = new Set([id]);
  for (const one of found) {
    for (const h of net.hinges) if (h.parent === one) found.add(h.child);
  }
  return found;
}

/** The net cut at a fold, the new flap on the fold's child or on its parent. */
function splitAt(net: Net, hinge: Hinge, side: 'child' | 'parent'): Split | undefined {
  const far = below(net, hinge.child);
  if (net.ringHinges?.some(h => far.has(h.parent) !== far.has(h.child))) return undefined;
  const [on, onto] = side === 'child' ? [hinge.child, hinge.parent] : [hinge.parent, hinge.child];
  const old = net.panels.find(p => p.id === on)!;
  const target = net.panels.find(p => p.id === onto)!;
  // Counter-clockwise on the panel that the flap hangs on.
  const seam = side === 'child' ? reverse(hinge.along) : hinge.along;
  const trimmed = trim(old, seam, net.thickness / Math.abs(Math.sin(hinge.angle)));
  const made = trimmed && flapOn(trimmed, target, `${onto}-joint`);
  if (!trimmed || !made || net.panels.some(p => p.id === made.flap.id)) return undefined;
  const { flap, along } = made;
  const fold: Hinge = { parent: on, child: flap.id, along, angle: hinge.angle };
  const panels = net.panels.map(p => (p.id === on ? trimmed.panel : p));
  const joined: Net = {
    ...net,
    panels: [...panels, flap],
    hinges: [...trimmedHinges(net, trimmed.panel, hinge), fold],
    joins: [
      ...trimmedJoins(net, trimmed.panel),
      { kind: 'glue', a: { panel: flap.id }, b: { panel: onto } },
    ],
  };
  const parts = partsOf(joined, hinge, far, flap.id);
  return { parts, hinge, flap: flap.id, on, onto, joined };
}

interface Trimmed {
  readonly panel: Panel;
  /** The edge that is left at the seam, counter-clockwise. */
  readonly from: Point;
  readonly to: Point;
}

/** The panel less a strip along the seam: the flap under it lifts it by a thickness. */
function trim(panel: Panel, seam: Path, by: number): Trimmed | undefined {
  const [start, end] = [seam.start, endOf(seam)];
  if (by === 0) return { panel, from: start, to: end };
  const u = unit(sub(end, start));
  const n = perp(u);
  // Past a corner, so that nothing is left beside the strip; not where the edge runs on.
  const past = (at: Point, way: Point) =>
    distanceToPath(add(at, scale(way, by)), panel.outline) > ON_PATH_MM ? 2 * by : 0;
  const a = sub(start, scale(u, past(start, scale(u, -1))));
  const b = add(end, scale(u, past(end, u)));
  const deep = scale(n, by);
  const off = scale(n, -by);
  const strip = polygon([add(a, off), add(b, off), add(b, deep), add(a, deep)]);
  const left = subtractRegions(
    [{ outer: panel.outline, holes: [] }],
    [{ outer: strip, holes: [] }],
  );
  const outline = left[0]?.outer;
  if (!outline || left.length > 1) return undefined;
  const onLine = (p: Point) => Math.abs(dot(sub(p, start), n) - by) <= ON_PATH_MM;
  const edges = [...steps(outline)].filter(
    s => s.segment.kind === 'line' && onLine(s.from) && onLine(s.segment.to),
  );
  const [edge] = edges.sort(
    (p, q) => distance(q.from, q.segment.to) - distance(p.from, p.segment.to),
  );
  if (!edge) return undefined;
  const strokes = panel.strokes.filter(s => contains(outline, s.path.start) !== 'out');
  return { panel: { ...panel, outline, strokes }, from: edge.from, to: edge.segment.to };
}

/** A flap on the trimmed edge, as deep as the panel it goes on allows. */
function flapOn({ from, to }: Trimmed, target: Panel, id: string) {
  const u = unit(sub(to, from));
  const n = perp(u);
  const width = distance(from, to) - 2 * INSET;
  const rises = [...steps(target.outline)].map(s => -dot(sub(s.segment.to, from), n));
  const depth = Math.min(DEPTH, 0.45 * Math.max(...rises), width / 4);
  if (!(depth >= LEAST_DEPTH)) return undefined;
  const at = (x: number, y: number) => add(from, add(scale(u, x), scale(n, -y)));
  const lean = depth * Math.tan(MITRE);
  const outline = polygon([
    at(INSET + width, 0),
    at(INSET, 0),
    at(INSET + lean, depth),
    at(INSET + width - lean, depth),
  ]);
  const flap: Panel = { id, role: 'glue-flap', outline, holes: [], strokes: [] };
  return { flap, along: openPath(at(INSET, 0), [line(at(INSET + width, 0))]) };
}

/** The two nets, each with what is its own. Marks of closures from one to the other are drawn. */
function partsOf(joined: Net, seam: Hinge, far: ReadonlySet<string>, flap: string): [Net, Net] {
  const holder = joined.hinges.find(h => h.child === flap)!.parent;
  const isFar = (id: string) => far.has(id === flap ? holder : id);
  const crossing = joined.closures.filter(c => isFar(c.a) !== isFar(c.b));
  const part = (n: 1 | 2): Net => {
    const own = (id: string) => isFar(id) === (n === 2);
    const { ringHinges, seats, stands: _, up: __, rests: ___, ...rest } = joined;
    return {
      ...rest,
      id: `${joined.id}-${n}`,
      title: `${joined.title}, part ${n} of 2`,
      root: n === 1 ? joined.root : seam.child,
      panels: joined.panels.filter(p => own(p.id)).map(p => withMarks(p, crossing, joined)),
      hinges: joined.hinges.filter(h => own(h.parent) && own(h.child)),
      ...(seats && { seats: seats.filter(s => own(s.panel)) }),
      ...(ringHinges && { ringHinges: ringHinges.filter(h => own(h.parent)) }),
      joins: joined.joins.filter(j => own(j.a.panel) && own(j.b.panel)),
      closures: joined.closures.filter(c => own(c.a) && own(c.b)),
    };
  };
  return [part(1), part(2)];
}

function withMarks(panel: Panel, closures: readonly Closure[], joined: Net): Panel {
  const halves = closures.flatMap(c =>
    c.a === panel.id
      ? [{ at: c.at, diameter: c.diameter }]
      : c.b === panel.id
        ? [{ at: closureMate(c, pose(joined)), diameter: c.diameter }]
        : [],
  );
  if (halves.length === 0) return panel;
  const marks = halves.map(h => ({
    operation: 'draw' as const,
    path: circle(h.at, h.diameter / 2),
  }));
  return { ...panel, strokes: [...panel.strokes, ...marks] };
}
