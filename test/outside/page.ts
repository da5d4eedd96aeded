/** Pages of a PDF as poppler prints them. */
import type { Point } from '../../src/model.js';
import { output } from './run.js';

/** A rendered page: brightness from 0 to 255, rows from the top. */
export interface Page {
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8Array;
  readonly pxPerMm: number;
}
const DPI = 300;

/** Renders with poppler. PGM: `P5 width height 255`, then a byte a pixel. */
export function render(path: string, dpi = DPI): Page {
  const bytes = output('pdftoppm', ['-r', String(dpi), '-gray', '-singlefile', path]);
  const [header = '', width, height] =
    /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.toString('latin1')) ?? [];
  const grey = bytes.subarray(header.length);
  if (grey.length !== Number(width) * Number(height)) throw new Error(`no whole page: ${path}`);
  return { width: Number(width), height: Number(height), grey, pxPerMm: dpi / 25.4 };
}

/** Middle of the ink within `reach` mm of a place (mm, y up), or undefined where there is none. */
export function inkMiddle(page: Page, [x, y]: Point, reach: number): Point | undefined {
  const k = page.pxPerMm;
  let [sum, sx, sy] = [0, 0, 0];
  for (let row = 0; row < page.height; row++) {
    const py = (page.height - row - 0.5) / k;
    if (Math.abs(py - y) > reach) continue;
    for (let column = 0; column < page.width; column++) {
      const px = (column + 0.5) / k;
      if (Math.abs(px - x) > reach) continue;
      const ink = 255 - page.grey[row * page.width + column]!;
      sum += ink;
      sx += ink * px;
      sy += ink * py;
    }
  }
  return sum > 0 ? [sx / sum, sy / sum] : undefined;
}
