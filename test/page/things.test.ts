import { describe, expect, it } from 'vitest';
import { rimOf, ringsOf, spaceLines, type Thing } from '../../src/page/things.js';

const AT = [20, 30, 12] as const;
const sizes = {
  block: [30, 20, 10],
  cylinder: [18, 18, 24],
  ball: [16, 16, 16],
  pouch: [60, 40, 14],
} as const;

describe.each(['block', 'cylinder', 'ball', 'pouch'] as const)('a treat that is a %s', shape => {
  const thing: Thing = { at: AT, size: sizes[shape], shape, axis: 2 };

  it('fills the least box around it and stays in it', () => {
    for (const k of [0, 1, 2] as const) {
      const values = rimOf(thing).map(p => p[k]);
      const half = thing.size[k] / 2;
      // Circles are drawn by their points: a little within.
      expect(Math.min(...values)).toBeGreaterThanOrEqual(AT[k] - half - 1e-9);
      expect(Math.min(...values)).toBeLessThan(AT[k] - half * 0.98);
      expect(Math.max(...values)).toBeLessThanOrEqual(AT[k] + half + 1e-9);
      expect(Math.max(...values)).toBeGreaterThan(AT[k] + half * 0.98);
    }
  });
});

it('draws a pouch thin at its seam and thick in its middle', () => {
  const pouch: Thing = { at: AT, size: sizes.pouch, shape: 'pouch', axis: 2 };
  const [seam, ...sides] = ringsOf(pouch);
  for (const p of seam!) expect(p[2]).toBeCloseTo(AT[2], 9);
  expect(sides.length).toBe(2);
  for (const ring of sides) {
    expect(Math.max(...ring.map(p => Math.abs(p[0] - AT[0])))).toBeLessThan(30 * 0.9);
    for (const p of ring) expect(Math.abs(p[2] - AT[2])).toBeGreaterThan(4);
  }
});

it('draws the clear space of a round box round', () => {
  const lines = spaceLines([50, 50, 20], true).flat();
  for (const [x, y] of lines) expect(Math.hypot(x - 25, y - 25)).toBeCloseTo(25, 9);
  expect(spaceLines([50, 40, 20], false).length).toBe(6);
});
