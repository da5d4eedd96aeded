/** A place of a sheet seen through a glass: the drawing, the file's line where it is another, and what the
 *  blade's tip does. */
import { flatten } from '../geom/index.js';
import type { Drawing, Finding, Path, Point } from '../model.js';
import { MEASURE_MM } from '../units/tolerances.js';
import { BAND, drawMark, FAINT, FILE_LINE, INK, PAPER, type Pen, TIP } from './inspect-pen.js';
import { num } from './number.js';
import type { TextStyle } from './page-flow.js';

/** Lines as chains of points x, y, x, y, …, ready to be cut out around many places. */
export interface Traces {
  readonly drawing: readonly Float64Array[];
  /** What is scored, perforated or drawn. */
  readonly other: readonly Float64Array[];
  /** Lines of the file that are not the drawing: the pivot's way. */
  readonly file: readonly Float64Array[];
  readonly tip: readonly Float64Array[];
}

/** What is cut, and what is not. */
export const tracesOf = (drawing: Drawing, cut = true): Float64Array[] =>
  drawing.layers
    .filter(l => l.operation !== 'register' && (l.operation === 'cut') === cut)
    .flatMap(l => l.paths.map(trace));

function trace(path: Path): Float64Array {
  const points = flatten(path, MEASURE_MM);
  return Float64Array.from((path.closed ? [...points, points[0]!] : points).flat());
}

/** Path data, y down from `height`, of all that lies within `reach` of a place. */
export function nearData(
  chains: readonly Float64Array[],
  [x, y]: Point,
  reach: number,
  height: number,
): string {
  let data = '';
  for (const xy of chains) {
    let open = false;
    for (let i = 2; i < xy.length; i += 2) {
      const [x0, y0, x1, y1] = [xy[i - 2]!, xy[i - 1]!, xy[i]!, xy[i + 1]!];
      const near =
        Math.min(x0, x1) <= x + reach &&
        Math.max(x0, x1) >= x - reach &&
        Math.min(y0, y1) <= y + reach &&
        Math.max(y0, y1) >= y - reach;
      if (near) {
        if (!open) data += `M${num(x0)} ${num(height - y0)}`;
        data += `L${num(x1)} ${num(height - y1)}`;
      }
      open = near;
    }
  }
  return data;
}

/** Path data of whole chains, leaving out what is nearer than `step` mm to the last point. */
export function thinData(chains: readonly Float64Array[], step: number, height: number): string {
  let data = '';
  for (const xy of chains) {
    if (xy.length < 4 || xy.some(Number.isNaN)) continue;
    let [x, y] = [xy[0]!, xy[1]!];
    data += `M${num(x)} ${num(height - y)}`;
    for (let i = 2; i < xy.length; i += 2) {
      const last = i + 2 >= xy.length;
      if (!last && Math.hypot(xy[i]! - x, xy[i + 1]! - y) < step) continue;
      [x, y] = [xy[i]!, xy[i + 1]!];
      data += `L${num(x)} ${num(height - y)}`;
    }
  }
  return data;
}

/** Of a glass, px. */
const MOST_PX = { one: 160, several: 122 };
const MOST_LOUPES = 4;
const [GAP_PX, CAPTION_PX] = [28, 34];
/** What is seen best through a glass comes first. */
const WORTH = ['tip', 'narrow', 'nearly-closed', 'crossing'];
/** What a glass shows of a place that has no size of its own, and at least, mm. */
const [LOUPE_MM, LEAST_LOUPE_MM, MOST_LOUPE_MM] = [1.6, 0.9, 6];

/** What the glasses look at. */
interface Seen {
  readonly drawing: Drawing;
  readonly tip: readonly Float64Array[];
  readonly findings: readonly Finding[];
  readonly corner?: Point;
}

interface Glass {
  readonly at: Point;
  readonly reach: number;
  readonly number: number | undefined;
}

