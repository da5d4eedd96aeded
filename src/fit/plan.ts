/** One layer of pieces, or one section through rows of lying ones, on a plane: mm, from the lower left
 *  of what it takes up. Sizes of pieces already hold their share of the room between them. */
import { SAME_POINT_MM } from '../units/tolerances.js';

/** The middle of a piece; `turned` by a quarter, for pieces that are longer one way. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  /** From 0 at the front; all 0 where there are no rows. */
  readonly row: number;
  readonly turned?: true;
}

export interface Plan {
  readonly pattern: 'grid' | 'staggered' | 'mixed';
  readonly width: number;
  readonly depth: number;
  /** The most pieces in a row; 0 where there are no rows. */
  readonly columns: number;
  readonly rows: number;
  /** Rows run along the depth. Of straight ones, columns and rows are exchanged instead. */
  readonly rowsAcross: boolean;
  readonly total: number;
  /** Row by row from the front, each from the left. Worked out when asked: most plans are not used. */
  spots(): readonly Spot[];
}

export const range = (n: number): number[] => Array.from({ length: Math.max(0, n) }, (_, i) => i);

/** How many steps fit in a room; lengths that came by different sums count as equal. */
export const stepsIn = (room: number, step: number): number =>
  room >= -SAME_POINT_MM ? Math.floor((room + SAME_POINT_MM) / step) : -1;

/** Straight rows of pieces `w` by `d`. */
export const gridPlan = (columns: number, rows: number, w: number, d: number): Plan => ({
  pattern: 'grid',
  width: columns * w,
  depth: rows * d,
  columns,
  rows,
  rowsAcross: false,
  total: columns * rows,
  spots: () =>
    range(rows).flatMap(j =>
      range(columns).map(i => ({ x: (i + 0.5) * w, y: (j + 0.5) * d, row: j })),
    ),
});

/** Every straight grid for `count` pieces that would lose one without its last row or column. */
export function gridsFor(count: number, w: number, d: number): Plan[] {
  return range(count).flatMap(i => {
    const columns = i + 1;
    const rows = Math.ceil(count / columns);
    return (columns - 1) * rows >= count ? [] : [gridPlan(columns, rows, w, d)];
  });
}

/** The largest straight grid on an area. */
export const gridIn = (width: number, depth: number, w: number, d: number): Plan =>
  gridPlan(Math.max(0, stepsIn(width, w)), Math.max(0, stepsIn(depth, d)), w, d);

/** What the numbers of rows become when length and width are exchanged. */
export const rowsTurned = <
  T extends Pick<Plan, 'columns' | 'rows' | 'rowsAcross'> & { readonly pattern: string },
>({
  pattern,
  columns,
  rows,
  rowsAcross,
}: T): Pick<Plan, 'columns' | 'rows' | 'rowsAcross'> =>
  pattern === 'grid' || pattern === 'nested'
    ? { columns: rows, rows: columns, rowsAcross: false }
    : { columns, rows, rowsAcross: !rowsAcross };

/** The same plan, its width and depth exchanged. */
export const across = (plan: Plan): Plan => ({
  ...plan,
  ...rowsTurned(plan),
  width: plan.depth,
  depth: plan.width,
  spots: () => plan.spots().map(s => ({ ...s, x: s.y, y: s.x })),
});

export const PATTERNS = ['grid', 'staggered', 'mixed', 'nested'] as const;
/** The simpler pattern of two is the one that people lay out without thinking. */
export const simpler = (a: (typeof PATTERNS)[number], b: (typeof PATTERNS)[number]): number =>
  PATTERNS.indexOf(a) - PATTERNS.indexOf(b);

/** The plans that no other beats on both sides, whichever way it lies; of equals the simplest. */
export function leastOf(plans: readonly Plan[]): Plan[] {
  const long = (p: Plan) => Math.max(p.width, p.depth);
  const short = (p: Plan) => Math.min(p.width, p.depth);
  const sorted = [...plans].sort(
    (a, b) => long(a) - long(b) || short(a) - short(b) || simpler(a.pattern, b.pattern),
  );
  let least = Number.POSITIVE_INFINITY;
  return sorted.filter(plan => {
    const better = short(plan) < least - SAME_POINT_MM;
    if (better) least = short(plan);
    return better;
  });
}
