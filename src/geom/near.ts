/** Whether anything of many steps is near a point: each question looks at few of them. */
import Flatbush from 'flatbush';
import { boxOf } from './crossing.js';
import { distanceToStep } from './distance.js';
import { pointAt, type Step } from './step.js';
import type { Point } from './types.js';
import { length } from './vec.js';

/** Prepares steps for many questions: whether one of them comes nearer to `p` than `least` mm. */
export function nearSteps(all: readonly Step[]): (p: Point, least: number) => boolean {
  if (all.length === 0) return () => false;
  const index = new Flatbush(all.length);
  for (const step of all) {
    const { minX, minY, maxX, maxY } = boxOf(step);
    index.add(minX, minY, maxX, maxY);
  }
  index.finish();
  return ([x, y], least) => {
    let found = false;
    index.search(x - least, y - least, x + least, y + least, i => {
      found ||= distanceToStep([x, y], all[i]!) < least;
      return false;
    });
    return found;
  };
}

/** How far nothing of a step is from its middle, mm. */
export function reachOf(step: Step): { readonly middle: Point; readonly reach: number } {
  const middle = pointAt(step, 0.5);
  const { minX, minY, maxX, maxY } = boxOf(step);
  const [x, y] = middle;
  return { middle, reach: length([Math.max(x - minX, maxX - x), Math.max(y - minY, maxY - y)]) };
}
