/** Pictures as PNG files, with the resolution that a scanner would write. */
import { encode } from 'fast-png';

export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
  readonly channels?: 1 | 3;
}

/** With a pHYs chunk where `dpi` is given (readers of PNG need not check its CRC, and ours does not). */
export function pngOf({ width, height, data, channels = 1 }: Pixels, dpi?: number): Uint8Array {
  const png = encode({ width, height, data, channels, depth: 8 });
  if (dpi === undefined) return png;
  const chunk = new Uint8Array(21);
  const view = new DataView(chunk.buffer);
  view.setUint32(0, 9);
  chunk.set(new TextEncoder().encode('pHYs'), 4);
  view.setUint32(8, Math.round(dpi / 0.0254));
  view.setUint32(12, Math.round(dpi / 0.0254));
  chunk[16] = 1;
  const head = 8 + 25;
  return Uint8Array.from([...png.subarray(0, head), ...chunk, ...png.subarray(head)]);
}
