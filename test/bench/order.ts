/** The order of work: how far above the least known travel, and how soon. The built program is measured. */
import { hasTsplib, readTsplib, TSPLIB, tourOf, tsplibLength } from '../support/tsplib.js';
import { BUSY_BEST_KNOWN_MM, busySheet } from './busy-sheet.js';
import { type Row, warmed } from './measure.js';

const AIM_TSPLIB_GAP = 5;
const AIM_TSPLIB_MS = 2000;
const AIM_SHEET_GAP = 8;
const AIM_SHEET_MS = 1500;

const built = <T>(file: string): Promise<T> =>
  import(new URL(`../../dist/${file}`, import.meta.url).href) as Promise<T>;

export async function order(): Promise<Row[]> {
  return [...(await tsplib()), ...(await sheet())];
}

async function tsplib(): Promise<Row[]> {
  if (!hasTsplib()) {
    process.stdout.write('  no TSPLIB instances in ../shared/data/tsp: their rows are left out\n');
    return [];
  }
  const { shortTour } = await built<typeof import('../../src/tool/tour.js')>('tool/tour.js');
  const rows: Row[] = [];
  for (const name of TSPLIB) {
    const instance = readTsplib(name);
    const length = tsplibLength(tourOf(instance, shortTour));
    const gap = 100 * (length / instance.optimum - 1);
    const ms = await warmed(() => tourOf(instance, shortTour), 3, 7);
    const what = `TSPLIB ${name}`;
    const tour = `${what}: ${length} to the optimum's ${instance.optimum}, above it`;
    rows.push({ what: tour, value: gap, unit: '%', aim: AIM_TSPLIB_GAP });
    rows.push({ what: `${what}: time`, value: ms, unit: 'ms', aim: AIM_TSPLIB_MS });
  }
  return rows;
}

async function sheet(): Promise<Row[]> {
  const { orderPaths } = await built<typeof import('../../src/tool/order.js')>('tool/order.js');
  const paths = busySheet().map(stroke => stroke.path);
  const { travelBefore, travelAfter } = orderPaths(paths);
  const ms = await warmed(() => orderPaths(paths), 3, 7);
  const both = `${travelBefore.toFixed(0)} mm to ${travelAfter.toFixed(0)} mm`;
  const best = `above the best known ${BUSY_BEST_KNOWN_MM} mm`;
  const gap = 100 * (travelAfter / BUSY_BEST_KNOWN_MM - 1);
  return [
    { what: `busy sheet: ${both}, ${best}`, value: gap, unit: '%', aim: AIM_SHEET_GAP },
    { what: 'busy sheet: order of 400 contours', value: ms, unit: 'ms', aim: AIM_SHEET_MS },
  ];
}
