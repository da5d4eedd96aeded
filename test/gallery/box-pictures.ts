/** Boxes as the gallery shows them: nets in the flat, and folded ones, as parts of one SVG. */
import {
  drawNet,
  litParts,
  type NetDrawing,
  type Standing,
  type ViewPoint,
} from '../../src/fold/index.js';
import { arcsToCubics, bounds, transform, translation } from '../../src/geom/index.js';
import type { Net, Path, Region } from '../../src/model.js';
import { foldedPicture } from '../../src/write/folded-picture.js';
import { num } from '../../src/write/number.js';
import { pathData } from '../../src/write/svg.js';

/** Puts lettering into outlines. */
export type Letter = (text: string, font: string, height: number) => readonly Region[];

export const GROUND = '#efe8dc';
export const INK = '#4b4038';
export const GLUE = '#b0762c';
const VIEW = { azimuth: -1.08, elevation: 0.46 };

/** Pixels: the height of a box's cell, and what stays free beside a net. */
export const CELL_HEIGHT = 250;
export const MARGIN = 22;
export const CAPTION_PX = 30;
const CAPITAL_PX = 8.5;

/** Card of the colours of the fair, turn by turn: outside and inside. */
export const CARDS = ['#c8a97e', '#d9785f', '#b7bd86', '#e3c07a', '#8fa9a3', '#d8b9a8'];
const LINER = '#f6ecd9';
/** Of folded boxes: the liner takes something of the card that shines on it. */
export const within = (card: string): string =>
  `#${[1, 3, 5].map(i => mean(card.slice(i, i + 2), LINER.slice(i, i + 2))).join('')}`;
const mean = (a: string, b: string): string =>
  Math.round(Number.parseInt(a, 16) * 0.3 + Number.parseInt(b, 16) * 0.7)
    .toString(16)
    .padStart(2, '0');

/** More to draw on a net in the flat, over its lines or under them; `px` turns pixels into its own
 *  lengths. */
type Upon = (net: Net, px: (n: number) => string) => string;

/** The closed parts in their places; those that say no place stand in a row. */
export function together(nets: readonly Net[]): Standing[] {
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
export function solid(
  standing: readonly Standing[],
  card: string,
  x: number,
  side: number,
  view: Partial<ViewPoint> = {},
): string {
  const { parts, table } = litParts(standing, { ...VIEW, ...view });
  const paper = { outside: card, inside: within(card) };
  const alone = foldedPicture({ parts, table, paper: () => paper, decals: [] }, side);
  const svg = namedApart(alone);
  const [, w, h] = /width="([\d.]+)[^"]*" height="([\d.]+)/.exec(svg)!.map(Number) as number[];
  const k = Math.min(1, CELL_HEIGHT / h!);
  const y = (CELL_HEIGHT - h! * k) / 2;
  // The table is the sheet's own ground.
  const inner = svg.slice(svg.indexOf('<svg')).replace(/<path[^>]*\/>/, '');
  const open = inner.replace(
    /<svg([^>]*) width="[^"]*" height="[^"]*"/,
    `<svg$1 x="${num(x + (side - w! * k) / 2)}" y="${num(y)}" width="${num(w! * k)}" height="${num(h! * k)}"`,
  );
  return open;
}

let pictures = 0;
/** Names of a document's own, for it stands in one with others. */
function namedApart(svg: string): string {
  pictures += 1;
  return svg.replace(/(id="|href="#|url\(#)/g, `$1p${pictures}-`);
}

/** Nets in the flat, in rows, to one scale; alike ones once. */
export function flatNets(
  nets: readonly Net[],
  card: string,
  side: number,
  upon: Upon = () => '',
  under: Upon = () => '',
): string {
  const seen = new Set<string>();
  const drawn = nets.map(net => ({ net, ...drawNet(net) }));
  const each = drawn.filter(d => {
    const key = pathData(atOrigin(d).outline, 0);
    return !seen.has(key) && seen.add(key);
  });
  const { places, width, height, k } = largestRows(
    each.map(d => bounds(d.outline)),
    side,
  );
  const [dx, dy] = [(side - width * k) / 2 + MARGIN, (CELL_HEIGHT - height * k) / 2];
  const parts = each.map((d, i) => {
    const [px, py] = places[i]!;
    const b = bounds(d.outline);
    const [x, y] = [dx + (px - b.minX) * k, dy + (py + b.maxY) * k];
    const inPx = (n: number) => num(n / k);
    const drawn = flatNet(d, card, k, under(d.net, inPx)) + upon(d.net, inPx);
    return `<g transform="translate(${num(x)} ${num(y)}) scale(${num(k)})">${drawn}</g>`;
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
    return { ...rows, k: Math.min(side / rows.width, (CELL_HEIGHT - 10) / rows.height) };
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
function flatNet(d: NetDrawing, card: string, k: number, under: string): string {
  const px = (n: number) => num(n / k);
  const data = (path: Path) => pathData(arcsToCubics(path), 0);
  const paper = [d.outline, ...d.holes].map(data).join('');
  const line = (path: Path, dash: string) =>
    `<path fill="none" stroke="${INK}" stroke-width="${px(0.8)}"${dash} d="${data(path)}"/>`;
  const dashed = (list: readonly number[]) => ` stroke-dasharray="${list.map(px).join(' ')}"`;
  const scores = d.scores.map(s =>
    line(s.path, dashed(s.angle < 0 ? [6, 1.8, 1.2, 1.8] : [3.6, 2.2])),
  );
  // Scores that are no fold of the closed box: a bag's, by which it folds flat.
  const more = d.strokes
    .filter(s => s.operation === 'score')
    .map(s => line(s.path, dashed([3.6, 2.2])));
  const cuts = [...d.slits, ...d.strokes.filter(s => s.operation === 'cut').map(s => s.path)];
  return (
    `<path fill-rule="evenodd" fill="${LINER}" stroke="${card}" stroke-width="${px(1.6)}" d="${paper}"/>` +
    under +
    [...scores, ...more].join('') +
    cuts.map(c => line(c, '')).join('')
  );
}

export function caption(letter: Letter, text: string, x: number, y: number): string {
  const outlines = letter(text, 'nunito-bold', CAPITAL_PX).flatMap(r => [r.outer, ...r.holes]);
  const b = bounds(...outlines);
  const at = translation(-(b.minX + b.maxX) / 2, 0);
  const data = outlines.map(p => pathData(transform(p, at), 0)).join('');
  return `<path transform="translate(${num(x)} ${num(y)})" fill="${INK}" d="${data}"/>`;
}
