/** Whether words can be read: their size, their colour against the paper, and the way they face. */
import type { Affine, ArtSpec, Layer, Point } from '../model.js';

/** Least height of a capital by how it is made, mm (common practice, no source): print of 6 points has
 *  1.5 mm, a fine pen closes smaller letters, a blade tears them. */
const LEAST_CAPITAL = { print: 1.5, draw: 2.5, cut: 6 } as const;
const MADE = { print: 'printed', draw: 'drawn', cut: 'cut' } as const;
/** WCAG 2.1, success criterion 1.4.3: 3 to 1 for large text. */
const LEAST_CONTRAST = 3;
/** Words over a pattern: less, as its inks are seen in small parts (no source). */
const LEAST_OVER_PATTERN = 1.6;

/** Relative luminance of an sRGB colour (#rrggbb), from WCAG 2.1. */
export function luminance(colour: string): number {
  const v = Number.parseInt(colour.slice(1), 16);
  const [r, g, b] = [v >> 16, (v >> 8) & 255, v & 255].map(c => {
    const s = c / 255;
    return s <= 0.04045 ? s / 12.92 : ((s + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

/** Contrast ratio of two colours, from 1 to 21 (WCAG 2.1). */
export function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((p, q) => q - p);
  return (light! + 0.05) / (dark! + 0.05);
}

export interface Reading {
  readonly mirrored: boolean;
  /** Colour of the paper under the words, where it is known. */
  readonly paper?: string | undefined;
  /** What is printed under them. */
  readonly art?: ArtSpec | undefined;
}

/** What keeps a layer's words from being read. */
export function legibilityWarnings(
  { words = [] }: Layer,
  { mirrored, paper, art }: Reading,
  what: string,
): string[] {
  const warnings: string[] = [];
  if (mirrored && words.length > 0) {
    warnings.push(`${what}: its words are mirrored; leave mirror out, or its text`);
  }
  for (const { capital, by, ink } of words) {
    const least = LEAST_CAPITAL[by];
    if (!(capital >= least)) {
      warnings.push(
        `${what}: its ${MADE[by]} capitals are ${capital.toFixed(1)} mm high and hard to read: at ` +
          `least ${least} mm; make it larger, or the text shorter`,
      );
    }
    if (ink === undefined) continue;
    const ground = inked(art?.palette[0]) ?? paper;
    const onPaper = ground === undefined ? 21 : contrast(ink, ground);
    const onInks = Math.min(21, ...(art?.palette.slice(1) ?? []).map(c => contrast(ink, c)));
    if (!(onPaper >= LEAST_CONTRAST)) {
      warnings.push(
        `${what}: ink ${ink} on ${ground} has a contrast of ${onPaper.toFixed(1)} to 1; ` +
          `${LEAST_CONTRAST} to 1 is read easily: choose a darker ink or a lighter ground`,
      );
    } else if (!(onInks >= LEAST_OVER_PATTERN)) {
      warnings.push(
        `${what}: its words are lost in the pattern's ink (contrast ${onInks.toFixed(1)} to 1); ` +
          'choose another ink or palette, or a plain ground',
      );
    }
  }
  return [...new Set(warnings)];
}

/** A printer has no white ink: white is the paper's own colour. */
const inked = (colour: string | undefined) =>
  colour?.toLowerCase() === '#ffffff' ? undefined : colour;

/** Words on a wall of a standing box that are upside down; `up` is the way up there, in the net's frame,
 *  and `at` takes their piece to it. */
export function upsideDown(at: Affine, up: Point | undefined): boolean {
  if (!up) return false;
  const size = Math.hypot(at[2], at[3]);
  return (at[2] * up[0] + at[3] * up[1]) / size < -0.7;
}
