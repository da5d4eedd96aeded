/** A scanned page of stamped images, from the picture to what is to be cut. */
import { type Darkness, darknessOf } from './darkness.js';
import { pixelsPerMm } from './edges.js';
import type { SeenSheet, Unseen } from './find-marks.js';
import { withoutGrid } from './grid.js';
import type { Picture } from './raster.js';
import { type Area, isWhole, rectified } from './rectify.js';
import { type Traced, type TraceOptions, trace } from './trace.js';

/** Lines of the printed grid stand this far apart, mm. */
export const GRID_MM = 10;
const OVERLAY_PER_MM = 6;

export interface PageOptions extends TraceOptions {
  /** Darker than its paper, or lighter, as white ink on brown card. */
  readonly ink: 'dark' | 'light';
}
export interface TracedPage extends Traced {
  /** The sheet as the overlay shows it. */
  readonly page: Picture;
}

/** `area` is where images may be; `width` and `height` are the sheet's, mm. */
export function tracePage(
  picture: Picture,
  { plane }: Pick<SeenSheet, 'plane'>,
  area: Area,
  { width, height }: { readonly width: number; readonly height: number },
  options: PageOptions,
): TracedPage | Unseen {
  if (!isWhole(picture, plane, area)) {
    return { unseen: 'a part of the page is outside of the picture. Scan the whole page.' };
  }
  const perMm = pixelsPerMm(plane, [width / 2, height / 2]);
  const inked = options.ink === 'light' ? negative(picture) : picture;
  const dark: Darkness = withoutGrid(darknessOf(inked, plane, area, perMm), GRID_MM);
  const traced = trace(dark, options);
  const whole = { minX: 0, minY: 0, maxX: width, maxY: height };
  return { ...traced, page: rectified(picture, plane, whole, OVERLAY_PER_MM, perMm > 9 ? 2 : 1) };
}

const negative = (picture: Picture): Picture => ({
  ...picture,
  data: picture.data.map(v => 255 - v),
});
