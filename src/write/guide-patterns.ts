/** The measured patterns of a guide, and how they are made by hand. */
import { bounds } from '../geom/index.js';
import type { GuidePage } from '../guide-model.js';
import type { Tag } from './figure.js';
import { body, type Density, GAP, heading, quiet, SECTION, strong } from './guide-settings.js';
import { lineHeight, type PageFlow, type TextStyle, wrapped } from './page-flow.js';
import { legendFigure, patternFigure } from './pattern-figure.js';

/** Heading, words, legend and caption of a pattern, mm. */
const PATTERN_HEAD = 36;
/** Patterns longer than this by their height have a row of their own. */
const STRIP = 2.6;
/** A pattern takes at least this of a page's height, if it can. */
const LEAST_SHARE = 0.42;
/** A pattern may be made so much smaller to go on the page that has been begun. */
const SMALLER = 0.7;
const LEGEND_TEXT: TextStyle = { size: 2.9 };

export function drawPatterns(
  flow: PageFlow,
  patterns: NonNullable<GuidePage['patterns']>,
  density: Density,
  /** Room that is best left under it. */
  after: number,
): void {
  const { nets, legend, notes, intro, title } = patterns;
  const beside = flow.bottom - flow.left - PATTERN_HEAD - after;
  // Where the recipe has no room under it in any case, it goes on a page of its own.
  const share = beside / flow.size.height;
  const full =
    flow.size.height * (share > LEAST_SHARE ? Math.min(density.pattern, share) : density.pattern);
  const gap = 8;
  const most = nets.length > 2 ? 0.26 : nets.length > 1 ? 0.36 : 1;
  const caption = lineHeight(strong(density));
  const rowsWithin = (high: number) =>
    patternRows(nets).map(row => {
      const column = (flow.width - (row.length - 1) * gap) / row.length;
      return row.map(net => ({
        net,
        column,
        figure: patternFigure(net, column, high, flow.metrics),
        letters: wrapped(net.lettered.join(' · '), column, LEGEND_TEXT, flow.metrics),
      }));
    });
  type Row = ReturnType<typeof rowsWithin>[number];
  const rowHeight = (row: Row) =>
    caption +
    Math.max(...row.map(r => r.figure.height + 2 + r.letters.length * lineHeight(LEGEND_TEXT)));
  let rows = rowsWithin(Math.min(full, most * flow.size.height));
  // A little smaller, where that saves most of a page.
  const first = PATTERN_HEAD + rowHeight(rows[0]!);
  if (flow.room < first && flow.room > SMALLER * first) {
    const less = first - flow.room + 5;
    const [tallest] = rows[0]!.map(r => r.figure.height).sort((a, b) => b - a);
    rows = rowsWithin(tallest! - less);
  }
  heading(flow, title, PATTERN_HEAD - 14 + rowHeight(rows[0]!));
  flow.paragraph(intro, body(density));
  flow.y += 1.5;
  flow.as('L', () => drawLegend(flow, legend));
  for (const row of rows) {
    flow.need(rowHeight(row) + 2);
    row.forEach(({ net, figure, letters, column }, c) => {
      const x = flow.left + c * (column + gap);
      const top = flow.y + (nets.length > 1 || net.title !== '' ? caption : 0);
      const said = wrapped(net.title, column, strong(density), flow.metrics).slice(0, 1);
      flow.as('H3', () => flow.lines(said, x, flow.y, strong(density)));
      flow.as('Figure', () => flow.figure(figure, x, top + 1), { alt: net.pattern.told });
      const under = () => flow.lines(letters, x, top + figure.height + 2, LEGEND_TEXT);
      if (letters.length > 0) flow.as('P', under);
    });
    flow.y += rowHeight(row) + 3;
  }
  for (const note of notes) flow.paragraph(note, quiet(density));
}

/** Long strips by themselves, after the others, which stand beside each other, three at most. */
function patternRows(nets: NonNullable<GuidePage['patterns']>['nets']): (typeof nets)[] {
  const isStrip = (net: (typeof nets)[number]) => {
    const b = bounds(net.pattern.of.outline);
    return (b.maxX - b.minX) / (b.maxY - b.minY) > STRIP;
  };
  const most = nets.length > 2 ? 3 : 2;
  const others = nets.filter(n => !isStrip(n));
  const count = Math.ceil(others.length / most);
  // As many in each row as in the others.
  const each = Math.ceil(others.length / Math.max(1, count));
  const rows = Array.from({ length: count }, (_, i) => others.slice(i * each, (i + 1) * each));
  return [...rows, ...nets.filter(isStrip).map(n => [n])];
}

function drawLegend(flow: PageFlow, legend: NonNullable<GuidePage['patterns']>['legend']): void {
  let x = flow.left;
  for (const { mark, text } of legend) {
    const figure = legendFigure(mark);
    const wide = figure.width + 2 + flow.metrics.width(text, LEGEND_TEXT.size);
    if (x + wide > flow.left + flow.width) {
      x = flow.left;
      flow.y += 5;
    }
    flow.ornament(() => flow.figure(figure, x, flow.y + 0.4));
    const at = x + figure.width + 2;
    flow.as('LI', () => flow.as('LBody', () => flow.lines([text], at, flow.y, LEGEND_TEXT)));
    x += wide + 7;
  }
  flow.y += 6.5;
}

