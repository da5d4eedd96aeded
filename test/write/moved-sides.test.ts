/** Sides of convex polygons moved: against closed forms of the square and the regular polygon. */
import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/model.js';
import { isBeside, movedSides } from '../../src/write/moved-sides.js';

const square: Point[] = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
];
const regular = (n: number, radius: number): Point[] =>
  Array.from({ length: n }, (_, i): Point => {
    const t = (2 * Math.PI * i) / n;
    return [radius * Math.cos(t), radius * Math.sin(t)];
  });
const close = (a: readonly Point[], b: readonly Point[]) =>
  expect(a.flat().map(v => v.toFixed(6))).toEqual(b.flat().map(v => v.toFixed(6)));

describe('moved sides', () => {
  it('are parallel to what they were, each by its own length', () => {
    close(
      movedSides(square, k => k + 1),
      [
        [-4, -1],
        [12, -1],
        [12, 13],
        [-4, 13],
      ],
    );
    close(
      movedSides([...square].reverse(), () => -1),
      [
        [1, 9],
        [9, 9],
        [9, 1],
        [1, 1],
      ],
    );
  });

  it.each([3, 5, 60, 720])('make a regular %i-gon of another inner radius', n => {
    const r = 20;
    const grown = (r * Math.cos(Math.PI / n) + 0.5) / Math.cos(Math.PI / n);
    const moved = movedSides(regular(n, r), () => 0.5);
    // Where the polygon is all but straight its corner stands half a hundredth of that nearer.
    for (const [i, [x, y]] of moved.entries()) {
      const [u, v] = regular(n, grown)[i]!;
      expect(Math.hypot(x - u, y - v)).toBeLessThan(1e-3);
    }
  });

  it('do not run away from a sharp corner', () => {
    const needle: Point[] = [
      [0, 0],
      [100, -0.1],
      [100, 0.1],
    ];
    const [tip] = movedSides(needle, () => 1);
    expect(Math.hypot(...tip!)).toBeLessThan(3.001);
  });
});

describe('what lies beside a side', () => {
  const next: Point[] = square.map(([x, y]) => [x + 10, y]);
  it('has its middle on a side, whichever way it runs', () => {
    expect(isBeside(square, 1, next)).toBe(true);
    expect(isBeside(square, 1, [...next].reverse())).toBe(true);
    expect(isBeside([...square].reverse(), 1, next)).toBe(true);
    expect(isBeside([...square].reverse(), 3, next)).toBe(false);
    expect(isBeside(square, 0, next)).toBe(false);
    expect(
      isBeside(
        square,
        1,
        next.map(([x, y]) => [x + 0.1, y]),
      ),
    ).toBe(false);
  });
});
