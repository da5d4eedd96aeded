/** Every face as it is cut or drawn, and what can be made of letters. */
import { bounds, transform, translation } from '../../src/geom/index.js';
import type { makeMotifTools } from '../../src/motifs/tools.js';
import { num } from '../../src/write/number.js';
import { pathData } from '../../src/write/svg.js';
import { motifSheet, type Shown } from './motifs.js';

type Tools = ReturnType<typeof makeMotifTools>;

const OUTLINED = ['pacifico', 'zilla-slab-bold', 'nunito', 'nunito-bold', 'sniglet'];
const PENS = ['ems-allure', 'hershey-script', 'ems-tech', 'ems-readability', 'hershey-sans'];
const SAMPLE: Readonly<Record<string, string>> = {
  pacifico: 'Quince & apple jam',
  'zilla-slab-bold': 'Quince & apple jam',
  nunito: 'Quince & apple jam',
  'nunito-bold': 'Quince & apple jam',
  sniglet: 'Quince & apple jam',
};
const PEN_SAMPLE = 'Dear Zoë, with love – szőlő';

const GROUND = '#efe8dc';
const CARD = '#fbf5e6';
const INK = '#4b4038';
const PAPERS = ['#a8393f', '#4f7356', '#b9793a', '#45647a'];

const ROW = 74;
const COLUMN = 660;
const CAPITAL = 23;
const SMALL = 8;

/** Two columns of faces over a sheet of motifs made of letters. */
export function letteringSheet(tools: Tools): { readonly svg: string; readonly width: number }[] {
  const rows = Math.max(OUTLINED.length, PENS.length);
  const [width, height] = [2 * COLUMN, rows * ROW + 16];
  const faces = [
    ...OUTLINED.map((f, i) => [f, 0, i] as const),
    ...PENS.map((f, i) => [f, 1, i] as const),
  ];
  const parts = faces.map(([font, column, i]) =>
    faceRow(tools, font, column * COLUMN, i * ROW + 12, i),
  );
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">` +
    `<rect width="${width}" height="${height}" fill="${GROUND}"/>${parts.join('')}</svg>`;
  const made = motifSheet(tools, SHOWN, { columns: 4, cell: 330, motif: 290 });
  return [{ svg, width }, made];
}

function faceRow(tools: Tools, font: string, x: number, y: number, i: number): string {
  const text = SAMPLE[font] ?? PEN_SAMPLE;
  const set = tools.set({ text, font, height: CAPITAL, align: 'left' });
  const at = translation(x + 150, -(y + 46));
  const fill = set.regions.flatMap(r => [r.outer, ...r.holes]);
  const data = [...fill, ...set.lines].map(p => pathData(transform(p, at), 0)).join('');
  const look =
    set.lines.length > 0
      ? `fill="none" stroke="${INK}" stroke-width="1.5" stroke-linecap="round" stroke-linejoin="round"`
      : `fill="${PAPERS[i % PAPERS.length]}" fill-rule="evenodd"`;
  const name = tools.set({ text: font, font: 'nunito-bold', height: SMALL, align: 'right' });
  const b = bounds(...name.regions.map(r => r.outer));
  const label = name.regions
    .flatMap(r => [r.outer, ...r.holes])
    .map(p => pathData(transform(p, translation(x + 128 - b.maxX, -(y + 40))), 0))
    .join('');
  return (
    `<rect x="${num(x + 138)}" y="${num(y)}" width="${COLUMN - 150}" height="${ROW - 10}" rx="7" fill="${CARD}"/>` +
    `<path d="${label}" fill="${INK}" fill-rule="evenodd"/><path d="${data}" ${look}/>`
  );
}

const SHOWN: readonly Shown[] = [
  { id: 'greeting', values: { text: 'Happy / harvest', size: 110 } },
  { id: 'greeting', values: { text: 'with love', font: 'sniglet', bend: 80 } },
  {
    id: 'greeting',
    values: { text: 'Plum & pear', font: 'zilla-slab-bold', size: 120, hold: 'bar', mount: 3 },
  },
  { id: 'greeting', values: { text: 'for you', font: 'nunito-bold', hold: 'bar', bridge: 2 } },
  {
    id: 'seal',
    values: {
      over: 'Orchard kitchen',
      under: 'autumn fair',
      text: 'No. 7',
      font: 'zilla-slab-bold',
    },
  },
  {
    id: 'seal',
    values: {
      over: 'from the orchard',
      text: 'thank / you',
      edge: 'plain',
      rimFont: 'ems-readability',
    },
  },
  { id: 'label', values: { text: 'Cider apples', bend: 110, height: 46, font: 'sniglet' } },
  { id: 'label', values: { text: 'Pear drops / sharp & sweet', bend: -80, height: 50 } },
  {
    id: 'label',
    main: '#7c8f5a',
    values: { text: 'PEAR 1890', lettering: 'cut', font: 'nunito-bold', size: 90, bridge: 1.4 },
  },
  {
    id: 'label',
    main: '#7c8f5a',
    values: { text: 'Apple / Orange', lettering: 'cut', font: 'sniglet', height: 50, bridge: 1 },
  },
  {
    id: 'label',
    values: {
      text: 'Dear guest, / take one home / & come again',
      font: 'ems-tech',
      align: 'left',
      height: 46,
    },
  },
  { id: 'label', values: { text: 'Quince jelly', font: 'hershey-script', shape: 'ticket' } },
];
