/**
 * Lettering: a line of text as outlines that a blade, a pen or a printer can follow. Shaping
 * (kerning, ligatures, joining forms) is fontkit's, loaded when the first font is opened.
 */
import { createRequire } from 'node:module';
import type { Font, GlyphRun } from 'fontkit';
import { compose, scaling, transform, translation } from '../geom/index.js';
import type { Path, Point, Region } from '../model.js';
import { ParamError } from '../params.js';
import { penGlyphs } from './text/accents.js';
import { type Composed, composed } from './text/composed.js';
import { outlines } from './text/outlines.js';
import { isPenFont, type PenFace, readPenFace } from './text/pen-face.js';
import { weld } from './text/weld.js';

/** One face of outlines: its files, of which each character uses the first that has it. */
export interface OutlineFace {
  readonly fonts: readonly Font[];
}
export type Face = OutlineFace | { readonly pen: PenFace };

/** One glyph of a line, in the line's frame: the baseline on y = 0. */
export interface Glyph {
  /** Where it begins, and how far on the next one does, mm. */
  readonly x: number;
  readonly advance: number;
  /** Outlines as the font has them, which may overlap; none in a face for the pen. */
  readonly contours: readonly Path[];
  /** Open lines of a face for the pen. */
  readonly lines: readonly Path[];
}

let fontkit: typeof import('fontkit') | undefined;

/** Opens a face of outlines or, from an SVG font, one of single lines. */
export function openFace(...files: readonly Uint8Array[]): Face {
  const [first] = files;
  return files.length === 1 && isPenFont(first!)
    ? { pen: readPenFace(first!) }
    : openFont(...files);
}

/** Opens a face from the bytes of its files (TTF, OTF or WOFF; a face may come in several files
 *  by alphabet). Throws `ParamError` when the bytes are no font. */
export function openFont(...files: readonly Uint8Array[]): OutlineFace {
  fontkit ??= createRequire(import.meta.url)('fontkit') as typeof import('fontkit');
  const { create } = fontkit;
  const fonts = files.map(bytes => {
    try {
      const font = create(bytes as Buffer);
      // A collection holds several fonts; which one is meant cannot be told.
      if ('fonts' in font) throw new TypeError('a collection of fonts');
      return font;
    } catch (cause) {
      const why = cause instanceof Error ? cause.message : String(cause);
      throw new ParamError(
        'font',
        `${bytes.length} bytes`,
        `a TTF, OTF or WOFF file with one font (${why})`,
        'choose another file',
      );
    }
  });
  if (fonts.length === 0) throw new RangeError('a face needs at least one file');
  return { fonts };
}

/** Height of a capital in font units: what the font says, or the measured height of its H. */
export function capitalHeight(font: Font): number {
  const said = font.capHeight;
  if (said > 0) return said;
  const h = font.glyphForCodePoint(0x48).bbox;
  return h.maxY - h.minY;
}

interface Run {
  readonly font: Font;
  readonly text: string;
  /** A mark to be set over or under the one letter of the text. */
  readonly mark?: Composed['mark'];
}

/** A character that the face has not, named with its place. */
function missing(text: string, index: number): never {
  const character = [...text][index]!;
  const hex = character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0');
  throw new ParamError(
    'text',
    text,
    `the face has no "${character}" (U+${hex}), its ${ordinal(index + 1)} character`,
    'leave this character out or choose another face',
  );
}

function ordinal(n: number): string {
  const tens = n % 100;
  if (tens >= 11 && tens <= 13) return `${n}th`;
  return `${n}${['th', 'st', 'nd', 'rd'][n % 10] ?? 'th'}`;
}

/** The text in runs of one file each; a space stays with the run before it. */
function runsOf({ fonts }: OutlineFace, text: string): Run[] {
  const runs: { font: Font; text: string; mark?: Composed['mark'] }[] = [];
  [...text].forEach((character, index) => {
    const code = character.codePointAt(0)!;
    const last = runs.at(-1);
    const font = last?.font.hasGlyphForCodePoint(code)
      ? last.font
      : fonts.find(f => f.hasGlyphForCodePoint(code));
    if (font && last?.font === font && !last.mark) last.text += character;
    else if (font) runs.push({ font, text: character });
    else runs.push(composed(fonts, character) ?? missing(text, index));
  });
  return runs;
}

/** Where a shaped line's glyphs stand, in font units of the run's own font. */
export function shape(font: Font, text: string): GlyphRun {
  return font.layout(text, { kern: true, liga: true, calt: true });
}

/**
 * The glyphs of one line, its first letter's origin at x = 0, capitals `capHeight` mm high; kerned and
 * with the font's ligatures. Throws `ParamError` for a character that the face lacks.
 */
export function glyphLine(face: Face, text: string, capHeight: number): readonly Glyph[] {
  const whole = text.normalize('NFC');
  return 'pen' in face
    ? penLine(face.pen, whole, capHeight)
    : runsOf(face, whole).reduce<Glyph[]>((line, run) => {
        const last = line.at(-1);
        line.push(...runGlyphs(run, last ? last.x + last.advance : 0, capHeight));
        return line;
      }, []);
}

function runGlyphs({ font, text, mark }: Run, from: number, capHeight: number): Glyph[] {
  const scale = capHeight / capitalHeight(font);
  const { glyphs, positions } = shape(font, text);
  let x = from;
  return glyphs.map((glyph, i) => {
    const { xOffset, yOffset, xAdvance } = positions[i]!;
    const at = x;
    const to = (u: number, v: number): Point => [at + (xOffset + u) * scale, (yOffset + v) * scale];
    const advance = xAdvance * scale;
    x += advance;
    const contours = outlines(glyph.path.commands, to);
    if (!mark) return { x: at, advance, contours, lines: [] };
    const [right, up] = mark.move;
    const over = outlines(mark.glyph.path.commands, (u, v) => to(u + right, v + up));
    return { x: at, advance, contours: [...contours, ...over], lines: [] };
  });
}

function penLine(face: PenFace, text: string, capHeight: number): Glyph[] {
  const scale = capHeight / face.capital;
  let x = 0;
  return [...text].flatMap((character, index) => {
    const found = penGlyphs(face, character) ?? missing(text, index);
    return found.map(({ advance, lines }): Glyph => {
      const at = x;
      const move = compose(translation(at, 0), scaling(scale));
      x += advance * scale;
      return { x: at, advance: x - at, contours: [], lines: lines.map(l => transform(l, move)) };
    });
  });
}

/**
 * One line of text, welded: baseline on y = 0, the first letter's origin at x = 0, capitals
 * `capHeight` mm high. Letters that overlap are one outline. Throws `ParamError` for a character
 * that the face lacks, for a face of single lines and for text that leaves no mark.
 */
export function letterLine(face: Face, text: string, capHeight: number): Region[] {
  const glyphs = glyphLine(face, text, capHeight);
  if ('pen' in face && glyphs.length > 0) throw noOutlines(text);
  const contours = glyphs.map(g => g.contours);
  if (contours.flat().length === 0) throw noMark(text);
  return weld(contours);
}

export const noMark = (text: string) =>
  new ParamError('text', text, 'it leaves no mark', 'write at least one letter');

/** Where outlines are asked of a face of single lines. */
const noOutlines = (text: string) =>
  new ParamError(
    'font',
    text,
    'a face with outlines: single lines are for the pen only',
    'draw the text (lettering: draw), or choose another face',
  );
