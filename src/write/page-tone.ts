/** The printed page seen from afar, and its place in the manifest. */
import type { PageTone, PrintPage } from '../model.js';
import { type Check, list, number, object, text } from './checked-json.js';
import { letterOutlines } from './letter-outlines.js';
import type { PageKit } from './page-kit.js';
import { toPixels } from './png.js';
import { pageSvg } from './print-svg.js';

/** Side of a square, mm: wider than a print is bent or a photo is off, narrow enough for words and dots. */
const SQUARE_MM = 3;
/** Pixels in a millimetre of the picture that is averaged. */
const PER_MM = 1;
/** Rec. 601 luma, as a grey scan has it. */
const LUMA = [0.299, 0.587, 0.114] as const;

export async function pageTone(
  page: PrintPage,
  { font }: Pick<PageKit, 'font'>,
): Promise<PageTone> {
  const { width, height } = page.drawing;
  const [columns, rows] = [width, height].map(mm => Math.ceil(mm / SQUARE_MM)) as [number, number];
  const size = { width: columns * SQUARE_MM, height: rows * SQUARE_MM };
  const svg = await pageSvg(page, letterOutlines(font), size);
  const side = SQUARE_MM * PER_MM;
  const { data } = toPixels(svg, columns * side);
  const light = new Float64Array(columns * rows);
  for (let y = 0, at = 0; y < rows * side; y++) {
    const row = Math.floor(y / side) * columns;
    for (let x = 0; x < columns * side; x++, at += 4) {
      const luma = LUMA[0] * data[at]! + LUMA[1] * data[at + 1]! + LUMA[2] * data[at + 2]!;
      light[row + Math.floor(x / side)]! += luma;
    }
  }
  const digit = (sum: number) => Math.round(15 * (1 - sum / (255 * side ** 2))).toString(16);
  return {
    squareMm: SQUARE_MM,
    rows: Array.from({ length: rows }, (_, j) =>
      Array.from(light.subarray(j * columns, (j + 1) * columns), digit).join(''),
    ),
  };
}

const known = object({ squareMm: number(1, 50), rows: list(text(/^[0-9a-f]+$/, 'hex digits')) });

/** `null` for what is not printed, and in manifests of before this was told. */
export const CHECK_TONE: Check<PageTone | null> = (value, where) =>
  value === null ? null : known(value, where);
