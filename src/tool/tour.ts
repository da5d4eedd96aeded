/**
 * The shortest way round a set of stops that a tool must visit, each entered at one of several
 * places, some only after others. Nearest neighbour first, then 2-opt and Or-opt over near
 * neighbours, then small kicks, each kept if it helps (iterated local search); entry places are
 * chosen by dynamic programming between rounds. Everything is bounded and repeatable.
 */
import Flatbush from 'flatbush';
import type { Point } from '../geom/index.js';

/** Where a stop can be entered and where the tool is when it leaves it. */
export interface Entry {
  readonly start: Point;
  readonly end: Point;
}
export interface Stop {
  /** At least one. Entries 0 and 1 of an open path are its two directions. */
  readonly entries: readonly Entry[];
  /** Index of a stop that must come later: the contour that holds this one. */
  readonly before?: number | undefined;
}
export interface TourOptions {
  /** Where the tool waits at first. */
  readonly from: Point;
  /** Where it must end; left out, it may end anywhere. */
  readonly to?: Point;
  /** Most kicks of the search; 0 stops after 2-opt and Or-opt. */
  readonly kicks?: number | undefined;
}
export interface Visit {
  readonly stop: number;
  readonly entry: number;
}

/** Travel of a sequence of visits, mm, work along the stops not counted. */
export function travelOf(
  stops: readonly Stop[],
  visits: readonly Visit[],
  { from, to }: Pick<TourOptions, 'from' | 'to'>,
): number {
  let total = 0;
  let at = from;
  for (const { stop, entry } of visits) {
    const e = stops[stop]!.entries[entry]!;
    total += gap(at, e.start);
    at = e.end;
  }
  return to ? total + gap(at, to) : total;
}

const gap = (a: Point, b: Point) => far(a[0] - b[0], a[1] - b[1]);
/** `Math.hypot` guards against overflow at ten times the price. */
const far = (x: number, y: number) => Math.sqrt(x * x + y * y);

/** Kicks in all, whatever the number of stops: a third of a second for 400 stops. */
const MAX_KICKS = 3_000;
const KICKS_PER_STOP = 6;
const ROUNDS = 3;

export function shortTour(stops: readonly Stop[], options: TourOptions): Visit[] {
  if (stops.length === 0) return [];
  const search = new Search(stops, options);
  search.nearestFirst();
  const kicks = options.kicks ?? Math.min(MAX_KICKS, stops.length * KICKS_PER_STOP);
  for (let round = 0; round < ROUNDS; round++) {
    search.improve();
    search.chooseEntries();
    search.kick(Math.ceil(kicks / ROUNDS));
    search.chooseEntries();
  }
  search.improve();
  search.chooseEntries();
  return search.visits();
}

const NEAR = 10;

class Search {
  private readonly n: number;
  private order: Int32Array;
  /** Place of each stop in the order. */
  private readonly place: Int32Array;
  private readonly entry: Int32Array;
  private readonly inner: number[][];
  // Start and end of each stop at its present entry.
  private readonly sx: Float64Array;
  private readonly sy: Float64Array;
  private readonly ex: Float64Array;
  private readonly ey: Float64Array;
  private near: Int32Array[] = [];
  private queue: number[] = [];
  private readonly queued: Uint8Array;
  private seed = 1;
  private readonly fromX: number;
  private readonly fromY: number;

  constructor(
    private readonly stops: readonly Stop[],
    private readonly options: TourOptions,
  ) {
    const n = stops.length;
    this.n = n;
    [this.fromX, this.fromY] = options.from;
    this.order = new Int32Array(n);
    this.place = new Int32Array(n);
    this.entry = new Int32Array(n);
    this.sx = new Float64Array(n);
    this.sy = new Float64Array(n);
    this.ex = new Float64Array(n);
    this.ey = new Float64Array(n);
    this.queued = new Uint8Array(n);
    this.inner = stops.map(() => []);
    stops.forEach((s, i) => {
      if (s.before !== undefined) this.inner[s.before]!.push(i);
    });
  }

  visits(): Visit[] {
    return [...this.order].map(stop => ({ stop, entry: this.entry[stop]! }));
  }

  private enter(stop: number, entry: number): void {
    const e = this.stops[stop]!.entries[entry]!;
    this.entry[stop] = entry;
    this.sx[stop] = e.start[0];
    this.sy[stop] = e.start[1];
    this.ex[stop] = e.end[0];
    this.ey[stop] = e.end[1];
  }

