/** Paths under moves: each point of the result is where the move puts the point of the path. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  circle,
  closedPath,
  cubic,
  distanceToPath,
  flatten,
  line,
  roundedPolygon,
} from '../../src/geom/index.js';
import type { Path } from '../../src/model.js';
import { carry } from '../../src/register/carry.js';
import { distortionAt, distortionWords } from '../../src/register/distortion.js';
import { type Move, moved } from '../../src/register/fit.js';

const SHAPES: readonly Path[] = [
  circle([100, 120], 40),
  roundedPolygon(
    [
      [10, 10],
      [200, 30],
      [150, 250],
    ],
    12,
  ),
  closedPath(
    [20, 20],
    [cubic([60, 0], [90, 140], [140, 60]), line([180, 200]), cubic([90, 260], [10, 200], [20, 20])],
  ),
];
const MOVES: Readonly<Record<string, Move>> = {
  rigid: { model: 'rigid', a: 0.8, b: 0.6, c: -0.6, d: 0.8, e: 3, f: -2, g: 0, h: 0 },
  affine: { model: 'affine', a: 1.004, b: 0.01, c: 0.006, d: 0.993, e: 1.2, f: -0.7, g: 0, h: 0 },
  photo: { model: 'projective', a: 0.9, b: 0.1, c: -0.06, d: 1.1, e: 5, f: 9, g: 2e-4, h: -3e-4 },
};

describe('a path that is moved', () => {
  for (const [name, move] of Object.entries(MOVES)) {
    it(`is where each of its points is put: ${name}`, () => {
      for (const path of SHAPES) {
        const result = carry(path, move);
        const points = flatten(path, 0.0005);
        const off = Math.max(...points.map(p => distanceToPath(moved(move, p), result)));
        expect(off).toBeLessThan(0.002);
        expect(result.segments.at(-1)!.to).toEqual(result.start);
      }
    });
  }
  it('keeps its arcs where it keeps its shape', () => {
    const [round] = SHAPES;
    expect(carry(round!, MOVES.rigid!).segments.every(s => s.kind === 'arc')).toBe(true);
    expect(carry(round!, MOVES.affine!).segments.some(s => s.kind === 'arc')).toBe(false);
  });
});

describe('a distortion', () => {
  const near = (span: number) => fc.double({ min: -span, max: span, noNaN: true });
  it('is the turn, the sizes and the lean that the move was made of', () => {
    fc.assert(
      fc.property(near(0.5), near(0.02), near(0.02), near(0.02), (turn, growX, growY, lean) => {
        const [sx, sy] = [1 + growX, 1 + growY];
        const up = Math.PI / 2 + turn - lean;
        const [a, b] = [sx * Math.cos(turn), sx * Math.sin(turn)];
        const [c, d] = [(sy * Math.cos(up)) / Math.cos(lean), (sy * Math.sin(up)) / Math.cos(lean)];
        const found = distortionAt(
          { model: 'affine', a, b, c, d, e: 4, f: -3, g: 0, h: 0 },
          [0, 0],
        );
        expect(found.scaleX).toBeCloseTo(sx, 12);
        expect(found.scaleY).toBeCloseTo(sy, 12);
        expect(found.turnDeg).toBeCloseTo((turn * 180) / Math.PI, 10);
        expect(found.skewDeg).toBeCloseTo((lean * 180) / Math.PI, 10);
        expect(found.shift).toEqual([4, -3]);
      }),
      { seed: 22, numRuns: 200 },
    );
  });
  it('is told in words', () => {
    const words = {
      scaleX: 0.996,
      scaleY: 0.996,
      turnDeg: 0.3,
      skewDeg: 0,
      shift: [1.2, -0.8],
    } as const;
    expect(distortionWords(words)).toBe(
      '0.40 % small; turned 0.30° to the left; its middle 1.20 mm right and 0.80 mm down',
    );
    const leaning = { scaleX: 1, scaleY: 1.003, turnDeg: 0, skewDeg: -0.1, shift: [0, 0] } as const;
    expect(distortionWords(leaning)).toContain('leaning 0.10° to the left');
  });
});
