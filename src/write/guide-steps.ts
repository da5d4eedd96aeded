/** The steps of a guide: a picture each, with its number and its words. */
import { circle } from '../geom/index.js';
import type { StepsWords, StepWords } from '../guide-model.js';
import { viewFigure } from './guide-pictures.js';
import { body, type Density, heading } from './guide-settings.js';
import { lineHeight, type PageFlow, type TextStyle, wrapped } from './page-flow.js';

const BADGE = 3.1;
/** A list of layers longer than this stands beside its picture, across the page. */
const LONG_LIST = 9;

export function drawSteps(flow: PageFlow, words: StepsWords, density: Density): void {
  const { title, intro, steps } = words;
  // One or two faces stand beside their lists.
  const few = steps.length <= 2;
  const long = (s: StepWords) => s.layers.length > (few ? 0 : LONG_LIST);
  const pictured = steps.filter(s => s.picture && !long(s)).length;
  const abreast = Math.max(
    pictured <= 2 ? 2 : 1,
    Math.min(density.steps, pictured === 4 ? Math.max(2, density.steps - 1) : pictured),
  );
  const gap = 6;
  const column = (flow.width - (abreast - 1) * gap) / abreast;
  const high = Math.min(0.74 * column, 52);
  heading(flow, title, high + 36);
  flow.paragraph(intro, body(density));
  flow.y += 2.5;
  let row: { step: StepWords; number: number }[] = [];
  const flush = () => {
    if (row.length > 0) drawRow(flow, row, { column, gap, high, abreast }, density);
    row = [];
  };
  steps.forEach((step, i) => {
    if (!step.picture) {
      flush();
      drawTold(flow, step, i + 1, density);
    } else if (long(step)) {
      flush();
      drawLong(flow, step, i + 1, density);
    } else {
      row.push({ step, number: i + 1 });
      if (row.length === abreast) flush();
    }
  });
  flush();
}

interface Grid {
  readonly column: number;
  readonly gap: number;
  readonly high: number;
  readonly abreast: number;
}

function drawRow(
  flow: PageFlow,
  row: readonly { readonly step: StepWords; readonly number: number }[],
  { column, gap, high }: Grid,
  density: Density,
): void {
  const style = body(density);
  const told = row.map(({ step }) => ({
    text: wrapped(step.text, column - 2 * BADGE - 2, style, flow.metrics),
    layers: step.layers.map((l, i) =>
      wrapped(`${i + 1}. ${l}`, column - 2 * BADGE - 2, style, flow.metrics),
    ),
  }));
  const textHigh = Math.max(
    ...told.map(t => (t.text.length + t.layers.flat().length) * lineHeight(style)),
  );
  flow.need(high + 2 + textHigh);
  row.forEach(({ step, number }, c) => {
    const x = flow.left + c * (column + gap);
    flow.card(x, flow.y, column, high);
    flow.fitted(viewFigure(step.picture!.of), x + 3, flow.y + 3, column - 6, high - 6);
    const top = flow.y + high + 2;
    badge(flow, number, x + BADGE, top + 0.5 * lineHeight(style));
    const end = flow.lines(told[c]!.text, x + 2 * BADGE + 2, top, style);
    flow.lines(told[c]!.layers.flat(), x + 2 * BADGE + 2, end, style);
  });
  flow.y += high + 2 + textHigh + 4;
}

/** A step without a picture. */
function drawTold(flow: PageFlow, step: StepWords, number: number, density: Density): void {
  const style = body(density);
  const lines = wrapped(step.text, flow.width - 2 * BADGE - 2, style, flow.metrics);
  flow.need(Math.max(2 * BADGE, lines.length * lineHeight(style)));
  badge(flow, number, flow.left + BADGE, flow.y + 0.5 * lineHeight(style));
  flow.y = flow.lines(lines, flow.left + 2 * BADGE + 2, flow.y, style) + 3.5;
}

/** A step with a long list: beside its picture, in columns. */
function drawLong(flow: PageFlow, step: StepWords, number: number, density: Density): void {
  const style: TextStyle = { size: density.text - 0.2 };
  const wide = (step.layers.length > LONG_LIST ? 0.34 : 0.42) * flow.width;
  const figure = viewFigure(step.picture!.of);
  const shape = figure.height / figure.width;
  const high = Math.min(0.74 * wide, Math.max(22, shape * (wide - 6) + 6));
  const x = flow.left + wide + 6;
  const across = flow.width - wide - 6;
  const parts = step.layers.length > LONG_LIST ? 2 : 1;
  const column = (across - (parts - 1) * 5) / parts;
  const rows = step.layers.map((l, i) => wrapped(`${i + 1}. ${l}`, column, style, flow.metrics));
  const half = Math.ceil(rows.length / parts);
  const columns = [rows.slice(0, half), rows.slice(half)].map(c => c.flat());
  const textHigh =
    lineHeight(style) + 2 + Math.max(...columns.map(c => c.length)) * lineHeight(style);
  const tall = Math.max(high, textHigh);
  flow.need(tall);
  flow.card(flow.left, flow.y, wide, high);
  flow.fitted(figure, flow.left + 3, flow.y + 3, wide - 6, high - 6);
  badge(flow, number, x + BADGE, flow.y + 0.5 * lineHeight(style));
  const top = flow.lines([step.text], x + 2 * BADGE + 2, flow.y, style) + 2;
  columns.forEach((c, i) => {
    flow.lines(c, x + i * (column + 5), top, style);
  });
  flow.y += tall + 4;
}

function badge(flow: PageFlow, number: number, x: number, top: number): void {
  const size = 3;
  const y = flow.size.height - top;
  flow.add(
    { kind: 'shape', paths: [circle([x, y], BADGE * 0.92)], fill: 'accent' },
    {
      kind: 'words',
      text: String(number),
      at: [x, y - 0.355 * size],
      size,
      anchor: 'middle',
      bold: true,
      colour: 'page',
    },
  );
}
