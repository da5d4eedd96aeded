/** How long the loops are that a path makes where it crosses itself. */
import Flatbush from 'flatbush';
import { nearestOnStep, type Path, type Point, stepLength, steps } from '../geom/index.js';
import { TIP_MM } from '../units/tolerances.js';
import { roughBox } from './rough-box.js';

/** For each point the length of the loop that the path makes between its first and its last pass; of its ends
 *  beyond it where that is less: an outline that is cut on a little past its start crosses itself there. */
export function loopsAt(path: Path, points: readonly Point[]): number[] {
  if (points.length === 0) return [];
  const all = [...steps(path)];
  const index = new Flatbush(all.length);
  const begins: number[] = [];
  let whole = 0;
  for (const step of all) {
    index.add(...roughBox(step, TIP_MM));
    begins.push(whole);
    whole += stepLength(step);
  }
  index.finish();
  return points.map(at => {
    const passes: number[] = [];
    for (const i of index.search(at[0], at[1], at[0], at[1])) {
      const step = all[i]!;
      const { t, distance } = nearestOnStep(at, step);
      if (distance <= TIP_MM) passes.push(begins[i]! + t * stepLength(step));
    }
    const first = passes.reduce((a, b) => Math.min(a, b), whole);
    const last = passes.reduce((a, b) => Math.max(a, b), 0);
    return passes.length === 0 ? 0 : Math.min(last - first, whole - (last - first));
  });
}
