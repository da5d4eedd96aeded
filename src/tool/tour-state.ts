/** The state of an order search: stops in a row, where each is entered, and the moves that keep every
 *  stop before what holds it. */
import type { Point } from '../geom/index.js';

/** Where a stop can be entered and where the tool is when it leaves it; the very same point where it
 *  leaves it as it came. */
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
  /** Where the kicks' numbers begin; the same one gives the same kicks. 1 if not given. */
  readonly seed?: number;
}
export interface Visit {
  readonly stop: number;
  readonly entry: number;
}

export const gap = (a: Point, b: Point) => far(a[0] - b[0], a[1] - b[1]);
/** `Math.hypot` guards against overflow at ten times the price. */
const far = (x: number, y: number) => Math.sqrt(x * x + y * y);

/** An order of stops with an entry for each, and what may be done to it. */
export class TourState {
  protected readonly n: number;
  protected order: Int32Array;
  /** Place of each stop in the order. */
  protected readonly place: Int32Array;
  protected readonly entry: Int32Array;
  private readonly inner: number[][];
  // Start and end of each stop at its present entry.
  protected readonly sx: Float64Array;
  protected readonly sy: Float64Array;
  protected readonly ex: Float64Array;
  protected readonly ey: Float64Array;
  /** Start and end of every entry, four numbers each, stop after stop; and where a stop's begin. */
  private readonly doors: Float64Array;
  private readonly firstDoor: Int32Array;
  // The middle of a stop's entries, and how far from it the farthest lies.
  private readonly cx: Float64Array;
  private readonly cy: Float64Array;
  private readonly reach: Float64Array;
  private readonly fromX: number;
  private readonly fromY: number;

  constructor(
    protected readonly stops: readonly Stop[],
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
    this.firstDoor = new Int32Array(n + 1);
    this.cx = new Float64Array(n);
    this.cy = new Float64Array(n);
    this.reach = new Float64Array(n);
    this.doors = Float64Array.from(
      stops.flatMap(({ entries }) => entries.flatMap(({ start, end }) => [...start, ...end])),
    );
    stops.forEach((stop, i) => {
      this.measure(stop, i);
    });
    this.inner = stops.map(() => []);
    stops.forEach((s, i) => {
      if (s.before !== undefined) this.inner[s.before]!.push(i);
    });
  }

  private measure({ entries }: Stop, i: number): void {
    const points = entries.flatMap(({ start, end }) => (start === end ? [start] : [start, end]));
    const sum = (axis: 0 | 1) => points.reduce((total, p) => total + p[axis], 0);
    const middle: Point = [sum(0) / points.length, sum(1) / points.length];
    this.firstDoor[i + 1] = this.firstDoor[i]! + entries.length;
    [this.cx[i], this.cy[i]] = middle;
    this.reach[i] = Math.max(...points.map(p => gap(p, middle)));
  }

  visits(): Visit[] {
    return [...this.order].map(stop => ({ stop, entry: this.entry[stop]! }));
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
    const whole = cost.map((c, i) => c + (to ? gap(ends[i]!, to) : 0));
    let at = whole.indexOf(Math.min(...whole));
    for (let k = n - 1; k >= 0; k--) {
      this.enter(order[k]!, at);
      at = choice[k]![at]!;
    }
  }

  /** The entry that costs least between the ends of what is at two places, and its price, mm; none where
   *  it cannot be under `most`. */
  protected entryBetween(stop: number, i: number, j: number, most: number) {
    const { doors, firstDoor, reach, cx, cy } = this;
    const x = cx[stop]!;
    const y = cy[stop]!;
    // No entry is nearer than the middle of them all less their distance from it.
    if (this.toPoint(i, x, y) + this.fromPoint(x, y, j) - 2 * reach[stop]! >= most)
      return undefined;
    const first = firstDoor[stop]!;
    let best = -1;
    let cost = most;
    for (let d = first; d < firstDoor[stop + 1]!; d++) {
      const c =
        this.toPoint(i, doors[4 * d]!, doors[4 * d + 1]!) +
        this.fromPoint(doors[4 * d + 2]!, doors[4 * d + 3]!, j);
      if (c < cost) {
        cost = c;
        best = d;
      }
    }
    return best < 0 ? undefined : { entry: best - first, cost };
  }

  protected enter(stop: number, entry: number): void {
    const e = this.stops[stop]!.entries[entry]!;
    this.entry[stop] = entry;
    this.sx[stop] = e.start[0];
    this.sy[stop] = e.start[1];
    this.ex[stop] = e.end[0];
    this.ey[stop] = e.end[1];
  }

  /** From the end of the stop at place i to the start of the one at place j; the places before the
   *  first and after the last are where the tool waits and where it must end. */
  protected link(i: number, j: number): number {
    if (j >= this.n)
      return this.toEnd(
        i < 0 ? this.fromX : this.ex[this.order[i]!]!,
        i < 0 ? this.fromY : this.ey[this.order[i]!]!,
      );
    const b = this.order[j]!;
    return this.toPoint(i, this.sx[b]!, this.sy[b]!);
  }

  protected toPoint(i: number, x: number, y: number): number {
    if (i < 0) return far(this.fromX - x, this.fromY - y);
    const a = this.order[i]!;
    return far(this.ex[a]! - x, this.ey[a]! - y);
  }
  protected fromPoint(x: number, y: number, j: number): number {
    if (j >= this.n) return this.toEnd(x, y);
    const b = this.order[j]!;
    return far(this.sx[b]! - x, this.sy[b]! - y);
  }
  private toEnd(x: number, y: number): number {
    const { to } = this.options;
    return to ? far(to[0] - x, to[1] - y) : 0;
  }

  /** Whether a stop can be left at its start: one place, or the other direction of an open path. */
  private turnable(stop: number): boolean {
    const { entries } = this.stops[stop]!;
    const e = entries[this.entry[stop]!]!;
    return e.start === e.end || entries.length === 2;
  }

  protected mayTurn(i: number, j: number): boolean {
    for (let k = i; k <= j; k++) {
      const stop = this.order[k]!;
      const outer = this.stops[stop]!.before;
      if (outer !== undefined && this.place[outer]! <= j) return false;
      if (!this.turnable(stop)) return false;
    }
    return true;
  }

  protected turn(i: number, j: number): void {
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

  protected mayCarry(a: number, b: number, left: number): boolean {
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

  protected carry(a: number, b: number, left: number, around: boolean): void {
    if (around) this.turn(a, b);
    const block = this.order.slice(a, b + 1);
    const size = b - a + 1;
    if (left > b) this.order.copyWithin(a, b + 1, left + 1);
    else this.order.copyWithin(left + 1 + size, left + 1, a);
    this.order.set(block, left > b ? left - size + 1 : left + 1);
    const from = Math.min(a, left + 1);
    const until = Math.max(b, left);
    for (let k = from; k <= until; k++) this.place[this.order[k]!] = k;
  }

  /** Stretches [a, b) and [b, c) may change places: nothing in the first is held by the second. */
  protected maySwap(a: number, b: number, c: number): boolean {
    for (let k = a; k < b; k++) {
      const outer = this.stops[this.order[k]!]!.before;
      const p = outer === undefined ? -1 : this.place[outer]!;
      if (p >= b && p < c) return false;
    }
    return true;
  }

  /** Lets the stretches [a, b) and [b, c) change places. */
  protected swap(a: number, b: number, c: number): void {
    const block = this.order.slice(a, b);
    this.order.copyWithin(a, b, c);
    this.order.set(block, c - (b - a));
    for (let k = a; k < c; k++) this.place[this.order[k]!] = k;
  }
}
