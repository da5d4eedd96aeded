import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  circle,
  closedPath,
  cubic,
  type Path,
  type Point,
  polygon,
  polyline,
  rectangle,
  rotation,
  roundedPolygon,
  transform,
} from '../../src/geom/index.js';
import { narrowPlaces } from '../../src/tool/narrow.js';

const found = (paths: readonly Path[], least = 0.5) => narrowPlaces(paths, least).places;
const near = (at: Point, x: number, y: number, within = 1) =>
  Math.hypot(at[0] - x, at[1] - y) <= within;

/** A square of paper with a slot from above, or a tongue upward. */
const slotted = (width: number, depth = 10): Path =>
  polygon([
    [0, 0],
    [40, 0],
    [40, 30],
    [20 + width / 2, 30],
    [20 + width / 2, 30 - depth],
    [20 - width / 2, 30 - depth],
    [20 - width / 2, 30],
    [0, 30],
  ]);
const tongued = (width: number): Path => slotted(width, -6);
/** Two squares and a bridge between them. */
const bridged = (width: number): Path =>
  polygon([
    [0, 0],
    [10, 0],
    [10, 5 - width / 2],
    [14, 5 - width / 2],
    [14, 0],
    [24, 0],
    [24, 10],
    [14, 10],
    [14, 5 + width / 2],
    [10, 5 + width / 2],
    [10, 10],
    [0, 10],
  ]);
const star = (points: number, inner: number): Path =>
  polygon(
    Array.from({ length: 2 * points }, (_, i): Point => {
      const [r, a] = [i % 2 ? inner : 20, (Math.PI * i) / points];
      return [30 + r * Math.cos(a), 30 + r * Math.sin(a)];
    }),
  );

describe('narrow places', () => {
  it.each([
    ['a slot', slotted(0.3), 20, 25, 0.3, false],
    ['a shallow slot', slotted(0.4, 0.6), 20, 29.7, 0.4, false],
    ['a tongue', tongued(0.45), 20, 33, 0.45, true],
    ['a neck', bridged(0.2), 12, 5, 0.2, true],
    ['a small hole', circle([20, 20], 0.2), 20, 20, 0.4, true],
    [
      'a tongue that ends round',
      roundedPolygon(
        [
          [0, 0],
          [9, 0],
          [9, 0.4],
          [0, 0.4],
        ],
        0.19,
      ),
      4.5,
      0.2,
      0.4,
      true,
    ],
  ] as const)('%s is found once, with its place and width', (_name, path, x, y, width, paper) => {
    const places = found([path]);
    expect(places).toHaveLength(1);
    expect(near(places[0]!.at, x, y)).toBe(true);
    expect(places[0]!.size).toBeCloseTo(width, 2);
    expect(places[0]!.paper).toBe(paper);
  });

  it.each([
    ['a slot of the least width', slotted(0.5)],
    ['a bridge of it', bridged(0.5)],
    ['a hole of it', circle([20, 20], 0.25)],
    ['a star', star(9, 9)],
    ['a star of needles', star(40, 16)],
    [
      'a thorn of 4°',
      polygon([
        [0, 0],
        [30, -1],
        [30, 1],
      ]),
    ],
    [
      'a leaf',
      closedPath(
        [0, 0],
        [cubic([10, 1.5], [20, 1.5], [30, 0]), cubic([20, -1.5], [10, -1.5], [0, 0])],
      ),
    ],
    ['a roughness', slotted(0.4, 0.04)],
  ] as const)('%s is none', (_name, path) => {
    expect(found([path])).toEqual([]);
  });

  it('paper between a hole and an edge, and waste between two pieces', () => {
    const plate = rectangle(0, 0, 30, 30);
    const [bridge] = found([plate, circle([3.3, 15], 3)]);
    expect(bridge).toMatchObject({ paper: true, size: expect.closeTo(0.3, 2) });
    expect(near(bridge!.at, 0.15, 15, 0.6)).toBe(true);
    const [gap] = found([plate, rectangle(30.2, 0, 10, 30)]);
    expect(gap).toMatchObject({ paper: false, size: expect.closeTo(0.2, 3) });
    expect(found([plate, rectangle(30.005, 0, 10, 30)])).toEqual([]);
  });

  it('paper is told by whole outlines, where an edge of them was dropped', () => {
    const [left, right] = [rectangle(0, 0, 30, 30), rectangle(30, 0, 30, 30)];
    const part = polyline([
      [30, 30],
      [60, 30],
      [60, 0],
      [30, 0],
    ]);
    const holes = [circle([40, 15], 3), circle([46.2, 15], 3)];
    const { places } = narrowPlaces([left, part, ...holes], 0.5, 0, [left, right, ...holes]);
    expect(places).toEqual([expect.objectContaining({ paper: true })]);
  });

  it('two slots are two places, the narrower first', () => {
    const [a, b, ...more] = found([slotted(0.4), transform(slotted(0.2), [1, 0, 0, 1, 50, 0])]);
    expect(more).toEqual([]);
    expect([a!.size, b!.size]).toEqual([expect.closeTo(0.2, 3), expect.closeTo(0.4, 3)]);
  });

  it('an open slit near an edge leaves a narrow strip', () => {
    const slit = polyline([
      [5, 0.3],
      [25, 0.3],
    ]);
    expect(found([rectangle(0, 0, 30, 30), slit])).toHaveLength(1);
  });

  it('a turned or moved slot is found wherever it is, by its width', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        fc.double({ min: -50, max: 50, noNaN: true }),
        (width, angle, x) => {
          const path = transform(slotted(width), rotation(angle, [x, 7]));
          const places = found([path]);
          if (width < 0.488) {
            expect(places).toHaveLength(1);
            expect(places[0]!.size).toBeCloseTo(width, 3);
          } else if (width >= 0.5) expect(places).toEqual([]);
        },
      ),
      { seed: 61, numRuns: 60 },
    );
  });

  it('a sheet of hatching is judged in bounded time, and says that it is not all', () => {
    const lines = Array.from({ length: 3000 }, (_, i) =>
      polyline([
        [0, i * 0.02],
        [300, i * 0.02],
      ]),
    );
    const began = performance.now();
    const { places, left } = narrowPlaces(lines, 0.5);
    expect(left!.of).toBeGreaterThan(lines.length);
    expect(left!.looked).toBeLessThan(left!.of);
    expect(places.length).toBeGreaterThan(0);
    expect(performance.now() - began).toBeLessThan(20_000);
  });
});
