/** A scan with what was found in it, to check by eye. */
import type { Path } from '../model.js';
import { toPng } from './png.js';
import { pathData } from './svg.js';

export interface OverlayLine {
  readonly colour: string;
  /** mm */
  readonly width: number;
  readonly paths: readonly Path[];
}

/** A PNG of a sheet: `picture` is a PNG of all of it, `widthPx` wide, under the lines. */
export function overlayPng(
  picture: Uint8Array,
  { width, height, widthPx }: { width: number; height: number; widthPx: number },
  lines: readonly OverlayLine[],
): Uint8Array {
  const data = Buffer.from(picture).toString('base64');
  const drawn = lines.map(
    ({ colour, width: w, paths }) =>
      `<path d="${paths.map(p => pathData(p, height)).join('')}" fill="none" stroke="${colour}" stroke-width="${w}" stroke-linejoin="round"/>`,
  );
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}"><image width="${width}" height="${height}" preserveAspectRatio="none" href="data:image/png;base64,${data}"/>${drawn.join('')}</svg>`;
  return toPng(svg, widthPx);
}
