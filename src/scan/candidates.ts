/**
 * Spots of a picture that may be marks. A spot's own spread says how large it is and how it is
 * foreshortened; what is left is a turn, which is tried all round. So marks are found at any size, turned
 * and tilted, without knowing anything of the page.
 */
import { transform, translation } from '../geom/index.js';
import type { Path, PrintedMark } from '../model.js';
import { blobsOf } from './blobs.js';
import type { Slopes } from './plane.js';
import { type Grey, sampled } from './raster.js';
import { blurred, inkAt, type Moments, momentsOf, type Template, templateOf } from './template.js';

/** A mark's print and all that is worked out of it once. */
export interface Look {
  readonly sharp: Template;
  readonly moments: Moments;
}
export interface Candidate {
  /** Where the mark's own middle is, pixels. */
  readonly x: number;
  readonly y: number;
  readonly look: Look;
  /** From the mark's millimetres (y up) to pixels (y down); its turn may be any that the mark looks
   *  alike in. */
  readonly slopes: Slopes;
  /** How like the mark it is, up to 1: by shape, and by how black it is, as marks are printed. */
  readonly like: number;
}

/** Points on a side of the grid that is compared. */
const GRID = 25;
const TURNS = 48;
/** Less than this like, it is none. */
export const LEAST_LIKE = 0.4;
/** Of each look: the time to match them grows with their square. */
const MOST_CANDIDATES = 30;
/** What a spot may lose of its likeness for being pale. */
const PALE = 0.4;
/** Spots from this many pixels on can be told apart. */
const LEAST_PIXELS = 9;
/** The longer axis of a spot over its shorter one: twice that of a corner mark, 2, for what a tilt adds. */
const MOST_SQUEEZED = 5;
/** Blur with which spots are compared, mm. */
const SOFT_MM = 0.2;

/** Two marks whose fields of ink differ by less than this share of their ink look alike. */
const ALIKE = 0.01;

/** Marks that look alike share a look, however their lines were drawn. */
export function looksOf(marks: readonly PrintedMark[]): ReadonlyMap<string, Look> {
  const all: Look[] = [];
  return new Map(
    marks.map(({ name, at, ink }) => {
      const own = translation(-at[0], -at[1]);
      const about = (paths: readonly Path[]) => paths.map(p => transform(p, own));
      const sharp = templateOf({ ...ink, lines: about(ink.lines), solids: about(ink.solids) });
      const known = all.find(look => isAlike(look.sharp, sharp));
      if (known) return [name, known] as const;
      const look = { sharp, moments: momentsOf(sharp) };
      all.push(look);
      return [name, look] as const;
    }),
  );
}

function isAlike(a: Template, b: Template): boolean {
  if (a.side !== b.side) return false;
  let [ink, off] = [0, 0];
  a.ink.forEach((w, k) => {
    ink += w;
    off += Math.abs(w - b.ink[k]!);
  });
  return off < ALIKE * ink;
}

export function candidatesIn(grey: Grey, looks: readonly Look[]): Candidate[] {
  const most = Math.max(grey.width, grey.height) / 6;
  const blobs = blobsOf(grey, LEAST_PIXELS, most);
  const views = looks.map(viewsOf);
  const found: (Candidate & { readonly black: number })[] = [];
  const patch = new Float32Array(GRID * GRID);
  for (const { x, y, spread } of blobs) {
    const root = rootOf(spread);
    if (!root) continue;
    for (const { look, reach, turned, inverseRoot } of views) {
      // Pixels from whitened points of the spot.
      for (let j = 0; j < GRID; j++) {
        for (let i = 0; i < GRID; i++) {
          const [u, v] = [gridAt(i, reach), gridAt(j, reach)];
          patch[j * GRID + i] =
            255 - sampled(grey, x + root[0] * u + root[1] * v, y + root[1] * u + root[2] * v);
        }
      }
      const black = Math.max(...patch) - Math.min(...patch);
      if (!standardised(patch)) continue;
      let [best, turn] = [-1, 0];
      turned.forEach((view, k) => {
        let sum = 0;
        for (let i = 0; i < patch.length; i++) sum += patch[i]! * view[i]!;
        if (sum > best) [best, turn] = [sum, k];
      });
      if (best < LEAST_LIKE) continue;
      // mm (y up) → whitened mark → turned → pixels (y down).
      const [c, s] = [
        Math.cos((turn * 2 * Math.PI) / TURNS),
        Math.sin((turn * 2 * Math.PI) / TURNS),
      ];
      const [p, q, r] = inverseRoot;
      const flat = [c * p - s * q, c * q - s * r, -(s * p + c * q), -(s * q + c * r)] as const;
      const slopes: Slopes = [
        root[0] * flat[0] + root[1] * flat[2],
        root[0] * flat[1] + root[1] * flat[3],
        root[1] * flat[0] + root[2] * flat[2],
        root[1] * flat[1] + root[2] * flat[3],
      ];
      const [mx, my] = look.moments.middle;
      found.push({
        x: x - slopes[0] * mx - slopes[1] * my,
        y: y - slopes[2] * mx - slopes[3] * my,
        look,
        slopes,
        like: best,
        black,
      });
    }
  }
  const blackest = Math.max(0, ...found.map(c => c.black));
  const ranked = found
    .map(({ black, ...c }) => ({ ...c, like: c.like * (1 - PALE + (PALE * black) / blackest) }))
    .sort((a, b) => b.like - a.like);
  const taken = new Map<Look, number>();
  return ranked.filter(({ look }) => {
    const n = (taken.get(look) ?? 0) + 1;
    taken.set(look, n);
    return n <= MOST_CANDIDATES;
  });
}

