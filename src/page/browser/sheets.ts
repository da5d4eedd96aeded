/** The sheets in the flat: each piece can be pointed at or reached by keyboard, and says what it is. */
import type { Operation } from '../../model.js';
import type { PreviewFacts, PreviewPiece, PreviewSheet } from '../../preview-model.js';
import { element, svgElement } from './elements.js';

const SHOWN: readonly Operation[] = ['draw', 'score', 'perforate', 'cut', 'register'];
/** What stands for printed art. */
const PRINT = ['#b5452c', '#d9a441', '#4e6b3a'] as const;
/** After ISO 128, in mm. */
const DASH: Partial<Record<Operation, string>> = { score: '3 1.6', perforate: '1.2 1.2' };

const dashed = (o: Operation): Readonly<Record<string, string>> => {
  const dash = DASH[o];
  return dash === undefined ? {} : { 'stroke-dasharray': dash };
};

export function sheetsView(facts: PreviewFacts, say: (text: string) => void): HTMLElement {
  const { words } = facts;
  const used = SHOWN.filter(o =>
    o === 'register'
      ? facts.sheets.some(s => s.marks !== '')
      : facts.pieces.some(p => p.lines[o] !== undefined || (o === 'score' && p.back)),
  );
  const heading = element('h2', { id: 'flat', class: 'unseen' }, words.flat);
  const view = element('section', { class: 'sheets', 'aria-labelledby': 'flat' }, heading);
  const layers = element('fieldset', { class: 'layers' }, element('legend', {}, words.show));
  const art = facts.pieces.some(p => p.art.length > 0) ? (['art'] as const) : [];
  for (const layer of [...art, ...used]) {
    const box = element('input', { type: 'checkbox', checked: '' }) as HTMLInputElement;
    box.addEventListener('change', () => view.classList.toggle(`no-${layer}`, !box.checked));
    layers.append(element('label', {}, box, swatchOf(layer, facts), words[layer]));
  }
  view.append(layers);
  if (facts.sheets.some(s => s.side)) view.append(element('p', {}, words.turned));
  view.append(artOf(facts));
  const figures = facts.sheets.map(sheet => sheetFigure(sheet, facts, used, say));
  view.append(element('div', { class: 'figures' }, ...figures));
  return view;
}

/** A line as it is drawn on the sheets, on a scrap of paper. */
function swatchOf(layer: Operation | 'art', { colours }: PreviewFacts): SVGElement {
  const svg = svgElement('svg', { class: 'swatch', viewBox: '0 0 12 6', 'aria-hidden': 'true' });
  svg.append(svgElement('rect', { width: '12', height: '6', rx: '1' }));
  if (layer === 'art') {
    for (const [i, fill] of PRINT.entries()) {
      svg.append(
        svgElement('rect', { x: `${2 + i * 2.75}`, y: '1', width: '2.5', height: '4', fill }),
      );
    }
    return svg;
  }
  const line = { d: 'M1 3h10', stroke: colours[layer], 'stroke-width': '0.9', fill: 'none' };
  svg.append(svgElement('path', { ...line, ...dashed(layer) }));
  return svg;
}

/** The print of every piece, to be used wherever it lies. */
function artOf({ pieces }: PreviewFacts): SVGElement {
  const all = svgElement('svg', {
    width: '0',
    height: '0',
    class: 'unseen',
    'aria-hidden': 'true',
  });
  pieces.forEach(({ art, colour: paper }, i) => {
    if (art.length === 0) return;
    const group = svgElement('g', { id: `art-${i}` });
    art.forEach(({ colour, d }, k) => {
      // A printer has no white ink: white is the paper's own colour.
      const fill = k === 0 && colour === '#ffffff' ? paper : colour;
      group.append(svgElement('path', { d, fill }));
    });
    all.append(group);
  });
  return all;
}

/** A sheet as it comes from the printer: each piece's print with its bleed, up to its neighbours. */
function printOf({ id, width, height, placed }: PreviewSheet, facts: PreviewFacts): SVGElement {
  const group = svgElement('g', { class: 'op-art' });
  placed.forEach(({ piece, at, clear }, i) => {
    if (facts.pieces[piece]!.art.length === 0) return;
    const use = svgElement('use', { href: `#art-${piece}`, transform: placeOf(at, height) });
    if (clear === undefined) {
      group.append(use);
      return;
    }
    const name = `clear-${id}-${i}`;
    const path = svgElement('path', {
      d: `M0 0h${width}v${-height}h${-width}z${clear}`,
      'clip-rule': 'evenodd',
      transform: `translate(0 ${height})`,
    });
    const clip = svgElement('clipPath', { id: name });
    clip.append(path);
    const cut = svgElement('g', { 'clip-path': `url(#${name})` });
    cut.append(use);
    group.append(clip, cut);
  });
  return group;
}