  nearestFirst(): void {
    const waiting = this.inner.map(list => list.length);
    const free = new Set<number>();
    waiting.forEach((w, i) => {
      if (w === 0) free.add(i);
    });
    let [x, y] = this.options.from;
    for (let k = 0; k < this.n; k++) {
      let best = -1;
      let bestEntry = 0;
      let least = Number.POSITIVE_INFINITY;
      for (const i of free) {
        const { entries } = this.stops[i]!;
        for (let e = 0; e < entries.length; e++) {
          const p = entries[e]!.start;
          const d = (p[0] - x) ** 2 + (p[1] - y) ** 2;
          if (d < least) {
            least = d;
            best = i;
            bestEntry = e;
          }
        }
      }
      if (best < 0) throw new Error('stops wait for each other in a ring');
      free.delete(best);
      this.order[k] = best;
      this.place[best] = k;
      this.enter(best, bestEntry);
      x = this.ex[best]!;
      y = this.ey[best]!;
      const outer = this.stops[best]!.before;
      if (outer !== undefined && --waiting[outer]! === 0) free.add(outer);
    }
  }

  /** The cheapest entries for the present order: dynamic programming from first to last. */
  chooseEntries(): void {
    const { stops, order, n, options } = this;
    let cost = [0];
    let ends: Point[] = [options.from];
    const choice: Int32Array[] = [];
    for (let k = 0; k < n; k++) {
      const { entries } = stops[order[k]!]!;
      const back = new Int32Array(entries.length);
      const next = entries.map((e, i) => {
        let least = Number.POSITIVE_INFINITY;
        for (let j = 0; j < ends.length; j++) {
          const c = cost[j]! + gap(ends[j]!, e.start);
          if (c < least) {
            least = c;
            back[i] = j;
          }
        }
        return least;
      });
      choice.push(back);
      cost = next;
      ends = entries.map(e => e.end);
    }
    const { to } = options;
    let at = 0;
    cost.forEach((c, i) => {
      const all = (j: number) => cost[j]! + (to ? gap(ends[j]!, to) : 0);
      if (c < Number.POSITIVE_INFINITY && all(i) < all(at)) at = i;
    });
    for (let k = n - 1; k >= 0; k--) {
      this.enter(order[k]!, at);
      at = choice[k]![at]!;
    }
  }

  /** From the end of the stop at place i to the start of the one at place j; the places before the
   *  first and after the last are where the tool waits and where it must end. */
  private link(i: number, j: number): number {
    if (j >= this.n)
      return this.toEnd(
        i < 0 ? this.fromX : this.ex[this.order[i]!]!,
        i < 0 ? this.fromY : this.ey[this.order[i]!]!,
      );
    const b = this.order[j]!;
    return this.toPoint(i, this.sx[b]!, this.sy[b]!);
  }

  /** Whether a stop can be left at its start: one place, or the other direction of an open path. */
  private turnable(stop: number): boolean {
    const { entries } = this.stops[stop]!;
    const e = entries[this.entry[stop]!]!;
    return e.start === e.end || entries.length === 2;
  }

  /** Runs 2-opt and Or-opt until nothing in the queue helps. */
  improve(): void {
    this.findNear();
    for (let k = 0; k < this.n; k++) this.wake(this.order[k]!);
    this.settle();
  }

  private findNear(): void {
    const { n, stops } = this;
    if (this.near.length > 0 && n <= NEAR + 1) return;
    const index = new Flatbush(2 * n);
    for (let i = 0; i < n; i++) index.add(this.sx[i]!, this.sy[i]!);
    for (let i = 0; i < n; i++) index.add(this.ex[i]!, this.ey[i]!);
    index.finish();
    this.near = stops.map((_, i) => {
      const found = new Set<number>();
      for (const [x, y] of [
        [this.sx[i]!, this.sy[i]!],
        [this.ex[i]!, this.ey[i]!],
      ] as const) {
        for (const j of index.neighbors(x, y, NEAR + 2)) found.add(j % n);
      }
      found.delete(i);
      return Int32Array.from(found);
    });
  }

  private wake(stop: number): void {
    if (this.queued[stop]) return;
    this.queued[stop] = 1;
    this.queue.push(stop);
  }

