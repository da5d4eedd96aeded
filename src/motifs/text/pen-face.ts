/** Faces of single lines, as a pen draws them, from SVG 1.1 fonts ("Fonts", section 20 of that standard). */
import { cubic, line, openPath } from '../../geom/index.js';
import type { Path, Point, Segment } from '../../model.js';
import { ParamError } from '../../params.js';

export interface PenGlyph {
  readonly advance: number;
  readonly lines: readonly Path[];
}

/** In the font's own units, y up, baseline on 0. */
export interface PenFace {
  readonly capital: number;
  readonly xHeight: number;
  readonly glyphs: ReadonlyMap<string, PenGlyph>;
}

/** Whole alphabets take about 60 kB. */
const MOST_BYTES = 2_000_000;
const MOST_GLYPHS = 10_000;

const refuse = (why: string): never => {
  throw new ParamError(
    'font',
    'an SVG font',
    `a font of open lines (absolute M, L, C and Z): ${why}`,
    'choose another file',
  );
};

export const isPenFont = (bytes: Uint8Array): boolean => {
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, 400)).trimStart();
  return head.startsWith('<?xml') || head.startsWith('<svg');
};

/** Reads a font. Throws `ParamError` for what is no such font. */
export function readPenFace(bytes: Uint8Array): PenFace {
  if (bytes.length > MOST_BYTES) refuse(`${bytes.length} bytes are too many`);
  const text = new TextDecoder('utf-8').decode(bytes);
  const standard = Number(/<font\b[^>]*\bhoriz-adv-x="([^"]*)"/.exec(text)?.[1] ?? Number.NaN);
  const glyphs = new Map<string, PenGlyph>();
  for (const [tag] of text.matchAll(/<glyph\b[^>]*>/g)) {
    if (glyphs.size >= MOST_GLYPHS) refuse(`more than ${MOST_GLYPHS} characters`);
    const character = unescaped(attribute(tag, 'unicode') ?? '');
    if ([...character].length !== 1) continue;
    const advance = Number(attribute(tag, 'horiz-adv-x') ?? standard);
    if (!(advance >= 0 && advance < 1e6)) refuse(`no width of "${character}"`);
    glyphs.set(character.normalize('NFC'), { advance, lines: linesOf(attribute(tag, 'd') ?? '') });
  }
  const capital = topOf(glyphs.get('H'));
  const xHeight = topOf(glyphs.get('x'));
  if (!(capital > 0 && xHeight > 0)) refuse('it has no H and no x');
  return { capital, xHeight, glyphs };
}

const attribute = (tag: string, name: string) =>
  new RegExp(`\\s${name}\\s*=\\s*"([^"]*)"`).exec(tag)?.[1];

const NAMED: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
};

const unescaped = (text: string): string =>
  text.replace(/&(?:#x([0-9a-f]{1,6})|#(\d{1,7})|(\w+));/gi, (whole, hex, decimal, name) => {
    if (name) return NAMED[name] ?? whole;
    const code = hex ? Number.parseInt(hex, 16) : Number(decimal);
    return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });

const topOf = (glyph: PenGlyph | undefined): number =>
  Math.max(0, ...(glyph?.lines ?? []).flatMap(l => [l.start[1], ...l.segments.map(s => s.to[1])]));

/** Words of path data, and how many numbers each command takes. */
const WORD = /[A-Za-z]|[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/g;
const TAKES: Readonly<Record<string, number>> = { M: 2, L: 2, C: 6, Z: 0 };

function linesOf(data: string): Path[] {
  const words = data.match(WORD) ?? [];
  const paths: Path[] = [];
  let start: Point | undefined;
  let segments: Segment[] = [];
  const end = () => {
    if (start && segments.length > 0) paths.push(openPath(start, segments));
    segments = [];
  };
  let command = '';
  for (let i = 0; i < words.length; ) {
    if (/[A-Za-z]/.test(words[i]!)) command = words[i++]!;
    const takes = TAKES[command] ?? refuse(`the command ${command || 'before the first number'}`);
    const n = words.slice(i, i + takes).map(Number);
    if (n.length < takes || !n.every(Number.isFinite)) refuse('a number is missing');
    i += takes;
    const p = (k: number): Point => [n[k]!, n[k + 1]!];
    if (command === 'M') {
      end();
      start = p(0);
      command = 'L';
    } else if (!start) refuse('a line that begins nowhere');
    else if (command === 'L') segments.push(line(p(0)));
    else if (command === 'C') segments.push(cubic(p(0), p(2), p(4)));
    else {
      segments.push(line(start));
      end();
      command = '';
    }
  }
  end();
  return paths;
}
