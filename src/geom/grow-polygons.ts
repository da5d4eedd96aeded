/** Outlines of many points, as they come out of pictures, moved outward and welded, by clipper2. */
import { clipper } from './heavy.js';
import type { Point } from './types.js';

/** Arcs at round corners are this near to true ones, mm. */
const ARC_MM = 0.004;
const PRECISION = 4;
const LONGEST_MITRE = 3;

/**
 * Loops (outer counter-clockwise, holes clockwise) grown by `delta` mm with round corners, shrunk where it
 * is negative; those that grow into each other are one. Throws when `delta` is not finite.
 */
export function growPolygons(
  loops: readonly (readonly Point[])[],
  delta: number,
): readonly (readonly Point[])[] {
  if (!Number.isFinite(delta)) throw new RangeError(`cannot grow by ${delta} mm`);
  const { inflatePathsD, EndType, JoinType, ClipType, FillRule, booleanOpD } = clipper();
  const asD = loops.map(loop => loop.map(([x, y]) => ({ x, y })));
  const whole = booleanOpD(ClipType.Union, asD, [], FillRule.NonZero, PRECISION);
  const grown =
    delta === 0
      ? whole
      : inflatePathsD(
          whole,
          delta,
          JoinType.Round,
          EndType.Polygon,
          LONGEST_MITRE,
          PRECISION,
          ARC_MM,
        );
  return grown.map(loop => loop.map(({ x, y }): Point => [x, y]));
}
