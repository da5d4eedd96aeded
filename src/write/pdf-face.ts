/** Text of whole pages in a PDF, as operators in a frame of mm with y up. pdfkit's fonts shape and embed
 *  it; how a word is shaped is remembered from one document to the next. */
import { num } from './number.js';

export interface PdfFace {
  /** Width of one line, and the operators that show it from the text's own origin; `size` is the em. */
  line(text: string, size: number): { readonly width: number; readonly operators: string };
}

interface ShapedWord {
  readonly glyphs: readonly unknown[];
  readonly positions: readonly unknown[];
  readonly advanceWidth: number;
}
/** What we use of pdfkit's fonts and pages, beyond its published types. Advances are in thousandths of
 *  the em. */
interface EmbeddedFont {
  readonly id: string;
  readonly font: { hasGlyphForCodePoint(code: number): boolean };
  layoutCache: Record<string, ShapedWord>;
  layoutRun(word: string, features: Readonly<Record<string, boolean>>): ShapedWord;
  encode(
    text: string,
  ): [hex: string[], positions: readonly { xAdvance: number; advanceWidth: number }[]];
  ref(): unknown;
}
interface Insides {
  readonly _font: EmbeddedFont;
  readonly page: { readonly fonts: Record<string, unknown> };
}

/** Shaped words by the bytes of their font. */
const shaped = new WeakMap<Uint8Array, Record<string, ShapedWord>>();

function shapedIn(bytes: Uint8Array): Record<string, ShapedWord> {
  const known = shaped.get(bytes) ?? (Object.create(null) as Record<string, ShapedWord>);
  shaped.set(bytes, known);
  return known;
}

/** As pdfkit parts text into words. */
const WORDS = /[^ \t]*[ \t]|[^ \t]+/g;
/** Words without letters: figures are never kerned. */
const FIGURES = /^[\d/.,;:()×%]+ ?$/;
/** Latin text needs kerning and no more. Looking all features of a face up takes twice the time. */
const KERNING = Object.fromEntries([
  ['kern', true],
  ...['ccmp', 'locl', 'rlig', 'liga', 'clig', 'calt', 'rclt', 'mark', 'mkmk', 'rvrn'].map(
    feature => [feature, false] as const,
  ),
]);

function shape(font: EmbeddedFont, word: string, kerned: boolean): void {
  if (font.layoutCache[word] !== undefined) return;
  if (word.length === 1 || (kerned && !FIGURES.test(word))) {
    font.layoutCache[word] = font.layoutRun(word, KERNING);
    return;
  }
  const chars = [...word].map(c => {
    shape(font, c, kerned);
    return font.layoutCache[c]!;
  });
  font.layoutCache[word] = {
    glyphs: chars.flatMap(c => c.glyphs),
    positions: chars.flatMap(c => c.positions),
    advanceWidth: chars.reduce((sum, c) => sum + c.advanceWidth, 0),
  };
}

/** Opens the files of one face: each character is set from the first file that has it, or as "?".
 *  Only what is large needs kerning: shaping it takes most of the time of setting text. */
export function openFace(
  doc: PDFKit.PDFDocument,
  files: readonly Uint8Array[],
  face: string,
  kerned: boolean,
): PdfFace {
  const insides = doc as unknown as Insides;
  const fonts = files.map((bytes, i) => {
    doc.registerFont(`${face}-${i}`, Buffer.from(bytes));
    doc.font(`${face}-${i}`);
    const font = insides._font;
    font.layoutCache = shapedIn(bytes);
    return font;
  });
  const runsOf = (text: string) => {
    const runs: { font: EmbeddedFont; text: string }[] = [];
    for (const given of text) {
      const owner = fonts.find(f => f.font.hasGlyphForCodePoint(given.codePointAt(0)!));
      const [font, char] = [owner ?? fonts[0]!, owner ? given : '?'];
      const last = runs.at(-1);
      if (last?.font === font) last.text += char;
      else runs.push({ font, text: char });
    }
    return runs;
  };
  return {
    line(text, size) {
      let width = 0;
      const operators = runsOf(text).map(run => {
        insides.page.fonts[run.font.id] ??= run.font.ref();
        for (const word of run.text.match(WORDS) ?? []) shape(run.font, word, kerned);
        const [hex, positions] = run.font.encode(run.text);
        let shown = '<';
        positions.forEach(({ xAdvance, advanceWidth }, i) => {
          width += (xAdvance * size) / 1000;
          const kern = Math.round(advanceWidth - xAdvance);
          shown += kern === 0 ? hex[i]! : `${hex[i]!}> ${kern} <`;
        });
        return `/${run.font.id} ${num(size)} Tf [${shown}>] TJ`;
      });
      return { width, operators: operators.join(' ') };
    },
  };
}
