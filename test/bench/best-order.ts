/**
 * The shortest travel that we can find for the busy sheet, to hold the order of a moment against: the same
 * stops with every corner as a beginning and nothing asked but that what is inside comes first, searched
 * long and from many seeds. `npx tsx test/bench/best-order.ts [first seed] [seeds] [kicks]` prints the
 * travel of each; the defaults take some minutes.
 */
import { steps } from '../../src/geom/index.js';
import { holders } from '../../src/tool/nesting.js';
import { type Stop, shortTour, travelOf } from '../../src/tool/tour.js';
import { busySheet } from './busy-sheet.js';

const [first = 1, seeds = 8, kicks = 400_000] = process.argv.slice(2).map(Number);
const from = [0, 0] as const;
const paths = busySheet().map(stroke => stroke.path);
const held = holders(paths);
const stops = paths.map((path, i): Stop => {
  const entries = [...steps(path)].map(step => ({ start: step.from, end: step.from }));
  return { entries, before: held[i]! < 0 ? undefined : held[i]! };
});
let best = Number.POSITIVE_INFINITY;
for (let seed = first; seed < first + seeds; seed++) {
  const found = travelOf(stops, shortTour(stops, { from, kicks, seed }), { from });
  best = Math.min(best, found);
  process.stdout.write(`seed ${seed}: ${found.toFixed(1)} mm, best ${best.toFixed(1)} mm\n`);
}
