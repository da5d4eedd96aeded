import type { Bounds, Fill, Region } from '../../model.js';
import { type Painted, turnedArea } from './repeats.js';

/** Shapes gathered into one fill an ink, in the order in which the inks first appear. For shapes
 *  that do not overlap: gathering changes which is painted on top. */
export function fillsByInk(painted: readonly Painted[]): Fill[] {
  const byInk = new Map<string, Region[]>();
  for (const [ink, shape] of painted) {
    const shapes = byInk.get(ink);
    if (shapes) shapes.push(shape);
    else byInk.set(ink, [shape]);
  }
  return [...byInk].map(([colour, regions]) => ({ colour, regions }));
}

/** A pattern drawn level and turned: coats of paint from the lowest to the uppermost, in each of which no
 *  two shapes of different inks overlap. */
export function coats(
  area: Bounds,
  angle: number,
  draw: (area: Bounds) => readonly (readonly Painted[])[],
): Fill[] {
  const turned = turnedArea(area, angle);
  return draw(turned.area).flatMap(coat =>
    fillsByInk(coat.map(([ink, shape]): Painted => [ink, turned.back(shape)])),
  );
}
