/** Fits of marks, against published and computed examples. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/model.js';
import {
  fitMove,
  MODELS,
  type Move,
  moved,
  type Sighting,
  squares,
} from '../../src/register/fit.js';

const sightings = (at: readonly Point[], seen: readonly Point[]): Sighting[] =>
  at.map((p, i) => ({ name: String(i), at: p, seen: seen[i]! }));
const scaleOf = ({ a, b }: Move) => Math.hypot(a, b);
const turnOf = ({ a, b }: Move) => (Math.atan2(b, a) * 180) / Math.PI;

describe('the paper of Umeyama (1991): three points that nearly ask for a mirror', () => {
  const marks = sightings(
    [
      [0, 0],
      [1, 0],
      [0, 2],
    ],
    [
      [0, 0],
      [-1, 0],
      [0, 2],
    ],
  );
  it('similarity: scale 0.7211, turn −33.69°, shift (−0.8, 0.4), mean square 8/15', () => {
    const move = fitMove('similarity', marks);
    expect(scaleOf(move)).toBeCloseTo(0.7211102551, 9);
    expect(turnOf(move)).toBeCloseTo(-33.690068, 6);
    expect([move.e, move.f]).toEqual([expect.closeTo(-0.8, 12), expect.closeTo(0.4, 12)]);
    expect(squares(move, marks) / 3).toBeCloseTo(8 / 15, 12);
  });
  // The rigid figures were computed from the same formulas by another program.
  it('rigid: the same turn, shift (−0.98048, 0.29687), mean square 0.61975', () => {
    const move = fitMove('rigid', marks);
    expect(scaleOf(move)).toBeCloseTo(1, 12);
    expect(turnOf(move)).toBeCloseTo(-33.690068, 6);
    expect(move.e).toBeCloseTo(-0.9804835623, 9);
    expect(move.f).toBeCloseTo(0.2968665358, 9);
    expect(squares(move, marks) / 3).toBeCloseTo(0.6197549887, 9);
  });
});

// Points: scikit-image, tests of skimage.transform (BSD-3-Clause); results computed from the textbook
// formulas by another program.
describe('the eight points of scikit-image', () => {
  const marks = sightings(
    [
      [-12.3705, -10.5075],
      [-10.7865, 15.4305],
      [8.6985, 10.8675],
      [11.4975, -9.5715],
      [7.8435, 7.4835],
      [-5.3325, 6.5025],
      [6.7905, -6.3765],
      [-6.1695, -0.8235],
    ],
    [
      [0, 0],
      [0, 5800],
      [4900, 5800],
      [4900, 0],
      [4479, 4580],
      [1176, 3660],
      [3754, 790],
      [1024, 1931],
    ],
  );
  const rms = (move: Move) => Math.sqrt(squares(move, marks) / marks.length);
  it('similarity', () => {
    const move = fitMove('similarity', marks);
    expect(scaleOf(move)).toBeCloseTo(236.395028431, 6);
    expect(turnOf(move)).toBeCloseTo(1.354428891, 7);
    expect(move.e).toBeCloseTo(2533.156939, 4);
    expect(move.f).toBeCloseTo(2435.823263, 4);
    expect(rms(move)).toBeCloseTo(446.924995, 4);
  });
  it('affine', () => {
    const move = fitMove('affine', marks);
    expect(move.a).toBeCloseTo(225.739300468, 6);
    expect(move.c).toBeCloseTo(7.158859676, 6);
    expect(move.e).toBeCloseTo(2512.662201191, 5);
    expect(move.b).toBeCloseTo(21.234856855, 6);
    expect(move.d).toBeCloseTo(249.310195553, 6);
    expect(move.f).toBeCloseTo(2414.386218289, 5);
    expect(rms(move)).toBeCloseTo(379.224724, 4);
  });
});

const CORNERS: readonly Point[] = [
  [10, 10],
  [205.9, 10],
  [205.9, 269.4],
  [10, 269.4],
];
describe('a printed letter sheet, its marks measured to a tenth of a millimetre', () => {
  const tenths: readonly Point[] = [
    [11.2, 9.3],
    [207.5, 10.5],
    [206.0, 270.5],
    [9.6, 269.3],
  ];
  // Computed by another program from the exact positions, rounded.
  it('gives scale 1.002325, turn 0.344688°, shift (1.2183, −0.7732)', () => {
    const marks = sightings(CORNERS, tenths);
    const move = fitMove('similarity', marks);
    expect(scaleOf(move)).toBeCloseTo(1.002325379, 8);
    expect(turnOf(move)).toBeCloseTo(0.344688153, 7);
    expect(move.e).toBeCloseTo(1.218309829, 7);
    expect(move.f).toBeCloseTo(-0.773248839, 7);
    expect(Math.sqrt(squares(move, marks) / 4)).toBeCloseTo(0.027649, 6);
  });
});

describe('every model', () => {
  const near = (span: number) => fc.double({ min: -span, max: span, noNaN: true });
  const fifth: readonly Point[] = [...CORNERS, [70.7, 10]];
  it('gives back a move of its own kind to the bit that matters', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...MODELS),
        fc.tuple(near(0.2), near(0.02), near(0.02), near(20), near(20), near(2e-4), near(2e-4)),
        (model, [turn, grow, shear, e, f, g, h]) => {
          const s = model === 'rigid' ? 1 : 1 + grow;
          const k = model === 'affine' || model === 'projective' ? shear : 0;
          const tilt = model === 'projective' ? { g, h } : { g: 0, h: 0 };
          const [cos, sin] = [s * Math.cos(turn), s * Math.sin(turn)];
          const truth: Move = { model, a: cos, b: sin, c: -sin + k, d: cos, e, f, ...tilt };
          const marks = sightings(
            fifth,
            fifth.map(p => moved(truth, p)),
          );
          const found = fitMove(model, marks);
          for (const p of [
            [0, 0],
            [100, 140],
            [215, 279],
          ] as const) {
            const [x, y] = moved(found, p);
            const [u, v] = moved(truth, p);
            expect(Math.hypot(x - u, y - v)).toBeLessThan(1e-6);
          }
        },
      ),
      { seed: 20, numRuns: 300 },
    );
  });
  it('misses no more than the stiffer one before it', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(near(1), near(1)), { minLength: 5, maxLength: 5 }), noise => {
        const marks = sightings(
          fifth,
          fifth.map(([x, y], i): Point => [x + noise[i]![0], y + noise[i]![1]]),
        );
        const sums = MODELS.map(model => squares(fitMove(model, marks), marks));
        sums.slice(1).forEach((sum, i) => {
          expect(sum).toBeLessThanOrEqual(sums[i]! + 1e-9);
        });
      }),
      { seed: 21, numRuns: 200 },
    );
  });
  it('refuses what the marks do not determine', () => {
    const line: Point[] = [
      [0, 0],
      [50, 0],
      [100, 0],
      [150, 0],
    ];
    expect(() => fitMove('affine', sightings(line, line))).toThrow('one line');
    expect(() => fitMove('projective', sightings(line, line))).toThrow('one line');
    expect(() => fitMove('rigid', sightings([[1, 1]], [[2, 2]]))).toThrow('wants 2 marks');
    const spot: Point[] = [
      [3, 3],
      [3, 3],
    ];
    expect(() => fitMove('similarity', sightings(spot, spot))).toThrow('no turn');
  });
});
