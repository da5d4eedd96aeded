/**
 * Every box style at its example size: its nets in the flat, one of them on the way, and the box closed,
 * each beside the other, two styles a row.
 */

import type { BoxStyle } from '../../src/contracts.js';
import { proveFold } from '../../src/fold/assembly.js';
import { drawNet, type NetDrawing, type Standing, seenParts } from '../../src/fold/index.js';
import { arcsToCubics, bounds, transform, translation } from '../../src/geom/index.js';
import type { Net, Path, Region } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { foldedPicture } from '../../src/write/folded-picture.js';
import { num } from '../../src/write/number.js';
import { pathData } from '../../src/write/svg.js';
import type { Tile } from './collage.js';

/** Puts lettering into outlines. */
type Letter = (text: string, font: string, height: number) => readonly Region[];

const THICKNESS = 0.3;
const GROUND = '#efe8dc';
const INK = '#4b4038';
const VIEW = { azimuth: -1.08, elevation: 0.46 };

/** Pixels: a style's cell, the picture of its nets and of each of its two boxes, its name. */
const CELL = { width: 660, height: 250 } as const;
const FLAT = 225;
const SOLID = 185;
const MARGIN = 22;
const CAPTION_PX = 30;
const CAPITAL_PX = 8.5;
const COLUMNS = 2;
/** Styles on one sheet. */
const A_SHEET = 10;

/** Card of the colours of the fair, turn by turn: outside and inside. */
const CARDS = ['#c8a97e', '#d9785f', '#b7bd86', '#e3c07a', '#8fa9a3', '#d8b9a8'];
const LINER = '#f6ecd9';

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

/** The closed parts in their places; those that say no place stand in a row. */
function together(nets: readonly Net[]): Standing[] {
  let x = 0;
  return nets.map((net): Standing => {
    if (net.stands || nets.length === 1) return { net };
    const side = spanOf(net);
    const at = x + side / 2;
    x += side + 12;
    return { net, at: [at, 0] };
  });
}

/** The longer side of a net's root. */
function spanOf(net: Net): number {
  const b = bounds(net.panels.find(p => p.id === net.root)!.outline);
  return Math.max(b.maxX - b.minX, b.maxY - b.minY);
}

/** A picture of folded nets, in the middle of a square. */
async function solid(standing: readonly Standing[], card: string, x: number, side: number) {
  const svg = await foldedPicture(
    {
      parts: seenParts(standing, VIEW),
      paper: () => ({ outside: card, inside: LINER }),
      decals: [],
    },
    side,
  );
  const [, w, h] = /width="([\d.]+)[^"]*" height="([\d.]+)/.exec(svg)!.map(Number) as number[];
  const k = Math.min(1, CELL.height / h!);
  const y = (CELL.height - h! * k) / 2;
  const inner = svg.slice(svg.indexOf('<svg')).replace(/<rect[^>]*\/>/, '');
  const open = inner.replace(
    /<svg([^>]*) width="[^"]*" height="[^"]*"/,
    `<svg$1 x="${num(x + (side - w! * k) / 2)}" y="${num(y)}" width="${num(w! * k)}" height="${num(h! * k)}"`,
  );
  return open;
}

/** Nets in the flat, in rows, to one scale; alike ones once. */
function flatNets(nets: readonly Net[], card: string, side: number): string {
  const drawn = nets.map(drawNet);
  const seen = new Set<string>();
  const each = drawn.filter(d => {
    const key = pathData(atOrigin(d).outline, 0);
    return !seen.has(key) && seen.add(key);
  });
  const { places, width, height, k } = largestRows(
    each.map(d => bounds(d.outline)),
    side,
  );
  const [dx, dy] = [(side - width * k) / 2 + MARGIN, (CELL.height - height * k) / 2];
  const parts = each.map((d, i) => {
    const [px, py] = places[i]!;
    const b = bounds(d.outline);
    return `<g transform="translate(${num(dx + (px - b.minX) * k)} ${num(dy + (py + b.maxY) * k)}) scale(${num(k)})">${flatNet(d, card, k)}</g>`;
  });
  return parts.join('');
}

const atOrigin = (d: NetDrawing): { outline: Path } => {
  const b = bounds(d.outline);
  return { outline: transform(d.outline, translation(-b.minX, -b.minY)) };
};

const GAP_MM = 8;

type Sizes = readonly (readonly [number, number])[];

/** Rectangles in rows of the width that lets them be drawn largest; `k` is the scale. */
function largestRows(boxes: readonly ReturnType<typeof bounds>[], side: number) {
  const sizes: Sizes = boxes.map(b => [b.maxX - b.minX, b.maxY - b.minY]);
  const widths = sizes.map((_, i) => sizes.slice(0, i + 1).reduce((s, [w]) => s + w + GAP_MM, 0));
  const widest = Math.max(...sizes.map(s => s[0]));
  const ways = widths.map(w => {
    const rows = inRows(sizes, Math.max(w, widest));
    return { ...rows, k: Math.min(side / rows.width, (CELL.height - 10) / rows.height) };
  });
  return ways.reduce((a, b) => (b.k > a.k ? b : a));
}

function inRows(sizes: Sizes, most: number) {
  const places: (readonly [number, number])[] = [];
  let [x, y, tall, width] = [0, 0, 0, 0];
  for (const [w, h] of sizes) {
    if (x > 0 && x + w > most) [x, y, tall] = [0, y + tall + GAP_MM, 0];
    places.push([x, y]);
    x += w + GAP_MM;
    tall = Math.max(tall, h);
    width = Math.max(width, x - GAP_MM);
  }
  return { places, width, height: y + tall };
}

/** The inside of the paper lies up. Valleys dashed, mountains dash-dot (after ISO 128). */
function flatNet(d: NetDrawing, card: string, k: number): string {
  const px = (n: number) => num(n / k);
  const data = (path: Path) => pathData(arcsToCubics(path), 0);
  const paper = [d.outline, ...d.holes].map(data).join('');
  const line = (path: Path, dash: string) =>
    `<path fill="none" stroke="${INK}" stroke-width="${px(0.8)}"${dash} d="${data(path)}"/>`;
  const dashed = (list: readonly number[]) => ` stroke-dasharray="${list.map(px).join(' ')}"`;
  const scores = d.scores.map(s =>
    line(s.path, dashed(s.angle < 0 ? [6, 1.8, 1.2, 1.8] : [3.6, 2.2])),
  );
  const cuts = [...d.slits, ...d.strokes.filter(s => s.operation === 'cut').map(s => s.path)];
  return (
    `<path fill-rule="evenodd" fill="${LINER}" stroke="${card}" stroke-width="${px(1.6)}" d="${paper}"/>` +
    scores.join('') +
    cuts.map(c => line(c, '')).join('')
  );
}

function caption(letter: Letter, text: string, x: number, y: number): string {
  const outlines = letter(text, 'nunito-bold', CAPITAL_PX).flatMap(r => [r.outer, ...r.holes]);
  const b = bounds(...outlines);
  const at = translation(-(b.minX + b.maxX) / 2, 0);
  const data = outlines.map(p => pathData(transform(p, at), 0)).join('');
  return `<path transform="translate(${num(x)} ${num(y)})" fill="${INK}" d="${data}"/>`;
}
