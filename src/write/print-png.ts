/** The page that is printed, as a PNG with its resolution in it, for software that takes pictures only. */
import type { PrintWriter } from '../contracts.js';
import { MM_PER_INCH } from '../units/length.js';
import { letterOutlines } from './letter-outlines.js';
import type { PageKit } from './page-kit.js';
import { toPng, withResolution } from './png.js';
import { pageSvg } from './print-svg.js';

/** The print writer. The resolution is exact: the picture ends in whole pixels, up to one to the right of
 *  the page and below it. */
export function printPngWriter({ font, dpi }: PageKit): PrintWriter {
  return {
    id: 'print-png',
    summary: 'PNG of the printed page at a resolution of your choice',
    extension: 'png',
    async write(page) {
      const { width, height } = page.drawing;
      const whole = (mm: number) => Math.ceil((mm / MM_PER_INCH) * dpi - 1e-6);
      const mm = (px: number) => (px / dpi) * MM_PER_INCH;
      const size = { width: mm(whole(width)), height: mm(whole(height)) };
      const svg = await pageSvg(page, letterOutlines(font), size);
      return withResolution(toPng(svg, whole(width)), dpi);
    },
  };
}