const gridAt = (i: number, reach: number) => ((2 * i) / (GRID - 1) - 1) * reach;

type Symmetric = readonly [xx: number, xy: number, yy: number];

/** The root of a spread, a symmetric matrix; `undefined` for a spot that is a line. */
function rootOf([xx, xy, yy]: Symmetric): Symmetric | undefined {
  const det = xx * yy - xy * xy;
  const half = (xx + yy) / 2;
  const apart = Math.hypot((xx - yy) / 2, xy);
  // Written so that NaN is a line.
  if (!(half - apart > 0 && half + apart <= MOST_SQUEEZED ** 2 * (half - apart))) return undefined;
  const s = Math.sqrt(det);
  const t = Math.sqrt(xx + yy + 2 * s);
  return [(xx + s) / t, xy / t, (yy + s) / t];
}

interface Views {
  readonly look: Look;
  /** Of the grid, in whitened units. */
  readonly reach: number;
  readonly turned: readonly Float32Array[];
  /** Of the root of the mark's own spread: from mm to whitened. */
  readonly inverseRoot: Symmetric;
}

/** The mark whitened, turned by each of the turns, as seen in a picture with y down. */
function viewsOf(look: Look): Views {
  const { sharp, moments } = look;
  const soft = blurred(sharp, SOFT_MM);
  const root = rootOf(moments.spread) ?? [1, 0, 1];
  const det = root[0] * root[2] - root[1] ** 2;
  const inverseRoot: Symmetric = [root[2] / det, -root[1] / det, root[0] / det];
  const reach = (sharp.reach / Math.sqrt(det)) * 0.95;
  const turned = Array.from({ length: TURNS }, (_, k) => {
    const [c, s] = [Math.cos((k * 2 * Math.PI) / TURNS), Math.sin((k * 2 * Math.PI) / TURNS)];
    const view = new Float32Array(GRID * GRID);
    for (let j = 0; j < GRID; j++) {
      for (let i = 0; i < GRID; i++) {
        const [u, v] = [gridAt(i, reach), -gridAt(j, reach)];
        const [p, q] = [c * u + s * v, -s * u + c * v];
        const x = root[0] * p + root[1] * q + moments.middle[0];
        const y = root[1] * p + root[2] * q + moments.middle[1];
        view[j * GRID + i] = inkAt(soft, x, y);
      }
    }
    standardised(view);
    return view;
  });
  return { look, reach, turned, inverseRoot };
}

/** Mean 0 and sum of squares 1, in place; `false` for what is all the same. */
function standardised(values: Float32Array): boolean {
  let mean = 0;
  for (const v of values) mean += v;
  mean /= values.length;
  let squares = 0;
  for (let i = 0; i < values.length; i++) {
    values[i]! -= mean;
    squares += values[i]! ** 2;
  }
  if (!(squares > 1e-6)) return false;
  const size = Math.sqrt(squares);
  for (let i = 0; i < values.length; i++) values[i]! /= size;
  return true;
}
