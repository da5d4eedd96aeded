/**
 * Pictures of sheets to look at: the paper with its pieces standing out of the waste, the printed art, the
 * lines of the tools told apart by colour and by line type (ISO 128), a legend and a scale.
 */
import type { Container, Svg } from '@svgdotjs/svg.js';
import { rectangle, transform } from '../geom/index.js';
import type { Convention, Drawing, Operation, Path, PlacedArt, Region } from '../model.js';
import { drawArts } from './draw-arts.js';
import { num } from './number.js';
import { hex, inWorkingOrder, pathData } from './svg.js';
import { composeSvg } from './svg-document.js';

export interface PictureSubject {
  readonly drawing: Drawing;
  /** The paper's colour, `#rrggbb`. */
  readonly paper: string;
  readonly arts?: readonly PlacedArt[];
}

/** How a picture sets words: outlines of one line, its baseline on y = 0 and y up, from x = 0, with
 *  capitals of `height` mm. */
export type Letter = (text: string, height: number) => readonly Region[];

/** The pixel that the line widths are made for: the picture is this many wide. */
const WIDTH_PX = 900;
/** Share of the sheet's width left around it. */
const MARGIN = 0.055;

/** A paper that stands out less than this from black is a dark one. */
const DARK_PAPER = 6;
/** A line that stands out less than this from its paper gets a light edge: WCAG 2 asks 3 : 1 of
 *  graphics, but on light paper an edge hardly helps. */
const LEAST_ON_DARK = 3;
const LEAST_ON_LIGHT = 1.5;

const TABLE = '#efe8dc';
const INK = '#4b4038';

/** Widths in pixels. ISO 128 sets wide and narrow lines 2 : 1; outlines and cuts are wide. */
const WIDTH: Readonly<Record<Operation, number>> = {
  draw: 1,
  score: 1.5,
  perforate: 2,
  cut: 2,
  register: 1,
};

/** What the legend calls them. */
const WORDS: Readonly<Record<Operation, string>> = {
  draw: 'draw',
  score: 'score',
  perforate: 'perforate',
  cut: 'cut',
  register: 'register',
};

/** An SVG document, 900 px wide; deterministic. Throws on NaN, like every writer. */
export function drawingPicture(
  subject: PictureSubject,
  convention: Convention,
  letter: Letter,
): Promise<string> {
  const { drawing } = subject;
  const margin = MARGIN * drawing.width;
  const width = drawing.width + 2 * margin;
  /** One pixel of the picture, in mm. */
  const px = width / WIDTH_PX;
  const legend = 40 * px;
  const height = drawing.height + 2 * margin + legend;
  return composeSvg(root => {
    root.size(WIDTH_PX, Math.round(height / px));
    root.viewbox(0, 0, round(width), round(height));
    root.rect(round(width), round(height)).fill(TABLE);
    const place = root.group().attr('transform', `translate(${num(margin)} ${num(margin)})`);
    drawSheet(root, place, subject, px);
    drawLines(place, subject, convention, px);
    const foot = root
      .group()
      .attr(
        'transform',
        `translate(${num(margin)} ${num(drawing.height + 1.5 * margin + legend / 2)})`,
      );
    drawLegend(foot, drawing, convention, letter, px);
    drawScale(foot, drawing.width, letter, px);
  });
}

const round = (v: number): number => Number(num(v));

/** The paper with a soft edge, darker where waste is; art faint outside the pieces, full inside. */
function drawSheet(root: Svg, place: Container, subject: PictureSubject, px: number): void {
  const { drawing, arts = [] } = subject;
  const [w, h] = [drawing.width, drawing.height];
  for (const [spread, opacity] of [
    [5, 0.03],
    [3.5, 0.04],
    [2, 0.05],
    [1, 0.07],
  ] as const) {
    place
      .rect(round(w + 2 * spread * px), round(h + 2 * spread * px))
      .move(round(-spread * px), round((1.5 - spread) * px))
      .radius(round((spread + 1) * px))
      .fill({ color: '#3a2c1c', opacity });
  }
  place.rect(round(w), round(h)).radius(round(px)).fill(hex(subject.paper));
  const pieces = drawing.layers
    .filter(l => l.operation === 'cut')
    .flatMap(l => l.paths.filter(p => p.closed));
  const data = (paths: readonly Path[]) => paths.map(p => pathData(p, h)).join('');
  if (arts.length > 0) {
    const clip = root.clip().id('pieces');
    clip.path(data(pieces)).attr('clip-rule', 'evenodd');
    drawArts(root, place.group().opacity(0.35), arts, drawing, 'bleed');
    drawArts(root, place.group().attr('clip-path', 'url(#pieces)'), arts, drawing, 'print');
  }
  if (pieces.length > 0) {
    place
      .path(data([rectangle(0, 0, w, h), ...pieces]))
      .fill({
        color: '#3a2c1c',
        opacity: isDark(subject.paper) ? 0.28 : 0.09,
      })
      .attr('fill-rule', 'evenodd');
  }
}

