/** A picture laid flat: rows and columns along the sheet's sides, so many pixels a millimetre. */
import { chained, onto, type Plane } from './plane.js';
import type { Picture } from './raster.js';

/** A part of a sheet, laid flat; pixel (i, j) is the square of side 1 / perMm whose upper left corner is
 *  at (minX + i / perMm, maxY − j / perMm) on the sheet. */
export interface Flat extends Picture {
  readonly perMm: number;
  readonly minX: number;
  readonly maxY: number;
}

/** From the pixels of a flat picture to the sheet, and back. */
export const toSheet = ({ perMm, minX, maxY }: Omit<Flat, keyof Picture>): Plane => [
  1 / perMm,
  0,
  minX,
  0,
  -1 / perMm,
  maxY,
  0,
  0,
];

export interface Area {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Bilinear; `fine` samples a side of each new pixel are averaged, where it is wider than the old ones. */
export function rectified(
  picture: Picture,
  plane: Plane,
  area: Area,
  perMm: number,
  fine = 1,
): Flat {
  const { width: w, height: h, data: from, channels } = picture;
  const width = Math.round((area.maxX - area.minX) * perMm);
  const height = Math.round((area.maxY - area.minY) * perMm);
  const data = new Uint8Array(width * height * channels);
  const place = { perMm, minX: area.minX, maxY: area.maxY };
  const m = chained(plane, toSheet(place));
  const sums = [0, 0, 0];
  const share = 1 / (fine * fine);
  let at = 0;
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      sums[0] = 0;
      sums[1] = 0;
      sums[2] = 0;
      for (let q = 0; q < fine; q++) {
        const y = j + (q + 0.5) / fine;
        for (let p = 0; p < fine; p++) {
          const x = i + (p + 0.5) / fine;
          const d = 1 / (m[6] * x + m[7] * y + 1);
          // Picture coordinates count from pixels' corners, samples from their middles.
          let u = (m[0] * x + m[1] * y + m[2]) * d - 0.5;
          let v = (m[3] * x + m[4] * y + m[5]) * d - 0.5;
          u = Math.max(0, Math.min(u, w - 1.001));
          v = Math.max(0, Math.min(v, h - 1.001));
          const [i0, j0] = [u | 0, v | 0];
          const [r, s] = [u - i0, v - j0];
          const [w11, w10, w01] = [r * s, r * (1 - s), (1 - r) * s];
          const w00 = 1 - r - w01;
          let k = (j0 * w + i0) * channels;
          const below = k + w * channels;
          for (let c = 0; c < channels; c++, k++) {
            sums[c]! +=
              w00 * from[k]! +
              w10 * from[k + channels]! +
              w01 * from[below + c]! +
              w11 * from[below + c + channels]!;
          }
        }
      }
      for (let c = 0; c < channels; c++) data[at++] = sums[c]! * share + 0.5;
    }
  }
  return { width, height, data, channels, ...place };
}

/** Whether all of an area is in the picture. */
export function isWhole({ width, height }: Picture, plane: Plane, area: Area): boolean {
  return (
    [
      [area.minX, area.minY],
      [area.maxX, area.minY],
      [area.maxX, area.maxY],
      [area.minX, area.maxY],
    ] as const
  ).every(p => {
    const [x, y] = onto(plane, p);
    return x >= 0 && y >= 0 && x <= width && y <= height;
  });
}
