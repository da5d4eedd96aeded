import { describe, expect, it } from 'vitest';
import { circle, line, openPath, rectangle, roundedPolygon } from '../../src/geom/index.js';
import { deviation, sharpest } from './deviation.js';

describe('deviation', () => {
  it('is nothing between a path and itself', () => {
    expect(deviation(circle([0, 0], 5), circle([0, 0], 5))).toBeLessThan(1e-12);
  });
  it('sees a circle grown by 0.1, whichever comes first', () => {
    const [a, b] = [circle([0, 0], 5), circle([0, 0], 5.1)];
    expect(deviation(a, b)).toBeCloseTo(0.1, 9);
    expect(deviation(b, a)).toBeCloseTo(0.1, 9);
  });
  it('sees a bump that only one of the two has, and the middle of a long line', () => {
    const flat = openPath([0, 0], [line([100, 0])]);
    const bump = openPath([0, 0], [line([50, 1]), line([100, 0])]);
    expect(deviation(flat, bump)).toBeGreaterThan(0.99);
    expect(deviation(bump, flat)).toBeGreaterThan(0.99);
  });
});

describe('sharpest', () => {
  it('is a right angle for a rectangle and nothing for a rounded one', () => {
    expect(sharpest(rectangle(0, 0, 30, 20))).toBeCloseTo(Math.PI / 2, 12);
    const corners = [
      [0, 0],
      [30, 0],
      [30, 20],
      [0, 20],
    ] as const;
    expect(sharpest(roundedPolygon(corners, 3))).toBeLessThan(1e-12);
  });
});
