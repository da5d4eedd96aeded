/**
 * A printed mark as a field of ink to compare pictures with: drawn from its lines and areas, whatever they
 * are, and blurred as paper, lens and pixels blur it.
 */
import {
  bounds,
  contains,
  distance,
  distanceToStep,
  dot,
  endOf,
  endTangent,
  flatten,
  polyline,
  startTangent,
  steps,
  sub,
} from '../geom/index.js';
import type { Ink, Path, Point } from '../model.js';
import { SAME_POINT_MM } from '../units/tolerances.js';

/** Between points of the field, mm: a fifth of a usual line. */
const STEP_MM = 0.05;
/** White that belongs to the mark, all round it: less than its quiet zone. */
const QUIET_MM = 0.8;
const FLAT_MM = 0.01;

export interface Template {
  /** The field covers −reach to reach both ways, mm. */
  readonly reach: number;
  /** Points on a side of the field. */
  readonly side: number;
  /** Share of ink, 0 to 1, rows from below. */
  readonly ink: Float32Array;
}

/** Of ink about the origin. Sharp: the blur is put on by `blurred`. */
export function templateOf({ lines, width, solids }: Ink): Template {
  const box = bounds(...lines, ...solids);
  const widest = lines.length > 0 ? width / 2 : 0;
  const half = Math.max(-box.minX, -box.minY, box.maxX, box.maxY) + widest + QUIET_MM;
  const n = Math.ceil(half / STEP_MM);
  const side = 2 * n + 1;
  const strokes = lines.map(path => stroke(straight(path), width / 2));
  const fields = solids.map(straight);
  const ink = new Float32Array(side * side);
  for (let j = 0; j < side; j++) {
    for (let i = 0; i < side; i++) {
      const p: Point = [(i - n) * STEP_MM, (j - n) * STEP_MM];
      let out = Number.POSITIVE_INFINITY;
      for (const s of strokes) out = Math.min(out, s(p));
      for (const loop of fields) {
        out = Math.min(out, contains(loop, p) === 'in' ? -away(p, loop) : away(p, loop));
      }
      ink[j * side + i] = Math.min(1, Math.max(0, 0.5 - out / STEP_MM));
    }
  }
  return { reach: n * STEP_MM, side, ink };
}

const straight = (path: Path): Path => polyline(flatten(path, FLAT_MM), path.closed);

function away(p: Point, path: Path): number {
  let least = Number.POSITIVE_INFINITY;
  for (const step of steps(path)) least = Math.min(least, distanceToStep(p, step));
  return least;
}

/** How far a point is outside a line of some width whose ends are cut square, as printers draw it. */
function stroke(path: Path, half: number): (p: Point) => number {
  if (path.closed) return p => away(p, path) - half;
  const [start, end] = [path.start, endOf(path)];
  const [back, on] = [startTangent(path), endTangent(path)];
  return p => {
    const off = away(p, path);
    // Past an end the nearest point is the end itself, and the way to it has a part along the line.
    let past = 0;
    if (off > distance(p, end) - SAME_POINT_MM) past = dot(sub(p, end), on);
    else if (off > distance(p, start) - SAME_POINT_MM) past = -dot(sub(p, start), back);
    if (!(past > 0)) return off - half;
    return Math.max(past, Math.sqrt(Math.max(0, off * off - past * past)) - half);
  };
}

/** Blurred by a Gaussian of standard deviation `sigma` mm. */
export function blurred({ reach, side, ink }: Template, sigma: number): Template {
  const wide = Math.ceil((3 * sigma) / STEP_MM);
  const weights = Array.from({ length: 2 * wide + 1 }, (_, k) =>
    Math.exp(-((((k - wide) * STEP_MM) / sigma) ** 2) / 2),
  );
  const sum = weights.reduce((s, w) => s + w, 0);
  const pass = (from: Float32Array, along: number, across: number): Float32Array => {
    const to = new Float32Array(from.length);
    for (let j = 0; j < side; j++) {
      for (let i = 0; i < side; i++) {
        let total = 0;
        const first = Math.max(0, i - wide);
        const last = Math.min(side - 1, i + wide);
        for (let k = first; k <= last; k++) {
          total += weights[k - i + wide]! * from[j * across + k * along]!;
        }
        to[j * across + i * along] = total / sum;
      }
    }
    return to;
  };
  return { reach, side, ink: pass(pass(ink, 1, side), side, 1) };
}

