import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arcTo,
  bounds,
  circle,
  distanceToPath,
  line,
  offsetExactly,
  pathLength,
  pathsMeet,
  polygon,
  rectangle,
  roundedPolygon,
  signedArea,
} from '../../src/geom/index.js';
import type { Path, Point } from '../../src/model.js';

const hexagon = (side: number): Path =>
  polygon(
    Array.from({ length: 6 }, (_, i): Point => {
      const a = (i * Math.PI) / 3;
      return [side * Math.cos(a), side * Math.sin(a)];
    }),
  );
const size = (p: Path) => {
  const b = bounds(p);
  return [b.maxX - b.minX, b.maxY - b.minY];
};

describe('exact offsets', () => {
  // Steiner's formula: area A + L d + π d², perimeter L + 2 π d (check-values section 8).
  it.each([
    ['square of 40 by 5', rectangle(0, 0, 40, 40), 5, 2478.539816, 191.415927],
    ['hexagon of 20 by 3', hexagon(20), 3, 1427.504818, 138.849556],
    [
      'triangle 3-4-5 by 1',
      polygon([
        [0, 0],
        [4, 0],
        [0, 3],
      ]),
      1,
      21.141592654,
      18.283185307,
    ],
  ] as const)('round outward: %s', (_, path, d, area, length) => {
    const grown = offsetExactly(path, d, 'round')!;
    expect(signedArea(grown)).toBeCloseTo(area, 6);
    expect(pathLength(grown)).toBeCloseTo(length, 6);
  });

  it('mitred: square of 40 inward by 5 has area 900, outward 2500 (check-values section 8)', () => {
    const square = rectangle(0, 0, 40, 40);
    expect(signedArea(offsetExactly(square, -5, 'mitre')!)).toBeCloseTo(900, 9);
    expect(signedArea(offsetExactly(square, 5, 'mitre')!)).toBeCloseTo(2500, 9);
  });

  it('rounded corners keep their middles: radius 8 becomes 6 inside and 10 outside', () => {
    const card = roundedPolygon(
      [
        [0, 0],
        [60, 0],
        [60, 40],
        [0, 40],
      ],
      8,
    );
    for (const d of [-2, 2]) {
      const moved = offsetExactly(card, d, 'round')!;
      expect(size(moved)[0]).toBeCloseTo(60 + 2 * d, 12);
      expect(size(moved)[1]).toBeCloseTo(40 + 2 * d, 12);
      expect(moved.segments.map(s => s.kind).sort()).toEqual(card.segments.map(s => s.kind).sort());
      const r = 8 + d;
      const area = (60 + 2 * d) * (40 + 2 * d) - (4 - Math.PI) * r * r;
      expect(signedArea(moved)).toBeCloseTo(area, 9);
    }
  });

  it('the same, for a quarter-circle bite: the bite grows inward and shrinks outward', () => {
    const bitten: Path = {
      start: [0, 0],
      segments: [
        line([30, 0]),
        arcTo([40, 10], -Math.PI / 2),
        line([40, 40]),
        line([0, 40]),
        line([0, 0]),
      ],
      closed: true,
    };
    const inner = offsetExactly(bitten, -2, 'mitre')!;
    const bite = inner.segments.find(s => s.kind === 'arc')!;
    expect(size(inner)).toEqual([36, 36].map(v => expect.closeTo(v, 12)));
    // The bite's middle (40, 0) stays; its radius is 12, cut by the lines y = 2 and x = 38.
    const x = 40 - Math.sqrt(144 - 4);
    expect(bite.to[0]).toBeCloseTo(38, 12);
    expect(bite.to[1]).toBeCloseTo(Math.sqrt(144 - 4), 12);
    expect(inner.segments.some(s => Math.abs(s.to[0] - x) < 1e-9)).toBe(true);
  });

  it('says when it is not the whole answer', () => {
    const narrow = polygon([
      [0, 0],
      [50, 0],
      [50, 20],
      [30, 20],
      [30, 8],
      [20, 8],
      [20, 20],
      [0, 20],
    ]);
    expect(offsetExactly(narrow, 4.5, 'round')).toBeDefined();
    expect(offsetExactly(narrow, 5.5, 'round')).toBeUndefined(); // the slot of 10 closes
    expect(offsetExactly(narrow, -4.5, 'mitre')).toBeUndefined(); // the bridge of 8 parts
    expect(offsetExactly(rectangle(0, 0, 10, 4), -2, 'mitre')).toBeUndefined();
    expect(offsetExactly(rectangle(0, 0, 10, 4), -3, 'mitre')).toBeUndefined();
    expect(offsetExactly(circle([0, 0], 3), -3, 'round')).toBeUndefined();
    expect(offsetExactly({ ...rectangle(0, 0, 1, 1), closed: false }, 1, 'round')).toBeUndefined();
  });

  it('rounds a mitre that would be a spike', () => {
    const thorn = polygon([
      [0, 0],
      [40, 3],
      [0, 6],
    ]);
    const grown = offsetExactly(thorn, 1, 'mitre')!;
    expect(bounds(grown).maxX).toBeCloseTo(41, 9);
    expect(grown.segments.filter(s => s.kind === 'arc')).toHaveLength(1);
  });

  it('undoes itself on shapes whose corners are round enough', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 90, noNaN: true }),
        fc.double({ min: 20, max: 90, noNaN: true }),
        fc.double({ min: 4, max: 9, noNaN: true }),
        fc.double({ min: 0.1, max: 3.5, noNaN: true }),
        (w, h, r, d) => {
          const card = roundedPolygon(
            [
              [0, 0],
              [w, 0],
              [w, h],
              [0, h],
            ],
            r,
          );
          const back = offsetExactly(offsetExactly(card, -d, 'mitre')!, d, 'round')!;
          expect(signedArea(back)).toBeCloseTo(signedArea(card), 8);
          expect(pathLength(back)).toBeCloseTo(pathLength(card), 8);
        },
      ),
      { seed: 11, numRuns: 100 },
    );
  });

  it('tells paths that meet, touch, or stay apart', () => {
    const card = rectangle(0, 0, 40, 40);
    expect(pathsMeet(card, circle([20, 20], 19))).toBe(false);
    expect(pathsMeet(card, circle([20, 20], 20))).toBe(true);
    expect(pathsMeet(card, circle([20, 20], 21))).toBe(true);
    expect(pathsMeet(card, circle([20, 20], 40))).toBe(false);
    expect(pathsMeet(circle([0, 0], 5), circle([10, 0], 5))).toBe(true);
  });
});

