/** Short lines of text in a PDF, in a frame of mm with y up. pdfkit embeds only the glyphs used. */
import type PDFDocument from 'pdfkit';

export interface Lettering {
  /** Width of one line, mm. */
  width(text: string, size: number): number;
  /** One line from (x, y), its baseline; `size` is the em, mm. Black unless the content says
   *  otherwise. */
  write(text: string, x: number, y: number, size: number): void;
}

/** What we use of pdfkit's current font, beyond its published types. */
interface CurrentFont {
  readonly font: { hasGlyphForCodePoint(code: number): boolean };
}
const current = (doc: PDFKit.PDFDocument): CurrentFont =>
  (doc as unknown as { _font: CurrentFont })._font;

const WOFF2 = [0x77, 0x4f, 0x46, 0x32];

/** Opens the files of one face: each character is set from the first file that has it, or as "?".
 *  Throws on WOFF2, which pdfkit embeds as invisible text. */
export function openLettering(
  doc: InstanceType<typeof PDFDocument>,
  files: readonly Uint8Array[],
): Lettering {
  const names = files.map((bytes, i) => {
    if (WOFF2.every((b, k) => bytes[k] === b))
      throw new RangeError('font: give TTF, OTF or WOFF, not WOFF2');
    doc.registerFont(`face-${i}`, Buffer.from(bytes));
    doc.font(`face-${i}`);
    return { name: `face-${i}`, has: current(doc).font };
  });
  /** The text as stretches of one file each. */
  const runs = (text: string): { name: string; text: string }[] => {
    const found: { name: string; text: string }[] = [];
    for (const given of text) {
      const owner = names.find(n => n.has.hasGlyphForCodePoint(given.codePointAt(0)!));
      const char = owner ? given : '?';
      const name = (owner ?? names[0]!).name;
      const last = found.at(-1);
      if (last?.name === name) last.text += char;
      else found.push({ name, text: char });
    }
    return found;
  };
  const runWidth = (run: { name: string; text: string }, size: number) =>
    doc.font(run.name).fontSize(size).widthOfString(run.text);
  return {
    width: (text, size) => runs(text).reduce((sum, run) => sum + runWidth(run, size), 0),
    write(text, x, y, size) {
      const { height } = doc.page;
      let pen = x;
      // pdfkit turns its text upright for a frame with y down: ours is turned over first.
      doc.addContent(`q 1 0 0 -1 0 ${height} cm`);
      for (const run of runs(text)) {
        const width = runWidth(run, size);
        doc.text(run.text, pen, height - y, { lineBreak: false, baseline: 'alphabetic' });
        pen += width;
      }
      doc.addContent('Q');
    },
  };
}
