/** How a strip of curled paper turns from one of its joints to the other, on its true surface. */
import { add, dot, scale, sub } from '../geom/index.js';
import type { Point } from '../model.js';
import type { Facet } from './facets.js';
import { normalAt } from './pose.js';
import { type Point3, sub3 } from './space.js';

export interface Turn {
  /** Two points square across the strip, one on each joint, and the direction of the joints. */
  readonly from: Point3;
  readonly to: Point3;
  readonly ruling: Point3;
  /** Unit normals toward the inside, there. */
  readonly normals: readonly [Point3, Point3];
}

/** Of a flat facet there is nothing to tell. */
export function turnOf({ posed, face, solid, curvature }: Facet): Turn | undefined {
  const points = face.loops[0];
  if (!posed.curl || curvature === 0 || !points) return undefined;
  const { from, across } = posed.curl.bend;
  const reaches = points.map(p => dot(sub(p, from), across));
  // Along one line across, so that both ends are square to each other.
  const foot = sub(points[0]!, scale(across, reaches[0]!));
  const [p, q] = [Math.min(...reaches), Math.max(...reaches)].map(s =>
    add(foot, scale(across, s)),
  ) as [Point, Point];
  const ruling = sub3(solid(add(p, [-across[1], across[0]])), solid(p));
  return {
    from: solid(p),
    to: solid(q),
    ruling,
    normals: [normalAt(posed, p), normalAt(posed, q)],
  };
}

/** Where a change from `a` to what lies on the line through `b` along `ruling` ends, square to that line: on
 *  the picture plane, for a fill that changes evenly. */
export function squareFrom(a: Point, b: Point, ruling: Point): Point | undefined {
  const square: Point = [-ruling[1], ruling[0]];
  const long = dot(square, square);
  if (!(long > 0)) return undefined;
  return add(a, scale(square, dot(sub(b, a), square) / long));
}