describe('rounded corners moved inward past their middles', () => {
  it('become the corner of their lines, as far from the arc as from them', () => {
    const card = roundedPolygon(
      [
        [0, 0],
        [80, 0],
        [95, 50],
        [0, 50],
      ],
      [1, 2, 0, 3],
    );
    const inner = offsetExactly(card, -3, 'mitre')!;
    expect(inner.segments.map(s => s.kind)).toEqual(['line', 'line', 'line', 'line']);
    const sharp = polygon([
      [0, 0],
      [80, 0],
      [95, 50],
      [0, 50],
    ]);
    expect(signedArea(inner)).toBeCloseTo(signedArea(offsetExactly(sharp, -3, 'mitre')!), 9);
    for (const s of inner.segments) {
      expect(distanceToPath(s.to, card)).toBeGreaterThan(3 - 1e-9);
    }
  });

  it('but a round end that vanishes is not a corner', () => {
    const pill = roundedPolygon(
      [
        [0, 0],
        [60, 0],
        [60, 10],
        [0, 10],
      ],
      5,
    );
    expect(offsetExactly(pill, -4, 'mitre')).toBeDefined();
    expect(offsetExactly(pill, -5, 'mitre')).toBeUndefined();
    expect(offsetExactly(pill, -6, 'mitre')).toBeUndefined();
  });
});
