/** Dividers and platforms from an arrangement, against the nets that their styles build. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arrangementsFor, cellsOf, holesOf, insertValues, spacedFor } from '../../src/fit/index.js';
import { bounds } from '../../src/geom/index.js';
import type { Arrangement } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { divider } from '../../src/styles/divider.js';
import { platform } from '../../src/styles/platform.js';
import { faultsOf } from './laws.js';
import { anyTreat, treat } from './treats.js';

const T = 0.3;
const jars = treat({ kind: 'round', diameter: 44, height: 52 }, 6, {
  clearance: 1.5,
  lie: 'as-measured',
  stack: 1,
});

function arrangedFor(insert: 'divider' | 'platform', t = jars): Arrangement[] {
  const { treat: spaced, choice } = spacedFor(insert, t, T);
  return arrangementsFor(spaced, choice);
}

describe('a divider', () => {
  it('gives each piece a place of its own, with the clearance on every side', () => {
    const all = arrangedFor('divider');
    expect(all.length).toBeGreaterThan(1);
    for (const a of all) {
      expect(faultsOf(a)).toEqual([]);
      const { columns, rows } = cellsOf(a);
      const cell = (whole: number, n: number) => (whole - (n - 1) * T) / n;
      const [x, y] = [cell(a.inside.length, columns), cell(a.inside.width, rows)];
      // What its style calls the clear size of a place: the strips stand between.
      expect(x).toBeGreaterThanOrEqual(44 + 2 * 1.5 - 1e-9);
      expect(y).toBeGreaterThanOrEqual(44 + 2 * 1.5 - 1e-9);
      for (const { at } of a.places) {
        const inPlace = (v: number, size: number) => (v % (size + T)) - size / 2;
        expect(inPlace(at[0], x)).toBeCloseTo(0, 6);
        expect(inPlace(at[1], y)).toBeCloseTo(0, 6);
      }
    }
  });
  it('is built by its style in the box of the treat', () => {
    for (const a of arrangedFor('divider').filter(o => o.columns + o.rows > 2)) {
      const values = fillParams(divider.params, insertValues('divider', a));
      const nets = divider.build({ inside: a.inside, thickness: T }, values);
      expect(nets.length).toBe(a.columns - 1 + a.rows - 1);
    }
  });
  it('is only for straight rows', () => {
    const staggered = arrangementsFor(jars).find(a => a.pattern !== 'grid')!;
    expect(() => cellsOf(staggered)).toThrow(/no straight rows/);
  });
});

describe('a platform', () => {
  it('has a hole for each piece, less than a millimetre off its middle', () => {
    for (const a of arrangedFor('platform')) {
      const values = fillParams(platform.params, { ...insertValues('platform', a), rise: 20 });
      const [net] = platform.build({ inside: a.inside, thickness: T }, values);
      const top = net!.panels.find(p => p.id === net!.root)!;
      const b = bounds(top.outline);
      expect(top.holes.length).toBe(a.places.length);
      const middles = top.holes.map(hole => {
        const h = bounds(hole);
        return [
          (h.minX + h.maxX) / 2 - (b.minX + b.maxX) / 2 + a.inside.length / 2,
          (h.minY + h.maxY) / 2 - (b.minY + b.maxY) / 2 + a.inside.width / 2,
        ] as const;
      });
      for (const { at } of holesOf(a)) {
        const off = Math.min(...middles.map(m => Math.hypot(m[0] - at[0], m[1] - at[1])));
        expect(off).toBeLessThan(1);
      }
    }
  });
  it('a tall round goes through its hole, a ball sits in it', () => {
    const holes = (t: typeof jars) => holesOf(arrangedFor('platform', t)[0]!).map(h => h.diameter);
    expect(Math.min(...holes(jars))).toBeGreaterThan(44);
    const balls = treat({ kind: 'ball', diameter: 30 }, 4, { clearance: 1 });
    expect(Math.max(...holes(balls))).toBeLessThan(30);
  });
  it('stands its rounds on their ends, unless it is said how they lie', () => {
    const lies = (t: typeof jars) => new Set(arrangedFor('platform', t).map(a => a.lie));
    const any = { ...jars, lie: 'any' as const };
    expect(lies(any)).toEqual(new Set(['upright']));
    expect(lies({ ...any, shape: { kind: 'round', diameter: 44, height: 20 } })).toEqual(
      new Set(['flat']),
    );
    expect(lies({ ...any, lie: 'flat' })).toEqual(new Set(['flat']));
  });
  it('takes one layer, and no box that lies on a wall', () => {
    for (const a of arrangedFor('platform')) expect(a.layers).toBe(1);
    const wall = { ...arrangedFor('platform')[0]!, up: 'width' as const };
    expect(() => holesOf(wall)).toThrow(/floor/);
  });
});

describe('room for an insert', () => {
  it('is never less than was asked for', () => {
    fc.assert(
      fc.property(
        anyTreat,
        fc.constantFrom('divider' as const, 'platform' as const),
        (t, insert) => {
          const { treat: spaced } = spacedFor(insert, t, T);
          expect(spaced.clearance).toBeGreaterThanOrEqual(t.clearance);
          expect(spaced.apart).toBeGreaterThanOrEqual(t.apart - 1e-9);
          expect(spaced.apart).toBeGreaterThanOrEqual(2 * t.clearance);
        },
      ),
      { seed: 11, numRuns: 100 },
    );
  });
});
