/** The colours of paper in the light and of what is seen on it: alike in pictures and in the preview. */
import type { FaceMark } from './model.js';

/** How dark the side away from the light is, and how bright the one toward it. */
const DARKEST = 0.7;
const BRIGHTEST = 1.04;
/** An edge of paper is this much darker than its face. */
const EDGE = 0.62;
/** Shade is warm: red loses less than green, and blue more. Powers of the brightness, by channel. */
const WARMTH = [0.93, 1, 1.1] as const;

/** Near the table less light comes from around: so much is lost there, and nothing from this share of the
 *  box's height on. In a box it is more. */
export const LOW = { outside: 0.15, inside: 0.24 } as const;
export const LOW_SHARE = 0.75;

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

/** Film lets through what is behind it; `gleam` is the light's at its upper left. */
export const FILM = { colour: '#f4f8fb', opacity: 0.22, gleam: 0.38 } as const;

const PEN = '#5b4a3c';
/** Colours of dots, and of their rims. */
const DOTS = {
  'hook-and-loop': { fill: '#f3efe8', rim: '#b9b0a3' },
  sticker: { fill: '#f7f3e6', rim: '#c3b892' },
  magnet: { fill: '#8f9296', rim: '#5c5f63' },
} as const;

/** How a mark is painted on paper of a colour; widths and dashes in pixels. */
export interface MarkLook {
  readonly fill?: `#${string}`;
  readonly line: `#${string}`;
  readonly width: number;
  readonly dash?: readonly number[];
}

/** A cut is dark, a crease only a little darker than its paper. */
export function markLook(kind: FaceMark['kind'], paper: string, light: number): MarkLook {
  if (kind === 'slit') return { line: shaded(paper, -1.9), width: 1.3 };
  if (kind === 'perforation') return { line: shaded(paper, -1.7), width: 1.2, dash: [3, 2.6] };
  if (kind === 'crease') return { line: shaded(paper, light - 0.5), width: 0.9 };
  if (kind === 'pen') return { line: shaded(PEN, light), width: 1.1 };
  const { fill, rim } = DOTS[kind];
  return { fill: shaded(fill, light), line: shaded(rim, light), width: 0.9 };
}
