/** Patterns that repeat: lattices of points, tables of chance that go round, tiles laid over an area. */
import {
  add,
  bounds,
  cross,
  rotation,
  scale,
  transform,
  transformAny,
  translation,
} from '../../geom/index.js';
import type { Affine, Bounds, Path, Point, Region } from '../../model.js';

/** Two steps that take a pattern onto itself. */
export type Repeat = readonly [Point, Point];

/** A shape and its colour. */
export type Painted = readonly [colour: string, shape: Region];

export const shapeOf = (outer: Path): Region => ({ outer, holes: [] });

/** A place of a lattice: `at` = from + i u + j v. */
interface LatticePoint {
  readonly at: Point;
  readonly i: number;
  readonly j: number;
}

/** The points of a lattice whose shapes, `reach` about each point, can touch the area. */
export function latticeOver(
  area: Bounds,
  [u, v]: Repeat,
  from: Point,
  reach: Bounds,
): LatticePoint[] {
  const [minX, maxX] = [area.minX - reach.maxX - from[0], area.maxX - reach.minX - from[0]];
  const [minY, maxY] = [area.minY - reach.maxY - from[1], area.maxY - reach.minY - from[1]];
  const corners: Point[] = [
    [minX, minY],
    [maxX, minY],
    [maxX, maxY],
    [minX, maxY],
  ];
  const det = cross(u, v);
  const range = (of: (p: Point) => number): [number, number] => {
    const all = corners.map(of);
    return [Math.floor(Math.min(...all)), Math.ceil(Math.max(...all))];
  };
  const [i0, i1] = range(p => cross(p, v) / det);
  const [j0, j1] = range(p => cross(u, p) / det);
  const points: LatticePoint[] = [];
  for (let j = j0; j <= j1; j++) {
    for (let i = i0; i <= i1; i++) {
      const [x, y] = add(scale(u, i), scale(v, j));
      if (x < minX || x > maxX || y < minY || y > maxY) continue;
      points.push({ at: [from[0] + x, from[1] + y], i, j });
    }
  }
  return points;
}

/** The same reach on all sides. */
export const within = (radius: number): Bounds => ({
  minX: -radius,
  minY: -radius,
  maxX: radius,
  maxY: radius,
});

const round = (n: number, period: number) => ((n % period) + period) % period;

/** What chance deals to each place of a lattice, the same again after `columns` and `rows`: the draw is
 *  made once, so it does not depend on the area. */
export function dealt<T>(
  columns: number,
  rows: number,
  draw: () => T,
): (i: number, j: number) => T {
  const table = Array.from({ length: columns * rows }, draw);
  return (i, j) => table[round(i, columns) + columns * round(j, rows)]!;
}

/** Shapes of one tile laid side by side over an area, as many as can be seen. */
export function tiled(
  shapes: readonly Painted[],
  repeat: Repeat,
  from: Point,
  area: Bounds,
): Painted[] {
  return shapes.flatMap(([colour, shape]) => {
    const reach = bounds(shape.outer);
    return latticeOver(area, repeat, from, reach).map(
      ({ at }): Painted => [colour, moved(shape, translation(...at))],
    );
  });
}

export const moved = ({ outer, holes }: Region, map: Affine): Region => ({
  outer: transform(outer, map),
  holes: holes.map(h => transform(h, map)),
});

/** An area in the frame of a pattern that is turned by `angle`, and the way back. */
export function turnedArea(
  area: Bounds,
  angle: number,
): { readonly area: Bounds; readonly back: (shape: Region) => Region } {
  if (angle === 0) return { area, back: shape => shape };
  const corners = [
    [area.minX, area.minY],
    [area.maxX, area.minY],
    [area.maxX, area.maxY],
    [area.minX, area.maxY],
  ] as const;
  const turn = rotation(-angle);
  const at = corners.map(([x, y]) => [turn[0] * x + turn[2] * y, turn[1] * x + turn[3] * y]);
  const [xs, ys] = [at.map(p => p[0]!), at.map(p => p[1]!)];
  const back = rotation(angle);
  return {
    area: {
      minX: Math.min(...xs),
      minY: Math.min(...ys),
      maxX: Math.max(...xs),
      maxY: Math.max(...ys),
    },
    back: ({ outer, holes }) => ({
      outer: transformAny(outer, back),
      holes: holes.map(h => transformAny(h, back)),
    }),
  };
}

/** A repeat turned with its pattern. */
export function turnedRepeat([u, v]: Repeat, angle: number): Repeat {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const turn = ([x, y]: Point): Point => [c * x - s * y, s * x + c * y];
  return [turn(u), turn(v)];
}

/** Where the first repeat begins: a chance point of it. */
export const startIn = ([u, v]: Repeat, random: () => number): Point => {
  const [a, b] = [random(), random()];
  return add(scale(u, a), scale(v, b));
};

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;