/** Ink at a point of the mark's frame; nothing outside the field. */
export function inkAt({ reach, side, ink }: Template, x: number, y: number): number {
  const u = (x + reach) / STEP_MM;
  const v = (y + reach) / STEP_MM;
  if (!(u >= 0 && v >= 0 && u < side - 1 && v < side - 1)) return 0;
  const [i, j] = [Math.floor(u), Math.floor(v)];
  const [p, q] = [u - i, v - j];
  const at = j * side + i;
  const low = ink[at]! + p * (ink[at + 1]! - ink[at]!);
  const high = ink[at + side]! + p * (ink[at + side + 1]! - ink[at + side]!);
  return low + q * (high - low);
}

/** Ink and its slopes along x and y, 1/mm, into `to[from]` and the two after it. */
export function slopesInto(to: number[], from: number, t: Template, x: number, y: number): void {
  const { reach, side, ink } = t;
  const u = (x + reach) / STEP_MM;
  const v = (y + reach) / STEP_MM;
  if (!(u >= 1 && v >= 1 && u < side - 2 && v < side - 2)) {
    to[from] = 0;
    to[from + 1] = 0;
    to[from + 2] = 0;
    return;
  }
  const [i, j] = [Math.floor(u), Math.floor(v)];
  const [p, q] = [u - i, v - j];
  const at = j * side + i;
  const [a, b, c, d] = [ink[at]!, ink[at + 1]!, ink[at + side]!, ink[at + side + 1]!];
  to[from] = a + p * (b - a) + q * (c - a + p * (a - b - c + d));
  // Of the wider cell round the point: the bilinear one's own slopes jump.
  const wide = 1 / (4 * STEP_MM);
  const [e, f] = [ink[at - 1]!, ink[at + side - 1]!];
  const [g, h] = [ink[at + 2]!, ink[at + side + 2]!];
  to[from + 1] =
    wide *
    2 *
    ((1 - q) * ((1 - p) * (b - e) + p * (g - a)) + q * ((1 - p) * (d - f) + p * (h - c)));
  const [k, l] = [ink[at - side]!, ink[at - side + 1]!];
  const [m, n] = [ink[at + 2 * side]!, ink[at + 2 * side + 1]!];
  to[from + 2] =
    wide *
    2 *
    ((1 - p) * ((1 - q) * (c - k) + q * (m - a)) + p * ((1 - q) * (d - l) + q * (n - b)));
}

/** Middle and spread of a mark's ink: what its blob in a picture is compared by. */
export interface Moments {
  readonly middle: Point;
  /** xx, xy, yy. */
  readonly spread: readonly [number, number, number];
}

export function momentsOf({ reach, side, ink }: Template): Moments {
  let [sum, sx, sy, xx, xy, yy] = [0, 0, 0, 0, 0, 0];
  ink.forEach((w, k) => {
    if (w < 0.5) return;
    const [x, y] = [(k % side) * STEP_MM - reach, Math.floor(k / side) * STEP_MM - reach];
    sum++;
    sx += x;
    sy += y;
    xx += x * x;
    xy += x * y;
    yy += y * y;
  });
  const middle: Point = [sx / sum, sy / sum];
  return {
    middle,
    spread: [
      xx / sum - middle[0] ** 2,
      xy / sum - middle[0] * middle[1],
      yy / sum - middle[1] ** 2,
    ],
  };
}
