import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circle, polyline, rectangle } from '../../src/geom/index.js';
import type { Finding } from '../../src/model.js';
import { placePins } from '../../src/write/inspect-marks.js';
import { BAND, LOOK, PAPER, TIP } from '../../src/write/inspect-pen.js';
import { type InspectedSheet, inspectPicture } from '../../src/write/inspect-picture.js';
import { toPng } from '../../src/write/png.js';
import { CONVENTION } from '../support/drawings.js';
import { fontBytes } from '../support/fonts.js';
import { expectGolden } from '../support/golden.js';

const FONTS = {
  regular: fontBytes('nunito'),
  bold: fontBytes('nunito-bold'),
};
const found = (
  severity: Finding['severity'],
  kind: string,
  message: string,
  ...places: Finding['places']
) => ({ severity, kind, message, places, total: places.length, where: places.join('; ') });

const SHEET: InspectedSheet = {
  title: 'pear-tags.cut.svg',
  note: '120 × 80 mm',
  good: false,
  drawing: {
    name: 'pear tags',
    width: 120,
    height: 80,
    layers: [
      {
        operation: 'score',
        paths: [
          polyline([
            [10, 30],
            [60, 30],
          ]),
        ],
      },
      { operation: 'cut', paths: [rectangle(10, 10, 50, 60), circle([90, 40], 15)] },
    ],
  },
  tip: [Float64Array.from([10.1, 10, 60, 10.1, 60, 70, 10, 70, 10, 10])],
  findings: [
    found('fault', 'tip', 'the tip leaves <the drawing>', { at: [10, 10], size: 0.2 }),
    found('warning', 'small-part', 'one part is small', { at: [90, 40], size: 2 }),
    found('note', 'open-cut', '1 open cut', { at: [60, 70] }, { at: [60, 10] }),
  ],
};

describe('the picture of an inspection', () => {
  it('looks as it did', () => {
    expectGolden('write/inspect.svg', inspectPicture(SHEET, CONVENTION, FONTS));
  });

  it('has the findings in words, and a mark for each of their places and on the list', () => {
    const svg = inspectPicture(SHEET, CONVENTION, FONTS);
    expect(svg).toContain('<desc>1 fault: the tip leaves &lt;the drawing&gt;');
    const discs = (fill: string) => svg.split(`r="12.5" fill="${fill}"`).length - 1;
    // On the sheet, on the list, and on its glass.
    expect(discs(LOOK.fault.fill)).toBe(3);
    // Two places and the list; notes have no glass.
    expect(discs(LOOK.note.fill)).toBe(3);
    expect(svg.split(`rx="4" fill="${LOOK.warning.fill}"`).length - 1).toBe(3);
    expect(toPng(svg, 400).length).toBeGreaterThan(1000);
  });

  it('throws on NaN, like every writer', () => {
    const tip = [Float64Array.from([0, 0, Number.NaN, 1])];
    expect(() => inspectPicture({ ...SHEET, tip }, CONVENTION, FONTS)).not.toThrow();
    const drawing = { ...SHEET.drawing, width: Number.NaN };
    expect(() => inspectPicture({ ...SHEET, drawing }, CONVENTION, FONTS)).toThrow();
  });

  it('can be read without colour (WCAG 2: 4.5 : 1 for words, 3 : 1 for what is told apart)', () => {
    for (const { fill, ink } of Object.values(LOOK)) {
      expect(contrast(fill, ink), fill).toBeGreaterThan(4.5);
    }
    expect(contrast(LOOK.fault.fill, LOOK.warning.fill)).toBeGreaterThan(3);
    expect(contrast(LOOK.warning.fill, LOOK.note.fill)).toBeGreaterThan(1.5);
    expect(contrast(TIP, BAND)).toBeGreaterThan(3);
    expect(contrast(BAND, PAPER)).toBeGreaterThan(1.5);
  });
});

describe('marks', () => {
  it('lie on no other mark and inside the sheet, where there is room', () => {
    const place = fc.record({
      x: fc.double({ min: 0, max: 800, noNaN: true }),
      y: fc.double({ min: 0, max: 800, noNaN: true }),
      number: fc.integer({ min: 1, max: 9 }),
    });
    fc.assert(
      fc.property(fc.array(place, { maxLength: 14 }), pins => {
        const placed = placePins(pins, 13, { width: 800, height: 800 });
        for (const [i, a] of placed.entries()) {
          expect(Math.min(a.markX, a.markY, 800 - a.markX, 800 - a.markY)).toBeGreaterThan(12);
          for (const b of placed.slice(0, i)) {
            expect(Math.hypot(a.markX - b.markX, a.markY - b.markY)).toBeGreaterThan(26);
          }
        }
      }),
      { seed: 93, numRuns: 100 },
    );
  });
  it('are one for places that are one to the eye, of one finding', () => {
    const at = { x: 100, y: 100 };
    const many = [at, { x: 101, y: 100 }].map(p => ({ ...p, number: 1 }));
    const size = { width: 200, height: 200 };
    expect(placePins(many, 13, size)).toHaveLength(1);
    expect(placePins([...many, { ...at, number: 2 }], 13, size)).toHaveLength(2);
  });
});

/** WCAG 2, relative luminance and contrast ratio. */
function contrast(one: string, other: string): number {
  const light = (colour: string) => {
    const value = Number.parseInt(colour.slice(1), 16);
    const part = (c: number) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
    const [r, g, b] = [16, 8, 0].map(s => part(((value >> s) & 255) / 255));
    return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
  };
  const [a, b] = [light(one), light(other)];
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}
