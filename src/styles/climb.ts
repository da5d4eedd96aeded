/** Paper that climbs over other paper without a score. */
import type { Bend } from '../model.js';

/**
 * Standing on its foot, a flap rises by `by` mm (toward the inside) over `over` mm of its length,
 * from `from` mm above the foot on, and runs straight again: two arcs, one against the other.
 */
export function climb(from: number, over: number, by: number): Bend {
  // Together they rise by over · (1 − cos a) / a: solved by Newton's method from the answer for a
  // small angle, which eight steps make exact for any slope that paper takes.
  const slope = by / over;
  let a = 2 * slope;
  for (let i = 0; i < 8; i++) {
    const f = (1 - Math.cos(a)) / a - slope;
    const df = Math.sin(a) / a - (1 - Math.cos(a)) / (a * a);
    a -= f / df;
  }
  return {
    from: [0, from],
    across: [0, 1],
    stretches: [
      { length: over / 2, turn: a },
      { length: over / 2, turn: -a },
    ],
  };
}

/** How much shorter than in the flat it reaches, mm. */
export const lostBy = ({ stretches }: Bend): number =>
  stretches.reduce((sum, { length, turn }) => sum + length * (1 - Math.sin(turn) / turn), 0);
