import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatLength,
  formatSides,
  type InchDenominator,
  type LengthUnit,
  LONGEST_MM,
  mmToPixels,
  mmToPoints,
  parseLength,
  parseSize,
  roundToFraction,
} from '../../src/units/length.js';

const SEED = 20260;
const fault = (r: object): string => ('fault' in r ? String(r.fault) : '');

describe('parseLength', () => {
  it.each<[string | number, LengthUnit, number]>([
    ['2 1/2in', 'mm', 63.5],
    ['2-1/2"', 'mm', 63.5],
    ['2–1/2 in', 'mm', 63.5],
    ['63.5mm', 'in', 63.5],
    ['6.35 cm', 'in', 63.5],
    ['1/2', 'in', 12.7],
    ['1/2', 'mm', 0.5],
    ['½', 'in', 12.7],
    ['2½ in', 'mm', 63.5],
    ['5⅞"', 'mm', 149.225],
    ['5⅞″', 'mm', 149.225],
    ['¹⁄₁₆ in', 'mm', 1.5875],
    ['2¹⁄₁₆in', 'mm', 52.3875],
    ['2  1/2 inches', 'mm', 63.5],
    ['\u00a02\u00a01/2\u00a0IN ', 'mm', 63.5],
    ['.5in', 'mm', 12.7],
    ['5/2in', 'mm', 63.5],
    ["2''", 'mm', 50.8],
    ['6', 'in', 152.4],
    ['6', 'cm', 60],
    [6, 'in', 152.4],
    [0, 'mm', 0],
    ['10000mm', 'in', LONGEST_MM],
  ])('reads %j with bare numbers in %s as %d mm', (text, unit, mm) => {
    const read = parseLength(text, unit);
    expect(read).toEqual({ mm: expect.closeTo(mm, 9) });
  });

  it.each<[string | number, RegExp]>([
    ['', /empty: write/],
    ['   ', /empty/],
    ['NaN', /"NaN" is not a length/],
    ['Infinity', /not a length/],
    [Number.NaN, /NaN is not a length/],
    [Number.POSITIVE_INFINITY, /Infinity is not a length/],
    ['1/0', /divides by zero/],
    ['2 1/0in', /divides by zero/],
    ['--3', /not a length/],
    ['-3', /negative/],
    ['-3 mm', /negative/],
    ['−3 mm', /negative/],
    [-3, /negative/],
    ['2,5', /comma.*2\.5/],
    ['2,5 mm', /comma.*2\.5/],
    ['3 ft', /feet/],
    ["3'", /feet/],
    ['2\' 6"', /not a length/],
    ['6 m', /unknown unit "m"/],
    ['6 parsec', /unknown unit "parsec"/],
    ['1e9', /powers of ten/],
    ['1e3mm', /powers of ten/],
    [1e9, /at most 10000 mm/],
    ['999999999', /at most 10000 mm/],
    ['2 5/2', /fraction of one or more/],
    ['1 2', /not a length/],
    ['2 - 1/2', /not a length/],
    ['1/2/3', /not a length/],
    ['5.', /not a length/],
    ['1.5/2', /not a length/],
    ['2.5.1', /not a length/],
    ['0x10', /not a length/],
    ['+3', /not a length/],
    ['in', /not a length/],
    ['mm 5', /not a length/],
    ['constructor', /not a length/],
    ['9'.repeat(400), /too long/],
  ])('refuses %j', (text, why) => {
    expect(fault(parseLength(text, 'mm'))).toMatch(why);
  });

  it('lets a minus through only where it is asked to', () => {
    expect(parseLength('-2 1/2in', 'mm', true)).toEqual({ mm: -63.5 });
    expect(parseLength(-3, 'cm', true)).toEqual({ mm: -30 });
    expect(fault(parseLength('--3', 'mm', true))).toMatch(/not a length/);
  });

  it('names the text, shortened, in its fault', () => {
    expect(fault(parseLength('abc', 'mm'))).toContain('"abc"');
    expect(fault(parseLength('x'.repeat(5000), 'mm')).length).toBeLessThan(200);
  });

  it('never throws and never gives a number that is not finite', () => {
    const pieces = fc.stringMatching(/^[0-9 ./\-"'a-z½⅞×,e+]{0,12}$/u);
    fc.assert(
      fc.property(fc.oneof(fc.string(), pieces), text => {
        const read = parseLength(text, 'in');
        if ('mm' in read) expect(read.mm >= 0 && read.mm <= LONGEST_MM).toBe(true);
        else expect(read.fault.length).toBeGreaterThan(10);
      }),
      { seed: SEED, numRuns: 2000 },
    );
  });

  it('tells sides with the unit once', () => {
    expect(formatSides([60, 40.5, 20], 'mm')).toBe('60 × 40.5 × 20 mm');
    expect(formatSides([152.4, 50.8, 28.575], 'in')).toBe('6 × 2 × 1 1/8 in');
    expect(formatSides([], 'mm')).toBe('');
  });
  it('reads back what formatLength writes, to the step that was written', () => {
    const units = fc.constantFrom<LengthUnit>('mm', 'cm', 'in');
    const dens = fc.constantFrom<InchDenominator>(4, 8, 16, 32, 64);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 3000, noNaN: true }), units, dens, (mm, unit, den) => {
        const read = parseLength(formatLength(mm, unit, den), 'mm');
        const step = unit === 'in' ? 25.4 / den / 2 : 0.005;
        expect('mm' in read && Math.abs(read.mm - mm) <= step + 1e-9).toBe(true);
      }),
      { seed: SEED },
    );
  });
});

