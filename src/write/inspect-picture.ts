/**
 * What an inspection found, as a picture: the sheet with its lines and the way of the blade's tip over
 * them, numbered marks where something was found, the list that they belong to, and the worst places
 * through a glass. Told apart by shape, width and lightness as well as by colour.
 */
import type { Convention, Drawing, Finding, Operation, Point } from '../model.js';
import { escaped } from './escaped.js';
import { drawLoupes, type Traces, thinData, tracesOf } from './inspect-loupe.js';
import { placePins } from './inspect-marks.js';
import {
  BAND,
  drawMark,
  FAINT,
  FILE_LINE,
  INK,
  LOOK,
  MARK_PX,
  PAPER,
  Pen,
  TIP,
} from './inspect-pen.js';
import { num } from './number.js';
import { lineHeight, type TextStyle } from './page-flow.js';
import { hex, inWorkingOrder, pathData } from './svg.js';
import type { GuideFonts } from './text-metrics.js';

export interface InspectedSheet {
  /** A line over the picture, and one below it. */
  readonly title: string;
  readonly note: string;
  readonly good: boolean;
  /** What is to be cut, scored and drawn. */
  readonly drawing: Drawing;
  /** The file's own lines, where they are not the drawing. */
  readonly file?: Drawing;
  /** The way of the blade's tip, stroke by stroke: x, y, x, y, … in mm. */
  readonly tip: readonly Float64Array[];
  /** What is found, as the text has it, with the words that tell where. */
  readonly findings: readonly (Finding & { readonly where: string })[];
  /** A corner to look at where nothing else is. */
  readonly corner?: Point;
}

const WIDTH = 1600;
const MARGIN = 48;
const SHEET = { width: 930, height: 1010 };
const HEAD = 104;
/** A narrow sheet leaves the list no more room than this. */
const LEAST_COLUMN = 560;
const TABLE = '#efe8dc';
const HAIR = '#cdbfa9';
/** An SVG document 1600 px wide; its words are outlines, so that it looks the same everywhere. */
export function inspectPicture(
  sheet: InspectedSheet,
  convention: Convention,
  fonts: GuideFonts,
): string {
  const { drawing } = sheet;
  const scale = Math.min(SHEET.width / drawing.width, SHEET.height / drawing.height);
  const [wide, high] = [scale * drawing.width, scale * drawing.height];
  const pen = new Pen(fonts);
  const traces: Traces = {
    drawing: tracesOf(drawing),
    other: tracesOf(drawing, false),
    file: sheet.file ? tracesOf(sheet.file) : [],
    tip: sheet.tip,
  };
  const top = MARGIN + HEAD;
  drawHead(pen, sheet);
  pen.group(`translate(${num(MARGIN)} ${num(top)})`, () => {
    drawSheet(pen, sheet, traces, convention, scale);
    drawPins(pen, sheet, scale, wide, high);
  });
  const column = Math.max(wide, LEAST_COLUMN);
  const foot = drawLegend(pen, sheet, convention, scale, MARGIN, top + high + 34, column);
  const left = MARGIN + column + 56;
  const beside = { left, wide: WIDTH - MARGIN - left };
  const listed = drawList(pen, sheet, left, top, beside.wide);
  // The glasses go where there is more room: under a low sheet, or under a short list.
  const under = { left: MARGIN, top: foot + 22, wide: column };
  const [below, after] = [under, { ...beside, top: listed + 20 }].map(p =>
    drawLoupes(undefined, sheet, traces, p),
  ) as [number, number];
  const place =
    Math.max(below, listed) < Math.max(foot, after) ? under : { ...beside, top: listed + 20 };
  const seen = drawLoupes(pen, sheet, traces, place);
  const height = Math.ceil(Math.max(foot, listed, seen) + MARGIN);
  const told = sheet.findings.map((f, i) => `${i + 1} ${f.severity}: ${f.message}`).join('\n');
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${height}" viewBox="0 0 ${WIDTH} ${height}" role="img">` +
    `<title>${escaped(`${sheet.title}: ${sheet.good ? 'good' : 'not good'}`)}</title><desc>${escaped(told)}</desc>` +
    `<rect width="${WIDTH}" height="${height}" fill="${TABLE}"/>${pen.text}</svg>\n`
  );
}

