/** A heart of two round lobes and two straight sides that touch them and meet in the tip. */
import { arcTo, closedPath, line, polar } from '../geom/index.js';
import type { Path, Point } from '../model.js';

/** The lobes' middles lie on y = 0, `apart` on either side of x = 0; the tip lies on x = 0 below. */
export interface Heart {
  readonly radius: number;
  readonly apart: number;
  readonly tip: number;
}

/** What follows from the measures. Sides and lobes go from the tip to the cleft. */
export interface HeartParts {
  /** Half of the angle at the tip, radians. */
  readonly half: number;
  readonly straight: number;
  /** The angle of a lobe's arc. */
  readonly sweep: number;
  /** The turn at the cleft, outward: negative. */
  readonly cleft: number;
}

export function heartParts({ radius, apart, tip }: Heart): HeartParts {
  const far = Math.hypot(apart, tip);
  const side = Math.atan2(tip, apart) - Math.asin(radius / far);
  const half = Math.PI / 2 - side;
  // From the point where the side touches to the one on x = 0, as seen from the lobe's middle.
  const sweep = Math.PI - Math.acos(apart / radius) + half;
  return {
    half,
    straight: Math.sqrt(far * far - radius * radius),
    sweep,
    cleft: Math.PI + 2 * half - 2 * sweep,
  };
}

/** The heart whose outline is so far outside this one. */
export const grown = (heart: Heart, by: number): Heart => ({
  radius: heart.radius + by,
  apart: heart.apart,
  tip: heart.tip + by / Math.sin(heartParts(heart).half),
});

/** Counter-clockwise from the tip. */
export function heartPath(heart: Heart): Path {
  const { radius, apart, tip } = heart;
  const { half, sweep } = heartParts(heart);
  const touch = polar(radius, -half, [apart, 0]);
  const cleft: Point = [0, Math.sqrt(radius * radius - apart * apart)];
  const end: Point = [0, -tip];
  return closedPath(end, [
    line(touch),
    arcTo(cleft, sweep),
    arcTo([-touch[0], touch[1]], sweep),
    line(end),
  ]);
}
