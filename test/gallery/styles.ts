/**
 * Every box style at its example size: its nets in the flat, on the way, and the box finished, each beside
 * the other, two styles a row.
 */
import type { BoxStyle } from '../../src/contracts.js';
import { proveFold } from '../../src/fold/assembly.js';
import { gluedFaces, type Standing, type ViewPoint } from '../../src/fold/index.js';
import { arcsToCubics } from '../../src/geom/index.js';
import type { Net } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { pathData } from '../../src/write/svg.js';
import {
  CAPTION_PX,
  CARDS,
  CELL_HEIGHT,
  caption,
  flatNets,
  GLUE,
  GROUND,
  type Letter,
  MARGIN,
  solid,
  together,
} from './box-pictures.js';
import type { Tile } from './collage.js';

const THICKNESS = 0.3;
const LEGEND =
  'Seen from the inside: dashed is folded toward you, dash-dot away from you; tinted is glued.';

/** Pixels: a style's cell, the picture of its nets and of each of its two boxes. */
const CELL = { width: 750, height: CELL_HEIGHT } as const;
const FLAT = 225;
const SOLID = 230;
const COLUMNS = 2;
/** Styles on one sheet. */
const A_SHEET = 10;

/** How a box is shown on the way and finished, where its folds are seen best. */
interface Shown {
  /** How far on the way. */
  readonly at?: number;
  /** The nets that are folded, in their places; the one with the most folds if not said. */
  readonly nets?: readonly string[];
  readonly view?: Partial<ViewPoint>;
  /** Of the finished box. */
  readonly done?: Partial<ViewPoint>;
  /** Parts that stand apart when it is finished. */
  readonly apart?: Readonly<Record<string, Pick<Standing, 'at' | 'height'>>>;
}
const FROM_BELOW = { elevation: -0.7 };
const lifted = (by: number) => ({
  lid: { height: by },
  'lid-wall': { height: by },
  'lid-lining': { height: by },
});
const SHOWN: Readonly<Record<string, Shown>> = {
  'flip-lid': { at: 0.7 },
  'tuck-tray': { at: 0.62 },
  'display-tray': { at: 0.82 },
  'lid-and-base': { at: 0.8 },
  'sleeve-and-tray': { at: 0.8, apart: { tray: { at: [40, 0] } } },
  'snap-bottom': { at: 0.45, view: FROM_BELOW },
  'crash-bottom': { at: 0.45, view: FROM_BELOW },
  'gable-top': { at: 0.9 },
  prism: { at: 0.75 },
  cup: { at: 0.7 },
  cone: { at: 0.85 },
  pillow: { at: 0.6 },
  'four-wall-burst': { nets: ['layer-1', 'layer-2', 'layer-3'], at: 0.6 },
  platform: { at: 0.4 },
  'gusset-bag': { at: 0.7 },
  envelope: { at: 0.4, view: { azimuth: 2.06 } },
  pouch: { at: 0.6 },
  drum: { nets: ['base-wall'], at: 0.9, apart: lifted(20) },
  'heart-box': { nets: ['base-wall'], at: 0.9, apart: lifted(20) },
  'tetra-pouch': { at: 0.75, done: { azimuth: -1.75 } },
};
const USUALLY = 0.66;

export function styleSheets(letter: Letter): Tile[] {
  const sheets: BoxStyle[][] = [];
  for (let i = 0; i < STYLES.length; i += A_SHEET) sheets.push(STYLES.slice(i, i + A_SHEET));
  return sheets.map((styles, k) => sheet(styles, k * A_SHEET, letter));
}

function sheet(styles: readonly BoxStyle[], from: number, letter: Letter): Tile {
  const rows = Math.ceil(styles.length / COLUMNS);
  const width = COLUMNS * CELL.width;
  const height = rows * (CELL.height + CAPTION_PX) + 2 * CAPTION_PX;
  const cells = styles.map((style, i) => {
    const x = (i % COLUMNS) * CELL.width;
    const y = Math.floor(i / COLUMNS) * (CELL.height + CAPTION_PX) + CAPTION_PX / 2;
    const card = CARDS[(from + i) % CARDS.length]!;
    const name = caption(letter, style.id, x + CELL.width / 2, y + CELL.height + CAPTION_PX / 2);
    return `<g transform="translate(${x} ${y})">${styleCell(style, card)}</g>${name}`;
  });
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">` +
    `<rect width="${width}" height="${height}" fill="${GROUND}"/>${cells.join('')}` +
    `${caption(letter, LEGEND, width / 2, height - CAPTION_PX / 2)}</svg>`;
  return { svg, width };
}

function exampleNets(style: BoxStyle): readonly Net[] {
  return style.build({ inside: style.example, thickness: THICKNESS }, fillParams(style.params, {}));
}

function styleCell(style: BoxStyle, card: string): string {
  const nets = exampleNets(style);
  const { nets: ids, at = USUALLY, view, done, apart = {} } = SHOWN[style.id] ?? {};
  const some = ids
    ? nets.filter(n => ids.includes(n.id))
    : [nets.reduce((a, b) => (b.hinges.length > a.hinges.length ? b : a))];
  const folds = some[0]!.hinges.length > 1;
  const flat = flatNets(nets, card, folds ? FLAT : FLAT + SOLID / 2, undefined, gluedOn(nets));
  const begin = 2 * MARGIN + (folds ? FLAT : FLAT + SOLID / 2);
  const way = some.map(net => ({ net, folding: proveFold(net).folding(at) }));
  const half = folds ? solid(way, card, begin, SOLID, view) : '';
  const standing = together(nets).map(s => ({ ...s, ...apart[s.net.id] }));
  const x = begin + (folds ? SOLID + MARGIN : SOLID / 2);
  return flat + half + solid(standing, card, x, SOLID, done);
}

/** Glued areas, on the face that is seen and on the other. */
function gluedOn(nets: readonly Net[]) {
  const glue = gluedFaces(nets);
  return (net: Net) =>
    (glue.get(net.id) ?? [])
      .map(
        g => `<path fill="${GLUE}" fill-opacity=".34" d="${pathData(arcsToCubics(g.area), 0)}"/>`,
      )
      .join('');
}
