/** The search itself: 2-opt and Or-opt over near neighbours, and kicks. */
import Flatbush from 'flatbush';
import { type Stop, type TourOptions, TourState } from './tour-state.js';

/** Neighbours tried for each stop. */
const NEAR = 10;
/** Savings below a micrometre are rounding. */
const LEAST_GAIN = 1e-6;

export class TourSearch extends TourState {
  private near: Int32Array[] = [];
  private queue: number[] = [];
  private readonly queued: Uint8Array;
  private seed: number;

  constructor(stops: readonly Stop[], options: TourOptions) {
    super(stops, options);
    this.queued = new Uint8Array(stops.length);
    this.seed = options.seed ?? 1;
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
    const better = this.tryEntry(this.place[stop]!);
    if (better > 0) return better;
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

  /** Enters the stop at place i where that is cheapest between its neighbours. */
  private tryEntry(i: number): number {
    const stop = this.order[i]!;
    const now = this.link(i - 1, i) + this.link(i, i + 1);
    const found = this.entryBetween(stop, i - 1, i + 1, now - LEAST_GAIN);
    if (!found) return 0;
    this.enter(stop, found.entry);
    this.wakeAround(i, i);
    return now - found.cost;
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
          if (size === 1) {
            // One alone is entered anew, where that is cheapest in its new place.
            const stop = this.order[a]!;
            const most = loosened + open - LEAST_GAIN;
            const found = this.entryBetween(stop, left, left + 1, most);
            if (!found || !this.mayCarry(a, b, left)) continue;
            this.enter(stop, found.entry);
            this.carry(a, b, left, false);
            this.wakeMoved(a, b, left);
            return loosened + open - found.cost;
          }
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
            this.wakeMoved(a, b, left);
            return asIs;
          }
          if (around > LEAST_GAIN && this.mayTurn(a, b) && this.mayCarry(a, b, left)) {
            this.carry(a, b, left, true);
            this.wakeMoved(a, b, left);
            return around;
          }
        }
      }
    }
    return 0;
  }

  /** The block that was at places a to b, where it is now, and the gap it left. */
  private wakeMoved(a: number, b: number, left: number): void {
    const at = left > b ? left - (b - a) : left + 1;
    this.wakeAround(at, at + b - a);
    const gap = left > b ? a : b + 1;
    this.wakeAround(gap, gap - 1);
  }

  private wakeAround(i: number, j: number): void {
    for (const k of [i - 1, i, j, j + 1]) if (k >= 0 && k < this.n) this.wake(this.order[k]!);
  }

  /** Swaps two short neighbouring stretches somewhere, settles, and goes back if it is no better. */
  kick(times: number): void {
    const { n } = this;
    if (n < 3) return;
    for (let t = 0; t < times; t++) {
      const order = this.order.slice();
      const entry = this.entry.slice();
      const longest = Math.min(50, Math.floor(n / 3));
      const a = Math.floor(this.random() * (n - 2));
      const b = a + 1 + Math.floor(this.random() * Math.min(longest, n - a - 2));
      const c = b + 1 + Math.floor(this.random() * Math.min(longest, n - b - 1));
      if (!this.maySwap(a, b, c)) continue;
      const before = this.link(a - 1, a) + this.link(b - 1, b) + this.link(c - 1, c);
      this.swap(a, b, c);
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

  /** A repeatable number in [0, 1): a 32-bit linear congruence (Numerical Recipes' constants). */
  private random(): number {
    this.seed = (Math.imul(this.seed, 1664525) + 1013904223) >>> 0;
    return this.seed / 2 ** 32;
  }
}
