/**
 * A mark's place to a small part of a pixel: the template is moved, and its ink, the paper and the slope of
 * the light under it fitted, until the squares of what is left are least. Steps after B. Lucas and
 * T. Kanade, "An iterative image registration technique", IJCAI 1981, with the light of each step solved.
 */
import { solve } from '../geom/index.js';
import type { Point } from '../model.js';
import type { Look } from './candidates.js';
import type { Slopes } from './plane.js';
import { type Grey, sampled } from './raster.js';
import { blurred, slopesInto, type Template } from './template.js';

export interface Placed {
  /** Pixels. */
  readonly at: Point;
  /** Correlation with the template, up to 1. */
  readonly like: number;
  /** Which of the blurs explained it best. */
  readonly blur: number;
  /** How black its ink is, of the paper's light. */
  readonly black: number;
}

/** Standard deviations of the blur that are tried, mm: from 1200 dpi to a phone across a table. */
const BLURS_MM = [0.05, 0.09, 0.14, 0.2, 0.3, 0.45] as const;
const FIRST_BLUR = 3;
const MOST_STEPS = 25;
/** A step below this, mm, ends the search: a hundredth of what is promised. */
const STILL_MM = 1e-3;
/** One step goes no farther than this, mm: a line's width. */
const STRIDE_MM = 0.3;
/** Enough points of the mark's field on a side; more only take time. */
const MOST_SAMPLES = 100;
const FEW_SAMPLES = 27;

const soft = new WeakMap<Template, Template[]>();
function blursOf({ sharp }: Look): Template[] {
  let all = soft.get(sharp);
  if (!all) {
    all = BLURS_MM.map(sigma => blurred(sharp, sigma));
    soft.set(sharp, all);
  }
  return all;
}

/**
 * The mark near `from`, whose millimetres become pixels by `slopes`. `within` mm: it is not followed
 * farther; `undefined` where nothing holds still.
 */
export function placeFinely(
  grey: Grey,
  look: Look,
  from: Point,
  slopes: Slopes,
  within: number,
  known?: number,
): Placed | undefined {
  const patch = patchAt(grey, look.sharp.reach, from, slopes, MOST_SAMPLES);
  const blurs = blursOf(look);
  let blur = known ?? FIRST_BLUR;
  let best = settled(patch, blurs[blur]!, [0, 0], within);
  if (!best) return undefined;
  // Downhill to the blur that explains most.
  for (const way of [-1, 1]) {
    for (let next = blur + way; blurs[next]; next += way) {
      const again = settled(patch, blurs[next]!, best.by, within);
      if (!again || again.like <= best.like) break;
      best = again;
      blur = next;
    }
  }
  const [a, b, c, d] = slopes;
  const [x, y] = best.by;
  const { like, black } = best;
  return { at: [from[0] + a * x + b * y, from[1] + c * x + d * y], like, blur, black };
}

/** A mark looked for all over `reach` mm round a place: where it would stand if it is there at all. */
export function lookRound(
  grey: Grey,
  look: Look,
  from: Point,
  slopes: Slopes,
  reach: number,
): Placed | undefined {
  const blur = blursOf(look)[FIRST_BLUR]!;
  const steps = Math.ceil(reach / STRIDE_MM);
  let best: { by: Point; like: number } | undefined;
  for (let j = -steps; j <= steps; j++) {
    for (let i = -steps; i <= steps; i++) {
      const [x, y] = [i * STRIDE_MM, j * STRIDE_MM];
      const at: Point = [
        from[0] + slopes[0] * x + slopes[1] * y,
        from[1] + slopes[2] * x + slopes[3] * y,
      ];
      const patch = patchAt(grey, look.sharp.reach, at, slopes, FEW_SAMPLES);
      const fit = light(patch, blur, [0, 0]);
      if (fit && fit.like > (best?.like ?? 0)) best = { by: at, like: fit.like };
    }
  }
  return best && placeFinely(grey, look, best.by, slopes, 2 * STRIDE_MM);
}

