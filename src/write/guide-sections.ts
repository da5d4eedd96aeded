/** The head, the cut list, the scale and the cautions of a guide, each drawn where the page has come to. */
import { circle } from '../geom/index.js';
import type { GuidePage } from '../guide-model.js';
import { thumb, viewFigure } from './guide-pictures.js';
import { body, type Density, GAP, heading, quiet, SECTION, strong } from './guide-settings.js';
import { clampedTo, lineHeight, type PageFlow, type TextStyle, wrapped } from './page-flow.js';
import { barFigure } from './scale-bar.js';

const JOB: TextStyle = { size: 3.1, bold: true, colour: 'accent' };
const TITLE_SIZES = [10.5, 9, 7.6, 6.4, 5.4];

// ---- The head: what it is, what it looks like, what it needs --------------------------------------

/** `above` is the height of a picture across the page over what is needed; without it they stand beside
 *  each other. */
export function drawHead(flow: PageFlow, page: GuidePage, density: Density, above?: number): void {
  const { metrics, left, width } = flow;
  const job = clampedTo(wrapped(page.job, width, JOB, metrics), 1, width, JOB, metrics);
  flow.y = flow.as('P', () => flow.lines(job, left, flow.y, JOB)) + 0.6;
  const styles = TITLE_SIZES.map((size): TextStyle => ({ size, bold: true, leading: 1.14 }));
  const fitting = styles.find(s => wrapped(page.title, width, s, metrics).length <= 2);
  const title = fitting ?? styles.at(-1)!;
  const lines = clampedTo(wrapped(page.title, width, title, metrics), 3, width, title, metrics);
  flow.y = flow.as('H1', () => flow.lines(lines, left, flow.y, title)) + 1.6;
  flow.paragraph(page.lines.join('  ·  '), { size: 3.7, colour: 'faint' });
  flow.y += 4;

  const { closed, needs } = page;
  const drawClosed = (wide: number, high: number, pad: number) => {
    const { y } = flow;
    flow.card(left, y, wide, high);
    const seen = viewFigure(closed!.of);
    const draw = () => flow.fitted(seen, left + pad, y + pad, wide - 2 * pad, high - 2 * pad);
    flow.as('Figure', draw, { alt: closed!.told });
  };
  if (closed && above !== undefined) {
    drawClosed(width, above, 8);
    flow.y += above + GAP;
    drawNeeds(flow, needs, { x: left, width, abreast: needs.groups.length }, density);
    return;
  }
  const picture = closed ? 0.56 * width : 0;
  const x = left + (closed ? picture + 8 : 0);
  const place = { x, width: width - (x - left), abreast: 1 };
  const high = needsHeight(flow, needs, place, density);
  const card = Math.min(Math.max(0.66 * picture, high), 0.4 * flow.size.height);
  if (closed) drawClosed(picture, card, 6);
  const end = flow.y + (closed ? card : 0);
  drawNeeds(flow, needs, place, density);
  flow.y = Math.max(flow.y, end);
}

interface NeedsPlace {
  readonly x: number;
  readonly width: number;
  /** Groups beside each other. */
  readonly abreast: number;
}
const NEEDS_GAP = 8;

function setNeeds(
  { metrics }: PageFlow,
  { groups }: GuidePage['needs'],
  { width, abreast }: NeedsPlace,
  density: Density,
) {
  const column = (width - (abreast - 1) * NEEDS_GAP) / abreast;
  const sets = groups.map(({ title: name, items }) => ({
    name,
    items: items.map(item => wrapped(item, column, body(density), metrics)),
  }));
  const tall = ({ items }: (typeof sets)[number]) =>
    lineHeight(strong(density)) +
    items.reduce((sum, i) => sum + i.length * lineHeight(body(density)) + 0.6, 1.6);
  return { column, sets, heights: sets.map(tall) };
}

function needsHeight(
  flow: PageFlow,
  needs: GuidePage['needs'],
  place: NeedsPlace,
  density: Density,
): number {
  const { heights } = setNeeds(flow, needs, place, density);
  return lineHeight(SECTION) + 1 + heights.reduce((sum, h) => sum + h, 0);
}

