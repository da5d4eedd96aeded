/** Hearts. */
import { defineMotif } from '../contracts.js';
import { cubic, openPath } from '../geom/index.js';
import type { Path } from '../model.js';
import { layer, mirrored, sized, sizeParam } from './layers.js';

export interface HeartForm {
  /** Height over width. */
  readonly proportion: number;
  /** Depth of the cleft between the lobes, as a part of the width. */
  readonly cleft: number;
  /** Half of the angle at the point, radians from the upright. */
  readonly point: number;
}

/**
 * A heart one unit to each side of its axis. Each half is three cubics: flank, outer lobe, inner
 * lobe. Their handles are chosen so that the curvature agrees where they meet (for a cubic whose
 * end handle is a and whose far handle stands h off that tangent it is 2h / 3a²), so a blade finds
 * no flat and no bump from the point to the cleft.
 */
export const heartOutline = (form: HeartForm): Path => mirrored(heartHalf(form));

/** Its right half, from the point to the cleft. */
export function heartHalf({ proportion, cleft, point }: HeartForm): Path {
  const foot: [number, number] = [0, 0];
  const height = 2 * proportion;
  const crest: [number, number] = [0.5, height];
  const side: [number, number] = [1, height * 0.695];
  const notch: [number, number] = [0, height - 2 * cleft];
  const inward = 0.3;

  const flank = height * 0.47;
  const flankOut: [number, number] = [flank * Math.sin(point), flank * Math.cos(point)];
  const rise = (crest[1] - side[1]) * 0.57;
  const crown = (side[0] - crest[0]) * 0.57;
  const sideBack = rise * Math.sqrt((1 - flankOut[0]) / (1 - crest[0] - crown));
  const dip = cleft * 1.5;
  const dipIn: [number, number] = [dip * Math.sin(inward), notch[1] + dip * Math.cos(inward)];
  const crestOn = crown * Math.sqrt((height - dipIn[1]) / (height - side[1] - rise));

  return openPath(foot, [
    cubic(flankOut, [1, side[1] - sideBack], side),
    cubic([1, side[1] + rise], [crest[0] + crown, height], crest),
    cubic([crest[0] - crestOn, height], dipIn, notch),
  ]);
}

export const heart = defineMotif({
  id: 'heart',
  family: 'hearts',
  summary: 'a full heart with round lobes and a graceful point',
  params: {
    size: sizeParam(40),
    proportion: {
      kind: 'number',
      default: 0.92,
      least: 0.75,
      most: 1.3,
      help: 'height over width: under 0.85 is broad, over 1.05 is slim',
    },
    cleft: {
      kind: 'number',
      default: 0.2,
      least: 0.12,
      most: 0.3,
      help: 'depth of the cleft between the lobes, as a part of the width',
    },
    point: {
      kind: 'angleDeg',
      default: 83,
      least: 60,
      most: 95,
      help: 'angle at the point',
    },
  },
  build({ size, proportion, cleft, point }) {
    const form = { proportion, cleft, point: (point * Math.PI) / 360 };
    return [layer('front', sized(heartOutline(form), size))];
  },
});
