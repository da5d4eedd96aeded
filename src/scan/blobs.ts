/** Connected dark spots of a picture, for the first look for marks. */
import type { Grey } from './raster.js';

/** Paper is found in tiles of this many pixels: wider than a line of a mark, so that each tile has some. */
const TILE = 16;
/** Darker than this share of the paper round it is ink. */
const INK = 0.82;

export interface Blob {
  readonly pixels: number;
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  /** Of the middles of its pixels. */
  readonly x: number;
  readonly y: number;
  readonly spread: readonly [xx: number, xy: number, yy: number];
}

/** How light the paper is, tile by tile: the lightest of the neighbourhood, so that ink does not count. */
export function paperLevel({ width, height, data }: Grey): Grey {
  const [w, h] = [Math.ceil(width / TILE), Math.ceil(height / TILE)];
  const most = new Uint8Array(w * h);
  // The mean of three in a row keeps single bright pixels of noise from counting.
  for (let y = 0; y < height; y++) {
    const row = Math.floor(y / TILE) * w;
    for (let x = 1; x + 1 < width; x++) {
      const at = y * width + x;
      const v = (data[at - 1]! + data[at]! + data[at + 1]!) / 3;
      const tile = row + Math.floor(x / TILE);
      if (v > most[tile]!) most[tile] = v;
    }
  }
  const level = new Uint8Array(w * h);
  for (let j = 0; j < h; j++) {
    for (let i = 0; i < w; i++) {
      let lightest = 0;
      for (let dj = -1; dj <= 1; dj++) {
        for (let di = -1; di <= 1; di++) {
          const [p, q] = [i + di, j + dj];
          if (p >= 0 && q >= 0 && p < w && q < h) lightest = Math.max(lightest, most[q * w + p]!);
        }
      }
      level[j * w + i] = lightest;
    }
  }
  return { width: w, height: h, data: level };
}

/** 1 where there is ink, a pixel fatter all round, so that thin broken lines hold together. */
function inkMask(grey: Grey, paper: Grey): Uint8Array {
  const { width, height, data } = grey;
  const mask = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    const row = Math.floor(y / TILE) * paper.width;
    for (let x = 0; x < width; x++) {
      const at = y * width + x;
      if (data[at]! >= INK * paper.data[row + Math.floor(x / TILE)]!) continue;
      mask[at] = 1;
      if (x > 0) mask[at - 1] = 1;
      if (x + 1 < width) mask[at + 1] = 1;
      if (y > 0) mask[at - width] = 1;
      if (y + 1 < height) mask[at + width] = 1;
    }
  }
  return mask;
}

/** All connected spots (by edges and corners) between `least` and `most` pixels across. */
export function blobsOf(grey: Grey, least: number, most: number): Blob[] {
  const { width, height } = grey;
  const mask = inkMask(grey, paperLevel(grey));
  const stack = new Int32Array(width * height);
  const found: Blob[] = [];
  for (let start = 0; start < mask.length; start++) {
    if (mask[start] !== 1) continue;
    let top = 0;
    stack[top++] = start;
    mask[start] = 2;
    let [n, sx, sy, xx, xy, yy] = [0, 0, 0, 0, 0, 0];
    let [minX, minY, maxX, maxY] = [width, height, 0, 0];
    // Sums from the first pixel: squares of large numbers would drown small spreads.
    const [x0, y0] = [start % width, Math.floor(start / width)];
    while (top > 0) {
      const at = stack[--top]!;
      const y = Math.floor(at / width);
      const x = at - y * width;
      const [dx, dy] = [x - x0, y - y0];
      n++;
      sx += dx;
      sy += dy;
      xx += dx * dx;
      xy += dx * dy;
      yy += dy * dy;
      if (x < minX) minX = x;
      if (x > maxX) maxX = x;
      if (y < minY) minY = y;
      if (y > maxY) maxY = y;
      for (let j = y > 0 ? -1 : 0; j <= (y + 1 < height ? 1 : 0); j++) {
        for (let i = x > 0 ? -1 : 0; i <= (x + 1 < width ? 1 : 0); i++) {
          const next = at + j * width + i;
          if (mask[next] === 1) {
            mask[next] = 2;
            stack[top++] = next;
          }
        }
      }
    }
    const wide = Math.max(maxX - minX, maxY - minY) + 1;
    if (wide < least || wide > most) continue;
    const [mx, my] = [sx / n, sy / n];
    found.push({
      pixels: n,
      minX,
      minY,
      maxX,
      maxY,
      x: x0 + mx + 0.5,
      y: y0 + my + 0.5,
      spread: [xx / n - mx * mx, xy / n - mx * my, yy / n - my * my],
    });
  }
  return found;
}
