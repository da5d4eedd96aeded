/** Patterns against what is known from outside: they repeat, and cover what they should. */
import { describe, expect, it } from 'vitest';
import { clipShapes, rectangle, regionArea, signedArea } from '../../src/geom/index.js';
import type { Bounds, Fill } from '../../src/model.js';
import { PATTERNS } from '../../src/motifs/patterns/index.js';
import { tintOf } from '../../src/motifs/patterns/inks.js';
import { seenDisc } from '../../src/motifs/patterns/scales.js';
import { seeded } from '../../src/motifs/random.js';
import { fillParams, type ParamTable } from '../../src/params.js';
import { coverage, pixelsOf, shareOf, unlike, type Window } from '../support/art-pixels.js';

const PALETTE = ['#f6ecd9', '#b5392e', '#e2a33b', '#5f7f4a'];
const GROUND = PALETTE[0]!;

const around = ({ x, y, width, height }: Window): Bounds => ({
  minX: x,
  minY: y,
  maxX: x + width,
  maxY: y + height,
});

function fillsOf(id: string, area: Bounds, given = {}): readonly Fill[] {
  const pattern = PATTERNS.find(p => p.id === id)!;
  return pattern.build(fillParams(pattern.params as ParamTable, given), area, PALETTE, seeded(8));
}
const seen = (id: string, window: Window, wide: number) =>
  pixelsOf(fillsOf(id, around(window)), GROUND, window, wide);

const REPEATING = PATTERNS.filter(p => p.repeat).map(p => p.id);
const stepsOf = (id: string) => {
  const pattern = PATTERNS.find(p => p.id === id)!;
  return pattern.repeat!(fillParams(pattern.params as ParamTable, {}), PALETTE);
};
const WINDOW: Window = { x: -7, y: 11, width: 50, height: 40 };

describe('patterns that repeat', () => {
  it('are all but ombré, which runs from edge to edge', () => {
    expect(PATTERNS.filter(p => !p.repeat).map(p => p.id)).toEqual(['ombre']);
  });

  it.each(REPEATING)('%s looks the same after each of its steps', id => {
    const here = seen(id, WINDOW, 250);
    for (const [dx, dy] of stepsOf(id)) {
      const there = seen(id, { ...WINDOW, x: WINDOW.x + dx, y: WINDOW.y + dy }, 250);
      expect(unlike(here, there), `${dx} ${dy}`).toBeLessThan(0.002);
    }
  });

  it('the comparison sees a step that is a little off', () => {
    for (const id of ['gingham', 'scatter', 'cells', 'woodgrain']) {
      const [[dx, dy]] = stepsOf(id);
      const off = { ...WINDOW, x: WINDOW.x + dx * 1.05, y: WINDOW.y + dy * 1.05 };
      expect(unlike(seen(id, WINDOW, 250), seen(id, off, 250)), id).toBeGreaterThan(0.004);
    }
  });

  // A tile laid beside itself: its left edge against its right.
  it.each(REPEATING.filter(id => Math.abs(stepsOf(id)[0][1]) < 1e-9))(
    '%s: two tiles side by side are one piece of paper',
    id => {
      const width = stepsOf(id)[0][0];
      const tile = { x: 3, y: 5, width, height: 30 };
      const wide = 8 * Math.ceil(width / 2);
      const one = seen(id, tile, wide);
      const two = seen(id, { ...tile, width: 2 * width }, 2 * wide);
      const row = 4 * wide;
      const left = Uint8Array.from({ length: one.bytes.length }, (_, i) => {
        return two.bytes[Math.floor(i / row) * 2 * row + (i % row)]!;
      });
      const right = Uint8Array.from({ length: one.bytes.length }, (_, i) => {
        return two.bytes[Math.floor(i / row) * 2 * row + row + (i % row)]!;
      });
      expect(two.height).toBe(one.height);
      expect(unlike(one, { ...one, bytes: left })).toBeLessThan(0.002);
      expect(unlike(one, { ...one, bytes: right })).toBeLessThan(0.002);
    },
  );

  it('lie where they lie whatever the area: two pieces are cut from one paper', () => {
    for (const id of REPEATING) {
      const large = { x: -60, y: -40, width: 160, height: 130 };
      const fromLarge = pixelsOf(fillsOf(id, around(large)), GROUND, WINDOW, 200);
      expect(unlike(fromLarge, seen(id, WINDOW, 200)), id).toBeLessThan(0.002);
    }
  });
});

describe('coverage', () => {
  // Patterns whose shapes do not overlap: what resvg paints is the sum of their areas.
  const FLAT = ['dots', 'stripes', 'chevron', 'triangles', 'herringbone', 'terrazzo', 'cells'];
  it.each([...FLAT, 'ripple'])('%s: painted area is computed area, by resvg, within 0.5 %%', id => {
    const window = { x: 0, y: 0, width: 90, height: 70 };
    const sheet = rectangle(0, 0, window.width, window.height);
    const fills = fillsOf(id, around(window)).map(f => ({
      colour: '#000000',
      regions: clipShapes(f.regions, sheet),
    }));
    const area = fills.flatMap(f => f.regions).reduce((sum, r) => sum + regionArea(r), 0);
    const share = area / (window.width * window.height);
    const painted = coverage(pixelsOf(fills, '#ffffff', window, 900), '#ffffff', '#000000');
    expect(painted / share).toBeGreaterThan(0.995);
    expect(painted / share).toBeLessThan(1.005);
  });

  it('gingham is a quarter ground, a quarter ink and half between', () => {
    const pixels = seen('gingham', { x: 0, y: 0, width: 48, height: 48 }, 960);
    expect(shareOf(pixels, GROUND)).toBeCloseTo(0.25, 1);
    expect(shareOf(pixels, PALETTE[1]!)).toBeCloseTo(0.25, 1);
    expect(shareOf(pixels, tintOf(PALETTE, 0, 0.5))).toBeCloseTo(0.5, 1);
  });

  it("scales tile the plane: each shows 2 r² of its disc, the lattice's own cell", () => {
    for (const r of [3, 8, 20]) expect(signedArea(seenDisc(r, r))).toBeCloseTo(2 * r * r, 8);
    // Where it is hidden by nothing it is the whole disc: below (√2 − 1) r.
    expect(signedArea(seenDisc(0.41, 1))).toBeCloseTo(Math.PI * 0.41 ** 2, 9);
  });

  it('evenly set chevron bands cover their share of the repeat', () => {
    const given = { pins: false, band: 5, gap: 5, wave: 20, rise: 10 };
    const window = { x: 0, y: 0, width: 40, height: 60 };
    const fills = fillsOf('chevron', around(window), given).map(f => ({ ...f, colour: '#000000' }));
    const painted = coverage(pixelsOf(fills, '#ffffff', window, 800), '#ffffff', '#000000');
    expect(painted).toBeCloseTo(0.5, 2);
  });
});
