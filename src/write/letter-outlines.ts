/** Short lines of text as outlines, for writers whose readers may have no fonts. */
import { createRequire } from 'node:module';
import type { Font } from 'fontkit';
import { type Run, runsRightToLeft, visualRuns } from './bidi.js';
import { num } from './number.js';

export interface LetterOutlines {
  /** Width of one line, mm; `size` is the em, mm. */
  width(text: string, size: number): number;
  /** Whether any file has the character. */
  has(char: string): boolean;
  /** SVG path data of one line from the origin, its baseline on y = 0 and y down, mm. */
  data(text: string, size: number): string;
}

/** Opening a face takes longer than writing with it, and a run writes many pages. */
const opened = new WeakMap<object, LetterOutlines>();

/** The files of one face (TTF, OTF or WOFF): each character comes from the first file that has it, or is
 *  set as "?". */
export function letterOutlines(font: Uint8Array | readonly Uint8Array[]): LetterOutlines {
  const known = opened.get(font);
  if (known) return known;
  const letters = open(font instanceof Uint8Array ? [font] : font);
  opened.set(font, letters);
  return letters;
}

function open(files: readonly Uint8Array[]): LetterOutlines {
  // Loaded when the first page is written: it is a large library.
  const { create } = createRequire(import.meta.url)('fontkit') as typeof import('fontkit');
  const fonts = files.map(bytes => create(bytes as Buffer) as Font);
  /** The text as stretches of one font each. */
  const fontOf = (given: string) => {
    const owner = fonts.find(f => f.hasGlyphForCodePoint(given.codePointAt(0)!));
    return { font: owner ?? fonts[0]!, char: owner ? given : '?' };
  };
  const runs = (text: string): readonly Run<Font>[] => {
    if (runsRightToLeft(text)) return visualRuns(text, fontOf);
    const found: { font: Font; text: string }[] = [];
    for (const given of text) {
      const { font, char } = fontOf(given);
      const last = found.at(-1);
      if (last?.font === font) last.text += char;
      else found.push({ font, text: char });
    }
    return found;
  };
  return {
    has: char => fonts.some(f => f.hasGlyphForCodePoint(char.codePointAt(0)!)),
    width: (text, size) =>
      runs(text).reduce(
        (sum, run) => sum + (run.font.layout(run.text).advanceWidth / run.font.unitsPerEm) * size,
        0,
      ),
    data(text, size) {
      let pen = 0;
      let data = '';
      for (const run of runs(text)) {
        const scale = size / run.font.unitsPerEm;
        const { glyphs, positions } = run.font.layout(run.text);
        for (const [i, glyph] of glyphs.entries()) {
          const { xAdvance, xOffset, yOffset } = positions[i]!;
          for (const { command, args } of glyph.path.commands) {
            data += LETTER[command];
            data += args
              .map((v, k) =>
                k % 2 === 0 ? num(pen + (v + xOffset) * scale) : num(-(v + yOffset) * scale),
              )
              .join(' ');
          }
          pen += xAdvance * scale;
        }
      }
      return data;
    },
  };
}

const LETTER = {
  moveTo: 'M',
  lineTo: 'L',
  quadraticCurveTo: 'Q',
  bezierCurveTo: 'C',
  closePath: 'Z',
} as const;