  private settle(): number {
    let saved = 0;
    // Each move shortens the travel by a real amount, so this ends; the bound is for certainty.
    for (let guard = 0; this.queue.length > 0 && guard < 1_000_000; guard++) {
      const stop = this.queue.shift()!;
      this.queued[stop] = 0;
      const gain = this.betterNear(stop);
      if (gain > 0) {
        saved += gain;
        this.wake(stop);
      }
    }
    return saved;
  }

  private betterNear(stop: number): number {
    for (const other of this.near[stop]!) {
      const i = this.place[stop]!;
      const j = this.place[other]!;
      const lo = Math.min(i, j);
      const hi = Math.max(i, j);
      // Make the two neighbours: turn what lies between, from either side …
      const gain =
        this.tryTurn(lo + 1, hi) ||
        this.tryTurn(lo, hi - 1) ||
        // … or carry one of them, with up to two more, to the other.
        this.tryCarry(i, j) ||
        this.tryCarry(j, i);
      if (gain > 0) return gain;
    }
    return 0;
  }

  /** 2-opt: turns the stretch from place i to place j around. */
  private tryTurn(i: number, j: number): number {
    if (i >= j) return 0;
    const { order } = this;
    const before = this.link(i - 1, i) + this.link(j, j + 1);
    const first = order[i]!;
    const last = order[j]!;
    // After turning, the last is entered at its end and the first left at its start.
    const after =
      this.toPoint(i - 1, this.ex[last]!, this.ey[last]!) +
      this.fromPoint(this.sx[first]!, this.sy[first]!, j + 1);
    const gain = before - after;
    if (!(gain > LEAST_GAIN) || !this.mayTurn(i, j)) return 0;
    this.turn(i, j);
    this.wakeAround(i, j);
    return gain;
  }

  private toPoint(i: number, x: number, y: number): number {
    if (i < 0) return far(this.fromX - x, this.fromY - y);
    const a = this.order[i]!;
    return far(this.ex[a]! - x, this.ey[a]! - y);
  }
  private fromPoint(x: number, y: number, j: number): number {
    if (j >= this.n) return this.toEnd(x, y);
    const b = this.order[j]!;
    return far(this.sx[b]! - x, this.sy[b]! - y);
  }
  private toEnd(x: number, y: number): number {
    const { to } = this.options;
    return to ? far(to[0] - x, to[1] - y) : 0;
  }

  private mayTurn(i: number, j: number): boolean {
    for (let k = i; k <= j; k++) {
      const stop = this.order[k]!;
      const outer = this.stops[stop]!.before;
      if (outer !== undefined && this.place[outer]! <= j) return false;
      if (!this.turnable(stop)) return false;
    }
    return true;
  }

  private turn(i: number, j: number): void {
    const { order, place } = this;
    for (let a = i, b = j; a <= b; a++, b--) {
      const p = order[a]!;
      const q = order[b]!;
      order[a] = q;
      order[b] = p;
      place[q] = a;
      place[p] = b;
      this.flip(p);
      if (p !== q) this.flip(q);
    }
  }

  private flip(stop: number): void {
    const { entries } = this.stops[stop]!;
    const e = entries[this.entry[stop]!]!;
    if (e.start !== e.end) this.enter(stop, 1 - this.entry[stop]!);
  }

  /** Or-opt: carries the stop at place i, with up to two beside it, to either side of place j. */
  private tryCarry(i: number, j: number): number {
    for (let size = 1; size <= 3; size++) {
      for (const a of size === 1 ? [i] : [i, i - size + 1]) {
        const b = a + size - 1;
        if (a < 0 || b >= this.n || (j >= a && j <= b)) continue;
        const loosened = this.link(a - 1, a) + this.link(b, b + 1) - this.link(a - 1, b + 1);
        if (!(loosened > LEAST_GAIN)) continue;
        for (const left of [j - 1, j]) {
          // Between places `left` and `left + 1`, outside the block and not where it is now.
          if (left >= a - 1 && left <= b) continue;
          const open = this.link(left, left + 1);
          const first = this.order[a]!;
          const last = this.order[b]!;
          const straight =
            this.toPoint(left, this.sx[first]!, this.sy[first]!) +
            this.fromPoint(this.ex[last]!, this.ey[last]!, left + 1);
          const turned =
            this.toPoint(left, this.ex[last]!, this.ey[last]!) +
            this.fromPoint(this.sx[first]!, this.sy[first]!, left + 1);
          const asIs = loosened + open - straight;
          const around = loosened + open - turned;
          if (asIs > LEAST_GAIN && asIs >= around && this.mayCarry(a, b, left)) {
            this.carry(a, b, left, false);
            return asIs;
          }
          if (around > LEAST_GAIN && this.mayTurn(a, b) && this.mayCarry(a, b, left)) {
            this.carry(a, b, left, true);
            return around;
          }
        }
      }
    }
    return 0;
  }

