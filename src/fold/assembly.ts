/**
 * The order of folding: steps in which a net can be put together so that no panel passes through
 * another on the way. Found by trying what a person would, one role after the other.
 */
import type { AssemblyStep, Net, PanelRole, Spring } from '../model.js';
import type { Finding } from './finding.js';
import { mm } from './joins.js';
import { levelsOf } from './layers.js';
import { afterMove, type Move, onTheWay, type Progress, type Tree } from './motion.js';
import { type Folding, isStraight } from './pose.js';
import { type Strike, type Sweeper, sweeperOf } from './sweep.js';

export interface Assembly {
  /** All of them, or those found before it went no further. */
  readonly steps: readonly AssemblyStep[];
  /** Empty, or what stands in the way. */
  readonly findings: readonly Finding[];
  /** Ways that were tried. */
  readonly tried: number;
  /** The net on its way: 0 flat, 1 closed, each step as long as the others. */
  folding(fraction: number): Folding;
}

/** More ways than this are not tried: a net that needs them is none for a person. */
const MOST_TRIALS = 600;

/** Bending a flap aside by less than this takes no thought: no other way is looked for. */
const EASY_MM = 0.5;

/** What a person creases and folds first. */
const TURN: Readonly<Record<PanelRole, number>> = {
  'glue-flap': 0,
  gusset: 1,
  wall: 2,
  insert: 3,
  'dust-flap': 4,
  flap: 5,
  'tuck-flap': 6,
  base: 7,
  roof: 8,
  handle: 9,
  lid: 10,
};

/** How early a tuck flap is bent in while its lid closes: not at all, as the lid comes down, before. */
const LEADS = [0, 1, 3];

interface Done {
  readonly move: Move;
  readonly from: Progress;
  readonly springs: readonly Spring[];
}

/** Throws for a net that is no tree: `checkNet` tells first. */
export function proveFold(net: Net): Assembly {
  const sweeper = sweeperOf(net);
  const { tree } = sweeper;
  const search = new Search(sweeper);
  const all = search.from(new Map(), []);
  const done = all ?? search.furthest;
  const findings = all || !search.lastStrike ? [] : [inTheWay(search.lastStrike, search.left)];
  return {
    steps: stepsOf(tree, done),
    findings,
    tried: search.tried,
    folding: fraction => foldingOf(tree, done, search.left, fraction),
  };
}

class Search {
  tried = 0;
  furthest: readonly Done[] = [];
  lastStrike: Strike | undefined;
  private readonly dead = new Set<string>();
  private readonly all: readonly string[];
  private readonly tucks: ReadonlySet<string>;

  constructor(private readonly sweeper: Sweeper) {
    const { net, order, panels } = sweeper.tree;
    const curled = panels.get(net.root)!.bend ? [net.root] : [];
    this.all = [...curled, ...order.map(h => h.child)];
    this.tucks = new Set(net.joins.flatMap(j => (j.kind === 'tuck' ? [j.a.panel] : [])));
  }

  /** What the furthest way leaves unfolded. */
  get left(): readonly string[] {
    const folded = new Set(this.furthest.flatMap(d => d.move.panels));
    return this.all.filter(p => !folded.has(p));
  }

  /** Depth first; a state that leads nowhere is not tried again. */
  from(at: Progress, done: readonly Done[]): readonly Done[] | undefined {
    const flat = this.all.filter(p => !at.has(p));
    if (flat.length === 0) {
      this.furthest = done;
      return done;
    }
    const key = flat.join(' ');
    if (this.dead.has(key)) return undefined;
    if (at.size > progressOf(this.furthest)) this.furthest = done;
    for (const group of candidates(this.sweeper.tree, flat)) {
      const possible: Done[] = [];
      for (const panels of group) {
        const found = this.tryMove(at, panels);
        if (found && this.force(found) <= EASY_MM) {
          // Nothing better will be found in this role.
          const whole = this.from(afterMove(at, found.move), [...done, found]);
          if (whole) return whole;
        } else if (found) possible.push(found);
      }
      for (const found of possible.sort((p, q) => this.force(p) - this.force(q))) {
        const whole = this.from(afterMove(at, found.move), [...done, found]);
        if (whole) return whole;
      }
    }
    this.dead.add(key);
    return undefined;
  }

  /** How far flaps are bent aside in a step, mm; what snaps over a curved crease bends anyway. */
  private force({ springs }: Done): number {
    const { above } = this.sweeper.tree;
    return Math.max(0, ...springs.map(s => (isStraight(above.get(s.panel)!.along) ? s.by : 0)));
  }

