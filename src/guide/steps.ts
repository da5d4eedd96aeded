/** The steps of putting a box together, from its order of folding, each with what is seen of it. */
import type { FoldedView, Seen } from '../guide-model.js';
import type { AssemblyStep, GlueArea, Join, Net } from '../model.js';
import type { FoldedNet, GuideAsk } from './ask.js';
import type { Fold, FoldDone, GuideStep, Meeting } from './facts.js';
import { closureRows, ribbonsOf } from './materials.js';
import { partOf } from './names.js';

/** A fold of more than this (radians) lays a panel flat on its neighbour. */
const OVER = 2.6;

export function stepsOf(ask: GuideAsk): GuideStep[] {
  const { folded, splices, cut, films, together } = ask;
  const several = folded.length > 1;
  const first: GuideStep[] =
    splices.length > 0 ? [{ kind: 'splice', joints: splices, parts: cut.length }] : [];
  const behind = films.map((f): GuideStep => ({ kind: 'film', ...f }));
  const parts = new Map(folded.map(f => [f.net.id, partOf(f.net)]));
  const named = (id: string) => parts.get(id)!;
  const gathered = together.map((t): GuideStep => {
    // What is put on is tinted: the part that is glued, or the last of those put together.
    const put = t.kind === 'join' ? t.nets.at(-1)! : t.net;
    const panels = folded.find(f => f.net.id === put)?.net.panels ?? [];
    const moving = panels.map(p => ({ net: put, panel: p.id }));
    const view = viewOf(ask, t.seen, { moving });
    return t.kind === 'join'
      ? { kind: 'join', parts: t.nets.map(named), view }
      : { kind: 'seat', part: named(t.net), onto: named(t.onto), panels: t.panels, view };
  });
  // A part is glued on as soon as both it and what it goes on are folded.
  const place = (id: string) => folded.findIndex(f => f.net.id === id);
  const ready = (t: GuideAsk['together'][number]) =>
    t.kind === 'join' ? folded.length : Math.max(place(t.net), place(t.onto));
  const folds = folded.flatMap((f, k) => [
    ...lateJoins(f).map((s, i) => foldStep(ask, f, s, i, several)),
    ...gathered.filter((_, i) => ready(together[i]!) === k),
  ]);
  const last = gathered.filter((_, i) => ready(together[i]!) === folded.length);
  const rows = closureRows(ask, 1);
  const dots: GuideStep[] = rows.length > 0 ? [{ kind: 'closures', closures: rows }] : [];
  return [...first, ...behind, ...folds, ...last, ...dots, ...ribbonStep(ask)];
}

/** What is done in each step of folding a net, in order. */
export const foldsDone = (folded: Omit<FoldedNet, 'views'>, several: boolean): FoldDone[] =>
  lateJoins(folded).map(step => foldDone(folded, step, several));

const ribbonStep = (ask: GuideAsk): GuideStep[] =>
  ribbonsOf(ask).map(panels => ({ kind: 'ribbon', panels }));

/** What is glued to a root that is yet to be curled is glued when it is. */
function lateJoins({ net, steps }: Omit<FoldedNet, 'views'>): AssemblyStep[] {
  const curl = steps.findIndex(s => s.hinges.length === 0);
  if (curl < 0) return [...steps];
  const atRoot = (k: number) => {
    const { a, b } = net.joins[k]!;
    return a.panel === net.root || b.panel === net.root;
  };
  const late = steps.slice(0, curl).flatMap(s => s.joins.filter(atRoot));
  return steps.map((s, i) => ({
    ...s,
    joins:
      i < curl ? s.joins.filter(k => !atRoot(k)) : i === curl ? [...late, ...s.joins] : s.joins,
  }));
}

export function viewOf(
  { item, design, folded }: GuideAsk,
  seen: Seen,
  more: Partial<FoldedView> = {},
): FoldedView {
  const colour = item.box ? design.stocks[item.box.stock]!.colour : '#ffffff';
  const paper = Object.fromEntries(folded.map(f => [f.net.id, colour]));
  return { ...seen, decals: [], paper, moving: [], glue: [], ...more };
}

function foldStep(
  ask: GuideAsk,
  { net, glue, views }: FoldedNet,
  step: AssemblyStep,
  i: number,
  several: boolean,
): GuideStep {
  const moving = [...curled(net, step), ...step.hinges.map(h => h.child)];
  const flaps = step.joins
    .map(k => net.joins[k]!)
    .filter(j => j.kind === 'glue')
    .flatMap(j => areaOf(glue, j.a.panel, j.b.panel));
  return {
    kind: 'fold',
    ...foldDone({ net, glue }, step, several),
    view: viewOf(ask, views[i] ?? { parts: [] }, {
      moving: moving.map(panel => ({ net: net.id, panel })),
      glue: flaps.map(g => ({ net: net.id, panel: g.panel, side: g.face, area: g.area })),
    }),
  };
}

/** A step in which nothing turns at a hinge curls the root. */
const curled = (net: Net, { hinges }: AssemblyStep) => (hinges.length === 0 ? [net.root] : []);

function foldDone(
  { net, glue }: Pick<FoldedNet, 'net' | 'glue'>,
  step: AssemblyStep,
  several: boolean,
): FoldDone {
  const closed = step.joins.map(k => net.joins[k]!);
  const of = (kind: Join['kind']) => closed.filter(j => j.kind === kind);
  return {
    ...(several && { part: partOf(net) }),
    folds: [
      ...curled(net, step).map((panel): Fold => ({ panel, how: 'curl' })),
      ...step.hinges.flatMap(h => foldOf(net, h.child)),
    ],
    glue: of('glue').map(j => meeting(j, glue)),
    tuck: of('tuck').map(j => meeting(j, [])),
    lock: of('lock').map(j => meeting(j, [])),
  };
}

const areaOf = (glue: readonly GlueArea[], panel: string, onto: string): GlueArea[] =>
  glue.filter(g => g.panel === panel && g.onto === onto);

function meeting({ a, b }: Join, glue: readonly GlueArea[]): Meeting {
  const [onto] = areaOf(glue, b.panel, a.panel);
  return {
    panel: a.panel,
    onto: b.panel,
    ...(onto && { face: onto.face }),
    ...('along' in a && { edge: true }),
  };
}

/** A hinge that does not move on the way (a flap that lies flat) is no fold to a person. */
function foldOf(net: Net, panel: string): Fold[] {
  const { angle, along, soft } = net.hinges.find(h => h.child === panel)!;
  const curls = net.panels.find(p => p.id === panel)!.bend !== undefined;
  if (angle === 0) return [];
  if (soft || (curls && along.segments.length === 1 && along.segments[0]!.kind === 'line')) {
    return [{ panel, how: soft ? 'curl' : angle > 0 ? 'up' : 'back' }];
  }
  return [{ panel, how: Math.abs(angle) > OVER ? 'over' : angle > 0 ? 'up' : 'back' }];
}
