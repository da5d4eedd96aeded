/** The colours of paper in the light, alike in pictures and in the folding preview. */

/** How dark the side away from the light is, and how bright the one toward it. */
const DARKEST = 0.7;
const BRIGHTEST = 1.04;
/** An edge of paper is this much darker than its face. */
const EDGE = 0.62;
/** Shade is warm: red loses less than green, and blue more. Powers of the brightness, by channel. */
const WARMTH = [0.93, 1, 1.1] as const;

/** `light` from −1 (away) to 1 (toward the lamp). */
export const brightness = (light: number): number =>
  DARKEST + ((BRIGHTEST - DARKEST) * (light + 1)) / 2;

/** The light on an edge of a face. */
export const edgeLight = (light: number): number => light * EDGE - (1 - EDGE);

/** `#rrggbb` in the light, as `#rrggbb`. */
export function shaded(colour: string, light: number): `#${string}` {
  const value = Number.parseInt(colour.slice(1), 16);
  const k = brightness(light);
  const part = (i: 0 | 1 | 2) => {
    const c = ((value >> (16 - 8 * i)) & 255) * k ** WARMTH[i];
    return Math.max(0, Math.min(255, Math.round(c)))
      .toString(16)
      .padStart(2, '0');
  };
  return `#${part(0)}${part(1)}${part(2)}`;
}
