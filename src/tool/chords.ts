/** Curves as chords in plain numbers (x, y, x, y, …), and how far one chain of chords strays from
 *  another. */
import type { Path } from '../geom/index.js';
import { Effort } from './effort.js';
import { Grid } from './grid.js';

/** Chords of a path, each nearer than `tolerance` to it; lines stay whole. */
export function chordsOf(path: Path, tolerance: number): Float64Array {
  const xy: number[] = [path.start[0], path.start[1]];
  let [x, y] = path.start;
  for (const s of path.segments) {
    const [x1, y1] = s.to;
    if (s.kind === 'arc') {
      const dx = x1 - x;
      const dy = y1 - y;
      const b = s.bulge;
      const sweep = 4 * Math.atan(b);
      const radius = (Math.hypot(dx, dy) * (1 + b * b)) / (4 * Math.abs(b));
      // Sagitta of a chord over the angle a: R (1 − cos(a/2)) = 2 R sin²(a/4).
      const step = 4 * Math.asin(Math.min(1, Math.sqrt(tolerance / (2 * radius))));
      const n = Math.min(MAX_CHORDS, Math.ceil(Math.abs(sweep) / step) || 1);
      const h = (1 - b * b) / (4 * b);
      const cx = x + dx / 2 - dy * h;
      const cy = y + dy / 2 + dx * h;
      for (let i = 1; i < n; i++) {
        const a = (sweep * i) / n;
        const c = Math.cos(a);
        const q = Math.sin(a);
        xy.push(cx + (x - cx) * c - (y - cy) * q, cy + (y - cy) * c + (x - cx) * q);
      }
    } else if (s.kind === 'cubic') {
      // Chords of n equal steps of a cubic leave it by at most ¾·|largest second difference| / n²
      // (Wang's bound for degree 3).
      const { c1, c2 } = s;
      const bend = Math.max(
        Math.hypot(x - 2 * c1[0] + c2[0], y - 2 * c1[1] + c2[1]),
        Math.hypot(c1[0] - 2 * c2[0] + x1, c1[1] - 2 * c2[1] + y1),
      );
      const n = Math.min(MAX_CHORDS, Math.ceil(Math.sqrt((0.75 * bend) / tolerance)) || 1);
      for (let i = 1; i < n; i++) {
        const t = i / n;
        const u = 1 - t;
        const w0 = u * u * u;
        const w1 = 3 * u * u * t;
        const w2 = 3 * u * t * t;
        const w3 = t * t * t;
        xy.push(
          w0 * x + w1 * c1[0] + w2 * c2[0] + w3 * x1,
          w0 * y + w1 * c1[1] + w2 * c2[1] + w3 * y1,
        );
      }
    }
    xy.push(x1, y1);
    x = x1;
    y = y1;
  }
  return Float64Array.from(xy);
}
const MAX_CHORDS = 100_000;

/** Several chains as one, with a break (NaN) between: nothing is near to a break. */
export function joined(chains: readonly Float64Array[]): Float64Array {
  const all: number[] = [];
  for (const chain of chains) {
    if (chain.length === 0) continue;
    if (all.length > 0) all.push(Number.NaN, Number.NaN);
    for (const v of chain) all.push(v);
  }
  return Float64Array.from(all);
}

/** Receives the greatest distance along one piece of a chord and the piece's length. */
export type Tally = (distance: number, length: number) => void;

/**
 * How far each part of chain `a` lies from chain `b`, told to `tally`. The figure is never less
 * than the true distance, and more by at most about `slack`. Empty `b`: infinity.
 *
 * The distance to one chord is a convex function, so along a straight piece it is greatest at an
 * end. That makes the figure a bound and not a sample: a piece that runs past several chords of
 * `b` is bounded by its ends and by those chords' corners. A piece whose ends or middle differ by
 * more than `slack` and a hundredth is halved: a long line missed at one end is near for the rest. One no
 * longer than `part` counts as its worst place does.
 * Where `effort` (chords of `b` looked at) is over, the rest of `a` is not told of.
 */
export function stray(
  a: Float64Array,
  b: Float64Array,
  slack: number,
  tally: Tally,
  effort = new Effort(Number.POSITIVE_INFINITY),
  part = 0,
): void {
  if (a.length < 2) return;
  const target = new Strand(b, slack, effort, part);
  let [x, y] = [a[0]!, a[1]!];
  target.find(x, y, 0);
  let j = target.at;
  let dist = target.distance;
  if (a.length === 2) tally(dist, 0);
  for (let i = 2; i < a.length && !effort.over; i += 2) {
    const x1 = a[i]!;
    const y1 = a[i + 1]!;
    target.find(x1, y1, j);
    const { at, distance } = target;
    target.bound(x, y, j, dist, x1, y1, at, distance, tally, 0);
    x = x1;
    y = y1;
    j = at;
    dist = distance;
  }
}

/** Most corners of `b` that one piece of `a` may run past before it is halved instead. */
const MOST_CORNERS = 24;
const MOST_HALVINGS = 40;
/** Chains shorter than this are searched from end to end, longer ones through a grid. */
const SMALL_CHAIN = 12;

