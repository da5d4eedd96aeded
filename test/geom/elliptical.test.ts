import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bounds,
  distance,
  ellipseShape,
  ellipticalArc,
  openPath,
  type Point,
  pathLength,
  pointAt,
  steps,
} from '../../src/geom/index.js';

const deg = (radians: number) => (radians * 180) / Math.PI;

type Row = [
  name: string,
  from: Point,
  arc: [number, number, number, number, number],
  to: Point,
  lambda: number,
  radii: [number, number],
  centre: Point,
  theta: number,
  sweep: number,
  length: number,
  box: [number, number, number, number],
];
// check-values.md 3.2: the W3C example file images/paths/arcs01.svg (A..F) and own cases, values by the
// formulae of SVG 2 appendix B.2.
const rows: Row[] = [
  [
    'A',
    [150, 200],
    [150, 150, 0, 1, 0],
    [300, 50],
    0.5,
    [150, 150],
    [300, 200],
    180,
    -270,
    706.858347,
    [150, 50, 450, 350],
  ],
  [
    'B',
    [275, 25],
    [150, 150, 0, 0, 0],
    [125, 175],
    0.5,
    [150, 150],
    [275, 175],
    -90,
    -90,
    235.619449,
    [125, 25, 275, 175],
  ],
  [
    'C',
    [650, 325],
    [25, 25, -30, 0, 1],
    [700, 300],
    1.25,
    [27.95085, 27.95085],
    [675, 312.5],
    -176.565051,
    180,
    87.810184,
    [647.0492, 284.5492, 700, 325],
  ],
  [
    'D',
    [750, 275],
    [25, 50, -30, 0, 1],
    [800, 250],
    1.246635,
    [27.913197, 55.826394],
    [775, 262.5],
    -178.280981,
    180,
    135.217783,
    [738.0743, 212.1788, 800, 275],
  ],
  [
    'E',
    [850, 225],
    [25, 75, -30, 0, 1],
    [900, 200],
    1.246011,
    [27.906219, 83.718657],
    [875, 212.5],
    -178.853796,
    180,
    186.481818,
    [826.665, 138.6671, 900, 225],
  ],
  [
    'F',
    [950, 175],
    [25, 100, -30, 0, 1],
    [1000, 150],
    1.245793,
    [27.903776, 111.615105],
    [975, 162.5],
    -179.140296,
    180,
    239.370358,
    [914.1851, 64.8368, 1000, 175],
  ],
  [
    'G',
    [0, 0],
    [10, 5, 30, 0, 1],
    [10, 10],
    0.600481,
    [10, 5],
    [1.021605, 5.9196],
    -112.609821,
    101.593214,
    15.00222,
    [0, 0, 10.0355, 10],
  ],
  [
    'H',
    [0, 0],
    [10, 5, 30, 1, 1],
    [10, 10],
    0.600481,
    [10, 5],
    [8.978395, 4.0804],
    168.983392,
    258.406786,
    33.440021,
    [0, -2.534, 17.9923, 10.6948],
  ],
  [
    'I',
    [0, 0],
    [10, 5, 30, 0, 0],
    [10, 10],
    0.600481,
    [10, 5],
    [8.978395, 4.0804],
    168.983392,
    -101.593214,
    15.00222,
    [-0.0355, 0, 10, 10],
  ],
  [
    'J',
    [0, 0],
    [1, 2, 0, 0, 1],
    [10, 0],
    25,
    [5, 10],
    [5, 0],
    180,
    180,
    24.221121,
    [0, -10, 10, 0],
  ],
];

