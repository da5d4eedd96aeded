import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, inDecimals, num, onGrid } from '../../src/write/number.js';

describe('num', () => {
  it('is the shortest text of the number on the grid', () =>
    fc.assert(
      fc.property(fc.double({ min: -1e7, max: 1e7, noNaN: true }), v => {
        expect(num(v)).toBe(String(onGrid(v)));
      }),
      { seed: 3, numRuns: 2000 },
    ));

  it.each([
    [0, '0'],
    [-0, '0'],
    [-0.0004, '0'],
    [0.0005, '0.001'],
    [-0.0006, '-0.001'],
    [1 / 3, '0.333'],
    [297, '297'],
    [1e-9, '0'],
    [123456.789, '123456.789'],
  ])('writes %f as %s', (value, text) => expect(num(value)).toBe(text));

  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e8])(
    'throws on %f',
    v => {
      expect(() => num(v)).toThrow(/cannot stand in a file/);
      expect(() => exact(v)).toThrow(/cannot stand in a file/);
    },
  );

  it('is plain decimals within half a step, for any length', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e7, max: 1e7, noNaN: true }), v => {
        const text = num(v);
        expect(text).toMatch(/^(0|-?(0\.(?=\d*[1-9])|[1-9]\d*\.?)\d*)$/);
        // The last term is what a double near 1e7 leaves unsaid.
        expect(Math.abs(Number(text) - v)).toBeLessThanOrEqual(0.0005 + 2e-9);
      }),
      { seed: 11, numRuns: 500 },
    );
  });
});

describe('exact', () => {
  it.each([
    [0.5, '0.5'],
    [-0, '0'],
    [100, '100'],
    [-1e-14, '0'],
    [0.41421356237309503, '0.414213562373'],
  ])('writes %f as %s', (value, text) => expect(exact(value)).toBe(text));
  it('writes every number of a list alike: its place in it is not asked', () => {
    expect([0.5, 0.25, 0.125, 10].map(exact)).toEqual(['0.5', '0.25', '0.125', '10']);
  });
});

describe('in decimals', () => {
  it('rounds to so many and drops what says nothing', () => {
    expect(inDecimals(1.25, 1)).toBe('1.3');
    expect(inDecimals(10.04, 1)).toBe('10');
    expect(() => inDecimals(10, 0)).toThrow(/1 is the fewest/);
  });
});
