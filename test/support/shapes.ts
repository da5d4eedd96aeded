/** Seeded closed shapes of every kind of segment, for laws about any shape. */
import fc from 'fast-check';
import {
  arcTo,
  circle,
  closedPath,
  cubic,
  type Path,
  type Point,
  polar,
  polygon,
  rectangle,
  roundedPolygon,
} from '../../src/geom/index.js';

const place = fc.tuple(fc.integer({ min: -15, max: 15 }), fc.integer({ min: -15, max: 15 }));

/** A smooth closed curve of cubics through points at the given radii. */
export function blob(centre: Point, radii: readonly number[]): Path {
  const n = radii.length;
  const p = radii.map((r, i) => polar(r, (i * 2 * Math.PI) / n, centre));
  const at = (i: number) => p[(i + n) % n]!;
  return closedPath(
    at(0),
    radii.map((_, i) => {
      const [a, b, c, d] = [at(i - 1), at(i), at(i + 1), at(i + 2)];
      return cubic(
        [b[0] + (c[0] - a[0]) / 6, b[1] + (c[1] - a[1]) / 6],
        [c[0] - (d[0] - b[0]) / 6, c[1] - (d[1] - b[1]) / 6],
        c,
      );
    }),
  );
}

/** A scalloped disc: arcs of `sweep` between points of a circle. */
export function scallops(centre: Point, radius: number, n: number, sweep: number): Path {
  const p = Array.from({ length: n }, (_, i) => polar(radius, (i * 2 * Math.PI) / n, centre));
  return closedPath(
    p[0]!,
    p.map((_, i) => arcTo(p[(i + 1) % n]!, sweep)),
  );
}

/** Simple closed counter-clockwise shapes between about 2 and 30 mm, many with whole coordinates so
 *  that edges and corners of two of them often lie on each other. */
export const anyShape: fc.Arbitrary<Path> = fc.oneof(
  fc.tuple(place, fc.integer({ min: 2, max: 15 })).map(([c, r]) => circle(c, r)),
  fc
    .tuple(place, fc.integer({ min: 2, max: 30 }), fc.integer({ min: 2, max: 30 }))
    .map(([[x, y], w, h]) => rectangle(x, y, w, h)),
  fc
    .tuple(place, fc.integer({ min: 10, max: 30 }), fc.integer({ min: 1, max: 4 }))
    .map(([[x, y], w, r]) =>
      roundedPolygon(
        [
          [x, y],
          [x + w, y],
          [x + w, y + 12],
          [x, y + 12],
        ],
        r,
      ),
    ),
  fc
    .tuple(place, fc.array(fc.integer({ min: 3, max: 15 }), { minLength: 3, maxLength: 9 }))
    .map(([c, radii]) =>
      polygon(radii.map((r, i) => polar(r, (i * 2 * Math.PI) / radii.length, c))),
    ),
  fc
    .tuple(place, fc.array(fc.integer({ min: 6, max: 13 }), { minLength: 4, maxLength: 7 }))
    .map(([c, radii]) => blob(c, radii)),
  fc.tuple(place, fc.integer({ min: 5, max: 12 })).map(([c, n]) => scallops(c, 10, n, 2.8)),
);
