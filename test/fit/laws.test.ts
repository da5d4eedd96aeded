/** Laws of arrangements, over shapes, counts and clearances drawn at random. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arrangementsFor, fullest, laid, placedIn, roundAbout } from '../../src/fit/index.js';
import type { Arrangement } from '../../src/model.js';
import { distanceOf, faultsOf } from './laws.js';
import { anyTreat, treat } from './treats.js';

const RUNS = { seed: 4711, numRuns: 150 };

describe('arrangements of a count', () => {
  it('hold every piece, apart, inside, with the clearance kept', () => {
    fc.assert(
      fc.property(anyTreat, t => {
        const all = arrangementsFor(t);
        expect(all.length).toBeGreaterThan(0);
        for (const a of all) {
          expect(faultsOf(a), `${a.pattern} ${a.lie}`).toEqual([]);
          expect(a.inside.length).toBeGreaterThanOrEqual(a.inside.width - 1e-6);
          expect(a.spare).toBeGreaterThanOrEqual(0);
        }
      }),
      RUNS,
    );
  });

  it('are none of them beaten by another on all sides', () => {
    fc.assert(
      fc.property(anyTreat, t => {
        const insides = arrangementsFor(t).map(a => a.inside);
        const beaten = insides.filter((a, i) =>
          insides.some(
            (b, j) => i !== j && b.length <= a.length && b.width <= a.width && b.height <= a.height,
          ),
        );
        expect(beaten).toEqual([]);
      }),
      { ...RUNS, numRuns: 40 },
    );
  });

  it('count straight rows right, and lie as they are told', () => {
    fc.assert(
      fc.property(anyTreat, t => {
        for (const a of arrangementsFor(t)) {
          if (a.pattern === 'grid') expect(a.columns * a.rows * a.layers).toBe(t.count + a.spare);
          expect(new Set(a.places.map(p => p.layer)).size).toBeLessThanOrEqual(a.layers);
          expect(a.layers).toBeLessThanOrEqual(t.stack);
          const known = t.shape.kind === 'block' || t.shape.kind === 'pouch';
          if (known && t.lie !== 'any' && t.lie !== 'as-measured') expect(a.lie).toBe(t.lie);
        }
      }),
      RUNS,
    );
  });

  it('follow the scale: twice the treat needs twice the box', () => {
    fc.assert(
      fc.property(anyTreat, t => {
        const shape = Object.fromEntries(
          Object.entries(t.shape).map(([k, v]) => [
            k,
            k !== 'squash' && typeof v === 'number' ? 2 * v : v,
          ]),
        ) as unknown as typeof t.shape;
        const twice = { ...t, shape, clearance: 2 * t.clearance, apart: 2 * t.apart };
        const sizes = (as: readonly Arrangement[]) =>
          as.map(a =>
            [a.inside.length, a.inside.width, a.inside.height].map(v => v.toFixed(3)).join(' '),
          );
        const single = arrangementsFor(t).map(a => ({
          ...a,
          inside: {
            length: 2 * a.inside.length,
            width: 2 * a.inside.width,
            height: 2 * a.inside.height,
          },
        }));
        expect(sizes(arrangementsFor(twice)).sort()).toEqual(sizes(single).sort());
      }),
      { ...RUNS, numRuns: 40 },
    );
  });

  it('keep to the rows, columns and layers that are chosen', () => {
    fc.assert(
      fc.property(
        anyTreat,
        fc.integer({ min: 1, max: 4 }),
        fc.integer({ min: 1, max: 4 }),
        (t, rows, layers) => {
          for (const a of arrangementsFor(t, { rows, layers, straight: true }))
            expect([a.pattern, a.rows, a.layers]).toEqual(['grid', rows, layers]);
        },
      ),
      RUNS,
    );
    const six = treat({ kind: 'round', diameter: 40, height: 20 }, 6, { lie: 'flat' });
    expect(
      arrangementsFor(six, { rows: 2, layers: 1, straight: true }).map(a => a.columns),
    ).toEqual([3]);
  });
});

describe('the fullest arrangement in a box', () => {
  const side = fc.integer({ min: 20, max: 300 });
  const inside = fc.record({ length: side, width: side, height: side });

  it('lies in the box, apart, and its count is the number of its places', () => {
    fc.assert(
      fc.property(anyTreat, inside, (t, box) => {
        const { count, arrangement: a } = fullest(t, box);
        fc.pre(a !== undefined && count < 300);
        expect(a.places.length).toBe(count);
        expect(a.layers).toBeLessThanOrEqual(t.stack);
        expect(faultsOf(a, box)).toEqual([]);
        expect(faultsOf(a)).toEqual([]);
      }),
      RUNS,
    );
  });

  it('holds at least the count in every box that was made for it', () => {
    fc.assert(
      fc.property(anyTreat, t => {
        for (const a of arrangementsFor(t)) {
          const got = fullest(t, a.inside).count;
          expect(got, `${a.pattern} ${a.lie} ${JSON.stringify(a.inside)}`).toBeGreaterThanOrEqual(
            t.count,
          );
        }
      }),
      { ...RUNS, numRuns: 60 },
    );
  });

  it('holds no less when the box grows', () => {
    fc.assert(
      fc.property(anyTreat, inside, fc.integer({ min: 0, max: 40 }), (t, box, more) => {
        const larger = {
          length: box.length + more,
          width: box.width + more,
          height: box.height + more,
        };
        const [small, large] = [box, larger].map(b => fullest(t, b).count);
        expect(large).toBeGreaterThanOrEqual(small!);
      }),
      RUNS,
    );
  });
});

describe('a box that lies on a wall, a larger one and a round one', () => {
  it('keep the laws', () => {
    fc.assert(
      fc.property(anyTreat, t => {
        for (const a of arrangementsFor(t).slice(0, 12)) {
          const wall = laid(a, ['length', 'height', 'width']);
          expect(wall.up).toBe('width');
          expect(faultsOf(wall)).toEqual([]);
          const { length, width, height } = wall.inside;
          const larger = { length: length + 3, width: width + 1, height: height + 2 };
          expect(faultsOf(placedIn(wall, larger))).toEqual([]);
          expect(faultsOf(placedIn(wall, larger, true))).toEqual([]);
        }
      }),
      { ...RUNS, numRuns: 40 },
    );
  });

  it('a round box reaches round every piece, and no farther than round all corners', () => {
    fc.assert(
      fc.property(anyTreat, t => {
        for (const a of arrangementsFor(t).slice(0, 12)) {
          const diameter = roundAbout(a);
          expect(diameter).toBeGreaterThan(0);
          const corners = Math.hypot(a.inside.length, a.inside.width);
          expect(diameter).toBeLessThanOrEqual(corners + 2 * t.clearance + 1e-9);
          const reach = (k: 0 | 1, p: (typeof a.places)[number]) =>
            Math.abs(p.at[k] - [a.inside.length, a.inside.width][k]! / 2) + p.size[k] / 2;
          const most = Math.max(...a.places.flatMap(p => [reach(0, p), reach(1, p)]));
          expect(diameter / 2 - t.clearance).toBeGreaterThanOrEqual(most - 1e-6);
        }
      }),
      { ...RUNS, numRuns: 40 },
    );
    // Seven coins: six round one, three diameters over all.
    const seven = arrangementsFor(
      treat({ kind: 'round', diameter: 20, height: 5 }, 7, { lie: 'flat' }),
      { layers: 1 },
    );
    expect(Math.min(...seven.map(roundAbout))).toBeCloseTo(60, 9);
  });
});

describe('the laws themselves', () => {
  const base = arrangementsFor(
    treat({ kind: 'round', diameter: 40, height: 20 }, 6, { clearance: 1, lie: 'flat' }),
    { rows: 2, layers: 1, straight: true },
  )[0]!;
  const move = (i: number, by: readonly number[]): Arrangement => ({
    ...base,
    places: base.places.map((p, k) =>
      k === i ? { ...p, at: p.at.map((v, n) => v + by[n]!) as unknown as typeof p.at } : p,
    ),
  });
  it('find nothing in a sound arrangement', () => expect(faultsOf(base)).toEqual([]));
  it('find pieces that overlap, stand too near, leave the box, are lost or of another size', () => {
    expect(faultsOf(move(0, [20, 0, 0])).join()).toMatch(/pieces 0 and 2 are -19/);
    expect(faultsOf(move(2, [-0.5, 0, 0])).join()).toMatch(/apart/);
    expect(faultsOf(move(0, [-0.5, 0, 0])).join()).toMatch(/start of the length/);
    expect(faultsOf(move(0, [0, 0, 0.5])).join()).toMatch(/end of the height/);
    expect(faultsOf({ ...base, places: base.places.slice(1) }).join()).toMatch(/5 places for 6/);
    const small = {
      ...base,
      places: base.places.map(p => ({ ...p, size: [39, 40, 20] as const })),
    };
    expect(faultsOf(small).join()).toMatch(/measures/);
  });
  it('measure between balls, rounds and boxes', () => {
    const at = (x: number, y: number, z: number) => [x, y, z] as const;
    const ball = (x: number, y: number, z: number) => ({
      at: at(x, y, z),
      size: at(10, 10, 10),
      layer: 0,
    });
    expect(distanceOf(ball(0, 0, 0), ball(3, 4, 12))).toBeCloseTo(3, 9);
    const rod = (x: number, z: number) => ({
      at: at(x, 0, z),
      size: at(10, 50, 10),
      axis: 'width' as const,
      layer: 0,
    });
    expect(distanceOf(rod(0, 0), rod(9, 12))).toBeCloseTo(5, 9);
    expect(distanceOf(rod(0, 0), rod(3, 4))).toBeCloseTo(-5, 9);
    const block = (x: number, y: number) => ({ at: at(x, y, 0), size: at(10, 20, 30), layer: 0 });
    expect(distanceOf(block(0, 0), block(13, 24))).toBeCloseTo(5, 9);
  });
});
