/** How wide lines of text are, without a document: from the advances of the faces' glyphs. Kerning, which
 *  mostly draws letters together, is left out. */
import { createRequire } from 'node:module';
import type { Font } from 'fontkit';
import { runsRightToLeft, visualRuns } from './bidi.js';
import type { TextWidth } from './figure.js';

/** A face in its two weights, each in several files: a character comes from the first that has it. */
export interface GuideFonts {
  readonly regular: readonly Uint8Array[];
  readonly bold: readonly Uint8Array[];
}

export interface TextMetrics {
  readonly width: TextWidth;
  /** Whether the face has the character in both weights. */
  has(char: string): boolean;
}

const known = new WeakMap<GuideFonts, TextMetrics>();

/** Opened once for the same fonts. */
export function textMetrics(fonts: GuideFonts): TextMetrics {
  const found = known.get(fonts) ?? opened(fonts);
  known.set(fonts, found);
  return found;
}

function opened({ regular, bold }: GuideFonts): TextMetrics {
  const [plain, strong] = [faceOf(regular), faceOf(bold)];
  return {
    width(text, size, isBold = false) {
      const face = isBold ? strong : plain;
      if (runsRightToLeft(text)) return face.shaped(text) * size;
      let sum = 0;
      for (const char of text) sum += face.advance(char) ?? MISSING;
      return sum * size;
    },
    has: char => plain.advance(char) !== undefined && strong.advance(char) !== undefined,
  };
}

/** Advance of a character that no file has, in ems. */
const MISSING = 0.6;

interface FaceWidths {
  /** Of a character, ems; looked up once. */
  advance(char: string): number | undefined;
  /** Of a line with letters that join, ems. */
  shaped(text: string): number;
}

function faceOf(files: readonly Uint8Array[]): FaceWidths {
  // Loaded with the first face.
  const fontkit = createRequire(import.meta.url)('fontkit') as typeof import('fontkit');
  const fonts = files.map(f => fontkit.create(Buffer.from(f)) as Font);
  const advances = new Map<string, number | undefined>();
  const advance = (char: string) => {
    if (advances.has(char)) return advances.get(char);
    const code = char.codePointAt(0)!;
    const font = fonts.find(f => f.hasGlyphForCodePoint(code));
    const wide = font && font.glyphForCodePoint(code).advanceWidth / font.unitsPerEm;
    advances.set(char, wide);
    return wide;
  };
  const fontOf = (char: string) => ({
    font: fonts.find(f => f.hasGlyphForCodePoint(char.codePointAt(0)!)),
    char,
  });
  const shaped = (text: string) =>
    visualRuns(text, fontOf).reduce((sum, { font, text: run }) => {
      if (font && runsRightToLeft(run))
        return sum + font.layout(run).advanceWidth / font.unitsPerEm;
      return [...run].reduce((n, c) => n + (advance(c) ?? MISSING), sum);
    }, 0);
  return { advance, shaped };
}
