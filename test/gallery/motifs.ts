/** Every motif on one sheet: its papers on each other with soft shadows, its name below. */
import { bounds, compose, scaling, transform, translation } from '../../src/geom/index.js';
import type { Affine, Layer, ParamValues, Path, Region } from '../../src/model.js';
import { MOTIFS } from '../../src/motifs/list.js';
import type { makeMotifTools } from '../../src/motifs/tools.js';
import { fillParams, type ParamTable } from '../../src/params.js';
import { num } from '../../src/write/number.js';
import { pathData } from '../../src/write/svg.js';
import { paperColour } from './papers.js';

type Tools = ReturnType<typeof makeMotifTools>;

export interface SheetLook {
  readonly columns: number;
  /** Pixels: a cell's side, and the picture of a motif in it. */
  readonly cell: number;
  readonly motif: number;
}
const LOOK: SheetLook = { columns: 8, cell: 170, motif: 128 };

const GROUND = '#efe8dc';
const INK = '#4b4038';
const CAPITAL_PX = 8;
const CAPTION_PX = 26;

/** A motif, and what it is given beside its defaults. */
export interface Shown {
  readonly id: string;
  readonly values?: ParamValues;
  /** Colour of its main paper in place of its own. */
  readonly main?: string;
}

/** What shows a motif better than its defaults alone; several pictures of those with several forms. */
const SHOWN: Readonly<Record<string, readonly ParamValues[]>> = {
  'scalloped-disc': [{ size: 60, scallops: 18, eyelet: 3 }],
  'scalloped-oval': [{ stitch: 'draw' }],
  'scalloped-rectangle': [{ stitch: 'draw' }],
  'scallop-strip': [{ size: 70, repeats: 9, height: 18, edges: 'both' }],
  'zigzag-strip': [{ size: 70, repeats: 12, height: 16, edges: 'both', stitch: 'none' }],
  'bracket-strip': [{ size: 70, repeats: 5, height: 24, edges: 'both' }],
  'lace-strip': [{ size: 70, repeats: 7 }],
  label: [
    { text: 'Plum jam' },
    { shape: 'ticket', text: 'Pears', font: 'nunito-bold' },
    { shape: 'bracket', text: 'Thank you', height: 26 },
    { shape: 'ornate', text: 'Apple butter', height: 36, corner: 6, inset: 2 },
    { shape: 'oval', text: 'Quince', height: 44 },
  ],
  tag: [{ text: 'for you' }, { shape: 'shouldered', text: 'Honey', reading: 'along' }],
  banner: [{ size: 70, text: 'Harvest', height: 17 }],
  pennants: [
    { size: 90, text: 'FAIR', form: 'swallowtail' },
    { size: 90, pennants: 5 },
  ],
};

const ALL: readonly Shown[] = MOTIFS.flatMap(({ id }) =>
  (SHOWN[id] ?? [{}]).map((values): Shown => ({ id, values })),
);

/** Pictures of motifs in rows, of all of them unless told, as an SVG. */
export function motifSheet(
  tools: Tools,
  shown: readonly Shown[] = ALL,
  look: SheetLook = LOOK,
): { readonly svg: string; readonly width: number } {
  const { columns, cell } = look;
  const rows = Math.ceil(shown.length / columns);
  const width = Math.min(columns, shown.length) * cell;
  const height = rows * (cell + CAPTION_PX) + CAPTION_PX;
  const parts = shown.map(({ id, values, main }, i) => {
    const x = (i % columns) * cell;
    const y = Math.floor(i / columns) * (cell + CAPTION_PX);
    const middle = [x + cell / 2, y + cell / 2 + CAPTION_PX / 2] as const;
    const picture = motifPicture(id, built(id, values, tools), look.motif, middle, main);
    return picture + caption(tools, id, x + cell / 2, y + cell + CAPTION_PX / 2);
  });
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">` +
    `<defs>${[0, 1, 2].map(shadowFilter).join('')}</defs>` +
    `<rect width="${width}" height="${height}" fill="${GROUND}"/>${parts.join('')}</svg>`;
  return { svg, width };
}

function built(id: string, values: ParamValues | undefined, tools: Tools): readonly Layer[] {
  const motif = MOTIFS.find(m => m.id === id);
  if (!motif) throw new RangeError(`no motif ${id}`);
  return motif.build(fillParams(motif.params as ParamTable, values ?? {}), tools);
}

