/** Which model the marks of a sheet justify, and which marks are not believed. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/model.js';
import { type Alignment, align, type Refusal } from '../../src/register/align.js';
import { type Move, moved, type Sighting } from '../../src/register/fit.js';

/** A letter sheet's five marks. */
const MARKS: readonly (readonly [string, Point])[] = [
  ['lower-left', [10, 10]],
  ['lower-right', [205.9, 10]],
  ['upper-right', [205.9, 269.4]],
  ['upper-left', [10, 269.4]],
  ['fifth', [70.7, 10]],
];
const at = (move: Move, noise: readonly Point[] = [], names = MARKS.map(m => m[0])): Sighting[] =>
  MARKS.filter(m => names.includes(m[0])).map(([name, p], i) => {
    const [x, y] = moved(move, p);
    const [dx, dy] = noise[i] ?? [0, 0];
    return { name, at: p, seen: [x + dx, y + dy] };
  });
const turn = (degrees: number, scale = 1): Omit<Move, 'model'> => {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return {
    a: scale * cos,
    b: scale * sin,
    c: -scale * sin,
    d: scale * cos,
    e: 1.2,
    f: -0.8,
    g: 0,
    h: 0,
  };
};
const RIGID: Move = { model: 'rigid', ...turn(0.35) };
const SMALL: Move = { model: 'similarity', ...turn(0.35, 0.996) };
const SKEWED: Move = { ...RIGID, model: 'affine', c: RIGID.c + 0.005 };
const PHOTO: Move = { ...RIGID, model: 'projective', g: 6e-5, h: -4e-5 };
const ruler = { precision: 0.1 };
/** Half a step of a rule read to tenths, one way or the other, by a fixed pattern. */
const READ: readonly Point[] = [
  [0.05, -0.04],
  [-0.05, 0.03],
  [0.02, 0.05],
  [-0.04, -0.05],
  [0.05, 0.02],
];

const sound = (result: Alignment | Refusal): Alignment => {
  if ('refused' in result) throw new Error(result.refused);
  return result;
};
const refusal = (result: Alignment | Refusal): string => {
  if (!('refused' in result)) throw new Error(`taken: ${result.why}`);
  return result.refused;
};

describe('the model', () => {
  for (const [move, model] of [
    [RIGID, 'rigid'],
    [SMALL, 'similarity'],
    [SKEWED, 'affine'],
  ] as const) {
    it(`is ${model} where the sheet is, and the marks were read to tenths`, () => {
      const result = sound(align(at(move, READ), ruler));
      expect(result.move.model).toBe(model);
      expect(result.why).toContain(model);
      expect(Math.max(...result.residuals.map(r => r.by))).toBeLessThan(0.15);
      for (const p of [
        [20, 30],
        [110, 150],
        [200, 260],
      ] as const) {
        const [x, y] = moved(result.move, p);
        const [u, v] = moved(move, p);
        expect(Math.hypot(x - u, y - v)).toBeLessThan(0.2);
      }
    });
  }
  it('is projective only where asked for, or with marks enough to tell a tilt from a misread corner', () => {
    const asked = sound(align(at(PHOTO, READ), { ...ruler, model: 'projective' }));
    expect(Math.max(...asked.residuals.map(r => r.by))).toBeLessThan(0.15);
    expect(refusal(align(at(PHOTO, READ), ruler))).toContain('No move fits');
    const more = [
      ...MARKS,
      ...(
        [
          [205.9, 140],
          [10, 140],
          [110, 269.4],
        ] as const
      ).map((p, i) => [`more-${i}`, p] as const),
    ];
    const many = more.map(([name, p]): Sighting => ({ name, at: p, seen: moved(PHOTO, p) }));
    expect(sound(align(many, ruler)).move.model).toBe('projective');
  });
  it('is stiff where nothing but the reading differs: rarely softer than it should be', () => {
    let softer = 0;
    const runs = 300;
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 2 ** 31 - 2 }), { minLength: 1, maxLength: 1 }),
        ([seed]) => {
          // Normal noise by Box and Muller from Park and Miller's generator.
          let state = seed!;
          const next = () => {
            state = (state * 48271) % 2147483647;
            return state / 2147483647;
          };
          const normal = () =>
            0.1 * Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next());
          const noise = MARKS.map((): Point => [normal(), normal()]);
          const result = align(at(RIGID, noise), ruler);
          if (!('refused' in result) && result.move.model !== 'rigid') softer++;
        },
      ),
      { seed: 23, numRuns: runs },
    );
    // At the 99 % point, some 1 in 100 for each step and for the start.
    expect(softer).toBeLessThan(runs * 0.05);
  });
  it('is a similarity from two marks, and says that nothing checks it', () => {
    const result = sound(align(at(SMALL, [], ['lower-left', 'upper-right']), ruler));
    expect(result.move.model).toBe('similarity');
    expect(result.warnings.join()).toContain('nothing is left to check');
    // Two marks that keep their distance say nothing of a change of size.
    expect(sound(align(at(RIGID, READ, ['lower-left', 'upper-right']), ruler)).move.model).toBe(
      'rigid',
    );
  });
  it('is affine from three marks at most', () => {
    const three = ['lower-left', 'lower-right', 'upper-left'];
    expect(sound(align(at(SKEWED, [], three), { precision: 0.02 })).move.model).toBe('affine');
  });
  it('may be asked for', () => {
    expect(sound(align(at(RIGID, READ), { ...ruler, model: 'affine' })).move.model).toBe('affine');
    expect(
      refusal(align(at(RIGID, [], ['lower-left', 'lower-right']), { ...ruler, model: 'affine' })),
    ).toContain('affine needs 3 or more');
  });
});

