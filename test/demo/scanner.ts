/** A printer and a scanner as they are: sheets come out small, crooked and off, and are seen blurred. */
import type { Point } from '../../src/model.js';
import { seeded } from '../../src/motifs/random.js';
import { chained, inverse, type Plane } from '../../src/scan/plane.js';
import type { Pixels } from '../support/stamped.js';

export interface Fault {
  /** Of the printed size. */
  readonly shrink: number;
  /** How far upright lines lean. */
  readonly skewDeg: number;
  readonly turnDeg: number;
  readonly offset: Point;
}

/** On paper, mm, y up: about the sheet's middle. */
export function fault(f: Fault, width: number, height: number): Plane {
  const [c, s] = [Math.cos((f.turnDeg * Math.PI) / 180), Math.sin((f.turnDeg * Math.PI) / 180)];
  const lean = Math.tan((f.skewDeg * Math.PI) / 180);
  const k = 1 - f.shrink;
  const [a, b, d, e] = [k * c, k * (c * lean - s), k * s, k * (s * lean + c)];
  const [x, y] = [width / 2, height / 2];
  return [a, b, x + f.offset[0] - a * x - b * y, d, e, y + f.offset[1] - d * x - e * y, 0, 0];
}

/** From a sheet's millimetres (y up) to its pixels, and back. */
export const pixels = (height: number, perMm: number): Plane => [
  ...([perMm, 0, 0, 0, -perMm, height * perMm, 0, 0] as const),
];
export const millimetres = (height: number, perMm: number): Plane => inverse(pixels(height, perMm));

export interface Seen {
  /** Pixels of the new picture, and what lies where the old one is not. */
  readonly width: number;
  readonly height: number;
  readonly ground: readonly [number, number, number];
  /** Standard deviation of noise, of 255. */
  readonly noise: number;
  /** Light at the lower right over that at the upper left. */
  readonly uneven: number;
  readonly seed: number;
}

/** A picture moved by `by` (old pixels to new), blurred by half a pixel and more, dimmed and noisy. */
export function warped(picture: Pixels, by: Plane, seen: Seen): Pixels {
  const { width: w, height: h, data: from } = picture;
  const { width, height, ground, noise, uneven } = seen;
  const m = inverse(by);
  const random = seeded(seen.seed);
  const data = new Uint8Array(width * height * 3);
  const taps = [-0.45, 0.45];
  let k = 0;
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      const sum = [0, 0, 0];
      for (const dy of taps) {
        for (const dx of taps) {
          const [x, y] = [i + 0.5 + dx, j + 0.5 + dy];
          const q = m[6] * x + m[7] * y + 1;
          const u = (m[0] * x + m[1] * y + m[2]) / q;
          const v = (m[3] * x + m[4] * y + m[5]) / q;
          if (!(u >= 0 && v >= 0 && u <= w && v <= h)) {
            for (let c = 0; c < 3; c++) sum[c]! += ground[c]!;
            continue;
          }
          // Pixels stand for their middles; beyond the last the border goes on.
          const [u0, v0] = [
            Math.min(Math.max(u - 0.5, 0), w - 1.001),
            Math.min(Math.max(v - 0.5, 0), h - 1.001),
          ];
          const [i0, j0] = [Math.floor(u0), Math.floor(v0)];
          const [r, s] = [u0 - i0, v0 - j0];
          let at = (j0 * w + i0) * 3;
          for (let c = 0; c < 3; c++, at++) {
            const low = at + w * 3;
            const top = from[at]! + r * (from[at + 3]! - from[at]!);
            const bottom = from[low]! + r * (from[low + 3]! - from[low]!);
            sum[c]! += top + s * (bottom - top);
          }
        }
      }
      const light = 1 + ((uneven - 1) * (i / width + j / height)) / 2;
      for (let c = 0; c < 3; c++) {
        const n = noise * 2 * (random() + random() + random() - 1.5);
        data[k++] = Math.max(0, Math.min(255, (sum[c]! / 4) * light + n + 0.5));
      }
    }
  }
  return { width, height, data, channels: 3 };
}

/** The sheet laid crooked on the glass, a dark sheet behind it: the picture, and paper mm to pixels. */
export function onGlass(paper: Pixels, perMm: number, heightMm: number, turnDeg: number) {
  const [width, height] = [paper.width + 130, paper.height + 150];
  const [c, s] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  const [x, y] = [paper.width / 2, paper.height / 2];
  const [u, v] = [width / 2 + 11, height / 2 - 7];
  const by: Plane = [c, -s, u - c * x + s * y, s, c, v - s * x - c * y, 0, 0];
  const seen = { width, height, ground: [58, 54, 52], noise: 4, uneven: 0.9, seed: 5 } as const;
  return { scan: warped(paper, by, seen), plane: chained(by, pixels(heightMm, perMm)) };
}
