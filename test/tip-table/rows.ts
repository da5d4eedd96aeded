/** How far a drag blade's tip strays over every style and motif, with the file's compensation and with nobody's:
 *  the rows of the table in DEVELOPERS.md. */
import { fileURLToPath } from 'node:url';
import { netPiece } from '../../src/fold/index.js';
import { bounds, transform, translation } from '../../src/geom/index.js';
import type { Cutter, Stroke } from '../../src/model.js';
import { MOTIFS, makeMotifTools } from '../../src/motifs/index.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { planSheet, type TipError } from '../../src/tool/index.js';
import { stock } from '../sheet/shapes.js';
import { allFonts } from '../support/fonts.js';

const OFFSET_MM = 0.25;
const CUTTER: Cutter = {
  id: 'table',
  summary: 'for the table',
  width: 3000,
  height: 3000,
  margin: 5,
  blade: { offset: OFFSET_MM, overcut: 0.5, compensatedBy: 'file' },
  speed: { draw: 100, score: 60, perforate: 40, cut: 60, register: 100, travel: 200 },
};

interface Line {
  readonly what: string;
  readonly compensated: TipError;
  readonly uncompensated: TipError;
}

function lineOf(what: string, strokes: readonly Stroke[]): Line {
  const b = bounds(...strokes.map(s => s.path));
  const at = translation(20 - b.minX, 20 - b.minY);
  const moved = strokes.map(s => ({ ...s, path: transform(s.path, at) }));
  const sheet = { width: b.maxX - b.minX + 40, height: b.maxY - b.minY + 40 };
  const { tip } = planSheet(moved, CUTTER, { sheet }).report;
  if (!tip?.compensated) throw new Error(`${what}: nothing is cut`);
  return { what, compensated: tip.compensated, uncompensated: tip.uncompensated };
}

const cut = (path: Stroke['path']): Stroke => ({ operation: 'cut', path });

/** Of lines that belong together the worst of each figure. */
function worst(what: string, lines: readonly Line[]): Line {
  const most = (of: 'compensated' | 'uncompensated'): TipError => ({
    max: Math.max(...lines.map(l => l[of].max)),
    p99: Math.max(...lines.map(l => l[of].p99)),
    uncutMax: Math.max(...lines.map(l => l[of].uncutMax)),
    uncut99: Math.max(...lines.map(l => l[of].uncut99)),
  });
  return { what, compensated: most('compensated'), uncompensated: most('uncompensated') };
}

function styleLines(): Line[] {
  return STYLES.map(style => {
    const spec = { inside: style.example, thickness: 0.3 };
    const nets = style.build(spec, fillParams(style.params, {}));
    const parts = nets.map(net => {
      const { outline, holes, strokes } = netPiece(net, stock(1000, 1000), 1);
      return lineOf(net.id, [...strokes, ...[...holes, outline].map(cut)]);
    });
    return worst(style.id, parts);
  });
}

function motifLines(): Line[] {
  const tools = makeMotifTools({ fonts: allFonts() });
  const families = new Map<string, Line[]>();
  for (const motif of MOTIFS) {
    const layers = motif.build(fillParams(motif.params, {}), tools);
    const lines = layers.map(({ outline, holes, strokes }) =>
      lineOf(motif.id, [...strokes, ...[...holes, outline].map(cut)]),
    );
    families.set(motif.family, [...(families.get(motif.family) ?? []), ...lines]);
  }
  return [...families].map(([family, lines]) => worst(`motifs: ${family}`, lines));
}

const um = (mm: number) => (mm * 1000).toFixed(1);
const row = ({ what, compensated: c, uncompensated: u }: Line) =>
  `| ${what} | ${um(c.max)} | ${um(c.p99)} | ${um(c.uncutMax)} | ${um(c.uncut99)} | ${Math.round(u.max * 1000)} |`;

/** Of each style and each family of motifs. */
export const tipRows = (): string[] => [...styleLines(), ...motifLines()].map(row);

export const DEVELOPERS = fileURLToPath(new URL('../../DEVELOPERS.md', import.meta.url));
const HEAD = [
  '| | at most | 99 % | left uncut | 99 % | with nobody’s help |',
  '|---|---:|---:|---:|---:|---:|',
];
const BEGIN = '<!-- tip-table: npm run tip-table -->';
const END = '<!-- end of tip-table -->';

/** The text with these rows in the place of its own. */
export function withRows(text: string, rows: readonly string[]): string {
  const [from, to] = [text.indexOf(BEGIN), text.indexOf(END)];
  if (from < 0 || to < from) throw new Error('DEVELOPERS.md has no place for the table');
  return text.slice(0, from) + [BEGIN, ...HEAD, ...rows, ''].join('\n') + text.slice(to);
}
