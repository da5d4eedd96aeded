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
  const cuts = svgElement('svg', {
    width: '0',
    height: '0',
    class: 'unseen',
    'aria-hidden': 'true',
  });
  facts.pieces.forEach((piece, i) => {
    if (piece.art.length === 0) return;
    const path = svgElement('path', { d: piece.paper, 'clip-rule': 'evenodd' });
    cuts.append(svgElement('clipPath', { id: `cut-${i}` }, path));
  });
  view.append(cuts);
  for (const sheet of facts.sheets) view.append(sheetFigure(sheet, facts, used, say));
  return view;
}

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
  });
  svg.append(svgElement('rect', { class: 'paper', width: `${width}`, height: `${height}` }));
  for (const { piece: number, at } of sheet.placed) {
    svg.append(pieceOf(number, facts.pieces[number]!, at, sheet, facts, used, say));
  }
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
  number: number,
  piece: PreviewPiece,
  [a, b, c, d, e, f]: PreviewSheet['placed'][number]['at'],
  sheet: PreviewSheet,
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
    // y is down in path data, on both sides of the move.
    transform: `matrix(${a} ${-b} ${-c} ${d} ${e} ${sheet.height - f})`,
  });
  group.append(svgElement('path', { class: 'cutout', d: piece.paper, 'fill-rule': 'evenodd' }));
  if (piece.art.length > 0) {
    // The bleed is cut off: what is seen is the piece.
    const art = svgElement('g', { class: 'op-art', 'clip-path': `url(#cut-${number})` });
    for (const { colour, d: data } of piece.art) {
      art.append(svgElement('path', { d: data, fill: colour }));
    }
    group.append(art);
  }
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