function drawHead(pen: Pen, { title, note, good, findings }: InspectedSheet): void {
  const style: TextStyle = { size: 34, bold: true };
  const [line = ''] = pen.wrap(title, WIDTH - 2 * MARGIN - 240, style);
  pen.words(line, MARGIN, MARGIN + 34, style);
  pen.words(note, MARGIN, MARGIN + 68, { size: 18, colour: FAINT });
  const warned = findings.some(f => f.severity === 'warning');
  const word = good ? (warned ? 'Good, with warnings' : 'Good') : 'Not good';
  const { fill, ink } = LOOK[good ? (warned ? 'warning' : 'note') : 'fault'];
  const size = 22;
  const wide = 22 * 2 + word.length * size * 0.56;
  const x = WIDTH - MARGIN - wide;
  pen.add(
    `<rect x="${num(x)}" y="${MARGIN + 4}" width="${num(wide)}" height="44" rx="22" fill="${fill}" stroke="${INK}" stroke-width="1.5"/>`,
  );
  pen.words(word, x + wide / 2, MARGIN + 34, { size, bold: true, colour: ink }, 0.5);
}

function drawSheet(
  pen: Pen,
  { drawing, tip }: InspectedSheet,
  traces: Traces,
  convention: Convention,
  scale: number,
): void {
  const [w, h] = [drawing.width, drawing.height];
  pen.group(`scale(${num(scale)})`, () => {
    for (const [spread, opacity] of [
      [5, 0.05],
      [3, 0.06],
      [1.5, 0.08],
    ] as const) {
      const s = spread / scale;
      pen.add(
        `<rect x="${num(-s)}" y="${num(1.5 / scale - s)}" width="${num(w + 2 * s)}" height="${num(h + 2 * s)}" rx="${num((spread + 2) / scale)}" fill="#3a2c1c" fill-opacity="${opacity}"/>`,
      );
    }
    pen.add(`<rect width="${num(w)}" height="${num(h)}" rx="${num(2 / scale)}" fill="#f3ead9"/>`);
    const rings = drawing.layers
      .filter(l => l.operation === 'cut')
      .flatMap(l => l.paths.filter(p => p.closed));
    const pieces = rings.map(p => pathData(p, h)).join('');
    if (pieces !== '') pen.add(`<path fill="${PAPER}" fill-rule="evenodd" d="${pieces}"/>`);
    for (const { operation, paths } of inWorkingOrder(drawing)) {
      const d = paths.map(p => pathData(p, h)).join('');
      const { colour, width, dash } = lineOf(operation, convention, tip.length > 0);
      pen.stroke(d, colour, width, scale, dash);
    }
    pen.stroke(thinData(traces.tip, 0.35 / scale, h), TIP, 1.1, scale);
  });
}

/** Where a tip is followed the cut is a band under its way; else it is a line. */
function lineOf(operation: Operation, { operations }: Convention, followed: boolean) {
  if (operation === 'cut') {
    return { colour: followed ? BAND : INK, width: followed ? 4 : 1.8, dash: [] };
  }
  const { colour, dash } = operations[operation];
  return {
    colour: hex(colour),
    width: operation === 'score' ? 1.6 : 1.2,
    dash: dash.map(d => 3 * d),
  };
}