class Strand {
  at = 0;
  distance = Number.POSITIVE_INFINITY;
  private readonly n: number;
  /** The chain ends where it starts, so its last chord leads on to its first. */
  private readonly ring: boolean;
  private grid: Grid | undefined;

  constructor(
    private readonly xy: Float64Array,
    private readonly slack: number,
    private readonly effort: Effort,
    private readonly part: number,
  ) {
    // A chain of one point has one chord without length.
    this.n = Math.max(xy.length / 2 - 1, xy.length >= 2 ? 1 : 0);
    this.ring = Math.hypot(xy.at(-2)! - xy[0]!, xy.at(-1)! - xy[1]!) <= slack;
  }

  /** Nearest chord to a point; any chord next to `hint` that is within the slack is good enough. */
  find(x: number, y: number, hint: number): void {
    const { n } = this;
    this.at = hint;
    this.distance = this.to(hint, x, y);
    for (let k = 1; k <= 4 && this.distance > this.slack; k++) {
      const j = hint + (k & 1 ? (k + 1) / 2 : -k / 2);
      this.see(this.ring ? (j + n) % n : j, x, y);
    }
    if (this.distance <= this.slack) return;
    if (n <= SMALL_CHAIN) {
      for (let j = 0; j < n; j++) this.see(j, x, y);
    } else {
      this.grid ??= new Grid(this.xy, n);
      this.grid.around(x, y, this.distance, this);
    }
  }

  /** Looks at chord j as well. */
  see(j: number, x: number, y: number): void {
    this.effort.spent++;
    const d = this.to(j, x, y);
    if (d < this.distance) {
      this.distance = d;
      this.at = j;
    }
  }

  /** Bounds the distance along the piece from (x0, y0), nearest chord j0 at d0, to (x1, y1). */
  bound(
    x0: number,
    y0: number,
    j0: number,
    d0: number,
    x1: number,
    y1: number,
    j1: number,
    d1: number,
    tally: Tally,
    depth: number,
  ): void {
    const length = Math.sqrt((x1 - x0) ** 2 + (y1 - y0) ** 2);
    const ends = Math.max(d0, d1);
    const divisible = length > 2 * this.slack && depth < MOST_HALVINGS && Number.isFinite(ends);
    const halve = () => {
      const { at, distance } = this;
      this.bound(x0, y0, j0, d0, xm, ym, at, distance, tally, depth + 1);
      this.bound(xm, ym, at, distance, x1, y1, j1, d1, tally, depth + 1);
    };
    const xm = (x0 + x1) / 2;
    const ym = (y0 + y1) / 2;
    if (divisible && ends > this.slack && length > this.part) {
      this.find(xm, ym, j0);
      if (ends - Math.min(d0, d1, this.distance) > this.slack + ends / 100) {
        halve();
        return;
      }
    }
    if (j0 === j1) {
      tally(ends, length);
      return;
    }
    const { n, xy } = this;
    // Corners passed on the way from j0 to j1, whichever way is shorter around a ring.
    const ahead = j1 > j0 ? j1 - j0 : this.ring ? j1 - j0 + n : n;
    const back = j0 > j1 ? j0 - j1 : this.ring ? j0 - j1 + n : n;
    const forward = ahead <= back;
    const count = Math.min(ahead, back);
    if (count <= MOST_CORNERS && Number.isFinite(ends)) {
      let worst = ends;
      const first = forward ? j0 : j1;
      for (let k = 1; k <= count && worst <= ends + this.slack; k++) {
        const v = (first + k) % n;
        worst = Math.max(worst, toChord(xy[2 * v]!, xy[2 * v + 1]!, x0, y0, x1, y1));
      }
      if (worst <= ends + this.slack) {
        tally(worst, length);
        return;
      }
    }
    // No point of the piece is farther from `b` than its nearer end plus the way to it.
    if (!divisible) {
      tally(ends + length / 2, length);
      return;
    }
    this.find(xm, ym, j0);
    halve();
  }

  to(j: number, x: number, y: number): number {
    const { xy } = this;
    if (!(j >= 0 && j < this.n)) return Number.POSITIVE_INFINITY;
    const i = 2 * j;
    const e = Math.min(i + 2, xy.length - 2);
    const d = toChord(x, y, xy[i]!, xy[i + 1]!, xy[e]!, xy[e + 1]!);
    return d >= 0 ? d : Number.POSITIVE_INFINITY;
  }
}

/** Distance from a point to the straight piece (x0, y0)–(x1, y1). */
function toChord(x: number, y: number, x0: number, y0: number, x1: number, y1: number): number {
  const dx = x1 - x0;
  const dy = y1 - y0;
  const size = dx * dx + dy * dy;
  let t = size > 0 ? ((x - x0) * dx + (y - y0) * dy) / size : 0;
  t = Math.max(0, Math.min(1, t));
  const ex = x - x0 - t * dx;
  const ey = y - y0 - t * dy;
  return Math.sqrt(ex * ex + ey * ey);
}
