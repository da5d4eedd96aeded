/** From a panel's middle, as seen on one of its faces, to the net. */
import { bounds, compose, IDENTITY, scaling, translation } from '../geom/index.js';
import type { Affine, Decoration, Panel, Point } from '../model.js';

/** The middle of a panel: that of its bounds. */
export function middleOf(panel: Panel): Point {
  const b = bounds(panel.outline);
  return [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
}

export const MIRROR = scaling(-1, 1);

/** From a panel's middle, as seen on the face, to the net. */
export function faceFrame(face: Decoration['face'], panel: Panel | undefined): Affine {
  if (!panel) return IDENTITY;
  return compose(translation(...middleOf(panel)), face === 'outside' ? MIRROR : IDENTITY);
}
