/** Text set in lines: beside a straight edge or round a circle, and where each of its letters goes. */
import type { SetText, TextAsk } from '../../contracts.js';
import { bounds, compose, rotation, transform, translation, unit } from '../../geom/index.js';
import type { Affine, Path, Point } from '../../model.js';
import { ParamError } from '../../params.js';
import { type Face, type Glyph, glyphLine, noMark } from '../lettering.js';
import { weld } from './weld.js';

/** Baseline to baseline where nothing is said, in capitals: room for a tail above a capital. */
const LEADING = 1.75;
/** The most lines of one text: a label is no letter. */
const MOST_LINES = 12;
/** Text round more of a circle than this runs into its own beginning. */
const MOST_TURN = 2 * Math.PI;

/** Lines are parted by line breaks, or by a stroke with air on both sides as verse is: "For you / love". */
const linesOf = (text: string): string[] => text.split(/[ \t]*\n[ \t]*|[ \t]+\/[ \t]+/);

interface Line {
  readonly glyphs: readonly Glyph[];
  /** From the first letter's origin to the last one's end, mm. */
  readonly width: number;
}

/**
 * Text about the baseline of its first line: x = 0 is its left end, its middle or its right end as it is
 * aligned (the middle, where it is bent). Throws `ParamError` for a character that the face lacks, for
 * text without a mark, and for a bend that the text does not go round.
 */
export function setText(face: Face, ask: TextAsk): SetText {
  const { text, height, align = 'centre', leading = LEADING, spacing = 0 } = ask;
  const written = linesOf(text);
  if (written.length > MOST_LINES) {
    throw new ParamError('text', text, `at most ${MOST_LINES} lines`, 'make fewer lines of it');
  }
  const lines = written.map(line => spaced(glyphLine(face, line, height), spacing * height));
  const widest = Math.max(...lines.map(l => l.width));
  const contours: Path[][] = [];
  const strokes: Path[] = [];
  const radius = radiusOf(ask, widest, (lines.length - 1) * leading * height);
  lines.forEach((line, k) => {
    const down = k * leading * height;
    for (const glyph of line.glyphs) {
      const along = lineStart(line.width, align, radius, widest);
      const move =
        radius === undefined ? translation(along, -down) : bent(glyph, along, down, radius);
      if (glyph.contours.length > 0) contours.push(glyph.contours.map(p => transform(p, move)));
      strokes.push(...glyph.lines.map(p => transform(p, move)));
    }
  });
  if (contours.length + strokes.length === 0) throw noMark(text);
  const up = (p: Point): Point => {
    if (radius === undefined) return [0, 1];
    const from: Point = [p[0], p[1] + radius];
    const out = from[0] === 0 && from[1] === 0 ? ([0, 1] as const) : unit(from);
    return radius > 0 ? out : [-out[0], -out[1]];
  };
  const baselines = lines.map(({ width }, k) => ({
    from: [lineStart(width, align, radius, widest), -k * leading * height] as const,
    width,
  }));
  return { regions: weld(contours), lines: strokes, baselines, capital: height, up };
}

/** Where a line begins. Bent text keeps its middle on top, so its lines are aligned within the widest. */
function lineStart(
  width: number,
  align: 'left' | 'centre' | 'right',
  radius: number | undefined,
  widest: number,
): number {
  const own = { left: 0, centre: -width / 2, right: -width }[align];
  if (radius === undefined) return own;
  return own + { left: -widest / 2, centre: 0, right: widest / 2 }[align];
}

function spaced(glyphs: readonly Glyph[], more: number): Line {
  const moved = glyphs.map((g, i) => ({ ...g, shift: i * more }));
  const last = moved.at(-1);
  const width = last ? last.x + last.advance + last.shift : 0;
  if (more === 0) return { glyphs, width };
  return {
    width,
    glyphs: moved.map(({ shift, ...g }) => {
      const by = translation(shift, 0);
      return {
        ...g,
        x: g.x + shift,
        contours: g.contours.map(p => transform(p, by)),
        lines: g.lines.map(p => transform(p, by)),
      };
    }),
  };
}

/** Radius of the first baseline, its circle's middle below it; negative where that is above. */
function radiusOf({ bend, radius, height, text }: TextAsk, widest: number, below: number) {
  const r = radius ?? (bend === undefined || bend === 0 ? undefined : widest / bend);
  if (r === undefined) return undefined;
  if (!(Math.abs(r) > 0) || !Number.isFinite(r)) throw new RangeError(`no radius: ${r}`);
  const turn = widest / Math.abs(r);
  // The lowest line of text over a circle is the tightest; of text under one, the highest letters.
  const tightest = r > 0 ? r - below : -r - height;
  if (!(turn <= MOST_TURN * (1 + 1e-9)) || !(tightest > 0)) {
    throw new ParamError(
      'bend',
      Number(((turn * 180) / Math.PI).toFixed(0)),
      `less: "${text}" ${turn > MOST_TURN ? 'runs into its own beginning' : 'leaves its lines no room'}`,
      'bend it less, write less or make fewer lines',
    );
  }
  return r;
}

/** A glyph turned as a whole, so that its own lines stay as they are drawn. */
function bent({ x, advance }: Glyph, along: number, down: number, radius: number): Affine {
  const middle = x + advance / 2;
  const angle = -(along + middle) / (radius - down);
  return compose(rotation(angle, [0, -radius]), translation(-middle, -down));
}

/** The box round all that is set. */
export const textBounds = ({ regions, lines }: Pick<SetText, 'regions' | 'lines'>) =>
  bounds(...regions.map(r => r.outer), ...lines);