describe('parseSize', () => {
  it.each<[string, LengthUnit, number[]]>([
    ['6x2x1in', 'mm', [152.4, 50.8, 25.4]],
    ['6 x 2 x 1', 'in', [152.4, 50.8, 25.4]],
    ['150×50×25 mm', 'in', [150, 50, 25]],
    ['2 1/2 X 2½ x 1"', 'mm', [63.5, 63.5, 25.4]],
    ['6in x 50mm x 1 in', 'mm', [152.4, 50, 25.4]],
    ['15 x 5 x 25mm', 'cm', [15, 5, 25]],
  ])('reads %j', (text, unit, mm) => {
    expect(parseSize(text, unit)).toEqual({ mm: mm.map(v => expect.closeTo(v, 9)) });
  });

  it.each<[string, RegExp]>([
    ['6x2', /length x width x height/],
    ['6x2x1x1', /length x width x height/],
    ['', /length x width x height/],
    ['6x2x0', /side of 0/],
    ['6x-2x1', /"-2" is negative/],
    ['6xax1', /"a" is not a length/],
    ['6xx1', /empty/],
    ['6in x 2 x 1', /leaves a unit open/],
    ['6x2x1ft', /feet/],
    ['6x2x99999', /at most/],
    ['6xNaNx1', /not a length/],
  ])('refuses %j', (text, why) => {
    expect(fault(parseSize(text, 'in'))).toMatch(why);
  });
});

describe('inch fractions', () => {
  // check-values.md 1.1, computed table of inch fractions: nearest, half up.
  const table: [number, string, string, string][] = [
    [3, '1/8', '1/8', '1/8'],
    [10, '3/8', '13/32', '25/64'],
    [15, '9/16', '19/32', '19/32'],
    [20, '13/16', '25/32', '25/32'],
    [32, '1 1/4', '1 1/4', '1 17/64'],
    [50, '1 15/16', '1 31/32', '1 31/32'],
    [65, '2 9/16', '2 9/16', '2 9/16'],
    [100, '3 15/16', '3 15/16', '3 15/16'],
    [210, '8 1/4', '8 9/32', '8 17/64'],
    [297, '11 11/16', '11 11/16', '11 11/16'],
  ];
  it.each(table)('%d mm to the nearest 1/16, 1/32 and 1/64', (mm, s, t, u) => {
    expect(formatLength(mm, 'in', 16)).toBe(`${s} in`);
    expect(formatLength(mm, 'in', 32)).toBe(`${t} in`);
    expect(formatLength(mm, 'in', 64)).toBe(`${u} in`);
  });
  it('gives the exact length of the fraction: the table’s errors', () => {
    expect(roundToFraction(3, 16).mm - 3).toBeCloseTo(0.175, 9);
    expect(roundToFraction(15, 16).mm - 15).toBeCloseTo(-0.7125, 9);
    expect(roundToFraction(210, 32).mm - 210).toBeCloseTo(0.34375, 9);
  });
  it.each<[InchDenominator, number]>([
    [16, 0.79375],
    [32, 0.396875],
    [64, 0.1984375],
  ])('is never out by more than 25.4 / (2 × %d)', (den, most) => {
    fc.assert(
      fc.property(fc.double({ min: -5000, max: 5000, noNaN: true }), mm => {
        const f = roundToFraction(mm, den);
        expect(Math.abs(f.mm - mm)).toBeLessThanOrEqual(most + 1e-6);
        expect(f.numerator).toBeLessThan(f.denominator);
      }),
      { seed: SEED },
    );
  });
  it('takes a half up in size, on both sides of zero', () => {
    expect(formatLength(0.79375, 'in')).toBe('1/16 in');
    expect(formatLength(-0.79375, 'in')).toBe('-1/16 in');
    expect(formatLength(25.4 - 0.79375, 'in')).toBe('1 in');
  });
  it.each<[number, LengthUnit, string]>([
    [63.5, 'in', '2 1/2 in'],
    [0, 'in', '0 in'],
    [-0.1, 'in', '0 in'],
    [304.8, 'in', '12 in'],
    [-63.5, 'in', '-2 1/2 in'],
    [63.5, 'mm', '63.5 mm'],
    [-0.001, 'mm', '0 mm'],
    [63.5, 'cm', '6.35 cm'],
  ])('writes %d mm in %s as %s', (mm, unit, text) => {
    expect(formatLength(mm, unit)).toBe(text);
  });
  it('throws on what is not a length', () => {
    expect(() => formatLength(Number.NaN, 'mm')).toThrow(RangeError);
    expect(() => formatLength(Number.POSITIVE_INFINITY, 'in')).toThrow(RangeError);
  });
});

describe('sheet sizes in other units', () => {
  // check-values.md 1.1 (ISO 216; ANSI/ASME Y14.1; 72 points and 96 pixels an inch).
  it.each<[string, number, number, number, number]>([
    ['A4', 210, 8.2677, 595.276, 793.7008],
    ['A4 long', 297, 11.6929, 841.89, 1122.5197],
    ['A3 long', 420, 16.5354, 1190.551, 1587.4016],
    ['Letter', 215.9, 8.5, 612, 816],
    ['Letter long', 279.4, 11, 792, 1056],
    ['Tabloid long', 431.8, 17, 1224, 1632],
    ['12 × 12', 304.8, 12, 864, 1152],
  ])('%s: %d mm', (_, mm, inches, points, pixels) => {
    expect(mm / 25.4).toBeCloseTo(inches, 4);
    expect(mmToPoints(mm)).toBeCloseTo(points, 3);
    expect(mmToPixels(mm)).toBeCloseTo(pixels, 4);
    expect(parseLength(`${inches}in`, 'mm')).toEqual({ mm: expect.closeTo(mm, 2) });
  });
});
