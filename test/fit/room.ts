/** Whether a block goes into a closed box: found by folding it and standing it on the table, with
 *  none of the code that fits. */
import type { PanelPose } from '../../src/fold/pose.js';
import { place } from '../../src/fold/pose.js';
import { standing } from '../../src/fold/stand.js';
import { bounds, flatten, windingOf } from '../../src/geom/index.js';
import type { Inside, Net, Point, Triple } from '../../src/model.js';

/** Points a panel is looked at by, each way. */
const GRID = 24;
/** Paper that touches the block, mm: rims are flattened and sums rounded. */
const TOUCH = 0.1;
/** Flaps and tabs inside move the clear space off the middle, by half thicknesses. */
const SHIFTS = [0, 1, -1, 2, -2, 3, -3, 4, -4];

function pointsOf(p: PanelPose): Triple[] {
  const { panel } = p;
  const b = bounds(panel.outline);
  const inside = windingOf(panel.outline, ...panel.holes);
  const step = (k: number) => (k + 0.5) / GRID;
  const grid = Array.from(
    { length: GRID * GRID },
    (_, n): Point => [
      b.minX + step(n % GRID) * (b.maxX - b.minX),
      b.minY + step(Math.floor(n / GRID)) * (b.maxY - b.minY),
    ],
  ).filter(at => inside(at) !== 0);
  return [...grid, ...flatten(panel.outline, 0.05)].map(at => place(p, at));
}

type Plan = 'rectangle' | 'round';

/** Whether an upright block (or a cylinder as wide as `length`) stands clear in the middle of the
 *  closed box, or of one of its parts, at some height and either way round, and is no larger. */
export const holds = (nets: readonly Net[], block: Inside, plan: Plan): boolean =>
  [nets, ...nets.map(net => [net])].some(some => holdsIn(some, block, plan));

function holdsIn(nets: readonly Net[], { length, width, height }: Inside, plan: Plan): boolean {
  const points = nets.flatMap(net => standing(net).flatMap(pointsOf));
  const spans = ([0, 1, 2] as const).map(k => {
    const values = points.map(p => p[k]);
    return [Math.min(...values), Math.max(...values)] as const;
  });
  const sizes = spans.map(([low, high]) => high - low + TOUCH);
  const t = Math.max(...nets.map(net => net.thickness));
  const shifts = t > 0 ? SHIFTS.map(k => (k * t) / 2) : [0];
  const [middleX, middleY] = spans.map(([low, high]) => (low + high) / 2) as [number, number];
  const [low, top] = spans[2]!;
  const ways = [
    [length, width],
    [width, length],
  ] as const;
  const middles = shifts.flatMap(dx => shifts.map(dy => [middleX + dx, middleY + dy] as const));
  return ways.some(([l, w]) => {
    if (l > sizes[0]! || w > sizes[1]! || height > sizes[2]!) return false;
    return middles.some(([x, y]) => {
      const near = points.filter(([px, py]) =>
        plan === 'round'
          ? Math.hypot(px - x, py - y) < l / 2 - TOUCH
          : Math.abs(px - x) < l / 2 - TOUCH && Math.abs(py - y) < w / 2 - TOUCH,
      );
      // It stands in a gap between paper and paper, or the table and the highest of all.
      const heights = [low, ...near.map(p => p[2]), top].sort((a, b) => a - b);
      return heights.some((z, i) => i > 0 && z - heights[i - 1]! >= height - 2 * TOUCH);
    });
  });
}
