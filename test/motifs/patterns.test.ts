import { describe, expect, it } from 'vitest';
import { bounds, contains, signedArea } from '../../src/geom/index.js';
import type { ArtSpec, Bounds } from '../../src/model.js';
import { artFor } from '../../src/motifs/art.js';
import { outwardOf } from '../../src/motifs/backing.js';
import { heartOutline } from '../../src/motifs/hearts.js';
import { sized } from '../../src/motifs/layers.js';
import { staggered } from '../../src/motifs/patterns/dots.js';
import { PATTERNS } from '../../src/motifs/patterns/index.js';
import { mixed } from '../../src/motifs/patterns/inks.js';
import { latticeOver, within } from '../../src/motifs/patterns/repeats.js';
import { seeded } from '../../src/motifs/random.js';
import { fillParams, ParamError } from '../../src/params.js';
import { samples } from '../support/param-samples.js';

const PALETTE = ['#f6ecd9', '#b5392e', '#e2a33b', '#5f7f4a'];
const AREA: Bounds = { minX: -31, minY: -20, maxX: 40, maxY: 33 };
const spec = (pattern: string, values = {}, seed = 3): ArtSpec => ({
  pattern,
  values,
  palette: PALETTE,
  seed,
});
/** Whether a colour is one of a palette's, or a mixture of two of them in hundredths. */
function isShade(colour: string, palette: readonly string[]): boolean {
  const hundredths = Array.from({ length: 101 }, (_, i) => i / 100);
  return palette.some(a => palette.some(b => hundredths.some(t => near(mixed(a, b, t), colour))));
}
const near = (a: string, b: string) =>
  [1, 3, 5].every(i => {
    const [x, y] = [a, b].map(c => Number.parseInt(c.slice(i, i + 2), 16));
    return Math.abs(x! - y!) <= 2;
  });
const heart = sized(heartOutline({ proportion: 0.92, cleft: 0.2, point: 0.72 }), 60);

describe('the list of patterns', () => {
  it('has unique kebab-case names and a line about each', () => {
    expect(new Set(PATTERNS.map(p => p.id)).size).toBe(PATTERNS.length);
    for (const p of PATTERNS) {
      expect(p.id).toMatch(/^[a-z]+(-[a-z]+)*$/);
      expect(p.summary.length).toBeGreaterThan(10);
      expect(p.summary.length).toBeLessThan(80);
    }
  });
});

describe.each(PATTERNS)('every $id', pattern => {
  const built = () =>
    samples(pattern.params, 10).flatMap(given => {
      try {
        const values = fillParams(pattern.params, given);
        return [{ given, fills: pattern.build(values, AREA, PALETTE, seeded(3)) }];
      } catch (error) {
        expect(error, JSON.stringify(given)).toBeInstanceOf(ParamError);
        return [];
      }
    });

  it('prints in the inks of its palette and reaches the area on every side', () => {
    const all = built();
    expect(all.length).toBeGreaterThan(6);
    for (const { given, fills } of all) {
      const said = JSON.stringify(given);
      expect(fills.length, said).toBeGreaterThan(0);
      for (const f of fills) expect(isShade(f.colour, PALETTE), f.colour).toBe(true);
      const regions = fills.flatMap(f => f.regions);
      for (const r of regions) expect(signedArea(r.outer), said).toBeGreaterThan(0);
    }
    const { fills } = all[0]!;
    const b = bounds(...fills.flatMap(f => f.regions.map(r => r.outer)));
    const reach = 12; // a little over the widest gap of the defaults
    expect(b.minX).toBeLessThan(AREA.minX + reach);
    expect(b.maxX).toBeGreaterThan(AREA.maxX - reach);
    expect(b.minY).toBeLessThan(AREA.minY + reach);
    expect(b.maxY).toBeGreaterThan(AREA.maxY - reach);
  });

  it('makes do with a single ink', () => {
    const fills = pattern.build(
      fillParams(pattern.params, {}),
      AREA,
      PALETTE.slice(0, 2),
      seeded(1),
    );
    const colours = new Set(fills.map(f => f.colour));
    expect(colours).toContain('#b5392e');
    for (const colour of colours) expect(isShade(colour, PALETTE.slice(0, 2))).toBe(true);
  });

  it('is the same for a seed and another for another', () => {
    const art = (seed: number) => artFor(spec(pattern.id, {}, seed), heart, 3);
    expect(art(4)).toEqual(art(4));
    expect(art(4)).not.toEqual(art(5));
  });

  it('is cut to the bleed, which its ground covers', () => {
    const art = artFor(spec(pattern.id), heart, 3);
    expect(art.ground).toBe(PALETTE[0]);
    expect(art.bleed).toEqual(outwardOf(heart, 3));
    const edge = outwardOf(heart, 3 + 0.01);
    for (const { regions } of art.fills) {
      for (const { outer } of regions) {
        for (const s of outer.segments) expect(contains(edge, s.to)).toBe('in');
      }
    }
    // A stripe or a dot at the edge goes all the way to the bleed.
    const b = bounds(art.bleed);
    const f = bounds(...art.fills.flatMap(f => f.regions.map(r => r.outer)));
    expect(f.maxX).toBeGreaterThan(b.maxX - 3);
    expect(f.minX).toBeLessThan(b.minX + 3);
  });
});

describe('staggered dots', () => {
  const over = { minX: 0, minY: 0, maxX: 1000, maxY: 1000 };
  const points = latticeOver(over, staggered(10), [1, 2], within(0)).map(p => p.at);
  it('have six neighbours at the spacing', () => {
    const [x, y] = points.find(p => Math.hypot(p[0] - 30, p[1] - 30) < 6)!;
    const near = points.map(p => Math.hypot(p[0] - x, p[1] - y)).filter(d => d > 0 && d < 11);
    expect(near).toHaveLength(6);
    for (const d of near) expect(d).toBeCloseTo(10, 9);
  });
  it('are as dense as a hexagonal lattice: 2 / (√3 s²) for each mm²', () => {
    expect(points.length / 1e6).toBeCloseTo(2 / (Math.sqrt(3) * 100), 3);
  });
});

describe('art that cannot be', () => {
  it('says why', () => {
    expect(() => artFor(spec('plaidish'), heart, 3)).toThrow(/one of dots, stripes, gingham/);
    expect(() => artFor({ ...spec('dots'), palette: ['#ffffff'] }, heart, 3)).toThrow(ParamError);
    expect(() => artFor({ ...spec('dots'), palette: ['#ffffff', 'red'] }, heart, 3)).toThrow(/red/);
    expect(() => artFor(spec('dots', { diameter: 12 }), heart, 3)).toThrow(/at most 10.45 mm/);
    expect(() => artFor(spec('dots', { pins: 8 }), heart, 3)).toThrow(ParamError);
    expect(() => artFor(spec('dots', { colour: 3 }), heart, 3)).toThrow(ParamError);
  });
});
