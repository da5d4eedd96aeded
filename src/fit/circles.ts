/**
 * Equal circles on a plane: straight rows, and rows moved by half a place so that each circle lies
 * between two of the row before. Pulled apart within the rows, such rows move closer together: from
 * the densest packing (pitch 1 diameter) to the same one seen from its other side (√3). In a square,
 * straight or staggered rows are the optimum for 1, 2, 4 to 6, 9, 12, 16, 18, 25 and 27 circles (Szabó et
 * al., New Approaches to Circle Packing in a Square, 2007).
 */
import { gridIn, gridsFor, type Plan, range, stepsIn } from './plan.js';

/** Which rows are one shorter: every second, beginning with the second or the first, or none. */
export type Stagger = 'long-first' | 'short-first' | 'even';
const STAGGERS: readonly Stagger[] = ['long-first', 'short-first', 'even'];

const ROOT_3 = Math.sqrt(3);

/** From row to row, for circles `pitch` apart in a row. */
const riseOf = (pitch: number, diameter: number): number =>
  Math.sqrt(Math.max(0, diameter * diameter - (pitch * pitch) / 4));

const inRow = (columns: number, row: number, stagger: Stagger): number =>
  columns - (stagger === 'even' || (row % 2 === 0) === (stagger === 'long-first') ? 0 : 1);

function totalOf(columns: number, rows: number, stagger: Stagger): number {
  if (stagger === 'even') return columns * rows;
  const odd = Math.floor(rows / 2);
  return columns * rows - (stagger === 'long-first' ? odd : rows - odd);
}

/** Rows of `columns` circles, `pitch` apart; `rise` from row to row keeps neighbours a diameter
 *  apart if it is not given. */
export function staggeredPlan(
  columns: number,
  rows: number,
  stagger: Stagger,
  diameter: number,
  pitch = diameter,
  rise = riseOf(pitch, diameter),
): Plan {
  const half = pitch / 2;
  return {
    pattern: 'staggered',
    width: (columns - 1) * pitch + diameter + (stagger === 'even' ? half : 0),
    depth: (rows - 1) * rise + diameter,
    columns,
    rows,
    rowsAcross: false,
    total: totalOf(columns, rows, stagger),
    spots: () =>
      range(rows).flatMap(j => {
        const moved = stagger === 'even' ? j % 2 === 1 : inRow(columns, j, stagger) < columns;
        return range(inRow(columns, j, stagger)).map(i => ({
          x: diameter / 2 + i * pitch + (moved ? half : 0),
          y: diameter / 2 + j * rise,
          row: j,
        }));
      }),
  };
}

/** The fewest rows that hold `count`, at least two; undefined where there never are enough. */
function rowsFor(count: number, columns: number, stagger: Stagger): number | undefined {
  if (columns < (stagger === 'even' ? 1 : 2)) return undefined;
  // Two rows hold 2·columns, or one less: so many pairs are too few by less than three rows.
  const pair = 2 * columns - (stagger === 'even' ? 0 : 1);
  const least = Math.max(2, 2 * Math.floor(count / pair));
  return [least, least + 1, least + 2].find(rows => totalOf(columns, rows, stagger) >= count);
}

/** The pitch at which the rows take up a square, if there is one. */
function squarePitch(columns: number, rows: number, stagger: Stagger): number | undefined {
  // (columns − 1 + ½ if even) · p = (rows − 1) · √(1 − p²/4), in diameters.
  const a = columns - 1 + (stagger === 'even' ? 0.5 : 0);
  const b = rows - 1;
  const pitch = b / Math.sqrt(a * a + (b * b) / 4);
  return pitch > 1 && pitch <= ROOT_3 ? pitch : undefined;
}

/** Plans for `count` circles, each with its rows along the width; the other way is for the caller. */
export function circlePlans(count: number, diameter: number): Plan[] {
  const plans = gridsFor(count, diameter, diameter);
  for (const stagger of STAGGERS) {
    for (let columns = 1; columns <= count; columns++) {
      const rows = rowsFor(count, columns, stagger);
      if (rows === undefined || totalOf(columns - 1, rows, stagger) >= count) continue;
      plans.push(staggeredPlan(columns, rows, stagger, diameter));
      const pitch = squarePitch(columns, rows, stagger);
      if (pitch) plans.push(staggeredPlan(columns, rows, stagger, diameter, pitch * diameter));
    }
  }
  return plans;
}

