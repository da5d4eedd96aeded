import type { Fill, Region } from '../../model.js';

/** Shapes gathered into one fill an ink, in the order in which the inks first appear. For shapes
 *  that do not overlap: gathering changes which is painted on top. */
export function fillsByInk(painted: readonly (readonly [ink: string, shape: Region])[]): Fill[] {
  const byInk = new Map<string, Region[]>();
  for (const [ink, shape] of painted) {
    const shapes = byInk.get(ink);
    if (shapes) shapes.push(shape);
    else byInk.set(ink, [shape]);
  }
  return [...byInk].map(([colour, regions]) => ({ colour, regions }));
}
