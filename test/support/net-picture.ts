/** A net in the flat beside the box folded from it, as one SVG: for goldens and for looking. */
import { faceWithin } from '../../src/fold/face.js';
import { facetsOf, isSeam } from '../../src/fold/facets.js';
import { closureMate, drawNet } from '../../src/fold/outline.js';
import { type Folding, type PanelPose, pose } from '../../src/fold/pose.js';
import { standing } from '../../src/fold/stand.js';
import { fragments, type Point3, type SolidFace, type ViewPoint } from '../../src/fold/view.js';
import { bounds, circle } from '../../src/geom/index.js';
import type { Net, Operation } from '../../src/model.js';
import { data, num } from './path-data.js';

const CUT = 'fill="none" stroke="#000" stroke-width="0.5"';
const VALLEY = 'fill="none" stroke="#D55E00" stroke-width="0.5" stroke-dasharray="3 1.5"';
const MOUNTAIN = 'fill="none" stroke="#D55E00" stroke-width="0.5" stroke-dasharray="5 1.2 0.6 1.2"';
const RIM = 'fill="none" stroke="#444" stroke-width="0.35" stroke-linecap="round"';
const DRAW = 'fill="none" stroke="#0072B2" stroke-width="0.4"';

/** Where paper curls over by itself: only in the picture. */
const SOFT = 'fill="none" stroke="#bbb" stroke-width="0.4" stroke-dasharray="0.6 1.6"';
const PERFORATE = 'fill="none" stroke="#CC79A7" stroke-width="0.5" stroke-dasharray="1.5 1"';
const STROKES: Partial<Record<Operation, string>> = {
  draw: DRAW,
  score: VALLEY,
  perforate: PERFORATE,
};

function flatLines(net: Net): { lines: string[]; box: ReturnType<typeof bounds> } {
  const d = drawNet(net);
  const folded = pose(net);
  const lines = [
    `<path d="${[d.outline, ...d.holes].map(data).join('')}" fill="#fdf6e3" stroke="#000" stroke-width="0.5"/>`,
  ];
  for (const s of d.scores)
    lines.push(`<path d="${data(s.path)}" ${s.angle < 0 ? MOUNTAIN : VALLEY}/>`);
  for (const h of net.hinges.filter(h => h.soft))
    lines.push(`<path d="${data(h.along)}" ${SOFT}/>`);
  for (const s of d.slits) lines.push(`<path d="${data(s)}" ${CUT}/>`);
  for (const s of d.strokes)
    lines.push(`<path d="${data(s.path)}" ${STROKES[s.operation] ?? CUT}/>`);
  for (const c of net.closures) {
    for (const at of [c.at, closureMate(c, folded)]) {
      lines.push(`<path d="${data(circle(at, c.diameter / 2))}" ${DRAW}/>`);
    }
  }
  return { lines, box: bounds(d.outline) };
}

export const VIEW: ViewPoint = { azimuth: (-55 * Math.PI) / 180, elevation: (32 * Math.PI) / 180 };

/** From the left front, above: a picture of its own, whatever light other pictures are in. */
const LIGHT: Point3 = [-0.3, -0.48, 0.82];
/** Fine enough for a picture, mm. */
const COARSE = 0.2;

const solidLines = (net: Net, folding: Folding, view: ViewPoint) =>
  paintedLines(net.up ? standing(net, folding) : [...pose(net, folding).values()], view);

function paintedLines(panels: readonly PanelPose[], view: ViewPoint) {
  const faces: SolidFace[] = panels.flatMap((p, k) =>
    facetsOf(faceWithin(p.panel, COARSE), p, COARSE).map((f, i) => ({
      id: `${k} ${i}`,
      outline: f.loops[0]!,
      holes: f.loops.slice(1),
      hidden: (loop, side) => isSeam(f, loop, side),
    })),
  );
  const parts = fragments(faces, view, 0.05, LIGHT);
  const xs = parts.flatMap(p => p.polygon.map(q => q[0]));
  const ys = parts.flatMap(p => p.polygon.map(q => -q[1]));
  const lines = parts.map(p => {
    const shade = Math.round(150 + 95 * Math.max(0, Math.min(1, 0.35 + 0.65 * p.light)));
    const tint = p.side === 'front' ? [0.97, 0.9, 0.74] : [0.93, 0.95, 0.98];
    const fill = `rgb(${tint.map(k => Math.round(shade * k)).join(',')})`;
    const body = `M${p.polygon.map(q => `${num(q[0])} ${num(-q[1])}`).join('L')}Z`;
    const rim = p.polygon
      .map((q, i) => [q, p.polygon[(i + 1) % p.polygon.length]!] as const)
      .filter((_, i) => p.edges[i])
      .map(([a, b]) => `M${num(a[0])} ${num(-a[1])}L${num(b[0])} ${num(-b[1])}`)
      .join('');
    const paper = `<path d="${body}" fill="${fill}" stroke="${fill}" stroke-width="0.15"/>`;
    return rim ? `${paper}<path d="${rim}" ${RIM}/>` : paper;
  });
  return {
    lines,
    box: {
      minX: Math.min(...xs),
      minY: Math.min(...ys),
      maxX: Math.max(...xs),
      maxY: Math.max(...ys),
    },
  };
}

/** The nets of a box in the flat above; below, folded at each of the fractions given, and together
 *  where they say how they stand. */
export function picture(
  nets: readonly Net[],
  fractions: readonly Folding[] = [0.6, 1],
  view: ViewPoint = VIEW,
): string {
  const gap = 10;
  let body = '';
  let width = 0;
  let y = gap;
  const row = (
    cells: readonly {
      lines: string[];
      box: { minX: number; minY: number; maxX: number; maxY: number };
    }[],
  ) => {
    let x = gap;
    const height = Math.max(...cells.map(c => c.box.maxY - c.box.minY));
    for (const { lines, box } of cells) {
      const [dx, dy] = [x - box.minX, y - box.minY];
      body += `<g transform="translate(${num(dx)} ${num(dy)})">\n${lines.join('\n')}\n</g>\n`;
      x += box.maxX - box.minX + gap;
    }
    width = Math.max(width, x);
    y += height + gap;
  };
  row(
    nets.map(n => {
      const { lines, box } = flatLines(n);
      return { lines, box: { minX: box.minX, maxX: box.maxX, minY: -box.maxY, maxY: -box.minY } };
    }),
  );
  const folds = nets.filter(n => n.hinges.length > 0);
  const alone = folds.flatMap(n => fractions.map(f => solidLines(n, f, view)));
  const inPlace = nets.some(n => n.stands)
    ? [
        paintedLines(
          nets.flatMap(n => standing(n)),
          view,
        ),
      ]
    : [];
  row([...alone, ...inPlace]);
  const [w, h] = [num(width), num(y)];
  const open = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${w} ${h}"`;
  const ground = `<path d="M0 0H${w}V${h}H0Z" fill="#fff"/>`;
  return `${open} width="${w}mm" height="${h}mm">\n${ground}\n${body}</svg>\n`;
}
