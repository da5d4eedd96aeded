/**
 * Whether the marks of a photo have their own proportions. Layouts of two sizes of paper differ by a stretch,
 * which a camera that looks from the side makes as well; but the marks are printed in one size on all.
 */
import type { PrintedMark } from '../model.js';
import type { Look } from './candidates.js';
import { placeFinely } from './fine.js';
import { type Plane, slopesAt } from './plane.js';
import type { Grey } from './raster.js';

/** Stretches that are tried, width over height: past those between A4 and Letter, 1.10. */
const TRIED = [0.86, 0.93, 1, 1.07, 1.14] as const;
/** The marks are where they were found, mm. */
const NEAR_MM = 0.6;

/** Width over height of the marks as `plane` lays them flat, over what they were printed as. */
export function stretchOf(
  grey: Grey,
  plane: Plane,
  seen: readonly { readonly mark: PrintedMark; readonly at: readonly [number, number] }[],
  looks: ReadonlyMap<string, Look>,
): number {
  const likes = TRIED.map(stretch => {
    const s = Math.sqrt(stretch);
    return seen.reduce((sum, { mark, at }) => {
      const [a, b, c, d] = slopesAt(plane, mark.at);
      const slopes = [a * s, b / s, c * s, d / s] as const;
      return sum + (placeFinely(grey, looks.get(mark.name)!, at, slopes, NEAR_MM)?.like ?? 0);
    }, 0);
  });
  const best = likes.indexOf(Math.max(...likes));
  const k = Math.min(Math.max(best, 1), TRIED.length - 2);
  // The top of the parabola through the best and its neighbours.
  const [p, q, r] = [likes[k - 1]!, likes[k]!, likes[k + 1]!];
  const bend = p - 2 * q + r;
  const off = bend < 0 ? (p - r) / (2 * bend) : best - k;
  const step = TRIED[1] - TRIED[0];
  return TRIED[k]! + step * Math.min(1.5, Math.max(-1.5, off));
}