interface Patch {
  readonly side: number;
  readonly reach: number;
  readonly values: Float32Array;
}

/** The picture round a mark, in the mark's frame: about as many points as it has pixels. */
function patchAt(
  grey: Grey,
  reach: number,
  [x, y]: Point,
  [a, b, c, d]: Slopes,
  most: number,
): Patch {
  const pixels = 2 * reach * Math.sqrt(Math.abs(a * d - b * c));
  const side = Math.max(15, Math.min(most, Math.ceil(pixels * 1.2)));
  const values = new Float32Array(side * side);
  for (let j = 0; j < side; j++) {
    const v = ((2 * j + 1) / side - 1) * reach;
    for (let i = 0; i < side; i++) {
      const u = ((2 * i + 1) / side - 1) * reach;
      values[j * side + i] = sampled(grey, x + a * u + b * v, y + c * u + d * v);
    }
  }
  return { side, reach, values };
}

function settled(patch: Patch, blur: Template, from: Point, within: number) {
  let by = from;
  for (let step = 0; step < MOST_STEPS; step++) {
    const fit = light(patch, blur, by);
    if (!fit) return undefined;
    const far = Math.hypot(fit.move[0], fit.move[1]);
    const part = far > STRIDE_MM ? STRIDE_MM / far : 1;
    by = [by[0] + part * fit.move[0], by[1] + part * fit.move[1]];
    if (!(Math.hypot(by[0], by[1]) <= within)) return undefined;
    if (far < STILL_MM) {
      const last = light(patch, blur, by);
      return last && { by, like: last.like, black: last.black };
    }
  }
  return undefined;
}

/**
 * Paper, slope of the light across and up, ink, and the move that would do best, all linear: picture ≈
 * paper + across u + up v − ink (T − T′ · move). `like` is the correlation before the move, without the
 * light's slope.
 */
function light({ side, reach, values }: Patch, blur: Template, by: Point) {
  const n = 6;
  const normal = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const right = new Array<number>(n).fill(0);
  const row = [1, 0, 0, 0, 0, 0];
  let squares = 0;
  for (let j = 0; j < side; j++) {
    const v = ((2 * j + 1) / side - 1) * reach;
    for (let i = 0; i < side; i++) {
      const u = ((2 * i + 1) / side - 1) * reach;
      row[1] = u;
      row[2] = v;
      slopesInto(row, 3, blur, u - by[0], v - by[1]);
      const value = values[j * side + i]!;
      squares += value * value;
      // White paper tells nothing of the ink.
      const last = row[3] === 0 && row[4] === 0 && row[5] === 0 ? 3 : n;
      for (let k = 0; k < last; k++) {
        const sums = normal[k]!;
        const p = row[k]!;
        right[k]! += p * value;
        for (let l = k; l < last; l++) sums[l]! += p * row[l]!;
      }
    }
  }
  for (let k = 0; k < n; k++) for (let l = 0; l < k; l++) normal[k]![l] = normal[l]![k]!;
  const found = solve(normal, right);
  const still = solve(
    normal.slice(0, 4).map(r => r.slice(0, 4)),
    right.slice(0, 4),
  );
  const plain = solve(
    normal.slice(0, 3).map(r => r.slice(0, 3)),
    right.slice(0, 3),
  );
  if (!found || !still || !plain || !(found[3]! < 0)) return undefined;
  const left = (x: readonly number[]) => squares - x.reduce((s, p, k) => s + p * right[k]!, 0);
  // Share of what the light leaves that the mark explains.
  const explained = 1 - left(still) / Math.max(left(plain), 1e-9);
  const like = still[3]! < 0 ? Math.sqrt(Math.max(0, explained)) : 0;
  const black = -still[3]! / Math.max(still[0]!, 1);
  return { move: [-found[4]! / found[3]!, -found[5]! / found[3]!] as Point, like, black };
}
