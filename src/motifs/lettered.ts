/** Text on a layer: fitted to a box, then drawn, printed or cut. */
import type { MotifTools, SetText } from '../contracts.js';
import {
  apply,
  clockwise,
  compose,
  rectangle,
  rotation,
  scaling,
  transform,
  translation,
} from '../geom/index.js';
import type { Affine, Layer, Path, Point, Region, Stroke, Words } from '../model.js';
import { ParamError } from '../params.js';
import { bridged } from './text/bridges.js';
import { textBounds } from './text/set.js';

/** Parameters of text, for any motif that has some. */
export const letteringParams = {
  text: {
    kind: 'text',
    default: '',
    longest: 160,
    help: 'the text, lines parted by " / "; empty is none',
  },
  font: {
    kind: 'text',
    default: 'pacifico',
    longest: 200,
    help: 'a face (see: list fonts), or a TTF, OTF or WOFF file of your own',
  },
  lettering: {
    kind: 'choice',
    default: 'auto',
    choices: ['auto', 'draw', 'print', 'cut'],
    help: 'drawn by the pen, printed in ink, or cut out; auto draws single lines and prints the others',
  },
  textHeight: {
    kind: 'length',
    default: 'auto',
    least: 1.5,
    most: 150,
    help: 'height of a capital letter; auto fills the space there is',
  },
  align: {
    kind: 'choice',
    default: 'centre',
    choices: ['left', 'centre', 'right'],
    help: 'where the lines of the text are flush',
  },
  bend: {
    kind: 'angleDeg',
    default: 0,
    least: -340,
    most: 340,
    help: 'how far round a circle the text runs: arched, or hanging where negative',
  },
  bridge: {
    kind: 'length',
    default: 1.2,
    least: 0,
    most: 10,
    help: 'width of the bridges that hold the middles of cut-out letters; 0 makes none',
  },
  ink: { kind: 'text', default: '#4a2c2a', longest: 7, help: 'colour of printed letters, #rrggbb' },
} as const;

/** What `letteringParams` give. */
export interface Lettering {
  readonly text: string;
  readonly font: string;
  readonly lettering: string;
  readonly textHeight: number | 'auto';
  readonly align: string;
  readonly bend: number;
  readonly bridge: number;
  readonly ink: string;
}

/** The clear box that text is fitted into. `turn` is that of the lines' way, radians. */
export interface TextRoom {
  readonly middle: Point;
  readonly width: number;
  readonly height: number;
  readonly turn?: number;
}

/** Capitals of text whose height is not yet known, mm. */
const TRIAL = 10;

/** Text in the middle of its room. The middle is that of the ink: what the eye centres. */
function fitText(tools: MotifTools, asked: Lettering, box: TextRoom): SetText {
  const { text, font, textHeight, bend } = asked;
  const capital = textHeight === 'auto' ? TRIAL : textHeight;
  const align = asked.align as 'left' | 'centre' | 'right';
  const set = tools.set({ text, font, height: capital, align, bend: (bend * Math.PI) / 180 });
  const b = textBounds(set);
  const fit = Math.min(box.width / (b.maxX - b.minX), box.height / (b.maxY - b.minY));
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
  const toMiddle = translation(-(b.minX + b.maxX) / 2, -(b.minY + b.maxY) / 2);
  const turned = compose(rotation(box.turn ?? 0), compose(scaling(scale), toMiddle));
  return movedText(set, compose(translation(...box.middle), turned));
}

