import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rectangle } from '../../src/geom/index.js';
import type { Cutter, Piece, Stock } from '../../src/model.js';
import { largestScale, offerText, sheetNeeded, shrunk, tooBig } from '../../src/sheet/index.js';

const cutter: Cutter = {
  id: 'mat',
  summary: 'mat',
  width: 2000,
  height: 2000,
  margin: 6,
  blade: { offset: 0, overcut: 0, compensatedBy: 'cutter' },
  speed: { draw: 1, score: 1, perforate: 1, cut: 1, register: 1, travel: 1 },
};
const options = { cutter };
const stock = (width: number, height: number): Stock => ({
  id: 'card',
  summary: 'card',
  width,
  height,
  gsm: 200,
  caliper: 0.3,
  caliperFrom: 'bulk',
  grain: 'unknown',
  colour: '#fff',
});
const piece = (w: number, h: number): Piece => ({
  id: 'p',
  title: 'p',
  name: { part: { title: 'p' } },
  stock: 'card',
  count: 1,
  outline: rectangle(3, 4, w, h),
  holes: [],
  strokes: [],
});

it('the largest scale is found within a four-thousandth, and never above it', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.001, max: 1, noNaN: true }), most => {
      let asked = 0;
      const found = largestScale(k => {
        asked++;
        return k <= most;
      });
      expect(found).toBeLessThanOrEqual(most);
      expect(most - found).toBeLessThan(1 / 4000);
      expect(asked).toBeLessThan(20);
    }),
    { seed: 20, numRuns: 200 },
  );
  expect(largestScale(() => false)).toBe(0);
});

it('sizes are rounded down to half a millimetre or a sixteenth of an inch', () => {
  const size = { length: 100, width: 50.8, height: 25.4 };
  expect(shrunk(size, 0.777, 'mm')).toEqual({ length: 77.5, width: 39, height: 19.5 });
  expect(shrunk({ length: 152.4, width: 50.8, height: 25.4 }, 0.5, 'in')).toEqual({
    length: expect.closeTo(76.2, 9),
    width: expect.closeTo(25.4, 9),
    height: expect.closeTo(12.7, 9),
  });
  expect(shrunk(size, 1, 'mm')).toEqual({ length: 100, width: 50.5, height: 25 });
});

describe('the sheet needed', () => {
  it('holds the piece, and a smaller one does not', () => {
    const one = piece(320, 410);
    const [w, h] = sheetNeeded([one], options);
    expect([w, h]).toEqual([332, 422]);
    expect(tooBig(one, stock(w, h), options)).toBeUndefined();
    expect(tooBig(one, stock(w - 0.1, h), options)).toBeDefined();
    expect(tooBig(one, stock(w, h - 0.1), options)).toBeDefined();
  });
  it('is the largest of several', () => {
    expect(sheetNeeded([piece(100, 300), piece(200, 50)], options)).toEqual([212, 312]);
  });
});

it('the offer says what can be done, in the unit of the job', () => {
  const inside = { length: 76.2, width: 50.8, height: 25.4 };
  const sheet = [300, 421.3] as const;
  expect(offerText({ inside, sheet, seams: ['base–back'], asked: false, unit: 'in' })).toBe(
    'split: auto cuts it at the fold base–back, with a flap to glue its parts by; ' +
      'the largest that fits is inside 3 x 2 x 1 in; ' +
      'this one needs a sheet and a cutter of 11 13/16 x 16 5/8 in',
  );
  expect(offerText({ sheet, seams: 'none', asked: true, unit: 'mm' })).toBe(
    'no folds part it into a few parts that fit; this one needs a sheet and a cutter of 300 x 421.5 mm',
  );
});
