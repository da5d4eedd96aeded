/** How high over the table a flat face is, by where it is seen. */
import { VIEW_PLANE_MM } from '../units/tolerances.js';
import { dot3, type Point3 } from './space.js';
import { project, type ViewPoint } from './view.js';

/** The height of what is seen at (x, y) on the picture plane: a·x + b·y + c, mm. `normal` is the face's and
 *  `at` a point of it. Level faces have one height. */
export function heightSeen(
  normal: Point3,
  at: Point3,
  view: ViewPoint,
): readonly [a: number, b: number, c: number] {
  // Height grows along the part of z that lies in the face, and not along what is square to it there.
  const up: Point3 = [-normal[2] * normal[0], -normal[2] * normal[1], 1 - normal[2] * normal[2]];
  const level: Point3 = [-normal[1], normal[0], 0];
  const [u, v] = [project(up, view), project(level, view)];
  const det = u[0] * v[1] - u[1] * v[0];
  if (!(Math.abs(det) > VIEW_PLANE_MM)) return [0, 0, at[2]];
  // One step along `up` rises by its length's square.
  const rise = dot3(up, up);
  const [a, b] = [(rise * v[1]) / det, (-rise * v[0]) / det];
  const [x, y] = project(at, view);
  return [a, b, at[2] - a * x - b * y];
}
