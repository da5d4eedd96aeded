/** Where lines lie on other lines, as places to look at. */
import { pointAt, type Step, stepLength } from '../geom/index.js';
import type { Spot } from './spots.js';

/** A stretch of a step by parameter. */
export type Range = readonly [from: number, to: number];

/** Two stretches whose middles are nearer than this are of one heap, mm. */
const SAME_PLACE_MM = 0.1;

/** The ranges of a path's steps that lie on other lines, those that hang together as one: the middle of
 *  each and its length. */
export function stretchesOf(run: readonly Step[], covered: readonly (readonly Range[])[]): Spot[] {
  const out: Spot[] = [];
  let parts: Part[] = [];
  const end = () => {
    if (parts.length > 0) out.push(middleOf(parts));
    parts = [];
  };
  run.forEach((step, i) => {
    for (const range of covered[i]!) {
      const last = parts.at(-1);
      if (!(range[0] === 0 && last?.range[1] === 1 && last.step === run[i - 1])) end();
      parts.push({ step, range, size: (range[1] - range[0]) * stepLength(step) });
    }
  });
  end();
  return out;
}

interface Part {
  readonly step: Step;
  readonly range: Range;
  readonly size: number;
}

function middleOf(parts: readonly Part[]): Spot {
  const size = parts.reduce((sum, p) => sum + p.size, 0);
  let before = 0;
  for (const part of parts) {
    const t = (size / 2 - before) / part.size;
    const [a, b] = part.range;
    if (t <= 1) return { at: pointAt(part.step, a + t * (b - a)), size };
    before += part.size;
  }
  const last = parts.at(-1)!;
  return { at: pointAt(last.step, last.range[1]), size };
}

/** The places of all stretches, however often lines lie there; the longest first. */
export function heapedPlaces(stretches: readonly Spot[]): Spot[] {
  const places = new Map<string, Spot>();
  for (const stretch of stretches) {
    const name = stretch.at.map(v => Math.round(v / SAME_PLACE_MM)).join(' ');
    const there = places.get(name);
    if (!there || stretch.size > there.size) places.set(name, stretch);
  }
  return [...places.values()].sort((a, b) => b.size - a.size);
}
