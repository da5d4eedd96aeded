import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arcTo,
  bounds,
  circle,
  clockwise,
  cubic,
  distanceToPath,
  flatten,
  line,
  polygon,
  rectangle,
  roundedPolygon,
  signedArea,
} from '../../src/geom/index.js';
import type { Panel, Path } from '../../src/model.js';
import { overlayFor } from '../../src/motifs/overlay.js';
import { ParamError } from '../../src/params.js';

const IN = 25.4;
const panel = (outline: Path, holes: readonly Path[] = []): Panel => ({
  id: 'lid',
  role: 'lid',
  outline,
  holes,
  strokes: [],
});
const size = (p: Path) => {
  const b = bounds(p);
  return [b.maxX - b.minX, b.maxY - b.minY];
};
/** Least and greatest distance from points along one path to another. */
const gap = (from: Path, to: Path) => {
  const all = flatten(from, 0.01).map(p => distanceToPath(p, to));
  return [Math.min(...all), Math.max(...all)];
};

describe('overlays', () => {
  it('a 6 × 2 in lid with 1/16 in showing takes 5⅞ × 1⅞ (common practice, no source)', () => {
    const { outer, holes } = overlayFor(panel(rectangle(0, 0, 6 * IN, 2 * IN)), IN / 16);
    expect(size(outer)).toEqual([expect.closeTo(5.875 * IN, 10), expect.closeTo(1.875 * IN, 10)]);
    expect(outer.segments).toHaveLength(4);
    expect(holes).toEqual([]);
  });

  it('rounded corners follow the panel: same middles, radius less by the reveal', () => {
    const card = roundedPolygon(
      [
        [0, 0],
        [80, 0],
        [80, 50],
        [0, 50],
      ],
      [0, 0, 12, 12],
    );
    const { outer } = overlayFor(panel(card), 2);
    expect(outer.segments.filter(s => s.kind === 'arc')).toHaveLength(2);
    expect(signedArea(outer)).toBeCloseTo(76 * 46 - 2 * (1 - Math.PI / 4) * 100, 9);
    const [least, most] = gap(outer, card);
    expect(least).toBeCloseTo(2, 9);
    expect(most).toBeCloseTo(2, 9);
  });

  it('a radius smaller than the reveal becomes a sharp corner', () => {
    const card = roundedPolygon(
      [
        [0, 0],
        [80, 0],
        [80, 50],
        [0, 50],
      ],
      1,
    );
    const { outer } = overlayFor(panel(card), 3);
    expect(signedArea(outer)).toBeCloseTo(74 * 44, 2);
  });

  it('keeps clear of a window by the reveal, sharp corners sharp and round ones round', () => {
    const windows = [rectangle(10, 10, 20, 30), circle([60, 25], 9)].map(clockwise);
    const { outer, holes } = overlayFor(panel(rectangle(0, 0, 80, 50), windows), 1.5);
    expect(size(outer)).toEqual([77, 47]);
    expect(holes).toHaveLength(2);
    expect(holes.map(size)).toEqual([[23, 33], [21, 21].map(v => expect.closeTo(v, 10))]);
    expect(holes.every(h => signedArea(h) < 0)).toBe(true);
  });

  it('a window too near the edge opens into it', () => {
    const near = clockwise(rectangle(10, 2, 20, 20));
    const { outer, holes } = overlayFor(panel(rectangle(0, 0, 80, 50), [near]), 1.5);
    expect(holes).toEqual([]);
    expect(signedArea(outer)).toBeCloseTo(77 * 47 - 23 * 22, 1);
  });

  it('follows a curved panel within the tolerance of a fit', () => {
    const lens: Path = {
      start: [0, 0],
      segments: [line([80, 0]), line([80, 40]), cubic([60, 28], [20, 28], [0, 40]), line([0, 0])],
      closed: true,
    };
    const { outer } = overlayFor(panel(lens), 2);
    const [least, most] = gap(outer, lens);
    expect(least).toBeGreaterThan(1.99);
    // Sharp corners stay sharp, so the reveal is greater there along the diagonal only.
    expect(most).toBeLessThan(2.01 * Math.SQRT2 * 1.2);
  });

  it('a thumb notch of a half circle keeps its middle', () => {
    const notched: Path = {
      start: [0, 0],
      segments: [
        line([80, 0]),
        line([80, 40]),
        line([50, 40]),
        arcTo([30, 40], -Math.PI),
        line([0, 40]),
        line([0, 0]),
      ],
      closed: true,
    };
    const { outer } = overlayFor(panel(notched), 2);
    const arc = outer.segments.find(s => s.kind === 'arc');
    expect(arc).toBeDefined();
    // Radius 12 about (40, 40), cut at y = 38.
    expect(Math.abs(arc!.to[0] - 40)).toBeCloseTo(Math.sqrt(144 - 4), 9);
  });

  it('a panel given clockwise gives the same overlay', () => {
    const card = rectangle(0, 0, 60, 30);
    const a = overlayFor(panel(card), 2).outer;
    const b = overlayFor(panel(clockwise(card)), 2).outer;
    expect(signedArea(b)).toBeCloseTo(signedArea(a), 9);
    expect(signedArea(b)).toBeGreaterThan(0);
  });

  it('says when nothing is left or the panel would fall apart', () => {
    expect(() => overlayFor(panel(rectangle(0, 0, 60, 8)), 4)).toThrow(ParamError);
    expect(() => overlayFor(panel(rectangle(0, 0, 60, 8)), 5)).toThrow(/60.0 × 8.0 mm/);
    expect(() => overlayFor(panel(rectangle(0, 0, 60, 8)), Number.NaN)).toThrow(ParamError);
    expect(() => overlayFor(panel(rectangle(0, 0, 60, 8)), -1)).toThrow(ParamError);
    const waist = polygon([
      [0, 0],
      [30, 0],
      [30, 8],
      [40, 8],
      [40, 0],
      [70, 0],
      [70, 20],
      [40, 20],
      [40, 12],
      [30, 12],
      [30, 20],
      [0, 20],
    ]);
    expect(() => overlayFor(panel(waist), 3)).toThrow(/2 parts/);
  });

  it('shows the reveal everywhere on rounded cards of any size', () => {
    // Hundredths: doubles drawn at random would nearly all be tiny.
    const mm = (min: number, max: number) =>
      fc.integer({ min: min * 100, max: max * 100 }).map(n => n / 100);
    fc.assert(
      fc.property(mm(30, 200), mm(30, 120), mm(0, 14), mm(0.5, 6), (w, h, r, reveal) => {
        const card = roundedPolygon(
          [
            [0, 0],
            [w, 0],
            [w, h],
            [0, h],
          ],
          r,
        );
        const { outer } = overlayFor(panel(card), reveal);
        const [least] = gap(outer, card);
        expect(least).toBeGreaterThan(reveal - 1e-3);
        expect(size(outer)[0]).toBeCloseTo(w - 2 * reveal, 6);
        expect(size(outer)[1]).toBeCloseTo(h - 2 * reveal, 6);
      }),
      { seed: 21, numRuns: 60 },
    );
  });
});
