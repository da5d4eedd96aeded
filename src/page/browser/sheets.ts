/** The sheets in the flat: each piece can be pointed at or reached by keyboard, and says what it is. */
import type { Operation } from '../../model.js';
import type { PreviewFacts, PreviewPiece, PreviewSheet } from '../../preview-model.js';
import { filled } from '../../words/filled.js';
import { element, svgElement } from './elements.js';

const SHOWN: readonly Operation[] = ['draw', 'score', 'perforate', 'cut', 'register'];
/** After ISO 128, in mm. */
const DASH: Partial<Record<Operation, string>> = { score: '3 1.6', perforate: '1.2 1.2' };

export function sheetsView(facts: PreviewFacts, say: (text: string) => void): HTMLElement {
  const { words } = facts;
  const used = SHOWN.filter(o =>
    o === 'register'
      ? facts.sheets.some(s => s.marks !== '')
      : facts.pieces.some(p => p.lines[o] !== undefined),
  );
  const view = element('section', { class: 'sheets', 'aria-label': words.flat });
  const layers = element('fieldset', { class: 'layers' }, element('legend', {}, words.show));
  const art = facts.pieces.some(p => p.art.length > 0) ? (['art'] as const) : [];
  for (const layer of [...art, ...used]) {
    const box = element('input', { type: 'checkbox', checked: '' }) as HTMLInputElement;
    box.addEventListener('change', () => view.classList.toggle(`no-${layer}`, !box.checked));
    const swatch = element('i', {
      style: layer === 'art' ? '' : `background:${facts.colours[layer]}`,
    });
    const name = words[layer];
    layers.append(element('label', {}, box, swatch, name));
  }
  view.append(layers);
  view.append(artOf(facts));
  for (const sheet of facts.sheets) view.append(sheetFigure(sheet, facts, used, say));
  return view;
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
    'aria-label': filled(facts.words.sheet, { title: sheet.title }),
    style: `--sheet:${sheet.colour}`,
    class: sheet.placed.some(p => facts.pieces[p.piece]!.art.length > 0) ? 'printed' : '',
  });
  svg.append(svgElement('rect', { class: 'paper', width: `${width}`, height: `${height}` }));
  const placed = sheet.placed.map(({ piece, at }) => ({
    piece: facts.pieces[piece]!,
    place: placeOf(at, height),
  }));
  // Paper, print, lines: a piece's print reaches under its neighbour's line and not over it.
  svg.append(
    ...placed.map(({ piece: { paper }, place }) =>
      svgElement('path', { class: 'cutout', d: paper, 'fill-rule': 'evenodd', transform: place }),
    ),
    printOf(sheet, facts),
    ...placed.map(({ piece, place }) => pieceOf(piece, place, facts, used, say)),
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
  return element('figure', {}, svg, element('figcaption', {}, sheet.title));
}

function pieceOf(
  piece: PreviewPiece,
  place: string,
  { colours }: PreviewFacts,
  used: readonly Operation[],
  say: (text: string) => void,
): SVGElement {
  const told = `${piece.title}, ${piece.size}`;
  const group = svgElement('g', {
    class: 'piece',
    tabindex: '0',
    role: 'img',
    'aria-label': told,
    transform: place,
  });
  group.append(svgElement('path', { class: 'face', d: piece.paper, 'fill-rule': 'evenodd' }));
  for (const o of used) {
    const data = piece.lines[o];
    if (data === undefined) continue;
    const dash = DASH[o];
    group.append(
      svgElement('path', {
        class: `op-${o}`,
        d: data,
        stroke: colours[o],
        ...(dash && { 'stroke-dasharray': dash }),
      }),
    );
  }
  group.append(svgElement('title', {}, told));
  const tell = () => say(told);
  group.addEventListener('pointerenter', tell);
  group.addEventListener('focus', tell);
  group.addEventListener('click', tell);
  return group;
}