function drawPins(
  pen: Pen,
  { drawing, findings }: InspectedSheet,
  scale: number,
  width: number,
  height: number,
): void {
  const pins = findings.flatMap((f, i) =>
    f.places.map(({ at: [x, y] }) => ({ x: scale * x, y: height - scale * y, number: i + 1 })),
  );
  const placed = placePins(pins, MARK_PX, { width, height });
  for (const { x, y, markX, markY, number } of placed) {
    const look = LOOK[findings[number - 1]!.severity];
    const line = `M${num(x)} ${num(y)}L${num(markX)} ${num(markY)}`;
    pen.add(`<path d="${line}" stroke="${PAPER}" stroke-width="3.5" fill="none"/>`);
    pen.add(`<path d="${line}" stroke="${INK}" stroke-width="1.2" fill="none"/>`);
    pen.add(
      `<circle cx="${num(x)}" cy="${num(y)}" r="4" fill="${look.fill}" stroke="${INK}" stroke-width="1.4"/>`,
    );
  }
  for (const { markX, markY, number } of placed) {
    drawMark(pen, findings[number - 1]!.severity, number, markX, markY);
  }
  // Nothing is drawn off the sheet's own edge without a frame to see it by.
  pen.add(
    `<rect width="${num(scale * drawing.width)}" height="${num(scale * drawing.height)}" fill="none" stroke="${HAIR}" stroke-width="1"/>`,
  );
}

function drawLegend(
  pen: Pen,
  { drawing, tip, file }: InspectedSheet,
  convention: Convention,
  scale: number,
  left: number,
  y: number,
  wide: number,
): number {
  const style: TextStyle = { size: 16, colour: FAINT };
  const followed = tip.length > 0;
  const rows = inWorkingOrder(drawing).map(({ operation }) => ({
    word: operation as string,
    lines: [lineOf(operation, convention, followed)],
  }));
  if (followed) {
    rows.push({ word: 'way of the blade’s tip', lines: [{ colour: TIP, width: 1.4, dash: [] }] });
    if (file) rows.push({ word: 'the file’s line (in the glass)', lines: [FILE_LINE] });
  }
  let [x, at] = [left, y];
  for (const { word, lines } of rows) {
    const long = 44 + pen.wrap(word, 1000, style).join(' ').length * 8.6 + 24;
    if (x + long > left + wide - 150 && x > left) [x, at] = [left, at + 28];
    for (const l of lines)
      pen.stroke(`M${num(x)} ${num(at)}L${num(x + 36)} ${num(at)}`, l.colour, l.width, 1, l.dash);
    x += 46;
    x += pen.words(word, x, at + 5.5, style) + 26;
  }
  // A scale of round length at the right.
  const mm = [1, 2, 5, 10, 20, 50, 100].filter(l => l * scale <= 150).at(-1) ?? 1;
  const right = left + scale * drawing.width;
  const from = right - mm * scale;
  const tick = (v: number) => `M${num(v)} ${num(y - 6)}V${num(y + 6)}`;
  pen.stroke(`${tick(from)}${tick(right)}M${num(from)} ${num(y)}H${num(right)}`, INK, 1.4, 1);
  pen.words(`${mm} mm`, (from + right) / 2, y + 24, style, 0.5);
  return Math.max(at, y + 18) + 14;
}

function drawList(
  pen: Pen,
  { findings }: InspectedSheet,
  left: number,
  top: number,
  wide: number,
): number {
  const body: TextStyle = { size: 17 };
  const where: TextStyle = { size: 15, colour: FAINT };
  const indent = 2 * MARK_PX + 14;
  let y = top;
  if (findings.length === 0) {
    pen.words('Nothing was found that need be told.', left, y + 18, body);
    return y + 34;
  }
  findings.forEach((finding, i) => {
    drawMark(pen, finding.severity, i + 1, left + MARK_PX, y + MARK_PX);
    const { word } = LOOK[finding.severity];
    y += 18;
    pen.words(word, left + indent, y, { size: 17, bold: true });
    for (const line of pen.wrap(capital(finding.message), wide - indent, body)) {
      y += lineHeight(body);
      pen.words(line, left + indent, y, body);
    }
    if (finding.where !== '') {
      for (const line of pen.wrap(`at ${finding.where}`, wide - indent, where)) {
        y += lineHeight(where);
        pen.words(line, left + indent, y, where);
      }
    }
    y += 20;
  });
  return y;
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
