/** One line of text on a layer: fitted to a box, then drawn, printed or cut. */
import type { MotifTools } from '../contracts.js';
import {
  bounds,
  clockwise,
  compose,
  rotation,
  scaling,
  transform,
  translation,
} from '../geom/index.js';
import type { Affine, Layer, Path, Point, Region, Stroke } from '../model.js';
import { ParamError } from '../params.js';

/** Parameters of a line of text, for any motif that has one. */
export const letteringParams = {
  text: { kind: 'text', default: '', longest: 40, help: 'one line of text; empty is none' },
  font: { kind: 'text', default: 'pacifico', longest: 40, help: 'a face (see: list fonts)' },
  lettering: {
    kind: 'choice',
    default: 'print',
    choices: ['draw', 'print', 'cut'],
    help: 'letters drawn in outline by the pen, printed in ink, or cut out',
  },
  textHeight: {
    kind: 'length',
    default: 'auto',
    least: 1.5,
    most: 150,
    help: 'height of a capital letter; auto fills the space there is',
  },
  ink: { kind: 'text', default: '#4a2c2a', longest: 7, help: 'colour of printed letters, #rrggbb' },
} as const;

/** A line's letters and the move that puts them in the middle of the box. The middle is that of
 *  the ink: what the eye centres. */
function fitLine(
  tools: MotifTools,
  line: {
    readonly text: string;
    readonly font: string;
    readonly textHeight: number | 'auto';
  },
  box: { readonly width: number; readonly height: number },
): { regions: readonly Region[]; at: Affine } {
  const { text, font, textHeight } = line;
  const capital = textHeight === 'auto' ? 10 : textHeight;
  const regions = tools.letter(text, font, capital);
  const b = bounds(...regions.map(r => r.outer));
  const [w, h] = [b.maxX - b.minX, b.maxY - b.minY];
  const fit = Math.min(box.width / w, box.height / h);
  // A capital as large as rounding allows is one that fits.
  if (!(fit > 0) || (textHeight !== 'auto' && !(fit >= 1 - 1e-9))) {
    const most = Math.max(fit * capital, 0);
    throw new ParamError(
      'textHeight',
      textHeight,
      `the space of ${box.width.toFixed(1)} × ${box.height.toFixed(1)} mm holds ` +
        `"${text}" with capitals of at most ${most.toFixed(2)} mm`,
      'make the label larger or the text shorter, or use auto',
    );
  }
  const scale = textHeight === 'auto' ? fit : 1;
  const middle = translation(-(b.minX + b.maxX) / 2, -(b.minY + b.maxY) / 2);
  return { regions, at: compose(scaling(scale), middle) };
}

/** The clear box that a line of text is fitted into. `turn` is that of the line's way, radians. */
export interface TextRoom {
  readonly middle: Point;
  readonly width: number;
  readonly height: number;
  readonly turn?: number;
}

/** What `letteringParams` describe. */
interface Lettering {
  readonly text: string;
  readonly font: string;
  readonly lettering: string;
  readonly textHeight: number | 'auto';
  readonly ink: string;
}

/** A layer with one line of text in a box; without text the layer as it is. `bend` moves points of the
 *  line on, for a line that follows a curve. */
export function withText(
  on: Layer,
  values: Lettering,
  room: TextRoom,
  tools: MotifTools,
  bend: (p: Point) => Point = p => p,
): Layer {
  if (values.text.trim() === '') return on;
  const { regions, at } = fitLine(tools, values, room);
  const m = compose(translation(...room.middle), compose(rotation(room.turn ?? 0), at));
  const move = (p: Path) => bent(transform(p, m), bend);
  const placed = regions.map(r => ({ outer: move(r.outer), holes: r.holes.map(move) }));
  return lettered(on, placed, values);
}

/** A path of lines and cubics with every point moved: near enough where the bend is gentle. */
const bent = ({ start, segments, closed }: Path, to: (p: Point) => Point): Path => ({
  start: to(start),
  segments: segments.map(s =>
    s.kind === 'cubic'
      ? { ...s, c1: to(s.c1), c2: to(s.c2), to: to(s.to) }
      : { ...s, to: to(s.to) },
  ),
  closed,
});

/** A layer with letters on it. Cut letters become holes; what they enclose (the middle of an "o")
 *  is cut too and falls out, unless bridged. */
function lettered(
  on: Layer,
  regions: readonly Region[],
  { lettering, ink }: { readonly lettering: string; readonly ink: string },
): Layer {
  if (lettering === 'print') {
    if (!/^#[0-9a-f]{6}$/i.test(ink)) {
      throw new ParamError('ink', ink, 'a colour as #rrggbb', 'write for example #4a2c2a');
    }
    return { ...on, fills: [...on.fills, { colour: ink.toLowerCase(), regions }] };
  }
  if (lettering === 'cut') {
    const islands = regions.flatMap(r => r.holes);
    const strokes = islands.map((path): Stroke => ({ operation: 'cut', path }));
    return {
      ...on,
      holes: [...on.holes, ...regions.map(r => clockwise(r.outer))],
      strokes: [...on.strokes, ...strokes],
    };
  }
  const strokes = regions.flatMap(r =>
    [r.outer, ...r.holes].map((path): Stroke => ({ operation: 'draw', path })),
  );
  return { ...on, strokes: [...on.strokes, ...strokes] };
}