describe('elliptical arcs by their ends', () => {
  it.each(rows)(
    '%s as SVG’s appendix says',
    (_, from, [rx, ry, rot, fA, fS], to, lambda, radii, centre, theta, sweep, length, box) => {
      const shape = ellipseShape(from, rx, ry, rot, fA === 1, fS === 1, to)!;
      expect(shape.shortfall).toBeCloseTo(lambda, 5);
      expect(shape.rx).toBeCloseTo(radii[0], 5);
      expect(shape.ry).toBeCloseTo(radii[1], 5);
      expect(shape.centre[0]).toBeCloseTo(centre[0], 5);
      expect(shape.centre[1]).toBeCloseTo(centre[1], 5);
      // ±180° are one direction; rounding picks the sign, and for a half turn of the sweep its length.
      expect(Math.cos(shape.startAngle - (theta * Math.PI) / 180)).toBeCloseTo(1, 9);
      expect(Math.abs(deg(shape.sweep))).toBeCloseTo(Math.abs(sweep), 4);
      expect(Math.sign(shape.sweep)).toBe(Math.sign(sweep));
      const segments = ellipticalArc(from, rx, ry, rot, fA === 1, fS === 1, to);
      const path = openPath(from, segments);
      expect(pathLength(path)).toBeCloseTo(length, radii[0] === radii[1] ? 6 : 2);
      // Cubics of 45° lie outside by at most 4.2455e-6 of the radius (check-values.md 3.3).
      expect(Math.abs(pathLength(path) / length - 1)).toBeLessThan(4.3e-6);
      const b = bounds(path);
      for (const [i, v] of [b.minX, b.minY, b.maxX, b.maxY].entries())
        expect(v).toBeCloseTo(box[i]!, 2);
      expect(segments.at(-1)!.to).toBe(to);
      expect(
        segments.every(s => s.kind === (Math.abs(radii[0] - radii[1]) < 1e-9 ? 'arc' : 'cubic')),
      ).toBe(true);
    },
  );

  it('the two halves of one ellipse have its perimeter (Ramanujan’s second, section 8)', () => {
    const half = (large: boolean) =>
      pathLength(openPath([0, 0], ellipticalArc([0, 0], 10, 5, 30, large, true, [10, 10])));
    expect((half(true) + half(false)) / 48.442241103 - 1).toBeLessThan(4.3e-6);
    expect((half(true) + half(false)) / 48.442241103 - 1).toBeGreaterThan(0);
  });

  it('is a line for a radius of zero, nothing for one point; negative radii count as positive', () => {
    expect(ellipticalArc([0, 0], 0, 5, 0, false, true, [10, 10])).toEqual([
      { kind: 'line', to: [10, 10] },
    ]);
    expect(ellipticalArc([3, 3], 10, 5, 0, true, true, [3, 3])).toEqual([]);
    const plus = ellipticalArc([0, 0], 10, 5, 30, true, false, [10, 10]);
    expect(ellipticalArc([0, 0], -10, -5, 30, true, false, [10, 10])).toEqual(plus);
    expect(ellipticalArc([0, 0], 10, 5, 390, true, false, [10, 10])[0]!.to[0]).toBeCloseTo(
      plus[0]!.to[0],
      9,
    );
    expect(() => ellipticalArc([0, 0], Number.NaN, 5, 0, true, true, [1, 1])).toThrow(RangeError);
    expect(() => ellipticalArc([0, 0], 1, 5, 0, true, true, [Number.POSITIVE_INFINITY, 1])).toThrow(
      RangeError,
    );
  });

  it('every point is on the ellipse, for any arc', () => {
    const n = fc.double({ min: -50, max: 50, noNaN: true });
    const r = fc.double({ min: 1, max: 80, noNaN: true });
    fc.assert(
      fc.property(
        n,
        n,
        n,
        n,
        r,
        r,
        n,
        fc.boolean(),
        fc.boolean(),
        (x, y, X, Y, rx, ry, rot, fA, fS) => {
          fc.pre(distance([x, y], [X, Y]) > 0.01);
          const shape = ellipseShape([x, y], rx, ry, rot, fA, fS, [X, Y])!;
          const path = openPath([x, y], ellipticalArc([x, y], rx, ry, rot, fA, fS, [X, Y]));
          const phi = (rot * Math.PI) / 180;
          for (const step of steps(path)) {
            for (let i = 0; i <= 8; i++) {
              const [px, py] = pointAt(step, i / 8);
              const [dx, dy] = [px - shape.centre[0], py - shape.centre[1]];
              const u = (Math.cos(phi) * dx + Math.sin(phi) * dy) / shape.rx;
              const v = (-Math.sin(phi) * dx + Math.cos(phi) * dy) / shape.ry;
              expect(Math.hypot(u, v)).toBeCloseTo(1, 4);
            }
          }
        },
      ),
      { seed: 20264, numRuns: 100 },
    );
  });
});