/** The worst place of each fault and warning; a corner where there is room. */
function glasses({ findings, corner }: Seen): Glass[] {
  const found = findings.flatMap((f, i) => {
    const [worst] = f.places;
    if (!worst || (f.severity === 'note' && f.kind !== 'tip')) return [];
    const { at, size = LOUPE_MM / 3 } = worst;
    const reach = Math.min(MOST_LOUPE_MM, Math.max(LEAST_LOUPE_MM, 3 * size));
    const worth = WORTH.includes(f.kind) ? WORTH.indexOf(f.kind) : WORTH.length;
    return [{ at, reach, number: i + 1, worth }];
  });
  const shown: Glass[] = found
    .sort((a, b) => a.worth - b.worth)
    .slice(0, MOST_LOUPES)
    .sort((a, b) => a.number - b.number);
  if (corner && shown.length < 2) shown.push({ at: corner, reach: LOUPE_MM, number: undefined });
  return shown;
}

/** Glasses in rows of a width; gives where they end, or would. */
export function drawLoupes(
  pen: Pen | undefined,
  sheet: Seen,
  traces: Traces,
  { left, top, wide }: { readonly left: number; readonly top: number; readonly wide: number },
): number {
  const shown = glasses(sheet);
  if (shown.length === 0) return top;
  const columns = Math.min(shown.length, wide > 800 ? 4 : 2);
  const most = shown.length > 1 ? MOST_PX.several : MOST_PX.one;
  const r = Math.min(most, (wide - GAP_PX * (columns - 1)) / (2 * columns));
  const tall = 2 * r + CAPTION_PX + GAP_PX / 2;
  const style: TextStyle = { size: 15, colour: FAINT };
  shown.forEach((glass, i) => {
    if (!pen) return;
    const { at, number } = glass;
    const cx = left + r + (i % columns) * (2 * r + GAP_PX);
    const cy = top + r + Math.floor(i / columns) * tall;
    drawLoupe(pen, sheet, traces, glass, { cx, cy, r });
    if (number !== undefined) {
      drawMark(pen, sheet.findings[number - 1]!.severity, number, cx - 0.74 * r, cy - 0.74 * r);
    }
    const where = `at ${at[0].toFixed(1)}, ${at[1].toFixed(1)}`;
    pen.words(number === undefined ? `a corner, ${where}` : where, cx, cy + r + 24, style, 0.5);
  });
  return top + Math.ceil(shown.length / columns) * tall;
}

function drawLoupe(
  pen: Pen,
  { drawing, tip }: Seen,
  traces: Traces,
  { at, reach }: Glass,
  { cx, cy, r }: { readonly cx: number; readonly cy: number; readonly r: number },
): void {
  const circle = `<circle cx="${num(cx)}" cy="${num(cy)}" r="${num(r)}"`;
  const k = r / reach;
  const near = (chains: readonly Float64Array[]) => nearData(chains, at, reach, drawing.height);
  pen.add(
    `<circle cx="${num(cx)}" cy="${num(cy + 3)}" r="${num(r + 4)}" fill="#3a2c1c" fill-opacity="0.14"/>`,
  );
  pen.add(`${circle} fill="${PAPER}"/>`);
  const clip = pen.clip(() => `${circle}/>`);
  pen.add(`<g clip-path="url(#${clip})">`);
  const [x, y] = [cx - k * at[0], cy - k * (drawing.height - at[1])];
  pen.group(`translate(${num(x)} ${num(y)}) scale(${num(k)})`, () => {
    pen.stroke(near(traces.other), FAINT, 1.8, k, [9, 5]);
    pen.stroke(near(traces.drawing), tip.length > 0 ? BAND : INK, tip.length > 0 ? 11 : 3, k);
    pen.stroke(near(traces.file), FILE_LINE.colour, FILE_LINE.width, k, FILE_LINE.dash);
    pen.stroke(near(traces.tip), TIP, 2.4, k);
  });
  const mm = [0.1, 0.2, 0.5, 1, 2, 5].filter(l => l * k <= r * 0.8).at(-1)!;
  const [from, line] = [cx - (mm * k) / 2, cy + r * 0.74];
  const bar = `M${num(from)} ${num(line - 4)}v8m0 -4h${num(mm * k)}m0 -4v8`;
  pen.add(
    `<rect x="${num(cx - (mm * k) / 2 - 8)}" y="${num(line - 24)}" width="${num(mm * k + 16)}" height="34" rx="6" fill="${PAPER}" fill-opacity="0.86"/>`,
  );
  pen.stroke(bar, INK, 1.5, 1);
  pen.words(`${mm} mm`, cx, line - 7, { size: 13 }, 0.5);
  pen.add('</g>');
  pen.add(`${circle} fill="none" stroke="${INK}" stroke-width="2.5"/>`);
}
