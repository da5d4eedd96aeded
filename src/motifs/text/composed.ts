/**
 * Letters with a mark that an outline face lacks, composed of the letter and the mark that it has on its own.
 * Which mark a letter takes is Unicode's canonical decomposition.
 */
import type { Font, Glyph } from 'fontkit';

/** A letter, and a mark moved to its place, in the font's own units. */
export interface Composed {
  readonly font: Font;
  readonly text: string;
  readonly mark: { readonly glyph: Glyph; readonly move: readonly [right: number, up: number] };
}

/** Combining marks by the characters that show them on their own. A point or a comma stands in for a mark of
 *  its shape. */
const SPACING: Readonly<
  Record<string, { readonly by: string; readonly place: 'above' | 'below' }>
> = {
  '\u0300': { by: '`', place: 'above' },
  '\u0301': { by: '\u00b4', place: 'above' },
  '\u0302': { by: '\u02c6', place: 'above' },
  '\u0303': { by: '\u02dc', place: 'above' },
  '\u0304': { by: '\u00af', place: 'above' },
  '\u0306': { by: '\u02d8', place: 'above' },
  '\u0307': { by: '.', place: 'above' },
  '\u0308': { by: '\u00a8', place: 'above' },
  '\u030a': { by: '\u02da', place: 'above' },
  '\u030b': { by: '\u02dd', place: 'above' },
  '\u030c': { by: '\u02c7', place: 'above' },
  '\u0326': { by: ',', place: 'below' },
  '\u0327': { by: '\u00b8', place: 'below' },
};

/** Beside these a caron is written as an apostrophe. */
const TALL = 'dtlL';
const CARON = '\u030c';

/** Air between a letter and its mark, in small letters' heights. */
const AIR = 0.14;

/** The letter with its mark, of whichever files of the face have them; nothing where none has. */
export function composed(fonts: readonly Font[], character: string): Composed | undefined {
  const [letter, combining, ...more] = character.normalize('NFD');
  const mark = combining === undefined ? undefined : SPACING[combining];
  if (!letter || !mark || more.length > 0) return undefined;
  if (combining === CARON && TALL.includes(letter)) return undefined;
  const text = letter === 'i' && mark.place === 'above' ? '\u0131' : letter;
  const having = (c: string) => fonts.find(f => f.hasGlyphForCodePoint(c.codePointAt(0)!));
  const [font, other] = [having(text), having(mark.by)];
  // The files of one face are drawn to one scale.
  if (!font || font.unitsPerEm !== other?.unitsPerEm) return undefined;
  const base = font.glyphForCodePoint(text.codePointAt(0)!);
  const glyph = other.glyphForCodePoint(mark.by.codePointAt(0)!);
  const [b, m] = [base.bbox, glyph.bbox];
  const air = AIR * (font.xHeight > 0 ? font.xHeight : (b.maxY - b.minY) / 2);
  const up = mark.place === 'above' ? b.maxY + air - m.minY : b.minY - air / 2 - m.maxY;
  const right = (b.minX + b.maxX - m.minX - m.maxX) / 2;
  // A cedilla hangs on its letter.
  const hangs = combining === '\u0327';
  return { font, text, mark: { glyph, move: [right, hangs ? up + air / 2 : up] } };
}
