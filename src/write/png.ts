/** SVG to pixels, for pictures. */
import { createRequire } from 'node:module';
import { crc32 } from 'node:zlib';

/** Opens every PNG, and each of its chunks but the last ends with the CRC of its type and data. */
const SIGNATURE_BYTES = 8;
const IHDR_BYTES = 25;

/** The same picture saying how many pixels there are to the inch (PNG, third edition, 11.3.4.3: `pHYs`
 *  in whole pixels a metre). */
export function withResolution(png: Uint8Array, dpi: number): Uint8Array {
  const chunk = Buffer.alloc(21);
  chunk.writeUInt32BE(9, 0);
  chunk.write('pHYs', 4, 'latin1');
  const each = Math.round(dpi / 0.0254);
  chunk.writeUInt32BE(each, 8);
  chunk.writeUInt32BE(each, 12);
  // The unit is the metre.
  chunk.writeUInt8(1, 16);
  chunk.writeUInt32BE(crc32(chunk.subarray(4, 17)), 17);
  const at = SIGNATURE_BYTES + IHDR_BYTES;
  return Buffer.concat([png.subarray(0, at), chunk, png.subarray(at)]);
}

/** Words must be outlines, for no font is loaded. */
function rendered(svg: string, widthPx: number) {
  if (!(Number.isInteger(widthPx) && widthPx >= 1 && widthPx <= 16384)) {
    throw new RangeError(`a picture ${widthPx} pixels wide: from 1 to 16384`);
  }
  // Loaded when the first picture is made: it is a native library.
  const require = createRequire(import.meta.url);
  const { Resvg } = require('@resvg/resvg-js') as typeof import('@resvg/resvg-js');
  return new Resvg(svg, {
    fitTo: { mode: 'width', value: widthPx },
    font: { loadSystemFonts: false },
  }).render();
}

/** A PNG `widthPx` wide. */
export const toPng = (svg: string, widthPx: number): Uint8Array => rendered(svg, widthPx).asPng();

/** Red, green, blue and alpha by pixel, rows from the top. */
export function toPixels(svg: string, widthPx: number) {
  const { width, height, pixels } = rendered(svg, widthPx);
  return { width, height, data: pixels };
}