/** Sections through `count` lying rounds, seen along their axes: straight piles, and rows in the
 *  grooves of the row below, each with its width and height. Neighbours in a row are `pitch` apart. */
export function sectionsFor(count: number, diameter: number, pitch: number): Section[] {
  const straight = gridsFor(count, pitch, diameter).map(plan => ({ plan, grooved: false }));
  return [...straight, ...groovesFor(count, diameter, pitch)];
}

export interface Section {
  readonly plan: Plan;
  /** Its width begins and ends at a round, with no half gaps there. */
  readonly grooved: boolean;
}

/** A row that rests on one longer than itself, or as long and held by the wall. */
const RESTING: readonly Stagger[] = ['long-first', 'even'];

function groovesFor(count: number, diameter: number, pitch: number): Section[] {
  // Too far apart, a row would sink until it touched the row below the next.
  if (!(pitch <= ROOT_3 * diameter)) return [];
  return RESTING.flatMap(stagger =>
    range(count).flatMap(i => {
      const rows = rowsFor(count, i + 1, stagger);
      if (rows === undefined || totalOf(i, rows, stagger) >= count) return [];
      return { plan: staggeredPlan(i + 1, rows, stagger, diameter, pitch), grooved: true };
    }),
  );
}

/** The largest sections in a width and a height, of at most `most` rows. */
export function sectionsIn(
  width: number,
  height: number,
  diameter: number,
  pitch: number,
  most: number,
): Section[] {
  const between = pitch - diameter;
  const low = Math.min(height, most * diameter);
  const straight = { plan: gridIn(width + between, low, pitch, diameter), grooved: false };
  if (!(pitch <= ROOT_3 * diameter)) return [straight];
  const rows = Math.min(most, stepsIn(height - diameter, riseOf(pitch, diameter)) + 1);
  const plan = rows < 2 ? undefined : filled(width, rows, diameter, pitch);
  return plan ? [straight, { plan, grooved: true }] : [straight];
}

/** Staggered rows of the densest kind on an area: the most rows, each as long as it can be. */
export function densestIn(width: number, depth: number, diameter: number): Plan | undefined {
  const rows = stepsIn(depth - diameter, riseOf(diameter, diameter)) + 1;
  return rows < 1 ? undefined : filled(width, rows, diameter, diameter);
}

/** Staggered rows along the width of an area, pulled apart as the depth allows. */
export function staggeredIn(width: number, depth: number, diameter: number): Plan | undefined {
  const most = stepsIn(depth - diameter, diameter / 2) + 1;
  const plans = range(most - 1).flatMap(i => {
    const rows = i + 2;
    const rise = Math.min((depth - diameter) / (rows - 1), diameter);
    const pitch = Math.max(diameter, 2 * riseOf(2 * rise, diameter));
    return filled(width, rows, diameter, pitch) ?? [];
  });
  return plans.reduce<Plan | undefined>((a, b) => (a && a.total >= b.total ? a : b), undefined);
}

function filled(width: number, rows: number, diameter: number, pitch: number): Plan | undefined {
  const long = stepsIn(width - diameter, pitch) + 1;
  if (long < 1) return undefined;
  const other = stepsIn(width - diameter - pitch / 2, pitch) + 1;
  if (other === long) return staggeredPlan(long, rows, 'even', diameter, pitch);
  // A single circle has no two beside it to lie between.
  return long > 1 ? staggeredPlan(long, rows, 'long-first', diameter, pitch) : undefined;
}

/** All ways that are worth trying on an area, rows along the width. */
export const circlesIn = (width: number, depth: number, diameter: number): Plan[] => {
  const staggered = staggeredIn(width, depth, diameter);
  const grid = gridIn(width, depth, diameter, diameter);
  return staggered ? [grid, staggered] : [grid];
};