/** The longer side of a motif gets `side` pixels. */
function motifPicture(
  id: string,
  layers: readonly Layer[],
  side: number,
  middle: readonly [number, number],
  main?: string,
): string {
  const b = bounds(...layers.map(l => l.outline));
  const k = side / Math.max(b.maxX - b.minX, b.maxY - b.minY);
  const toMiddle = translation(-(b.minX + b.maxX) / 2, -(b.minY + b.maxY) / 2);
  const at = compose(scaling(k), toMiddle);
  const turned = `translate(${num(middle[0])} ${num(middle[1])})`;
  return `<g transform="${turned}">${layers.map(l => layerPicture(id, l, at, k, main)).join('')}</g>`;
}

/** Width of a pen's line and of a crease, mm, and the least of them that is seen, px. */
const LINE_MM = { draw: 0.5, perforate: 0.6, score: 0.45, cut: 0.3, register: 0.3 } as const;
const LEAST_LINE_PX = 0.9;

function layerPicture(id: string, l: Layer, at: Affine, k: number, main?: string): string {
  const colour = (l.paper === 'main' ? main : undefined) ?? paperColour(id, l.paper);
  const data = (paths: readonly Path[]) => paths.map(p => pathData(transform(p, at), 0)).join('');
  const loops = (r: Region) => [r.outer, ...r.holes];
  const paper = data([l.outline, ...l.holes]);
  const high = l.lift > 0 ? (l.lift > 1 ? 2 : 1) : 0;
  const fills = l.fills.map(
    f => `<path fill-rule="evenodd" fill="${f.colour}" d="${data(f.regions.flatMap(loops))}"/>`,
  );
  const lines = l.strokes.map(({ operation, path }) => {
    const width = Math.max(LEAST_LINE_PX, LINE_MM[operation] * k);
    const look =
      operation === 'draw'
        ? `stroke="${shade(colour, 0.08, luminance(colour) > 0.12 ? INK : '#fbf3e4')}"`
        : `stroke="${shade(colour, 0.72, '#000000')}"`;
    const dash = operation === 'perforate' ? ` stroke-dasharray="${num(3 * width)}"` : '';
    return (
      `<path fill="none" ${look} stroke-width="${num(width)}" stroke-linecap="round" ` +
      `stroke-linejoin="round"${dash} d="${data([path])}"/>`
    );
  });
  return (
    `<path fill-rule="evenodd" fill="#3a2410" filter="url(#shadow-${high})" d="${paper}"/>` +
    `<path fill-rule="evenodd" fill="${colour}" stroke="${shade(colour, 0.86, '#2b1a08')}" ` +
    `stroke-width="0.7" d="${paper}"/>${fills.join('')}${lines.join('')}`
  );
}

/** A soft shadow down and to the right: the higher the paper, the wider. */
function shadowFilter(high: number): string {
  const [drop, blur, strength] = [
    [1.1, 1.1, 0.34],
    [2, 1.8, 0.36],
    [3, 2.6, 0.38],
  ][high]!;
  return (
    `<filter id="shadow-${high}" x="-30%" y="-30%" width="160%" height="160%">` +
    `<feGaussianBlur stdDeviation="${blur}"/><feOffset dx="${drop! * 0.6}" dy="${drop}"/>` +
    `<feComponentTransfer><feFuncA type="linear" slope="${strength}"/></feComponentTransfer>` +
    '</filter>'
  );
}

export function caption(tools: Tools, text: string, x: number, y: number): string {
  const outlines = tools
    .letter(text, 'nunito-bold', CAPITAL_PX)
    .flatMap(r => [r.outer, ...r.holes]);
  const b = bounds(...outlines);
  const at = translation(-(b.minX + b.maxX) / 2, 0);
  const data = outlines.map(p => pathData(transform(p, at), 0)).join('');
  return `<path transform="translate(${num(x)} ${num(y)})" fill="${INK}" d="${data}"/>`;
}

const channels = (colour: string) => {
  const v = Number.parseInt(colour.slice(1), 16);
  return [v >> 16, (v >> 8) & 255, v & 255] as const;
};
const luminance = (colour: string) => {
  const [r, g, b] = channels(colour);
  return ((0.2126 * r + 0.7152 * g + 0.0722 * b) / 255) ** 2.2;
};

/** `keep` of a colour, the rest of another. */
function shade(colour: string, keep: number, other: string): string {
  const o = channels(other);
  const mixed = channels(colour).map((c, i) => Math.round(c * keep + o[i]! * (1 - keep)));
  return `#${mixed.map(c => c.toString(16).padStart(2, '0')).join('')}`;
}
