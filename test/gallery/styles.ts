/**
 * Every box style at its example size: its nets in the flat, one of them on the way, and the box closed,
 * each beside the other, two styles a row.
 */

import type { BoxStyle } from '../../src/contracts.js';
import { proveFold } from '../../src/fold/assembly.js';
import type { Net } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import {
  CAPTION_PX,
  CARDS,
  CELL_HEIGHT,
  caption,
  flatNets,
  GROUND,
  type Letter,
  MARGIN,
  solid,
  together,
} from './box-pictures.js';
import type { Tile } from './collage.js';

const THICKNESS = 0.3;

/** Pixels: a style's cell, the picture of its nets and of each of its two boxes. */
const CELL = { width: 660, height: CELL_HEIGHT } as const;
const FLAT = 225;
const SOLID = 185;
const COLUMNS = 2;
/** Styles on one sheet. */
const A_SHEET = 10;

/** How far on the way a box is shown: where its folds are seen best. */
const ON_THE_WAY: Readonly<Record<string, { readonly net?: string; readonly at: number }>> = {
  'flip-lid': { at: 0.7 },
  'tuck-tray': { at: 0.62 },
  'display-tray': { at: 0.82 },
  'lid-and-base': { at: 0.8 },
  'sleeve-and-tray': { at: 0.8 },
  'gable-top': { at: 0.9 },
  prism: { at: 0.75 },
  cup: { at: 0.7 },
  pillow: { at: 0.6 },
  'four-wall-burst': { net: 'layer-1', at: 0.45 },
  platform: { at: 0.4 },
  'gusset-bag': { at: 0.7 },
  envelope: { at: 0.55 },
  pouch: { at: 0.6 },
  drum: { at: 0.75 },
  'heart-box': { at: 0.75 },
  'tetra-pouch': { at: 0.75 },
};
const USUALLY = 0.66;

export function styleSheets(letter: Letter): Promise<Tile[]> {
  const sheets: BoxStyle[][] = [];
  for (let i = 0; i < STYLES.length; i += A_SHEET) sheets.push(STYLES.slice(i, i + A_SHEET));
  return Promise.all(sheets.map((styles, k) => sheet(styles, k * A_SHEET, letter)));
}

async function sheet(styles: readonly BoxStyle[], from: number, letter: Letter): Promise<Tile> {
  const rows = Math.ceil(styles.length / COLUMNS);
  const width = COLUMNS * CELL.width;
  const height = rows * (CELL.height + CAPTION_PX) + CAPTION_PX;
  const cells = await Promise.all(
    styles.map(async (style, i) => {
      const x = (i % COLUMNS) * CELL.width;
      const y = Math.floor(i / COLUMNS) * (CELL.height + CAPTION_PX) + CAPTION_PX / 2;
      const card = CARDS[(from + i) % CARDS.length]!;
      const name = caption(letter, style.id, x + CELL.width / 2, y + CELL.height + CAPTION_PX / 2);
      return `<g transform="translate(${x} ${y})">${await styleCell(style, card)}</g>${name}`;
    }),
  );
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">` +
    `<rect width="${width}" height="${height}" fill="${GROUND}"/>${cells.join('')}</svg>`;
  return { svg, width };
}

function exampleNets(style: BoxStyle): readonly Net[] {
  return style.build({ inside: style.example, thickness: THICKNESS }, fillParams(style.params, {}));
}

async function styleCell(style: BoxStyle, card: string): Promise<string> {
  const nets = exampleNets(style);
  const { net: id, at = USUALLY } = ON_THE_WAY[style.id] ?? {};
  const most =
    nets.find(n => n.id === id) ??
    nets.reduce((a, b) => (b.hinges.length > a.hinges.length ? b : a));
  const folds = most.hinges.length > 1;
  const way = proveFold(most).folding(at);
  const flat = flatNets(nets, card, folds ? FLAT : FLAT + SOLID / 2);
  const begin = 2 * MARGIN + (folds ? FLAT : FLAT + SOLID / 2);
  const half = folds ? await solid([{ net: most, folding: way }], card, begin, SOLID) : '';
  const closed = await solid(
    together(nets),
    card,
    begin + (folds ? SOLID + MARGIN : SOLID / 2),
    SOLID,
  );
  return flat + half + closed;
}
