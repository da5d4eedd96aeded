/**
 * The gusset of a gable roof: a triangle on the wall and two halves that fold back onto the roof
 * panels. The creases run from the wall's corners to a point over its middle: √(a²/4 + s²) long for a
 * wall a wide and a roof s long (check-values, section 8), and the point comes in by a/2. With paper
 * between the roof panels at the ridge the point is worked out from the closed box.
 */
import type { Point3, Solid, SpaceBuilder } from './solid.js';

export interface Ridge {
  /** Along the roof, and upright. */
  readonly slant: number;
  readonly rise: number;
  /** How far the gusset ends below the ridge, mm along the roof. */
  readonly trim: number;
}

/** Where a gusset stands, as seen from the inside: its ends and the roof's there, left and right. */
export interface GussetPlace {
  readonly x: number;
  readonly z: number;
  /** Which way along x is into the box. */
  readonly inward: 1 | -1;
  readonly ends: readonly [number, number];
  readonly tops: readonly [number, number];
}

export interface Gusset {
  /** Its left and its right half as seen from the inside; each has its sides `edge`, on the roof,
   *  and `high`. */
  readonly halves: readonly [Solid, Solid];
  /** The upper corners on the roof's edges, left and right, and the tip between them. */
  readonly feet: readonly [Point3, Point3];
  readonly tip: Point3;
}

export function gusset(
  space: SpaceBuilder,
  wall: Solid,
  name: string,
  ridge: Ridge,
  place: GussetPlace,
): Gusset {
  const { x, z, inward, ends, tops } = place;
  const deep = Math.abs(ends[1] - ends[0]);
  const middle = (ends[0] + ends[1]) / 2;
  const { slant, rise, trim } = ridge;
  const share = 1 - trim / slant;
  const feet = [0, 1].map((i): Point3 => {
    const [a, b] = [ends[i]!, tops[i]!];
    return [x, a + (b - a) * share, z + rise * share];
  }) as [Point3, Point3];
  const half = Math.abs(feet[0][1] - middle);
  // Its halves end level in the flat: each upper edge is half of the wall long, and keeps that length.
  const [s, r] = [slant * share, rise * share];
  const up = (s * s - (deep * deep) / 4 + (deep * half) / 2) / r;
  const into = Math.sqrt(s * s - up * up);
  const tip: Point3 = [x + inward * into, middle, z + up];
  const base = ends.map((y): Point3 => [x, y, z]) as [Point3, Point3];

  const web = space.fold(
    wall,
    'high',
    `${name}-gusset`,
    'gusset',
    [
      { at: base[0], side: 'low' },
      { at: base[1], side: 'right' },
      { at: tip, side: 'left' },
    ],
    'low',
  );
  const leftHalf = space.fold(
    web,
    'left',
    `${name}-gusset-left`,
    'gusset',
    [
      { at: base[0], side: 'diagonal' },
      { at: tip, side: 'high' },
      { at: feet[0], side: 'edge' },
    ],
    'diagonal',
  );
  const rightHalf = space.fold(
    web,
    'right',
    `${name}-gusset-right`,
    'gusset',
    [
      { at: base[1], side: 'edge' },
      { at: feet[1], side: 'high' },
      { at: tip, side: 'diagonal' },
    ],
    'diagonal',
  );
  return { halves: [leftHalf, rightHalf], feet, tip };
}
