/** Whether a picture that holds a sheet's marks shows that sheet, or another one with the same marks. */
import type { PageTone, Point } from '../model.js';
import { onto, type Plane } from './plane.js';
import { type Grey, sampled } from './raster.js';

/** Looks across a square of the page. */
const LOOKS = 4;
/** Less ink than this share is bare paper, which tells the light. */
const BARE = 0.04;
/** Light is evened out over this, mm: shadows have soft edges. */
const LIGHT_MM = 20;
/** The sheet's rim is not looked at, mm: its edge may be anywhere, and what lies beside it dark. */
const RIM_MM = 6;
/** Squares that are seen; fewer tell nothing. */
const LEAST_SQUARES = 400;
/** Standard deviation of the print, as a share of black: a page nearly bare tells nothing. Captions and
 *  marks alone make 0.05. */
const LEAST_PRINT = 0.03;

export interface PrintedSheet {
  readonly tone: PageTone;
  /** mm. */
  readonly width: number;
  readonly height: number;
}

/**
 * How like its own print a sheet looks: the correlation, square by square, of the ink that is expected with
 * the ink that is seen, from −1 to 1, whatever the printer's strength and the light. `plane` takes the
 * sheet to pixels. `undefined` where there is too little to tell by.
 */
export function printLikeness(
  grey: Grey,
  plane: Plane,
  { tone, width, height }: PrintedSheet,
): number | undefined {
  const side = tone.squareMm;
  const [rows, columns] = [tone.rows.length, tone.rows[0]?.length ?? 0];
  const n = rows * columns;
  const ink = new Float32Array(n);
  const seen = new Float32Array(n);
  // 1 for a square that is looked at, and for one of bare paper.
  const [known, bare] = [new Float32Array(n), new Float32Array(n)];
  for (let j = 0; j < rows; j++) {
    const y = height - j * side;
    for (let i = 0; i < columns; i++) {
      const k = j * columns + i;
      const x = i * side;
      if (x < RIM_MM || x + side > width - RIM_MM) continue;
      if (y > height - RIM_MM || y - side < RIM_MM) continue;
      const value = lightAt(grey, plane, [x, y - side], side);
      if (value === undefined) continue;
      ink[k] = Number.parseInt(tone.rows[j]!.charAt(i), 16) / 15;
      seen[k] = value;
      known[k] = 1;
      bare[k] = ink[k]! < BARE ? 1 : 0;
    }
  }
  const reach = LIGHT_MM / side;
  const paper = smooth(seen, bare, columns, reach);
  const pairs: (readonly [expected: number, found: number])[] = [];
  for (let k = 0; k < n; k++) {
    if (known[k] && paper[k]! > 1) pairs.push([ink[k]!, 1 - seen[k]! / paper[k]!]);
  }
  return pairs.length < LEAST_SQUARES ? undefined : correlation(pairs);
}

/** The mean of a square of the sheet; `undefined` where the picture does not show all of it. */
function lightAt(grey: Grey, plane: Plane, [x, y]: Point, side: number): number | undefined {
  let sum = 0;
  for (let j = 0; j < LOOKS; j++) {
    for (let i = 0; i < LOOKS; i++) {
      const at: Point = [x + ((i + 0.5) / LOOKS) * side, y + ((j + 0.5) / LOOKS) * side];
      const [u, v] = onto(plane, at);
      if (!(u >= 0 && v >= 0 && u <= grey.width && v <= grey.height)) return undefined;
      sum += sampled(grey, u, v);
    }
  }
  return sum / LOOKS ** 2;
}

/** Means of the values that have a weight, near ones counting most (a Gaussian of `reach` squares): what
 *  lies far from all of them takes the nearest. */
function smooth(values: Float32Array, weights: Float32Array, columns: number, reach: number) {
  const weighted = blurred(
    values.map((v, k) => v * weights[k]!),
    columns,
    reach,
  );
  const share = blurred(weights, columns, reach);
  return weighted.map((v, k) => (share[k]! > 1e-9 ? v / share[k]! : 0));
}

function blurred(values: Float32Array, columns: number, reach: number): Float32Array {
  const rows = values.length / columns;
  const far = Math.max(rows, columns);
  const bell = Float64Array.from({ length: far }, (_, d) => Math.exp(-((d / reach) ** 2) / 2));
  const along = new Float64Array(values.length);
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      let sum = 0;
      for (let p = 0; p < columns; p++) sum += bell[Math.abs(p - i)]! * values[j * columns + p]!;
      along[j * columns + i] = sum;
    }
  }
  const out = new Float32Array(values.length);
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      let sum = 0;
      for (let q = 0; q < rows; q++) sum += bell[Math.abs(q - j)]! * along[q * columns + i]!;
      out[j * columns + i] = sum;
    }
  }
  return out;
}

function correlation(pairs: readonly (readonly [number, number])[]): number | undefined {
  const n = pairs.length;
  const [mx, my] = [0, 1].map(k => pairs.reduce((s, p) => s + p[k as 0 | 1], 0) / n) as [
    number,
    number,
  ];
  let [xx, xy, yy] = [0, 0, 0];
  for (const [x, y] of pairs) {
    xx += (x - mx) ** 2;
    xy += (x - mx) * (y - my);
    yy += (y - my) ** 2;
  }
  if (!(Math.sqrt(xx / n) >= LEAST_PRINT)) return undefined;
  return yy > 0 ? xy / Math.sqrt(xx * yy) : 0;
}
