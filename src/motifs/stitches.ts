/** A border that looks sewn: dashes along an outline, drawn with a pen or pricked by the blade. */
import {
  counterClockwise,
  cross,
  dot,
  offsetExactly,
  offsetRegions,
  partOf,
  pathLength,
  type Step,
  startingAt,
  steps,
  tangentAt,
  vertices,
} from '../geom/index.js';
import type { Path, Stroke } from '../model.js';
import { SAME_ANGLE } from '../units/tolerances.js';

/** Parameters of a stitched border, for any motif that has one. */
export const stitchParams = {
  stitch: {
    kind: 'choice',
    default: 'draw',
    choices: ['none', 'draw', 'perforate'],
    help: 'stitched border: none, drawn with a pen, or cut as short slits to sew through',
  },
  inset: {
    kind: 'length',
    default: 2.4,
    least: 1,
    most: 20,
    help: 'from the edge to the stitches',
  },
  stitchLength: {
    kind: 'length',
    default: 2.2,
    least: 0.8,
    most: 10,
    help: 'length of one stitch; they are evened out so that the border closes',
  },
} as const;

/** The gap between stitches, as a part of a stitch. */
const GAP = 0.62;

function turnBetween(a: Step, b: Step): number {
  const [t0, t1] = [tangentAt(a, 1), tangentAt(b, 0)];
  return Math.abs(Math.atan2(cross(t0, t1), dot(t0, t1)));
}

/**
 * Dashes of about `dash` and gaps of about `gap` mm along a closed path, evened out so that a
 * whole number fits. Between sharp corners each run has its own, with half a gap at both ends,
 * so no stitch bends about a corner. A path without corners gets a multiple of four, so that on
 * a shape that is its own mirror image the stitches are too when its start lies on an axis.
 */
export function dashes(path: Path, dash: number, gap: number): Path[] {
  const all = [...steps(path)];
  const n = all.length;
  const corners = all.flatMap((step, i) =>
    turnBetween(all[(i + n - 1) % n]!, step) > SAME_ANGLE ? [i] : [],
  );
  const runs: Path[] = [];
  if (corners.length === 0) runs.push(path);
  else {
    const whole = startingAt(path, corners[0]!);
    const at = corners.map(i => i - corners[0]!);
    at.forEach((first, k) => {
      const segments = whole.segments.slice(first, at[k + 1] ?? n);
      const start = first === 0 ? whole.start : whole.segments[first - 1]!.to;
      runs.push({ start, segments, closed: false });
    });
  }
  return runs.flatMap(run => {
    const length = pathLength(run);
    const fit = length / (dash + gap);
    const step = run.closed ? 4 : 1;
    const count = Math.max(step, step * Math.round(fit / step));
    const pitch = length / count;
    const half = (pitch * gap) / (dash + gap) / 2;
    return Array.from({ length: count }, (_, i) =>
      partOf(run, i * pitch + half, (i + 1) * pitch - half),
    );
  });
}

/** Where the stitches of a border go: the outline moved inward by `inset` mm, starting on its axis, so
 *  that what is fitted along it is symmetric. Nothing where they do not fit in one round. */
export function seamInside(outline: Path, inset: number): Path | undefined {
  const exact = offsetExactly(outline, -inset, 'mitre');
  if (exact) return exact;
  const inner = offsetRegions([{ outer: outline, holes: [] }], -inset, 'mitre');
  if (inner.length !== 1) return undefined;
  const seam = counterClockwise(inner[0]!.outer);
  const on = vertices(seam).map(([x], i) => [Math.abs(x), i] as const);
  return startingAt(seam, on.reduce((a, p) => (p[0] < a[0] ? p : a))[1]);
}

/** Strokes of a stitched border along `line`; none for the choice `none`. */
export function stitched(
  line: Path | undefined,
  { stitch, stitchLength }: { readonly stitch: string; readonly stitchLength: number },
): Stroke[] {
  if (!line || (stitch !== 'draw' && stitch !== 'perforate')) return [];
  return dashes(line, stitchLength, stitchLength * GAP).map(path => ({ operation: stitch, path }));
}
