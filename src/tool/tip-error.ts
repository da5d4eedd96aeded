/** How far the tip of a dragged blade leaves the drawing, and what of the drawing it leaves uncut. */
import type { Path } from '../geom/index.js';
import { SAME_POINT_MM, TIP_MEASURE_MM } from '../units/tolerances.js';
import { chordsOf, joined, stray, type Tally } from './chords.js';
import { stretches } from './compensate.js';
import { Effort } from './effort.js';
import { dragTip, type TipTrack } from './simulate.js';

/** Distances in mm; less than the truth or more by at most about twice the tolerance of the measure.
 *  All 0 where there is nothing to cut. */
export interface TipError {
  /** Greatest distance from the tip's track to the drawing. */
  readonly max: number;
  /** 99 % of the track's length lies within this of the drawing (rounded up by at most 1 %). */
  readonly p99: number;
  /** Greatest distance from the drawing to the tip's track: more than 0 is left uncut. */
  readonly uncutMax: number;
  /** 99 % of the drawing's length lies within this of the track (rounded up by at most 1 %). */
  readonly uncut99: number;
}

/**
 * Drags a blade of `offset` along `driven` and measures its track against `drawn`. Where both have
 * the same number of paths they are measured path for path, otherwise all together. The blade first
 * points along `startHeading` (radians), or along the first drawn path, as `compensatePaths` has it.
 * `tolerance` is how finely curves are followed, mm.
 */
export function tipError(
  drawn: readonly Path[],
  driven: readonly Path[],
  offset: number,
  startHeading = firstHeading(drawn),
  tolerance = TIP_MEASURE_MM,
): TipError {
  return trackError(drawn, dragTip(driven, offset, startHeading, tolerance), tolerance);
}

/** As `tipError`, for a track that is already known. Where `effort` (chords looked at) is over, what was
 *  looked at till then is told; how much of the drawing that is stands in it, mm. */
export function trackError(
  drawn: readonly Path[],
  tracks: readonly TipTrack[],
  tolerance = TIP_MEASURE_MM,
  effort = new Effort(Number.POSITIVE_INFINITY),
): TipError {
  const wanted = drawn.map(path => chordsOf(path, tolerance)).map(nothingIfPoint);
  const cut = tracks.map(track => track.xy);
  const out = new Spread();
  const missed = new Spread();
  const long = (chains: readonly Float64Array[]) =>
    chains.reduce((n, xy) => n + chainLength(xy), 0);
  const part = long(wanted) * PART;
  if (wanted.length === cut.length) {
    wanted.forEach((path, i) => {
      stray(cut[i]!, path, tolerance, out.add, effort, part);
      stray(path, cut[i]!, tolerance, missed.add, effort, part);
    });
  } else {
    const drawing = joined(wanted);
    const track = joined(cut);
    for (const path of cut) stray(path, drawing, tolerance, out.add, effort, part);
    for (const path of wanted) stray(path, track, tolerance, missed.add, effort, part);
  }
  if (effort.over) {
    // There and back: half of each is the way looked at.
    const whole = long(wanted) + long(cut);
    effort.stop(Math.floor((out.total + missed.total) / 2), Math.ceil(whole / 2));
  }
  return {
    max: out.max,
    p99: out.within(0.99),
    uncutMax: missed.max,
    uncut99: missed.within(0.99),
  };
}

/** What is this share of the drawing and less is not divided to tell how far its parts are: of the hundredth
 *  that a percentile leaves out it is a hundredth. */
const PART = 1 / 10_000;

/** A path without length asks for no cut. */
const nothingIfPoint = (xy: Float64Array): Float64Array =>
  xy.every((v, i) => Math.abs(v - xy[i % 2]!) <= SAME_POINT_MM) ? new Float64Array(0) : xy;

const chainLength = (xy: Float64Array): number => {
  let sum = 0;
  for (let i = 2; i < xy.length; i += 2) {
    sum += Math.hypot(xy[i]! - xy[i - 2]!, xy[i + 1]! - xy[i - 1]!) || 0;
  }
  return sum;
};

/** Direction of the first path that has one; `undefined` when none has. */
export function firstHeading(paths: readonly Path[]): number | undefined {
  for (const path of paths) {
    const first = stretches(path)[0];
    if (first) return Math.atan2(first.enter[1], first.enter[0]);
  }
  return undefined;
}

/** NaN counts as infinitely far. */
const larger = (a: number, b: number) => (b <= a ? a : b >= a ? b : Number.POSITIVE_INFINITY);

/** Lengths by distance, in bins whose borders are 1 % apart. */
class Spread {
  max = 0;
  total = 0;
  private readonly bins = new Map<number, number>();

  readonly add: Tally = (distance, length) => {
    this.max = larger(this.max, distance);
    this.total += length;
    const bin = distance > LEAST ? Math.ceil(Math.log(distance / LEAST) / BIN) : 0;
    this.bins.set(bin, (this.bins.get(bin) ?? 0) + length);
  };

  within(share: number): number {
    let left = this.total * share;
    for (const [bin, length] of [...this.bins].sort((a, b) => a[0] - b[0])) {
      left -= length;
      if (left <= 0)
        return bin === 0
          ? Math.min(this.max, LEAST)
          : Math.min(this.max, LEAST * Math.exp(bin * BIN));
    }
    return this.max;
  }
}
const BIN = Math.log(1.01);
/** Distances below a nanometre are all alike. */
const LEAST = 1e-6;
