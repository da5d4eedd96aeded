import { describe, expect, it } from 'vitest';
import {
  cubic,
  endOf,
  openPath,
  partOf,
  pathLength,
  polar,
  rectangle,
  roundedPolygon,
} from '../../src/geom/index.js';

describe('part of a path', () => {
  it('runs over corners', () => {
    const part = partOf(rectangle(0, 0, 10, 4), 8, 15);
    expect(part.start).toEqual([8, 0]);
    expect(part.segments.map(s => s.to)).toEqual([
      [10, 0],
      [10, 4],
      [9, 4],
    ]);
    expect(part.closed).toBe(false);
  });

  it('cuts an arc at its angle', () => {
    const disc = roundedPolygon(
      [
        [-5, -5],
        [5, -5],
        [5, 5],
        [-5, 5],
      ],
      5,
    );
    const quarter = (5 * Math.PI) / 2;
    const part = partOf(disc, quarter / 3, quarter);
    const from = Math.atan2(disc.start[1], disc.start[0]);
    const [x, y] = polar(5, from + Math.PI / 6);
    expect(part.start).toEqual([expect.closeTo(x, 12), expect.closeTo(y, 12)]);
    expect(part.segments).toHaveLength(1);
    expect(pathLength(part)).toBeCloseTo((quarter * 2) / 3, 12);
  });

  it('cuts a cubic at its length', () => {
    // The length of this curve is exactly 200, half of it to its top (check-values section 3.2).
    const arch = openPath([0, 0], [cubic([0, 100], [100, 100], [100, 0])]);
    const half = partOf(arch, 0, 100);
    expect(endOf(half)).toEqual([expect.closeTo(50, 6), expect.closeTo(75, 6)]);
    const piece = partOf(arch, 30, 55);
    expect(pathLength(piece)).toBeCloseTo(25, 6);
  });

  it('adds up: parts are as long as the whole', () => {
    const card = roundedPolygon(
      [
        [0, 0],
        [30, 0],
        [40, 25],
        [0, 20],
      ],
      3,
    );
    const whole = pathLength(card);
    let sum = 0;
    for (let i = 0; i < 7; i++)
      sum += pathLength(partOf(card, (i * whole) / 7, ((i + 1) * whole) / 7));
    expect(sum).toBeCloseTo(whole, 9);
  });

  it('throws for a part of nothing', () => {
    expect(() => partOf(rectangle(0, 0, 1, 1), 2, 2)).toThrow(RangeError);
    expect(() => partOf(rectangle(0, 0, 1, 1), Number.NaN, 2)).toThrow(RangeError);
  });
});
