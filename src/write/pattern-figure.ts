/** A net in the flat as a measured drawing: folds by line type (ISO 128), glue hatched, every length told
 *  outside the paper so that no two texts lie on each other. */
import { bounds, circle, rectangle, transform } from '../geom/index.js';
import type { LegendMark, PatternLine, PatternWords } from '../guide-model.js';
import type { Affine, Point } from '../model.js';
import { axisMarks, type Lanes, lanesOf } from './dimension-lanes.js';
import { type Colour, type Figure, hatch, type Line, type Mark, stroke } from './figure.js';
import type { TextMetrics } from './text-metrics.js';

/** Text of names: the em, mm. */
const NAME_EM = 2.5;
const LEAST_NAME_EM = 1.9;
const BADGE_R = 1.75;
/** Room that is never used: a drawing as large as the thing is taken for a template. */
const LARGEST = 0.95;
/** Rounds of setting the margins by the scale and the scale by the margins. */
const ROUNDS = 6;

/** On paper, which is pale on any page. */
const INK: Colour = '#3a3029';
const FAINT: Colour = '#6f6257';
/** Colours that colour-blind eyes tell apart (Okabe & Ito), as in the cut files. */
const FOLD: Colour = '#b84a00';
const GLUE: Colour = '#0072b2';
const LINES: Readonly<Record<PatternLine['kind'], Line>> = {
  cut: { colour: INK, width: 0.35, round: true },
  valley: { colour: FOLD, width: 0.3, dash: [1.6, 0.9] },
  mountain: { colour: FOLD, width: 0.3, dash: [3, 0.8, 0.4, 0.8] },
  perforate: { colour: '#9c4a78', width: 0.35, dash: [0.5, 0.8] },
  draw: { colour: GLUE, width: 0.25 },
};
const HATCH: Line = { colour: GLUE, width: 0.18 };
const BACK_HATCH: Line = { colour: GLUE, width: 0.18, dash: [0.9, 0.7] };
const HATCH_MM = 1.3;

export interface PatternFigure extends Figure {
  /** Drawn length over true length. */
  readonly scale: number;
}

/** As large as the room lets it be; the figure is as wide as the room and as high as it needs. */
export function patternFigure(
  words: PatternWords,
  width: number,
  height: number,
  metrics: TextMetrics,
): PatternFigure {
  const { of } = words.pattern;
  const box = bounds(of.outline);
  const [w, h] = [box.maxX - box.minX, box.maxY - box.minY];
  let scale = Math.min(LARGEST, width / w, height / h);
  let lanes: Lanes = lanesOf(words, scale, metrics);
  for (let i = 0; i < ROUNDS; i++) {
    const { left, right, top, bottom } = lanes;
    const fits = Math.min(LARGEST, (width - left - right) / w, (height - top - bottom) / h);
    if (i > 0 && fits >= scale) break;
    scale = Math.max(fits, 0.01);
    lanes = lanesOf(words, scale, metrics);
  }
  const { left, right, top, bottom } = lanes;
  const total = h * scale + top + bottom;
  const x0 = left + Math.max(0, (width - left - right - w * scale) / 2);
  const at: Affine = [scale, 0, 0, scale, x0 - box.minX * scale, bottom - box.minY * scale];
  const badges = badgesOf(words, at);
  return {
    width,
    height: total,
    scale,
    marks: [
      ...axisMarks(lanes, at, box),
      ...paperMarks(words, at),
      ...nameMarks(words, at, badges, metrics),
      ...badges.flatMap(badgeMarks),
    ],
  };
}

function paperMarks({ pattern: { of } }: PatternWords, at: Affine): Mark[] {
  const put = (path: typeof of.outline) => transform(path, at);
  const paper = [of.outline, ...of.holes].map(put);
  const marks: Mark[] = [{ kind: 'shape', paths: paper, fill: paled(of.colour) }];
  for (const { face, area } of of.glue) {
    const spot = put(area);
    const [line, leaning] =
      face === 'inside' ? ([HATCH, 'right'] as const) : ([BACK_HATCH, 'left'] as const);
    marks.push(hatch([spot], bounds(spot), HATCH_MM, line, leaning));
  }
  for (const kind of ['draw', 'valley', 'mountain', 'perforate', 'cut'] as const) {
    const paths = of.lines.filter(l => l.kind === kind).map(l => put(l.path));
    if (paths.length > 0) marks.push({ kind: 'shape', paths, line: LINES[kind] });
  }
  marks.push({ kind: 'shape', paths: paper, line: LINES.cut });
  const dots = of.dots.map(d => put(circle(d.at, d.radius)));
  if (dots.length > 0) marks.push({ kind: 'shape', paths: dots, line: LINES.draw });
  return marks;
}

/** Paper of any colour, pale enough for lines and words on it. */
export function paled(colour: string): Colour {
  const value = Number.parseInt(colour.slice(1), 16);
  const part = (shift: number) => Math.round(255 - (255 - ((value >> shift) & 255)) * 0.28);
  const hex = [16, 8, 0].map(s => part(s).toString(16).padStart(2, '0')).join('');
  return `#${hex}`;
}