  private tryMove(from: Progress, panels: readonly string[]): Done | undefined {
    const { tree } = this.sweeper;
    const bentIn = tree.order
      .filter(h => this.tucks.has(h.child) && from.has(h.child) && panels.includes(h.parent))
      .map(h => h.child);
    let least: Done | undefined;
    for (const lead of bentIn.length > 0 ? LEADS : [0]) {
      if (this.tried >= MOST_TRIALS) break;
      this.tried++;
      const move: Move = { panels, bentIn, lead };
      const { strike, springs } = this.sweeper.sweep(from, move);
      if (strike) {
        if (from.size === progressOf(this.furthest)) this.lastStrike = strike;
        continue;
      }
      const done = { move, from, springs };
      if (this.force(done) <= EASY_MM) return done;
      if (!least || this.force(done) < this.force(least)) least = done;
    }
    return least;
  }
}

const progressOf = (done: readonly Done[]) => done.reduce((n, d) => n + d.move.panels.length, 0);

/**
 * What can be folded next, role by role: what lies lowest, all, what hangs as deep, on one panel, one
 * alone; at last several roles at once. The root is a wall that curls.
 */
function candidates({ net, above, panels }: Tree, flat: readonly string[]): string[][][] {
  const depth = (id: string): number => {
    const h = above.get(id);
    return h ? 1 + depth(h.parent) : 0;
  };
  const turn = (id: string) => TURN[panels.get(id)!.role];
  const turns = [...new Set(flat.map(turn))].sort((a, b) => a - b);
  const groups = turns.map(t => {
    const same = flat.filter(id => turn(id) === t);
    const levels = levelsOf(net, same);
    const sorted = [...same].sort((p, q) => levels.get(p)! - levels.get(q)!);
    const kinds = [
      (id: string) => levels.get(id)!,
      () => 0,
      depth,
      (id: string) => above.get(id)?.parent ?? net.root,
      (id: string) => id,
    ];
    return kinds.flatMap(kind => grouped(sorted, kind));
  });
  for (let n = 2; n <= turns.length; n++) {
    for (let i = 0; i + n <= turns.length; i++) {
      const some = turns.slice(i, i + n);
      groups.push([flat.filter(id => some.includes(turn(id)))]);
    }
  }
  const seen = new Set<string>();
  return groups.map(g => g.filter(c => !seen.has(c.join(' ')) && seen.add(c.join(' '))));
}

function grouped(list: readonly string[], by: (id: string) => number | string): string[][] {
  const groups = new Map<number | string, string[]>();
  for (const id of list) groups.set(by(id), [...(groups.get(by(id)) ?? []), id]);
  return [...groups.values()];
}

function stepsOf(tree: Tree, done: readonly Done[]): AssemblyStep[] {
  const { net, order, above } = tree;
  const lines = net.joins.map(j => hingesBetween(tree, j.a.panel, j.b.panel));
  const folded = new Set<string>();
  const closed = new Set<number>();
  return done.map(({ move, springs }, i) => {
    for (const p of move.panels) folded.add(p);
    const joins = lines.flatMap((needs, k) =>
      !closed.has(k) && needs.every(n => folded.has(n)) ? [k] : [],
    );
    for (const k of joins) closed.add(k);
    const moving = new Set(move.panels);
    for (const h of order) if (moving.has(h.parent)) moving.add(h.child);
    return {
      step: i + 1,
      hinges: move.panels.flatMap(p => {
        const h = above.get(p);
        return h ? [{ parent: h.parent, child: h.child }] : [];
      }),
      panels: [...new Set([...move.panels, ...moving])],
      joins,
      springs,
    };
  });
}

/** The hinges on the way from one panel to the other, by their child; curls of the root too. */
function hingesBetween({ net, above, panels }: Tree, a: string, b: string): string[] {
  const up = (id: string): string[] => {
    const h = above.get(id);
    return h ? [id, ...up(h.parent)] : panels.get(net.root)!.bend ? [id] : [];
  };
  const [p, q] = [up(a), up(b)];
  return [...p.filter(id => !q.includes(id)), ...q.filter(id => !p.includes(id))];
}

function foldingOf(
  tree: Tree,
  done: readonly Done[],
  left: readonly string[],
  fraction: number,
): Folding {
  const last = done.at(-1);
  const rest: Done[] =
    left.length > 0
      ? [
          {
            move: { panels: left, bentIn: [], lead: 0 },
            from: last ? afterMove(last.from, last.move) : new Map(),
            springs: [],
          },
        ]
      : [];
  const all = [...done, ...rest];
  const at = Math.min(Math.max(fraction, 0), 1) * all.length;
  const i = Math.min(Math.floor(at), all.length - 1);
  const step = all[i];
  return step ? onTheWay(tree, step.from, step.move, at - i) : fraction;
}

function inTheWay(strike: Strike, left: readonly string[]): Finding {
  const { a, b, measured, allowed, where, kind } = strike;
  const how =
    kind === 'through'
      ? `${a} strikes ${b} by ${mm(measured)}`
      : `${a} lies in the thickness of ${b}`;
  return {
    law: 'way',
    panels: [a, b],
    where,
    measured,
    allowed,
    message: `no order of folding was found: with ${left.join(', ')} still flat, ${how}`,
  };
}