describe('what is not believed', () => {
  it('one mark that was misread is named, with where it should be', () => {
    for (const [name] of MARKS) {
      const marks = at(SMALL, READ).map(s =>
        s.name === name ? { ...s, seen: [s.seen[0] + 2.5, s.seen[1] - 1] as const } : s,
      );
      const words = refusal(align(marks, ruler));
      expect(words).toContain(`The mark ${name}`);
      expect(words).toMatch(/put it 2\.\d+ mm left and [01]\.\d+ mm up/);
    }
  });
  it('a comma in the wrong place: 12 mm for 1.2', () => {
    const marks = at(RIGID).map((s, i) =>
      i === 2 ? { ...s, seen: [s.seen[0] + 10.8, s.seen[1]] as const } : s,
    );
    expect(refusal(align(marks, ruler))).toContain('upper-right');
  });
  it('a sheet turned, or face down', () => {
    const half: Move = { model: 'rigid', a: -1, b: 0, c: 0, d: -1, e: 215.9, f: 279.4, g: 0, h: 0 };
    expect(refusal(align(at(half), ruler))).toContain('turned by 180° (allowed: up to 30°)');
    const mirrored: Move = { model: 'affine', a: -1, b: 0, c: 0, d: 1, e: 215.9, f: 0, g: 0, h: 0 };
    expect(refusal(align(at(mirrored), ruler))).toMatch(
      /mirrored: the way round by lower-left, .*, fifth turns the other way/,
    );
  });
  it('of no size that a printer makes: another unit, a decimal point that slipped', () => {
    const sized = (scale: number, names?: string[]) =>
      align(at({ model: 'similarity', ...turn(0, scale) }, [], names), ruler);
    for (const scale of [10, 1 / 25.4, 0.79, 1.26]) {
      for (const names of [undefined, ['lower-left', 'upper-right']]) {
        const told = refusal(sized(scale, names));
        expect(told).toContain(`lie ${scale.toPrecision(3)} times as far apart`);
        expect(told).toContain('(allowed: 0.8 to 1.25)');
      }
    }
    for (const scale of [0.94, 1.03]) sound(sized(scale));
  });
  it('marks in one line, and too few', () => {
    expect(refusal(align(at(RIGID, [], ['lower-left', 'lower-right', 'fifth']), ruler))).toContain(
      'one line',
    );
    expect(refusal(align(at(RIGID, [], ['fifth']), ruler))).toContain('1 mark measured');
  });
  it('marks that nothing brings together', () => {
    const wild = at(RIGID, [
      [3, 0],
      [0, -4],
      [-3, 2],
      [2, 4],
      [-4, -3],
    ]);
    expect(refusal(align(wild, ruler))).toContain('Measure again');
  });
});