function drawNeeds(
  flow: PageFlow,
  needs: GuidePage['needs'],
  place: NeedsPlace,
  density: Density,
): void {
  const { column, sets } = setNeeds(flow, needs, place, density);
  const top = flow.as('H2', () => flow.lines([needs.title], place.x, flow.y, SECTION)) + 1;
  let [y, lowest] = [top, top];
  sets.forEach(({ name, items }, i) => {
    const x = place.x + (place.abreast > 1 ? i * (column + NEEDS_GAP) : 0);
    if (place.abreast > 1) y = top;
    y = flow.as('H3', () => flow.lines([name], x, y, strong(density)));
    flow.as('L', () => {
      for (const item of items) {
        y = listItem(flow, () => flow.lines(item, x, y, body(density))) + 0.6;
      }
    });
    y += 1.6;
    lowest = Math.max(lowest, y);
  });
  flow.y = lowest;
}

const listItem = <T>(flow: PageFlow, draw: () => T): T =>
  flow.as('LI', () => flow.as('LBody', draw));

// ---- The cut list -----------------------------------------------------------------------------------

/** Shares of a row for the text columns: what, how many, paper, size, how. */
const COLUMNS = [0.26, 0.12, 0.24, 0.2, 0.18];
const THUMB = 12;
const LEAST_ROW = 5.8;

export function drawPieces(flow: PageFlow, pieces: GuidePage['pieces'], density: Density): void {
  const { rows, title, more, notes } = pieces;
  if (rows.length === 0) return;
  const { abreast } = density;
  const listed = rows.slice(0, density.rows);
  const lines = Math.ceil(listed.length / abreast);
  // A little lower rows, where that saves a few of them from standing on another page.
  const room = (flow.room - GAP - lineHeight(SECTION) - 9) / lines;
  const rowHeight = room < density.rowHeight && room > LEAST_ROW ? room : density.rowHeight;
  heading(flow, title, 3 * rowHeight + 6);
  flow.as('Table', () => drawRows(flow, pieces, listed, rowHeight, density));
  const over = rows.length - listed.length;
  if (over > 0) {
    flow.y += 1.5;
    flow.paragraph(more.replace('{count}', String(over)), quiet(density));
  }
  for (const note of notes) {
    flow.y += 1.5;
    flow.paragraph(note, quiet(density));
  }
}

function drawRows(
  flow: PageFlow,
  { head }: GuidePage['pieces'],
  listed: GuidePage['pieces']['rows'],
  rowHeight: number,
  density: Density,
): void {
  const { abreast } = density;
  const gap = 6;
  const column = (flow.width - (abreast - 1) * gap) / abreast;
  const text: TextStyle = { size: Math.min(density.text - 0.1, rowHeight / 2) };
  const cell = (value: string, share: number) =>
    clampedTo(
      wrapped(value, share - 2, text, flow.metrics),
      rowHeight > 7 ? 2 : 1,
      share - 2,
      text,
      flow.metrics,
    );
  // Two abreast there is room for what, how many, and how large.
  const shares = abreast === 1 ? COLUMNS : [0.46, 0.23, 0, 0.31, 0];
  const drawHead = (c: number) => {
    let x = flow.left + c * (column + gap) + THUMB;
    head.forEach((name, i) => {
      const share = shares[i]! * (column - THUMB);
      const said = cell(name, share + 2).slice(0, 1);
      const draw = () => flow.lines(said, x, flow.y, { ...text, colour: 'faint' });
      if (share > 0) flow.as('TH', draw, { scope: 'Column' });
      x += share;
    });
  };
  /** Read once; seen over every column, on every page. */
  const drawHeads = (again: boolean) => {
    for (let c = 0; c < abreast; c++) {
      if (again || c > 0) flow.ornament(() => drawHead(c));
      else flow.as('TR', () => drawHead(c));
    }
    flow.y += lineHeight(text) + 0.8;
    flow.rule(flow.left, flow.width, flow.y);
  };
  drawHeads(false);
  for (let i = 0; i < listed.length; i += abreast) {
    if (flow.room < rowHeight + 1) {
      flow.newPage();
      drawHeads(true);
    }
    listed.slice(i, i + abreast).forEach(({ cells, piece, colour }, c) => {
      const x0 = flow.left + c * (column + gap);
      const shown = thumb(piece, colour, THUMB - 3, rowHeight - 1.2);
      flow.ornament(() => flow.figure(shown, x0, flow.y + 0.6));
      let x = x0 + THUMB;
      const drawCell = (value: string, k: number) => {
        const share = shares[k]! * (column - THUMB);
        const lines = cell(value, share);
        const top = flow.y + (rowHeight - lines.length * lineHeight(text)) / 2;
        const draw = () => flow.lines(lines, x, top, text);
        if (share > 0) flow.as(k === 0 ? 'TH' : 'TD', draw, k === 0 ? { scope: 'Row' } : {});
        x += share;
      };
      flow.as('TR', () => cells.forEach(drawCell));
    });
    flow.y += rowHeight;
    flow.rule(flow.left, flow.width, flow.y);
  }
}

