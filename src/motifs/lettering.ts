/**
 * Lettering: a line of text as outlines that a blade, a pen or a printer can follow. Shaping
 * (kerning, ligatures, joining forms) is fontkit's, loaded when the first font is opened.
 */
import { createRequire } from 'node:module';
import type { Font, GlyphRun } from 'fontkit';
import { bounds, cubic, line, signedArea, uniteContours } from '../geom/index.js';
import type { Path, Point, Region, Segment } from '../model.js';
import { ParamError } from '../params.js';
import { SAME_POINT_MM } from '../units/tolerances.js';

/** One face: its files, of which each character uses the first that has it. */
export interface Face {
  readonly fonts: readonly Font[];
}

let fontkit: typeof import('fontkit') | undefined;

/** Opens a face from the bytes of its files (TTF, OTF or WOFF; a face may come in several files
 *  by alphabet). Throws `ParamError` when the bytes are no font. */
export function openFont(...files: readonly Uint8Array[]): Face {
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
}

/** The text in runs of one file each; a space stays with the run before it. */
function runsOf({ fonts }: Face, text: string): Run[] {
  const runs: { font: Font; text: string }[] = [];
  for (const character of text) {
    const code = character.codePointAt(0)!;
    const last = runs.at(-1);
    const font = last?.font.hasGlyphForCodePoint(code)
      ? last.font
      : fonts.find(f => f.hasGlyphForCodePoint(code));
    if (!font) {
      const hex = code.toString(16).toUpperCase().padStart(4, '0');
      throw new ParamError(
        'text',
        text,
        `the face has no "${character}" (U+${hex})`,
        'leave this character out or choose another face',
      );
    }
    if (last?.font === font) last.text += character;
    else runs.push({ font, text: character });
  }
  return runs;
}

/** Where a shaped line's glyphs stand, in font units of the run's own font. */
export function shape(font: Font, text: string): GlyphRun {
  return font.layout(text, { kern: true, liga: true, calt: true });
}

/**
 * One line of text, welded: baseline on y = 0, the first letter's origin at x = 0, capitals
 * `capHeight` mm high. Letters that overlap are one outline. Throws `ParamError` for a character
 * that the face lacks and for text that leaves no mark.
 */
export function letterLine(face: Face, text: string, capHeight: number): Region[] {
  const contours: Path[] = [];
  let x = 0;
  for (const run of runsOf(face, text.normalize('NFC'))) {
    const scale = capHeight / capitalHeight(run.font);
    const { glyphs, positions } = shape(run.font, run.text);
    glyphs.forEach((glyph, i) => {
      const { xOffset, yOffset, xAdvance } = positions[i]!;
      const to = (u: number, v: number): Point => [
        x + (xOffset + u) * scale,
        (yOffset + v) * scale,
      ];
      contours.push(...outlines(glyph.path.commands, to));
      x += xAdvance * scale;
    });
  }
  if (contours.length === 0) {
    throw new ParamError('text', text, 'it leaves no mark', 'write at least one letter');
  }
  return clusters(contours).flatMap(uniteContours);
}

/** Contours in groups that no upright line passes between: what must be welded together. Welding
 *  a word at a time costs a fraction of welding the line. */
function clusters(contours: readonly Path[]): Path[][] {
  const boxed = contours.map(path => ({ path, box: bounds(path) }));
  boxed.sort((a, b) => a.box.minX - b.box.minX);
  const groups: Path[][] = [];
  let reach = Number.NEGATIVE_INFINITY;
  for (const { path, box } of boxed) {
    if (box.minX > reach + SAME_POINT_MM) groups.push([]);
    groups.at(-1)!.push(path);
    reach = Math.max(reach, box.maxX);
  }
  return groups;
}

interface Command {
  readonly command: string;
  readonly args: readonly number[];
}

/** The closed contours of a glyph; quadratics raised to cubics, which is exact. */
function outlines(commands: readonly Command[], to: (u: number, v: number) => Point): Path[] {
  const paths: Path[] = [];
  let start: Point | undefined;
  let at: Point = [0, 0];
  let segments: Segment[] = [];
  const close = () => {
    if (start && segments.length > 0) {
      if (at[0] !== start[0] || at[1] !== start[1]) segments.push(line(start));
      const path: Path = { start, segments, closed: true };
      if (signedArea(path) !== 0) paths.push(path);
    }
    segments = [];
  };
  for (const { command, args } of commands) {
    const p = (i: number) => to(args[i]!, args[i + 1]!);
    if (command === 'moveTo') {
      close();
      start = p(0);
      at = start;
    } else if (command === 'closePath') {
      close();
      start = undefined;
    } else {
      const from = at;
      if (command === 'lineTo') {
        at = p(0);
        if (at[0] === from[0] && at[1] === from[1]) continue;
        segments.push(line(at));
      } else if (command === 'quadraticCurveTo') {
        const q = p(0);
        at = p(2);
        const third = (a: Point): Point => [(a[0] + 2 * q[0]) / 3, (a[1] + 2 * q[1]) / 3];
        segments.push(cubic(third(from), third(at), at));
      } else {
        at = p(4);
        segments.push(cubic(p(0), p(2), at));
      }
    }
  }
  close();
  return paths;
}
