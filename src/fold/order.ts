/** The search for an order of folding. */
import type { FoldManner, Spring } from '../model.js';
import { afterMove, type Move, type Progress } from './motion.js';
import { isStraight } from './pose.js';
import type { Strike, Sweeper } from './sweep.js';
import { type Turns, turnsOf } from './turns.js';

/** A move that was found to be free, and what was folded before it. */
export interface Done {
  readonly move: Move;
  readonly from: Progress;
  readonly springs: readonly Spring[];
}

export interface Found {
  /** The whole way, or the furthest. */
  readonly done: readonly Done[];
  /** What it leaves flat. */
  readonly left: readonly string[];
  /** What stood in the way of the rest. */
  readonly strike?: Strike;
  /** Moves that were tried. */
  readonly tried: number;
}

/** More moves than this are not tried: a net that needs them is none for a person. */
const MOST_TRIALS = 600;
/** After so many moves in vain, what was left over is folded sooner, and all is begun anew. */
const TRIALS_A_RUN = 60;
/** So often it is begun anew without coming further. */
const MOST_VAIN = 3;
/** Bending a flap aside by less than this takes no thought: no other move is looked for. */
const EASY_MM = 1;

const MANNERS: readonly FoldManner[] = ['square', 'sliding', 'upright'];

export function findOrder(sweeper: Sweeper): Found {
  const { net, order, panels } = sweeper.tree;
  const turns = turnsOf(sweeper.tree);
  const all = [...(panels.get(net.root)!.bend ? [net.root] : []), ...order.map(h => h.child)];
  let best: Found = { done: [], left: all, tried: 0 };
  let tried = 0;
  let vain = 0;
  while (tried < MOST_TRIALS && vain < MOST_VAIN) {
    const run = new Run(sweeper, turns, all, Math.min(TRIALS_A_RUN, MOST_TRIALS - tried));
    const found = run.search();
    tried += found.tried;
    const further = found.left.length < best.left.length || tried === found.tried;
    if (further) best = found;
    vain = further ? 0 : vain + 1;
    if (found.left.length === 0 || found.left.length === all.length) break;
    turns.sooner(found.left);
  }
  return { ...best, tried };
}

/** Depth first from the flat net, with a bound. */
class Run {
  private tried = 0;
  private furthest: readonly Done[] = [];
  private strike: Strike | undefined;
  private readonly dead = new Set<string>();
  private readonly tucks: ReadonlySet<string>;

  constructor(
    private readonly sweeper: Sweeper,
    private readonly turns: Turns,
    private readonly all: readonly string[],
    private readonly most: number,
  ) {
    const { joins } = sweeper.tree.net;
    this.tucks = new Set(joins.flatMap(j => (j.kind === 'tuck' ? [j.a.panel] : [])));
  }

  search(): Found {
    const done = this.from(new Map(), []) ?? this.furthest;
    const folded = new Set(done.flatMap(d => d.move.panels));
    const left = this.all.filter(p => !folded.has(p));
    const strike = left.length > 0 && this.strike ? { strike: this.strike } : {};
    return { done, left, tried: this.tried, ...strike };
  }

  private from(at: Progress, done: readonly Done[]): readonly Done[] | undefined {
    const flat = this.all.filter(p => !at.has(p));
    if (flat.length === 0) return done;
    const key = flat.join(' ');
    if (this.dead.has(key)) return undefined;
    if (at.size > this.reached) this.furthest = done;
    for (const group of this.turns.next(flat)) {
      const possible: Done[] = [];
      for (const panels of group) {
        const found = this.tryMove(at, panels);
        // What takes no force is not bettered by anything else of this role.
        if (found && this.force(found) <= EASY_MM) {
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

  private get reached(): number {
    return this.furthest.reduce((n, d) => n + d.move.panels.length, 0);
  }

  /** How far flaps are bent aside, mm; what snaps over a curved crease bends anyway. */
  private force({ springs }: Done): number {
    const { above } = this.sweeper.tree;
    return Math.max(0, ...springs.map(s => (isStraight(above.get(s.panel)!.along) ? s.by : 0)));
  }

  /** Rings are kept whole where more than one of their hinges moves. */
  private mannersOf(panels: readonly string[], bentIn: readonly string[]): readonly FoldManner[] {
    const { ring } = this.sweeper.tree;
    if (panels.filter(p => ring.has(p)).length > 1) return ['square', 'ring'];
    return bentIn.length > 0 ? MANNERS : MANNERS.slice(0, 1);
  }

  private tryMove(from: Progress, panels: readonly string[]): Done | undefined {
    const { order, above } = this.sweeper.tree;
    const onLid = (lid: string) => above.has(lid) && panels.includes(lid);
    const bentIn = order
      .filter(h => this.tucks.has(h.child) && from.has(h.child) && onLid(h.parent))
      .map(h => h.child);
    let least: Done | undefined;
    for (const manner of this.mannersOf(panels, bentIn)) {
      if (this.tried >= this.most) break;
      this.tried++;
      const move: Move = { panels, bentIn, manner };
      const { strike, springs } = this.sweeper.sweep(from, move);
      if (strike) {
        if (from.size === this.reached) this.strike = strike;
        continue;
      }
      const done = { move, from, springs };
      if (this.force(done) <= EASY_MM) return done;
      if (!least || this.force(done) < this.force(least)) least = done;
    }
    return least;
  }
}
