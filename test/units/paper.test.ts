import { describe, expect, it } from 'vitest';
import {
  basisToGsm,
  caliperFromBulk,
  type Grade,
  parseCaliper,
  parseWeight,
} from '../../src/units/paper.js';

const fault = (r: object): string => ('fault' in r ? String(r.fault) : '');

describe('paper weights', () => {
  // check-values.md 1.2: exact factors from the basis sizes (printwiki; ivexsp).
  it.each<[Grade, number]>([
    ['bond', 3.75973],
    ['cover', 2.704114],
    ['bristol', 2.19281],
    ['index', 1.807958],
    ['tag', 1.627476],
    ['text', 1.480146],
  ])('one pound %s is %d g/m²', (grade, gsm) => {
    expect(basisToGsm(1, grade)).toBeCloseTo(gsm, 6);
  });

  // check-values.md 1.2: the table of lb cover, the worked examples of printwiki (20 lb bond 75.2,
  // 70 lb text 103.6) and the published 67 lb bristol = 147, 50 lb text = 74.
  it.each<[string, number, number]>([
    ['50 lb cover', 135.21, 2],
    ['60 lb cover', 162.25, 2],
    ['65 lb cover', 175.77, 2],
    ['80 lb cover', 216.33, 2],
    ['90 lb cover', 243.37, 2],
    ['100 lb cover', 270.41, 2],
    ['110 lb cover', 297.45, 2],
    ['130 lb cover', 351.53, 2],
    ['20 lb bond', 75.2, 1],
    ['24 lb bond', 90.2, 1],
    ['32lb bond', 120.3, 1],
    ['70 lb text', 103.6, 1],
    ['80lb text', 118.4, 1],
    ['80# book', 118.4, 1],
    ['90 lb index', 162.7, 1],
    ['110 lb index', 198.9, 1],
    ['125 lb tag', 203.4, 1],
    ['67 lb bristol', 146.9, 1],
    ['176 gsm', 176, 9],
    ['176 g/m2', 176, 9],
    ['176 g/m²', 176, 9],
    ['176GSM', 176, 9],
    [' 65  LB.  Cover ', 175.77, 2],
  ])('reads %j as %d g/m²', (text, gsm, places) => {
    expect(parseWeight(text)).toEqual({ gsm: expect.closeTo(gsm, places) });
  });

  it.each<[string, RegExp]>([
    ['', /not a paper weight/],
    ['176', /not a paper weight/],
    ['110 lb', /no grade/],
    ['110 lb velvet', /unknown grade "velvet"/],
    ['110 lb constructor', /unknown grade/],
    ['176 gsm cover', /mixes/],
    ['-5 gsm', /not a paper weight/],
    ['NaN gsm', /not a paper weight/],
    ['0 gsm', /from 10 to 2000/],
    ['99999 gsm', /from 10 to 2000/],
    ['65 lb cover and more', /not a paper weight/],
  ])('refuses %j', (text, why) => {
    expect(fault(parseWeight(text))).toMatch(why);
  });
});

describe('thickness', () => {
  it('comes from bulk: 180 g/m² card of 230 µm has bulk 1.28 (check-values.md 1.3)', () => {
    expect(caliperFromBulk(180, 1.28)).toBeCloseTo(0.23, 3);
    expect(() => caliperFromBulk(0, 1.3)).toThrow(RangeError);
    expect(() => caliperFromBulk(180, Number.NaN)).toThrow(RangeError);
  });
  // 1 point = 1 mil = 0.001 in = 25.4 µm (check-values.md 1.3).
  it.each<[string, number]>([
    ['0.3mm', 0.3],
    ['.3 mm', 0.3],
    ['12pt', 0.3048],
    ['12 mil', 0.3048],
    ['300 µm', 0.3],
    ['300 μm', 0.3],
    ['300um', 0.3],
    ['300 microns', 0.3],
    ['0.012in', 0.3048],
    ['0.012"', 0.3048],
  ])('reads %j as %d mm', (text, mm) => {
    expect(parseCaliper(text)).toEqual({ mm: expect.closeTo(mm, 9) });
  });
  it.each<[string, RegExp]>([
    ['', /not a thickness/],
    ['0.3', /not a thickness/],
    ['12 lb', /not a thickness/],
    ['0 mm', /from 0.02 to 5/],
    ['12 mm', /from 0.02 to 5/],
    ['0.3pt', /0\.0076 mm/],
    ['-1mm', /not a thickness/],
    ['1,2mm', /not a thickness/],
  ])('refuses %j', (text, why) => {
    expect(fault(parseCaliper(text))).toMatch(why);
  });
});
