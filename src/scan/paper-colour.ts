/**
 * The colour of the bare paper everywhere, under uneven light and of whatever colour the card is: in tiles
 * most of the lightest part is paper; a smooth surface through the tiles tells those that ink covers.
 */
import { solve } from '../geom/index.js';
import type { Plane } from './plane.js';
import type { Picture } from './raster.js';
import { type Area, type Flat, rectified } from './rectify.js';

/** Side of a tile, mm: wider than most strokes of ink, narrower than most shadows. */
const TILE_MM = 6;
/** Pixels in a millimetre of the picture that tiles are taken from. */
const COARSE = 3;
/** This share of a tile may be darker than its paper. */
const DARKER = 0.75;
/** Powers of x and y of the surface. */
const POWERS = [0, 1, 2, 3].flatMap(i =>
  [0, 1, 2, 3].filter(j => i + j <= 3).map(j => [i, j] as const),
);
const ROUNDS = 8;
/** A tile darker than the surface by more than this share is covered by ink. */
const COVERED = 0.03;

/** Paper by channel, at the middles of tiles; rows from the top. */
export interface PaperColour {
  readonly columns: number;
  readonly rows: number;
  readonly channels: 1 | 3;
  /** Tiles a millimetre. */
  readonly perMm: number;
  readonly level: Float32Array;
}

export function paperColour(picture: Picture, plane: Plane, area: Area): PaperColour {
  const flat = rectified(picture, plane, area, COARSE, 2);
  const { channels } = flat;
  const side = TILE_MM * COARSE;
  const columns = Math.max(1, Math.round(flat.width / side));
  const rows = Math.max(1, Math.round(flat.height / side));
  const level = new Float32Array(columns * rows * channels);
  for (let c = 0; c < channels; c++) {
    const seen = tileLevels(flat, columns, rows, c);
    const smooth = surface(seen, columns, rows);
    for (let k = 0; k < seen.length; k++) {
      // A tile's own paper where it has some: shadows are no polynomials.
      const bare = seen[k]! > smooth[k]! * (1 - COVERED);
      level[k * channels + c] = bare ? seen[k]! : smooth[k]!;
    }
  }
  return { columns, rows, channels, perMm: columns / (area.maxX - area.minX), level };
}

function tileLevels(flat: Flat, columns: number, rows: number, channel: number): Float32Array {
  const { width, height, data, channels } = flat;
  const levels = new Float32Array(columns * rows);
  const counts = new Uint32Array(256);
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      counts.fill(0);
      let n = 0;
      const [y0, y1] = [Math.floor((j * height) / rows), Math.floor(((j + 1) * height) / rows)];
      const [x0, x1] = [Math.floor((i * width) / columns), Math.floor(((i + 1) * width) / columns)];
      for (let y = y0; y < y1; y++) {
        for (let x = x0; x < x1; x++) {
          counts[data[(y * width + x) * channels + channel]!]!++;
          n++;
        }
      }
      // The value that this share of the tile is darker than, within its level by parts.
      let [below, v] = [0, 0];
      while (v < 255 && below + counts[v]! < DARKER * n) below += counts[v++]!;
      levels[j * columns + i] = v - 0.5 + (DARKER * n - below) / Math.max(1, counts[v]!);
    }
  }
  return levels;
}

/** A cubic surface through the upper tiles: those far below it are left out, again and again. */
function surface(levels: Float32Array, columns: number, rows: number): Float32Array {
  const terms = (k: number) => {
    const x = (2 * (k % columns) + 1) / columns - 1;
    const y = (2 * Math.floor(k / columns) + 1) / rows - 1;
    return POWERS.map(([i, j]) => x ** i * y ** j);
  };
  const all = Array.from(levels, (_, k) => terms(k));
  // Begin with the lighter half: more than half a page is rarely covered.
  const sorted = [...levels].sort((a, b) => a - b);
  let least = Float32Array.from(levels, () => sorted[sorted.length >> 1]! * 0.9);
  let fit = least;
  for (let round = 0; round < ROUNDS; round++) {
    const n = POWERS.length;
    const normal = Array.from({ length: n }, (_, i) =>
      Array.from({ length: n }, (_, j) => (i === j ? 1e-6 : 0)),
    );
    const right = new Array<number>(n).fill(0);
    levels.forEach((v, k) => {
      if (v < least[k]!) return;
      const row = all[k]!;
      for (let i = 0; i < n; i++) {
        right[i]! += row[i]! * v;
        for (let j = 0; j < n; j++) normal[i]![j]! += row[i]! * row[j]!;
      }
    });
    const found = solve(normal, right);
    if (!found) return fit;
    fit = Float32Array.from(levels, (_, k) =>
      all[k]!.reduce((sum, t, i) => sum + t * found[i]!, 0),
    );
    least = fit.map(v => v * (1 - COVERED));
  }
  return fit;
}
