/** Text of whole pages in a PDF, as operators in a frame of mm with y up. pdfkit's fonts shape and embed
 *  it; how a word is shaped is remembered from one document to the next. */
import { type Run, runsRightToLeft, visualRuns } from './bidi.js';
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
  encode(text: string): [hex: string[], positions: readonly Position[]];
  ref(): unknown;
}
interface Position {
  readonly xAdvance: number;
  readonly xOffset: number;
  readonly yOffset: number;
  readonly advanceWidth: number;
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
/** Latin text needs kerning and no more. Looking all features of a face up takes twice the time. */
const KERNING = Object.fromEntries([
  ['kern', true],
  ...['ccmp', 'locl', 'rlig', 'liga', 'clig', 'calt', 'rclt', 'mark', 'mkmk', 'rvrn'].map(
    feature => [feature, false] as const,
  ),
]);

function shape(font: EmbeddedFont, word: string): void {
  font.layoutCache[word] ??= font.layoutRun(word, KERNING);
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
  const fontOf = (given: string) => {
    const owner = fonts.find(f => f.font.hasGlyphForCodePoint(given.codePointAt(0)!));
    return { font: owner ?? fonts[0]!, char: owner ? given : '?' };
  };
  const runsOf = (text: string): readonly Run<EmbeddedFont>[] => {
    if (runsRightToLeft(text)) return visualRuns(text, fontOf);
    const runs: { font: EmbeddedFont; text: string }[] = [];
    for (const given of text) {
      const { font, char } = fontOf(given);
      const last = runs.at(-1);
      if (last?.font === font) last.text += char;
      else runs.push({ font, text: char });
    }
    return runs;
  };
  const kernedLine = (run: Run<EmbeddedFont>) => {
    for (const word of run.text.match(WORDS) ?? []) shape(run.font, word);
    const [hex, positions] = run.font.encode(run.text);
    let [shown, width] = ['<', 0];
    positions.forEach(({ xAdvance, advanceWidth }, i) => {
      width += xAdvance;
      const kern = Math.round(advanceWidth - xAdvance);
      shown += kern === 0 ? hex[i]! : `${hex[i]!}> ${kern} <`;
    });
    return { shown: `[${shown}>] TJ`, width };
  };
  /** Without kerning a character is the same in every word: it is encoded once a document. */
  const chars = new Map<EmbeddedFont, Map<string, { hex: string; advance: number }>>();
  const charOf = (font: EmbeddedFont, char: string) => {
    const own = chars.get(font) ?? new Map();
    chars.set(font, own);
    const known = own.get(char);
    if (known) return known;
    shape(font, char);
    const [hex, positions] = font.encode(char);
    const made = { hex: hex.join(''), advance: positions.reduce((n, p) => n + p.xAdvance, 0) };
    own.set(char, made);
    return made;
  };
  /** Letters that join, and marks where their letters want them. Glyphs come as they are seen. */
  const joinedLine = (run: Run<EmbeddedFont>, size: number) => {
    const [hex, positions] = run.font.encode(run.text);
    let [shown, width] = ['', 0];
    positions.forEach(({ xAdvance, xOffset, yOffset, advanceWidth }, i) => {
      width += xAdvance;
      const rise = yOffset === 0 ? '' : `${num((yOffset * size) / 1000)} Ts `;
      const after = Math.round(advanceWidth - xAdvance + xOffset);
      shown += `${rise}[${-Math.round(xOffset)} <${hex[i]!}> ${after}] TJ ${rise && '0 Ts '}`;
    });
    return { shown, width };
  };
  const plainLine = (run: Run<EmbeddedFont>) => {
    let [shown, width] = ['', 0];
    for (const char of run.text) {
      const { hex, advance } = charOf(run.font, char);
      shown += hex;
      width += advance;
    }
    return { shown: `<${shown}> Tj`, width };
  };
  return {
    line(text, size) {
      let width = 0;
      const operators = runsOf(text).map(run => {
        insides.page.fonts[run.font.id] ??= run.font.ref();
        const plain = kerned ? kernedLine : plainLine;
        const line = runsRightToLeft(run.text) ? joinedLine(run, size) : plain(run);
        width += (line.width * size) / 1000;
        return `/${run.font.id} ${num(size)} Tf ${line.shown}`;
      });
      return { width, operators: operators.join(' ') };
    },
  };
}