interface Badge {
  readonly letter: string;
  readonly at: Point;
}

/** Letters that would lie on another are left out, but for the first of each kind. */
function badgesOf({ pattern: { of } }: PatternWords, at: Affine): Badge[] {
  const put = ([x, y]: Point): Point => [at[0] * x + at[4], at[3] * y + at[5]];
  const out: Badge[] = [];
  const clear = (p: Point) =>
    out.every(b => Math.hypot(b.at[0] - p[0], b.at[1] - p[1]) > 2.2 * BADGE_R);
  for (const { letter, at: places } of of.lettered) {
    const spots = places.map(put);
    const free = spots.filter(clear);
    for (const p of free.length > 0 ? free : spots.slice(0, 1).map(p => moved(p, clear))) {
      if (clear(p)) out.push({ letter, at: p });
    }
  }
  return out;
}

/** The nearest clear place on rings round a point. */
function moved(from: Point, clear: (p: Point) => boolean): Point {
  for (let ring = 1; ring <= 6; ring++) {
    for (let k = 0; k < 8; k++) {
      const a = (k * Math.PI) / 4;
      const r = ring * 1.2 * BADGE_R;
      const p: Point = [from[0] + r * Math.cos(a), from[1] + r * Math.sin(a)];
      if (clear(p)) return p;
    }
  }
  return from;
}

function badgeMarks({ letter, at }: Badge): Mark[] {
  const size = 2.5;
  return [
    {
      kind: 'shape',
      paths: [circle(at, BADGE_R)],
      fill: '#ffffff',
      line: { colour: FAINT, width: 0.2 },
    },
    {
      kind: 'words',
      text: letter,
      at: [at[0], at[1] - 0.26 * size],
      size,
      anchor: 'middle',
      bold: true,
      colour: INK,
    },
  ];
}

/** A panel's name in it, across or up, where there is room and no letter stands. */
function nameMarks(
  { pattern: { of }, names }: PatternWords,
  at: Affine,
  badges: readonly Badge[],
  metrics: TextMetrics,
): Mark[] {
  const taken: (readonly [x0: number, y0: number, x1: number, y1: number])[] = badges.map(
    ({ at: [x, y] }) => [x - BADGE_R, y - BADGE_R, x + BADGE_R, y + BADGE_R],
  );
  return of.panels.flatMap(({ id, at: [px, py], room: [rw, rh] }, i): Mark[] => {
    const text = names[i]!;
    const [x, y] = [at[0] * px + at[4], at[3] * py + at[5]];
    const [w, h] = [rw * at[0], rh * at[3]];
    for (const turned of [false, true]) {
      const [along, across] = turned ? [h, w] : [w, h];
      const size = Math.min(NAME_EM, along / metrics.width(text, 1), across / 1.3);
      if (size < LEAST_NAME_EM) continue;
      const [half, high] = [metrics.width(text, size) / 2, 0.6 * size];
      const own = turned
        ? ([x - high, y - half, x + high, y + half] as const)
        : ([x - half, y - high, x + half, y + high] as const);
      const meets = (t: typeof own) =>
        own[0] < t[2] && own[2] > t[0] && own[1] < t[3] && own[3] > t[1];
      if (taken.some(meets)) continue;
      taken.push(own);
      const base = 0.26 * size;
      const foot: Point = turned ? [x + base, y] : [x, y - base];
      const style = { size, anchor: 'middle', colour: FAINT, turned } as const;
      const name: Mark = { kind: 'words', text, at: foot, ...style };
      if (!of.glue.some(g => g.panel === id)) return [name];
      // Out of the hatching.
      const [x0, y0, x1, y1] = own;
      const ground = rectangle(x0 - 0.6, y0, x1 - x0 + 1.2, y1 - y0);
      return [{ kind: 'shape', paths: [ground], fill: paled(of.colour) }, name];
    }
    return [];
  });
}

/** A short piece of a line as it is drawn, for the legend. */
export function legendFigure(mark: LegendMark): Figure {
  const [width, height] = [11, 3.4];
  const line = (l: Line): Mark =>
    stroke(
      [
        [0, height / 2],
        [width, height / 2],
      ],
      l,
    );
  const box = (l: Line, leaning: 'right' | 'left'): Mark[] => {
    const paths = [
      {
        start: [0, 0] as const,
        segments: (
          [
            [width, 0],
            [width, height],
            [0, height],
            [0, 0],
          ] as const
        ).map(to => ({
          kind: 'line' as const,
          to,
        })),
        closed: true,
      },
    ];
    return [
      hatch(paths, { minX: 0, minY: 0, maxX: width, maxY: height }, HATCH_MM, l, leaning),
      { kind: 'shape', paths, line: { colour: 'hair', width: 0.2 } },
    ];
  };
  const marks =
    mark === 'glue'
      ? box(HATCH, 'right')
      : mark === 'back'
        ? box(BACK_HATCH, 'left')
        : mark === 'dot'
          ? [
              {
                kind: 'shape' as const,
                paths: [circle([width / 2, height / 2], 1.4)],
                line: LINES.draw,
              },
            ]
          : [line(LINES[mark])];
  return { width, height, marks };
}
