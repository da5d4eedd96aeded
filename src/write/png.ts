/** SVG to pixels, for pictures. */
import { createRequire } from 'node:module';

/** A PNG `widthPx` wide; words must be outlines, for no font is loaded. */
export function toPng(svg: string, widthPx: number): Uint8Array {
  if (!(Number.isInteger(widthPx) && widthPx >= 1 && widthPx <= 16384)) {
    throw new RangeError(`a picture ${widthPx} pixels wide: from 1 to 16384`);
  }
  // Loaded when the first picture is made: it is a native library.
  const require = createRequire(import.meta.url);
  const { Resvg } = require('@resvg/resvg-js') as typeof import('@resvg/resvg-js');
  const image = new Resvg(svg, {
    fitTo: { mode: 'width', value: widthPx },
    font: { loadSystemFonts: false },
  });
  return image.render().asPng();
}