/** y is down in path data, on both sides of the move. */
const placeOf = ([a, b, c, d, e, f]: PreviewSheet['placed'][number]['at'], height: number) =>
  `matrix(${a} ${-b} ${-c} ${d} ${e} ${height - f})`;

function sheetFigure(
  sheet: PreviewSheet,
  facts: PreviewFacts,
  used: readonly Operation[],
  say: (text: string) => void,
): HTMLElement {
  const { width, height } = sheet;
  const svg = svgElement('svg', {
    viewBox: `-1 -1 ${width + 2} ${height + 2}`,
    role: 'group',
    'aria-labelledby': `sheet-${sheet.id}`,
    'aria-describedby': `holds-${sheet.id}`,
    style: `--sheet:${sheet.colour}`,
    class: sheet.placed.some(p => facts.pieces[p.piece]!.art.length > 0) ? 'printed' : '',
  });
  svg.append(svgElement('rect', { class: 'paper', width: `${width}`, height: `${height}` }));
  const placed = sheet.placed.map(({ piece, at }) => ({
    piece: facts.pieces[piece]!,
    place: placeOf(at, height),
  }));
  const pieces = placed.map(({ piece, place }) => pieceOf(piece, place, sheet, facts, used, say));
  rove(pieces);
  // Paper, print, lines: a piece's print reaches under its neighbour's line and not over it.
  svg.append(
    ...placed.map(({ piece: { paper }, place }) =>
      svgElement('path', { class: 'cutout', d: paper, 'fill-rule': 'evenodd', transform: place }),
    ),
    printOf(sheet, facts),
    ...pieces,
  );
  if (sheet.marks !== '') {
    const marks = svgElement('path', {
      class: 'op-register',
      d: sheet.marks,
      transform: `translate(0 ${height})`,
      stroke: facts.colours.register,
    });
    svg.append(marks);
  }
  const caption = element(
    'figcaption',
    {},
    element('span', { id: `sheet-${sheet.id}` }, sheet.title),
    element('span', { id: `holds-${sheet.id}`, class: 'holds' }, sheet.holds),
  );
  return element('figure', {}, svg, caption);
}

/** One stop of the Tab key for all of them; arrow keys go from one to the next. */
function rove(pieces: readonly SVGElement[]) {
  const go = (to: number) => {
    const next = pieces[(to + pieces.length) % pieces.length]!;
    for (const p of pieces) p.setAttribute('tabindex', p === next ? '0' : '-1');
    next.focus();
  };
  pieces.forEach((piece, i) => {
    piece.setAttribute('tabindex', i === 0 ? '0' : '-1');
    const keys: Readonly<Record<string, number>> = {
      ArrowRight: i + 1,
      ArrowDown: i + 1,
      ArrowLeft: i - 1,
      ArrowUp: i - 1,
      Home: 0,
      End: -1,
    };
    piece.addEventListener('keydown', event => {
      const to = keys[event.key];
      if (to === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      go(to);
    });
  });
}

/** What is worked of a piece while the sheet lies as it is seen. */
const worked = ({ lines, back }: PreviewPiece, { side }: PreviewSheet): PreviewPiece['lines'] => {
  if (side === 'face' || back === undefined) return side === 'back' ? {} : lines;
  return side === 'back' ? { score: back } : { ...lines, score: (lines.score ?? '') + back };
};

function pieceOf(
  piece: PreviewPiece,
  place: string,
  sheet: PreviewSheet,
  { colours }: PreviewFacts,
  used: readonly Operation[],
  say: (text: string) => void,
): SVGElement {
  const told = `${piece.title}, ${piece.size}`;
  const group = svgElement('g', { class: 'piece', role: 'img', transform: place });
  group.append(
    svgElement('title', {}, told),
    svgElement('path', { class: 'face', d: piece.paper, 'fill-rule': 'evenodd' }),
  );
  const lines = worked(piece, sheet);
  for (const o of used) {
    const d = lines[o];
    if (d === undefined) continue;
    group.append(svgElement('path', { class: `op-${o}`, d, stroke: colours[o], ...dashed(o) }));
  }
  const tell = () => say(told);
  group.addEventListener('pointerenter', tell);
  group.addEventListener('focus', tell);
  group.addEventListener('click', tell);
  return group;
}
