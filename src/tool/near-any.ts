/** Whether a point is near one of many. */
import Flatbush from 'flatbush';
import type { Point } from '../geom/index.js';

export function nearAny(points: readonly Point[], reach: number): (p: Point) => boolean {
  if (points.length === 0) return () => false;
  const index = new Flatbush(points.length);
  for (const [x, y] of points) index.add(x, y, x, y);
  index.finish();
  return ([x, y]) => index.neighbors(x, y, 1, reach).length > 0;
}
