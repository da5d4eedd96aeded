/** Where a step may be, quickly. */
import { distance, type Step } from '../geom/index.js';

type Box = [minX: number, minY: number, maxX: number, maxY: number];

/** Bounds with `room` mm about them, a little too wide for curves. */
export function roughBox({ from, segment }: Step, room: number): Box {
  const points = segment.kind === 'cubic' ? [segment.c1, segment.c2] : [];
  let more = room;
  if (segment.kind === 'arc') {
    // An arc lies within its sagitta of its chord, or within its radius of it.
    more += (Math.abs(segment.bulge) * distance(from, segment.to)) / 2;
    if (Math.abs(segment.bulge) > 1) more *= 2;
  }
  const xs = [from, segment.to, ...points].map(p => p[0]);
  const ys = [from, segment.to, ...points].map(p => p[1]);
  return [
    Math.min(...xs) - more,
    Math.min(...ys) - more,
    Math.max(...xs) + more,
    Math.max(...ys) + more,
  ];
}