// ---- By hand ----------------------------------------------------------------------------------------

const INDENT = 4.6;
const UNDER = 1.8;
/** More lines than this are set more closely. */
const MANY_LINES = 24;

interface HandLine {
  readonly text: string;
  readonly number: string;
  /** The line that it goes on with, and the step, each by its first line. */
  readonly of: number;
  readonly step: number;
  /** What belongs to a step stands a little in, what goes on from the line above a little more. */
  readonly indent: number;
}
interface HandSetting {
  readonly lines: readonly HandLine[];
  readonly columns: number;
  readonly column: number;
  readonly style: TextStyle;
  readonly height: number;
}

/** The recipe as lines of columns: what is to be done is numbered, what belongs to it stands under it. */
function setHand(
  flow: PageFlow,
  { intro, nets }: NonNullable<GuidePage['byHand']>,
  density: Density,
): HandSetting {
  const told = nets.reduce((sum, n) => sum + n.lines.length, 0);
  const columns = told > MANY_LINES ? 3 : density.hand;
  const column = (flow.width - (columns - 1) * HAND_GAP) / columns;
  const style: TextStyle = { size: density.text - 0.4, leading: 1.3 };
  let [of, step] = [0, 0];
  const lines = nets.flatMap(net => {
    let number = 0;
    return net.lines.flatMap((line): HandLine[] => {
      const begins = !line.startsWith('  ');
      if (begins) number++;
      of++;
      if (begins) step = of;
      const rows = wrapped(line, column - INDENT - (begins ? 0 : 2 * UNDER), style, flow.metrics);
      return rows.map((text, i) => ({
        text,
        of,
        step,
        number: begins && i === 0 ? String(number) : '',
        indent: INDENT + (begins ? 0 : i === 0 ? UNDER : 2 * UNDER),
      }));
    });
  });
  const height =
    Math.ceil(lines.length / columns) * lineHeight(style) +
    lineHeight(SECTION) +
    (intro === '' ? 0 : lineHeight(body(density))) +
    GAP +
    4;
  return { lines, columns, column, style, height };
}

const HAND_GAP = 7;

/** How much of a page the recipe takes. */
export const handHeight = (flow: PageFlow, page: GuidePage, density: Density): number =>
  page.byHand ? setHand(flow, page.byHand, density).height : 0;

export function drawHand(
  flow: PageFlow,
  byHand: NonNullable<GuidePage['byHand']>,
  density: Density,
): void {
  const { title, intro, nets } = byHand;
  const setting = setHand(flow, byHand, density);
  const { lines, style, height } = setting;
  const step = lineHeight(style);
  const whole = height < 0.5 * flow.size.height;
  heading(flow, title, whole ? height - lineHeight(SECTION) - GAP : 8 * step);
  if (intro !== '') {
    flow.paragraph(intro, body(density));
    flow.y += 1;
  }
  // A few sentences run across the page.
  if (lines.length <= 4) {
    for (const net of nets) for (const line of net.lines) flow.paragraph(line, body(density));
    return;
  }
  flow.as('L', () => drawLines(flow, setting));
}

/** The elements of a recipe: its steps, and under them what they list. */
function handTags(flow: PageFlow): (line: HandLine) => Tag {
  const within = flow.element!;
  const made = new Map<string, Tag>();
  const once = (key: string, tag: () => Tag): Tag => {
    const known = made.get(key) ?? tag();
    made.set(key, known);
    return known;
  };
  return ({ of, step }) => {
    const item = once(`step ${step}`, () => ({ type: 'LI', within }));
    const body = once(`body ${step}`, () => ({ type: 'LBody', within: item }));
    if (of === step) return once(`text ${step}`, () => ({ type: 'P', within: body }));
    const list = once(`list ${step}`, () => ({ type: 'L', within: body }));
    const row = once(`row ${of}`, () => ({ type: 'LI', within: list }));
    return once(`told ${of}`, () => ({ type: 'LBody', within: row }));
  };
}

function drawLines(flow: PageFlow, { lines, columns, column, style }: HandSetting): void {
  const step = lineHeight(style);
  const tagOf = handTags(flow);
  let left = lines;
  while (left.length > 0) {
    const fit = Math.max(1, Math.floor(flow.room / step));
    const each = Math.min(fit, Math.ceil(left.length / columns));
    const top = flow.y;
    for (let c = 0; c < columns; c++) {
      const x = flow.left + c * (column + HAND_GAP);
      left.slice(c * each, (c + 1) * each).forEach((line, i) => {
        const { text, number, indent } = line;
        const tag = tagOf(line);
        const strongly: TextStyle = { ...style, bold: true, colour: 'accent' };
        const label: Tag = { type: 'Lbl', within: tag.within!.within! };
        const draw = () => flow.lines([number], x, top + i * step, strongly);
        if (number !== '') flow.under(label, draw);
        flow.under(tag, () => flow.lines([text], x + indent, top + i * step, style));
      });
    }
    flow.y = top + each * step;
    left = left.slice(columns * each);
    if (left.length > 0) flow.newPage();
  }
}