// ---- Scale and care ---------------------------------------------------------------------------------

export function drawScale(flow: PageFlow, { title, text, labels }: GuidePage['scale']): void {
  const style: TextStyle = { size: 2.9, colour: 'faint' };
  const bar = barFigure();
  const beside = flow.left + bar.width + 16;
  const width = flow.left + flow.width - beside;
  const lines = wrapped(text, width, style, flow.metrics);
  const high = Math.max(bar.height, (lines.length + 1) * lineHeight(style));
  if (!flow.fresh) flow.y += GAP;
  flow.need(high + 2);
  const small: TextStyle = { size: 2.5, colour: 'faint' };
  const drawBar = () => {
    flow.figure(bar, flow.left, flow.y + 1);
    labels.forEach((label, i) => {
      const top = flow.y + 1 + (i * bar.height) / labels.length;
      flow.lines([label], flow.left + bar.width + 1.5, top - 0.1, small);
    });
  };
  const heads = { size: 2.9, bold: true };
  const top = flow.as('H2', () => flow.lines([title], beside, flow.y - 0.6, heads));
  flow.as('Figure', drawBar, { alt: labels.join(', ') });
  flow.as('P', () => flow.lines(lines, beside, top, style));
  flow.y += high + 1;
}

export function drawCare(
  flow: PageFlow,
  { title, items }: GuidePage['care'],
  density: Density,
): void {
  const pad = 5;
  const gap = 8;
  const column = (flow.width - 2 * pad - gap) / 2;
  const style = { size: density.text - 0.2 };
  const blocks = items.map(i => wrapped(i, column - 3.5, style, flow.metrics));
  const pairs = Array.from({ length: Math.ceil(blocks.length / 2) }, (_, r) =>
    blocks.slice(2 * r, 2 * r + 2),
  );
  const heights = pairs.map(p => Math.max(...p.map(b => b.length)) * lineHeight(style) + 1.6);
  const high = 2 * pad + lineHeight(SECTION) + heights.reduce((a, b) => a + b, 0) - 1;
  if (!flow.fresh) flow.y += GAP - 1;
  flow.need(high);
  flow.card(flow.left, flow.y, flow.width, high);
  const begin = flow.y + pad - 1;
  let y = flow.as('H2', () => flow.lines([title], flow.left + pad, begin, SECTION)) + 0.5;
  const drawItem = (lines: readonly string[], c: number) => {
    const x = flow.left + pad + c * (column + gap);
    const dot = circle([x + 0.8, flow.size.height - y - 0.5 * lineHeight(style)], 0.7);
    flow.ornament(() => flow.add({ kind: 'shape', paths: [dot], fill: 'accent' }));
    listItem(flow, () => flow.lines(lines, x + 3.5, y, style));
  };
  flow.as('L', () => {
    pairs.forEach((pair, r) => {
      pair.forEach(drawItem);
      y += heights[r]!;
    });
  });
  flow.y += high;
}
