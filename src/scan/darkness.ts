/**
 * How much ink there is, pixel by pixel: 0 bare paper, 255 black. Of the channels the one in which the ink
 * is darkest, so that yellow on white shows in blue and red on green card in green.
 */

import { type PaperColour, paperColour } from './paper-colour.js';
import type { Plane } from './plane.js';
import type { Picture } from './raster.js';
import { type Area, type Flat, rectified } from './rectify.js';

/** A flat picture of one channel. */
export type Darkness = Flat & { readonly channels: 1 };

/** Enough to tell an edge to a tenth of a millimetre several times over; finer scans are brought to it. */
const MOST_PER_MM = 12;

/** Coarser scans, in pixels a millimetre, average wider pixels already, and would lose their points. */
const FINE = 9;

export function darknessOf(picture: Picture, plane: Plane, area: Area, perMm: number): Darkness {
  const flat = rectified(picture, plane, area, Math.min(MOST_PER_MM, perMm));
  const paper = paperColour(picture, plane, area);
  const { width, height, data, channels } = flat;
  const dark = new Uint8Array(width * height);
  // Reciprocals of the paper's level along a row, by channel.
  const row = new Float32Array(width * channels);
  for (let j = 0; j < height; j++) {
    paperRow(paper, (j + 0.5) / height, width, row);
    let k = j * width * channels;
    for (let i = 0, at = j * width; i < width; i++, at++) {
      let least = 1;
      for (let c = 0; c < channels; c++, k++) {
        const light = data[k]! * row[i * channels + c]!;
        if (light < least) least = light;
      }
      dark[at] = 255 * (1 - least) + 0.5;
    }
  }
  const { minX, maxY } = flat;
  const softer = flat.perMm >= FINE ? softened(dark, width, height) : dark;
  return {
    width,
    height,
    data: softer,
    channels: 1,
    perMm: flat.perMm,
    minX,
    maxY,
  };
}

/** Bilinear between the tiles. */
function paperRow(paper: PaperColour, share: number, width: number, row: Float32Array): void {
  const { columns, rows, channels, level } = paper;
  const y = Math.min(Math.max(share * rows - 0.5, 0), rows - 1);
  const j = Math.min(Math.floor(y), Math.max(0, rows - 2));
  const q = rows > 1 ? y - j : 0;
  for (let i = 0; i < width; i++) {
    const x = Math.min(Math.max(((i + 0.5) / width) * columns - 0.5, 0), columns - 1);
    const k = Math.min(Math.floor(x), Math.max(0, columns - 2));
    const p = columns > 1 ? x - k : 0;
    const right = columns > 1 ? channels : 0;
    const below = rows > 1 ? columns * channels : 0;
    for (let c = 0; c < channels; c++) {
      const at = (j * columns + k) * channels + c;
      const top = level[at]! + p * (level[at + right]! - level[at]!);
      const low = level[at + below]! + p * (level[at + below + right]! - level[at + below]!);
      row[i * channels + c] = 1 / Math.max(1, top + q * (low - top));
    }
  }
}

/** Weights 1 2 1 both ways: noise falls to three eighths, and a half-way edge stays where it is. */
function softened(data: Uint8Array, width: number, height: number): Uint8Array {
  const across = new Uint16Array(data.length);
  for (let j = 0; j < height; j++) {
    for (let i = 0, at = j * width; i < width; i++, at++) {
      const left = i > 0 ? data[at - 1]! : data[at]!;
      const right = i + 1 < width ? data[at + 1]! : data[at]!;
      across[at] = left + 2 * data[at]! + right;
    }
  }
  const soft = new Uint8Array(data.length);
  for (let j = 0; j < height; j++) {
    const up = j > 0 ? -width : 0;
    const down = j + 1 < height ? width : 0;
    for (let i = 0, at = j * width; i < width; i++, at++) {
      soft[at] = (across[at + up]! + 2 * across[at]! + across[at + down]! + 8) >> 4;
    }
  }
  return soft;
}