/** Attributes of an operation's lines; dashes in mm keep their length unless too fine to be seen. */
function strokeOf(operation: Operation, convention: Convention, px: number) {
  const { colour, dash } = convention.operations[operation];
  const width = WIDTH[operation] * px;
  const least = Math.min(...dash.filter(d => d > 0));
  // Dots shorter than they are wide are round ones: their dash is nothing but two caps.
  const dotted = dash.length > 0 && least <= 0.5;
  const scale = dash.length > 0 ? Math.max(1, (3 * px) / Math.max(...dash)) : 1;
  return {
    fill: 'none',
    stroke: hex(colour),
    'stroke-width': num(width),
    'stroke-linecap': dotted ? 'round' : 'butt',
    'stroke-linejoin': 'round',
    ...(dash.length > 0 && {
      'stroke-dasharray': dash
        .map(d =>
          num(dotted && d === least ? 0.001 : Math.max(d * scale, dotted ? 2.2 * width : 0)),
        )
        .join(' '),
    }),
  };
}

function drawLines(
  place: Container,
  { drawing, paper }: PictureSubject,
  convention: Convention,
  px: number,
): void {
  for (const { operation, paths } of inWorkingOrder(drawing)) {
    const data = paths.map(p => pathData(p, drawing.height)).join('');
    if (data === '') continue;
    const stroke = strokeOf(operation, convention, px);
    const least = isDark(paper) ? LEAST_ON_DARK : LEAST_ON_LIGHT;
    if (contrast(paper, stroke.stroke) < least) {
      const width = num((WIDTH[operation] + 2.4) * px);
      place
        .path(data)
        .attr({ ...stroke, stroke: '#ffffff', 'stroke-width': width })
        .opacity(0.55);
    }
    place.path(data).attr(stroke).id(operation);
  }
}

const isDark = (paper: string): boolean => contrast(paper, '#000000') < DARK_PAPER;

/** Relative luminance of an sRGB colour, and the contrast of two (WCAG 2, "contrast ratio"). */
function luminance(colour: string): number {
  const value = Number.parseInt(hex(colour).slice(1), 16);
  const linear = (c: number) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
  const [r, g, b] = [value >> 16, (value >> 8) & 255, value & 255].map(c => linear(c / 255));
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}
function contrast(one: string, other: string): number {
  const [a, b] = [luminance(one), luminance(other)];
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

/** Words from (x, y), their baseline, y down. Gives where they end. */
function write(group: Container, regions: readonly Region[], x: number, y: number): number {
  const moved = regions
    .flatMap(r => [r.outer, ...r.holes])
    .map(p => transform(p, [1, 0, 0, 1, x, 0]));
  // Outlines have y up, as sheets do: a sheet whose height is the baseline turns them over.
  if (moved.length > 0) group.path(moved.map(p => pathData(p, y)).join('')).fill(INK);
  return Math.max(x, ...moved.map(p => rightOf(p)));
}
const rightOf = (path: Path): number => Math.max(path.start[0], ...path.segments.map(s => s.to[0]));

const CAPITAL_PX = 9;

function drawLegend(
  foot: Container,
  drawing: Drawing,
  convention: Convention,
  letter: Letter,
  px: number,
): void {
  let x = 0;
  for (const { operation } of inWorkingOrder(drawing)) {
    foot.path(`M${num(x)} 0L${num(x + 34 * px)} 0`).attr(strokeOf(operation, convention, px));
    const words = letter(WORDS[operation], CAPITAL_PX * px);
    x = write(foot, words, x + 42 * px, (CAPITAL_PX / 2 - 1) * px) + 24 * px;
  }
}

/** A scale of round length, about an eighth of the sheet, at the right. */
function drawScale(foot: Container, sheetWidth: number, letter: Letter, px: number): void {
  const length = [10, 20, 50, 100].filter(l => l <= sheetWidth / 5).at(-1) ?? 5;
  const words = letter(`${length} mm`, CAPITAL_PX * px);
  const width = Math.max(0, ...words.map(r => rightOf(r.outer)));
  const left = sheetWidth - width - 8 * px - length;
  const tick = 4 * px;
  foot
    .path(
      `M${num(left)} ${num(-tick)}L${num(left)} ${num(tick)}M${num(left)} 0` +
        `L${num(left + length)} 0M${num(left + length)} ${num(-tick)}L${num(left + length)} ${num(tick)}`,
    )
    .attr({ fill: 'none', stroke: INK, 'stroke-width': num(1.2 * px) });
  write(foot, words, left + length + 8 * px, (CAPITAL_PX / 2) * px);
}
