/** The steps of a guide: a picture each, with its number and its words. */
import { circle } from '../geom/index.js';
import type { StepsWords, StepWords } from '../guide-model.js';
import type { Mark } from './figure.js';
import { viewFigure } from './guide-pictures.js';
import { body, type Density, heading } from './guide-settings.js';
import { lineHeight, type PageFlow, type TextStyle, wrapped } from './page-flow.js';

const BADGE = 3.1;
/** A list of layers longer than this stands beside its picture, across the page. */
const LONG_LIST = 9;
/** And longer than this in three columns. */
const VERY_LONG_LIST = 24;

export function drawSteps(flow: PageFlow, words: StepsWords, density: Density): void {
  const { title, intro, steps } = words;
  // One or two faces stand beside their lists.
  const few = steps.length <= 2;
  const long = (s: StepWords) => s.layers.length > (few ? 0 : LONG_LIST);
  const pictured = steps.filter(s => s.picture && !long(s)).length;
  const abreast = Math.max(
    pictured <= 2 ? 2 : 1,
    Math.min(density.steps, pictured === 4 && density.steps < 4 ? 2 : pictured),
  );
  const gap = 6;
  const column = (flow.width - (abreast - 1) * gap) / abreast;
  const high = Math.min(0.74 * column, 52);
  const grid = { column, gap, high, abreast };
  const blocks: Block[] = [];
  let row: Numbered[] = [];
  const flush = () => {
    if (row.length > 0) blocks.push(rowBlock(flow, row, grid, density));
    row = [];
  };
  steps.forEach((step, i) => {
    if (step.picture && !long(step)) {
      row.push({ step, number: i + 1 });
      if (row.length === abreast) flush();
      return;
    }
    flush();
    const block = step.picture ? longBlock : toldBlock;
    blocks.push(block(flow, step, i + 1, density));
  });
  flush();
  const style = body(density);
  const said = wrapped(intro, flow.width, style, flow.metrics).length * lineHeight(style) + 2.5;
  heading(flow, title, said + (blocks[0]?.height ?? 0));
  flow.paragraph(intro, style);
  flow.y += 2.5;
  flow.as('L', () => {
    for (const { height, draw } of blocks) {
      flow.need(height);
      draw();
    }
  });
}

/** What stays together on a page. */
interface Block {
  readonly height: number;
  readonly draw: () => void;
}
interface Numbered {
  readonly step: StepWords;
  readonly number: number;
}

/** Layers of a stack, as items of a list. */
function drawLayers(
  flow: PageFlow,
  layers: readonly (readonly string[])[],
  x: number,
  top: number,
  style: TextStyle,
): void {
  let y = top;
  for (const lines of layers) {
    const from = y;
    y = flow.as('LI', () => flow.as('LBody', () => flow.lines(lines, x, from, style)));
  }
}

interface Grid {
  readonly column: number;
  readonly gap: number;
  readonly high: number;
  readonly abreast: number;
}

function rowBlock(
  flow: PageFlow,
  row: readonly Numbered[],
  { column, gap, high }: Grid,
  density: Density,
): Block {
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
  const drawStep = ({ step, number }: (typeof row)[number], c: number) => {
    const x = flow.left + c * (column + gap);
    const inner = x + 2 * BADGE + 2;
    const top = flow.y + high + 2;
    const { text, layers } = told[c]!;
    const { of, told: alt } = step.picture!;
    flow.card(x, flow.y, column, high);
    badge(flow, number, x + BADGE, top + 0.5 * lineHeight(style));
    flow.as('LBody', () => {
      const end = flow.as('P', () => flow.lines(text, inner, top, style));
      if (layers.length > 0) flow.as('L', () => drawLayers(flow, layers, inner, end, style));
      const draw = () => flow.fitted(viewFigure(of), x + 3, flow.y + 3, column - 6, high - 6);
      flow.as('Figure', draw, { alt });
    });
  };
  const height = high + 2 + textHigh;
  const draw = () => {
    row.forEach((of, c) => {
      flow.as('LI', () => drawStep(of, c));
    });
    flow.y += height + 4;
  };
  return { height, draw };
}

/** A step without a picture. */
function toldBlock(flow: PageFlow, step: StepWords, number: number, density: Density): Block {
  const style = body(density);
  const lines = wrapped(step.text, flow.width - 2 * BADGE - 2, style, flow.metrics);
  const drawStep = () => {
    badge(flow, number, flow.left + BADGE, flow.y + 0.5 * lineHeight(style));
    const draw = () => flow.lines(lines, flow.left + 2 * BADGE + 2, flow.y, style);
    flow.y = flow.as('LBody', draw) + 3.5;
  };
  const height = Math.max(2 * BADGE, lines.length * lineHeight(style));
  return { height, draw: () => flow.as('LI', drawStep) };
}

/** A step with a long list: beside its picture, in columns. */
function longBlock(flow: PageFlow, step: StepWords, number: number, density: Density): Block {
  const style: TextStyle = { size: density.text - 0.2 };
  const wide = (step.layers.length > LONG_LIST ? 0.34 : 0.42) * flow.width;
  const figure = viewFigure(step.picture!.of);
  const shape = figure.height / figure.width;
  const high = Math.min(0.74 * wide, Math.max(22, shape * (wide - 6) + 6));
  const x = flow.left + wide + 6;
  const across = flow.width - wide - 6;
  const count = step.layers.length;
  const parts = count > VERY_LONG_LIST ? 3 : count > LONG_LIST ? 2 : 1;
  const column = (across - (parts - 1) * 5) / parts;
  const rows = step.layers.map((l, i) => wrapped(`${i + 1}. ${l}`, column, style, flow.metrics));
  const each = Math.ceil(rows.length / parts);
  const columns = Array.from({ length: parts }, (_, i) => rows.slice(i * each, (i + 1) * each));
  const textHigh =
    lineHeight(style) + 2 + Math.max(...columns.map(c => c.flat().length)) * lineHeight(style);
  const height = Math.max(high, textHigh);
  const drawBody = () => {
    const begin = x + 2 * BADGE + 2;
    const top = flow.as('P', () => flow.lines([step.text], begin, flow.y, style)) + 2;
    flow.as('L', () => {
      columns.forEach((c, i) => {
        drawLayers(flow, c, x + i * (column + 5), top, style);
      });
    });
    const draw = () => flow.fitted(figure, flow.left + 3, flow.y + 3, wide - 6, high - 6);
    flow.as('Figure', draw, { alt: step.picture!.told });
  };
  const drawStep = () => {
    flow.card(flow.left, flow.y, wide, high);
    badge(flow, number, x + BADGE, flow.y + 0.5 * lineHeight(style));
    flow.as('LBody', drawBody);
    flow.y += height + 4;
  };
  return { height, draw: () => flow.as('LI', drawStep) };
}

function badge(flow: PageFlow, number: number, x: number, top: number): void {
  const size = 3;
  const y = flow.size.height - top;
  const words: Mark = {
    kind: 'words',
    text: String(number),
    at: [x, y - 0.355 * size],
    size,
    anchor: 'middle',
    bold: true,
    colour: 'page',
  };
  const disc = [circle([x, y], BADGE * 0.92)];
  flow.as('Lbl', () => flow.add({ kind: 'shape', paths: disc, fill: 'accent' }, words));
}
