import { describe, expect, it } from 'vitest';
import {
  bounds,
  circle,
  clipShapes,
  contains,
  rectangle,
  regionArea,
  signedArea,
} from '../../src/geom/index.js';
import type { ArtSpec, Bounds, Fill } from '../../src/model.js';
import { artFor } from '../../src/motifs/art.js';
import { outwardOf } from '../../src/motifs/backing.js';
import { heartOutline } from '../../src/motifs/hearts.js';
import { sized } from '../../src/motifs/layers.js';
import { staggered } from '../../src/motifs/patterns/dots.js';
import { PATTERNS } from '../../src/motifs/patterns/index.js';
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
      for (const f of fills) expect(PALETTE.slice(1)).toContain(f.colour);
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
    expect(new Set(fills.map(f => f.colour))).toEqual(new Set(['#b5392e']));
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

  it('prints the same share of the bleed as of a large area', () => {
    const share = (fills: readonly Fill[], area: number) =>
      fills.flatMap(f => f.regions).reduce((sum, r) => sum + regionArea(r), 0) / area;
    const art = artFor(spec(pattern.id), circle([0, 0], 200), 3);
    const large: Bounds = { minX: 0, minY: 0, maxX: 600, maxY: 600 };
    const values = fillParams(pattern.params, {});
    const sheet = rectangle(0, 0, 600, 600);
    const fills = pattern
      .build(values, large, PALETTE, seeded(3))
      .map(f => ({ ...f, regions: clipShapes(f.regions, sheet) }));
    const [a, b] = [share(art.fills, signedArea(art.bleed)), share(fills, 600 * 600)];
    expect(a / b).toBeGreaterThan(0.95);
    expect(a / b).toBeLessThan(1.05);
  });
});

describe('staggered dots', () => {
  it('have six neighbours at the spacing', () => {
    const points = staggered({ minX: 0, minY: 0, maxX: 60, maxY: 60 }, 10, 0, [1, 2]);
    const [x, y] = points.find(p => Math.hypot(p[0] - 30, p[1] - 30) < 6)!;
    const near = points.map(p => Math.hypot(p[0] - x, p[1] - y)).filter(d => d > 0 && d < 11);
    expect(near).toHaveLength(6);
    for (const d of near) expect(d).toBeCloseTo(10, 9);
  });
  it('are as dense as a hexagonal lattice: 2 / (√3 s²) for each mm²', () => {
    const points = staggered({ minX: 0, minY: 0, maxX: 1000, maxY: 1000 }, 10, 0, [0, 0]);
    expect(points.length / 1e6).toBeCloseTo(2 / (Math.sqrt(3) * 100), 3);
  });
});

describe('art that cannot be', () => {
  it('says why', () => {
    expect(() => artFor(spec('plaidish'), heart, 3)).toThrow(/one of dots, stripes/);
    expect(() => artFor({ ...spec('dots'), palette: ['#ffffff'] }, heart, 3)).toThrow(ParamError);
    expect(() => artFor({ ...spec('dots'), palette: ['#ffffff', 'red'] }, heart, 3)).toThrow(/red/);
    expect(() => artFor(spec('dots', { diameter: 12 }), heart, 3)).toThrow(/at most 10.45 mm/);
    expect(() => artFor(spec('dots', { pins: 8 }), heart, 3)).toThrow(ParamError);
    expect(() => artFor(spec('dots', { colour: 3 }), heart, 3)).toThrow(ParamError);
  });
});