  private mayCarry(a: number, b: number, left: number): boolean {
    for (let k = a; k <= b; k++) {
      const stop = this.order[k]!;
      if (left > b) {
        const outer = this.stops[stop]!.before;
        const p = outer === undefined ? -1 : this.place[outer]!;
        if (p > b && p <= left) return false;
      } else {
        for (const inner of this.inner[stop]!) {
          const p = this.place[inner]!;
          if (p > left && p < a) return false;
        }
      }
    }
    return true;
  }

  private carry(a: number, b: number, left: number, around: boolean): void {
    if (around) this.turn(a, b);
    const block = this.order.slice(a, b + 1);
    const size = b - a + 1;
    if (left > b) this.order.copyWithin(a, b + 1, left + 1);
    else this.order.copyWithin(left + 1 + size, left + 1, a);
    this.order.set(block, left > b ? left - size + 1 : left + 1);
    const from = Math.min(a, left + 1);
    const until = Math.max(b, left);
    for (let k = from; k <= until; k++) this.place[this.order[k]!] = k;
    const at = left > b ? left - size + 1 : left + 1;
    this.wakeAround(at, at + size - 1);
    const gapAt = left > b ? a : b + 1;
    this.wakeAround(gapAt, gapAt - 1);
  }

  private wakeAround(i: number, j: number): void {
    for (const k of [i - 1, i, j, j + 1]) if (k >= 0 && k < this.n) this.wake(this.order[k]!);
  }

  /** Swaps two short neighbouring stretches somewhere, settles, and goes back if it is no better. */
  kick(times: number): void {
    const { n } = this;
    if (n < 8) return;
    for (let t = 0; t < times; t++) {
      const order = this.order.slice();
      const entry = this.entry.slice();
      const longest = Math.min(50, Math.floor(n / 3));
      const a = Math.floor(this.random() * (n - 2));
      const b = a + 1 + Math.floor(this.random() * Math.min(longest, n - a - 2));
      const c = b + 1 + Math.floor(this.random() * Math.min(longest, n - b - 1));
      if (!this.maySwap(a, b, c)) continue;
      const before = this.link(a - 1, a) + this.link(b - 1, b) + this.link(c - 1, c);
      const block = this.order.slice(a, b);
      this.order.copyWithin(a, b, c);
      this.order.set(block, c - (b - a));
      for (let k = a; k < c; k++) this.place[this.order[k]!] = k;
      const middle = a + c - b;
      const after = this.link(a - 1, a) + this.link(middle - 1, middle) + this.link(c - 1, c);
      for (const k of [a - 1, a, middle - 1, middle, c - 1, c]) {
        if (k >= 0 && k < n) this.wake(this.order[k]!);
      }
      if (this.settle() - (after - before) > LEAST_GAIN) continue;
      this.order = order;
      for (let k = 0; k < n; k++) {
        this.place[order[k]!] = k;
        if (this.entry[k] !== entry[k]) this.enter(k, entry[k]!);
      }
    }
  }

  /** Stretches [a, b) and [b, c) may change places: nothing in the first is held by the second. */
  private maySwap(a: number, b: number, c: number): boolean {
    for (let k = a; k < b; k++) {
      const outer = this.stops[this.order[k]!]!.before;
      const p = outer === undefined ? -1 : this.place[outer]!;
      if (p >= b && p < c) return false;
    }
    return true;
  }

  /** A repeatable number in [0, 1): a 32-bit linear congruence (Numerical Recipes' constants). */
  private random(): number {
    this.seed = (Math.imul(this.seed, 1664525) + 1013904223) >>> 0;
    return this.seed / 2 ** 32;
  }
}

/** Savings below a micrometre are rounding. */
const LEAST_GAIN = 1e-6;
