import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leftPart, type Side } from '../../src/geom/half-plane.js';
import {
  circle,
  clockwise,
  closedSpline,
  intersectRegions,
  polar,
  regionArea,
} from '../../src/geom/index.js';
import type { Point, Region } from '../../src/model.js';

const SEED = 7;
/** A wavy ring with a round hole: cut by most lines more than twice. */
const star: Region = {
  outer: closedSpline(
    Array.from({ length: 12 }, (_, i): Point => polar(i % 2 === 0 ? 20 : 11, (i * Math.PI) / 6)),
  ),
  holes: [clockwise(circle([1, 0.5], 6))],
};
const side = (angle: number, away: number): Side => ({
  at: polar(away, angle + Math.PI / 2),
  along: polar(1, angle),
});
const sum = (parts: readonly Region[]) => parts.reduce((s, r) => s + regionArea(r), 0);

describe('cut along a line', () => {
  it('both sides make the whole, and each is what it shares with a large square', () => {
    let cut = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 359 }),
        fc.integer({ min: -190, max: 190 }),
        (degrees, tenths) => {
          const angle = (degrees * Math.PI) / 180 + 0.003;
          const line = side(angle, tenths / 10);
          const left = leftPart(star, line);
          const right = leftPart(star, side(angle + Math.PI, -tenths / 10));
          if (!left || !right) return;
          cut += 1;
          expect(sum(left) + sum(right)).toBeCloseTo(sum([star]), 6);
          const corners = [0, 100].flatMap(v => [-100, 100].map(u => [u, v] as const));
          const [a, b, c, d] = [corners[0]!, corners[1]!, corners[3]!, corners[2]!].map(
            ([u, v]): Point => [
              line.at[0] + u * line.along[0] - v * line.along[1],
              line.at[1] + u * line.along[1] + v * line.along[0],
            ],
          );
          const square: Region = {
            outer: {
              start: a!,
              segments: [b!, c!, d!, a!].map(to => ({ kind: 'line', to })),
              closed: true,
            },
            holes: [],
          };
          expect(sum(left)).toBeCloseTo(sum(intersectRegions([star], [square])), 5);
        },
      ),
      { seed: SEED, numRuns: 80 },
    );
    expect(cut).toBeGreaterThan(70);
  });
  it('leaves corners on the line to a closer look', () => {
    const triangle: Region = {
      outer: {
        start: [0, 0],
        segments: [
          { kind: 'line', to: [10, 0] },
          { kind: 'line', to: [5, 8] },
          { kind: 'line', to: [0, 0] },
        ],
        closed: true,
      },
      holes: [],
    };
    expect(leftPart(triangle, { at: [0, 0], along: [1, 0] })).toBeUndefined();
    expect(leftPart(triangle, { at: [0, 1], along: [1, 0] })).toHaveLength(1);
    expect(leftPart(triangle, { at: [0, -1], along: [1, 0] })).toEqual([triangle]);
    expect(leftPart(triangle, { at: [0, -1], along: [-1, 0] })).toEqual([]);
  });
});
