/** Equal rectangles on a plane: straight rows, and two grids side by side, the pieces of the second
 *  turned by a quarter. */
import { across, gridIn, gridPlan, gridsFor, type Plan, stepsIn } from './plan.js';

/** The second grid stands to the right of the first. */
function beside(first: Plan, second: Plan): Plan {
  return {
    pattern: 'mixed',
    width: first.width + second.width,
    depth: Math.max(first.depth, second.depth),
    columns: 0,
    rows: 0,
    rowsAcross: false,
    total: first.total + second.total,
    spots: () => [
      ...first.spots(),
      ...second
        .spots()
        .map(s => ({ x: s.x + first.width, y: s.y, row: s.row, turned: true as const })),
    ],
  };
}

/** As `plan`, for pieces that lie turned to begin with. */
const turnedOver = (plan: Plan): Plan => ({
  ...plan,
  spots: () =>
    plan.spots().map(({ turned, ...s }) => (turned ? s : { ...s, turned: true as const })),
});

/** Every pair of grids for `count` pieces whose second is no deeper than the first. */
function pairsFor(count: number, w: number, d: number): Plan[] {
  const plans: Plan[] = [];
  for (let columns = 1; columns < count; columns++) {
    for (let rows = 1; columns * rows < count; rows++) {
      const rest = count - columns * rows;
      const deep = stepsIn(rows * d, w);
      if (deep < 1) continue;
      const more = Math.ceil(rest / deep);
      plans.push(beside(gridPlan(columns, rows, w, d), gridPlan(more, deep, d, w)));
    }
  }
  return plans;
}

/** Plans for `count` rectangles of `w` by `d`, none of them turned, and mixtures of both. */
export function rectanglePlans(count: number, w: number, d: number): Plan[] {
  if (w === d) return gridsFor(count, w, d);
  return [
    ...gridsFor(count, w, d),
    ...pairsFor(count, w, d),
    ...pairsFor(count, d, w).map(turnedOver),
  ];
}

/** All ways that are worth trying on an area: both grids, and two beside or behind each other. */
export function rectanglesIn(width: number, depth: number, w: number, d: number): Plan[] {
  const grids = [gridIn(width, depth, w, d), turnedOver(gridIn(width, depth, d, w))];
  if (w === d) return grids.slice(0, 1);
  const along = splits(width, depth, w, d);
  const back = splits(depth, width, d, w).map(across);
  return [...grids, ...along, ...back];
}

function splits(width: number, depth: number, w: number, d: number): Plan[] {
  const rows = stepsIn(depth, d);
  const plans: Plan[] = [];
  for (let columns = 1; columns * w < width; columns++) {
    if (rows < 1) break;
    const second = gridIn(width - columns * w, depth, d, w);
    if (second.total > 0) plans.push(beside(gridPlan(columns, rows, w, d), second));
  }
  return plans;
}