/** Set text moved, turned or scaled, not mirrored. */
export function movedText(set: SetText, at: Affine): SetText {
  const move = (p: Region['outer']) => transform(p, at);
  const det = at[0] * at[3] - at[1] * at[2];
  const size = Math.sqrt(det);
  return {
    regions: set.regions.map(r => ({ outer: move(r.outer), holes: r.holes.map(move) })),
    lines: set.lines.map(move),
    capital: set.capital * size,
    baselines: set.baselines.map(({ from, width }) => ({
      from: apply(at, from),
      width: width * size,
    })),
    up(p) {
      const [dx, dy] = [p[0] - at[4], p[1] - at[5]];
      const before: Point = [(at[3] * dx - at[2] * dy) / det, (at[0] * dy - at[1] * dx) / det];
      const [x, y] = set.up(before);
      return [(at[0] * x + at[2] * y) / size, (at[1] * x + at[3] * y) / size];
    },
  };
}

/** A layer with text in its room; without text the layer as it is. `warp` moves points of the text on,
 *  for text that follows a curve of the motif's own. */
export function withText(
  on: Layer,
  asked: Lettering,
  room: TextRoom,
  tools: MotifTools,
  warp?: (p: Point) => Point,
): Layer {
  if (asked.text.trim() === '') return on;
  const set = fitText(tools, asked, room);
  return lettered(on, warp ? warped(set, warp) : set, asked);
}

/** Paths of lines and cubics with every point moved: near enough where the curve is gentle. */
function warped(set: SetText, to: (p: Point) => Point): SetText {
  const move = ({ start, segments, closed }: Path): Path => ({
    start: to(start),
    segments: segments.map(s =>
      s.kind === 'cubic'
        ? { ...s, c1: to(s.c1), c2: to(s.c2), to: to(s.to) }
        : { ...s, to: to(s.to) },
    ),
    closed,
  });
  return {
    ...set,
    regions: set.regions.map(r => ({ outer: move(r.outer), holes: r.holes.map(move) })),
    lines: set.lines.map(move),
  };
}

/** A layer with set text on it. Cut letters become holes; their middles are held by bridges, or fall
 *  out where there are none. */
export function lettered(
  on: Layer,
  set: SetText,
  { lettering, ink, bridge, font }: Pick<Lettering, 'lettering' | 'ink' | 'bridge' | 'font'>,
): Layer {
  const single = set.lines.length > 0;
  if (single && lettering !== 'auto' && lettering !== 'draw') {
    throw new ParamError(
      'lettering',
      lettering,
      `draw: the single lines of ${font} are for the pen`,
      'draw the text, or choose a face with outlines',
    );
  }
  if (!single && (lettering === 'print' || lettering === 'auto')) {
    if (!/^#[0-9a-f]{6}$/i.test(ink)) {
      throw new ParamError('ink', ink, 'a colour as #rrggbb', 'write for example #4a2c2a');
    }
    const colour = ink.toLowerCase();
    return {
      ...on,
      fills: [...on.fills, { colour, regions: set.regions }],
      words: wordsOf(on, set, { by: 'print', ink: colour }),
    };
  }
  if (lettering === 'cut') {
    const regions = bridge > 0 ? bridged(set.regions, bridge, set.up) : set.regions;
    const islands = regions.flatMap(r => r.holes);
    const strokes = islands.map((path): Stroke => ({ operation: 'cut', path }));
    return {
      ...on,
      holes: [...on.holes, ...regions.map(r => clockwise(r.outer))],
      strokes: [...on.strokes, ...strokes],
      words: wordsOf(on, set, { by: 'cut' }),
    };
  }
  const outlines = set.regions.flatMap(r => [r.outer, ...r.holes]);
  const strokes = [...outlines, ...set.lines].map((path): Stroke => ({ operation: 'draw', path }));
  return {
    ...on,
    strokes: [...on.strokes, ...strokes],
    words: wordsOf(on, set, { by: 'draw' }),
  };
}

type How = { readonly by: 'draw' | 'cut' } | { readonly by: 'print'; readonly ink: string };

function wordsOf(on: Layer, set: SetText, how: How): readonly Words[] {
  const { minX, minY, maxX, maxY } = textBounds(set);
  const box = rectangle(minX, minY, maxX - minX, maxY - minY);
  return [...(on.words ?? []), { box, capital: set.capital, ...how }];
}
