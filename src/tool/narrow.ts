/** Where cut lines face each other more closely than a blade can turn between them. */
import type { Path, Point } from '../geom/index.js';
import { TIP_MEASURE_MM, TIP_MM } from '../units/tolerances.js';
import { chordsOf } from './chords.js';
import type { Unchecked } from './effort.js';
import { Pieces } from './pieces.js';
import { insideOf, type Rings } from './rings.js';
import { gatherPlaces, type Spot } from './spots.js';

/** Two lines that lean toward each other by more than this meet in a point, and are no slot: 20°. */
const MOST_LEAN = Math.PI / 9;
const SIN_LEAN = Math.sin(MOST_LEAN);
/** From corner to corner of two chains of chords: more than half the turn between two chords. */
const SIN_CORNER = Math.sin(MOST_LEAN / 2.5);
/** What stands out of a line by less is a roughness of it. */
const LEAST_DEPTH_MM = 0.05;
/** Pairs of neighbours looked at in all, and pairs that are kept. */
const MOST_PAIRS = 1e6;
const MOST_FACING = 10_000;

export interface NarrowPlace {
  readonly at: Point;
  /** Width there, mm. */
  readonly size: number;
  /** Paper that is left narrow, and not an opening in it. */
  readonly paper: boolean;
}

/**
 * Places where two stretches of cut face each other at less than `least` mm: slots, necks and tongues,
 * and paper between neighbouring contours; each at its narrowest, the narrowest first. A corner is none,
 * however sharp, and neither are lines that lie on each other. With `ownSwing`, two stretches of one
 * line that are no further apart along it are not looked at: there a pivot turns about a corner.
 * Whether it is of paper is told by the closed ones of `outlines`. `left` tells how many pieces were
 * looked at, where the lines lie too dense to look at all of them.
 */
export function narrowPlaces(
  paths: readonly Path[],
  least: number,
  ownSwing = 0,
  outlines = paths,
): { readonly places: readonly NarrowPlace[]; readonly left?: Unchecked | undefined } {
  // What is as wide as the least is wide enough; the tip itself is no truer than this.
  const most = least - TIP_MM;
  if (!(most > TIP_MM)) return { places: [] };
  const pieces = new Pieces(paths, TIP_MEASURE_MM);
  const look: Look = { paths, pieces, most, ownSwing };
  const { pairs, left } = facing(look);
  const spots = gatherPlaces(pairs, 1.1 * pieces.longest);
  const rings: Rings = outlines.filter(p => p.closed).map(p => chordsOf(p, TIP_MM));
  return {
    places: spots.map(s => ({ ...s, paper: insideOf(rings, s.at) })),
    left,
  };
}

interface Look {
  readonly paths: readonly Path[];
  readonly pieces: Pieces;
  readonly most: number;
  readonly ownSwing: number;
}

function facing(look: Look) {
  const { pieces, most } = look;
  const index = pieces.index();
  const pairs: Spot[] = [];
  let looked = 0;
  for (let i = 0; i < pieces.count; i++) {
    if (looked >= MOST_PAIRS || pairs.length >= MOST_FACING) {
      return { pairs, left: { looked: i, of: pieces.count } };
    }
    const [x0, y0, x1, y1] = pieces.at(i);
    const [minX, minY] = [Math.min(x0, x1) - most, Math.min(y0, y1) - most];
    const [maxX, maxY] = [Math.max(x0, x1) + most, Math.max(y0, y1) + most];
    const near = index?.search(minX, minY, maxX, maxY, j => j > i) ?? [];
    looked += near.length;
    for (const j of near) {
      const pair = closest(look, i, j);
      if (pair) pairs.push(pair);
    }
  }
  return { pairs, left: undefined };
}

/** Where two pieces face each other at less than `most`, at their nearest; nothing where they do not, or are
 *  the two sides of a corner. */
function closest({ paths, pieces, most, ownSwing }: Look, i: number, j: number) {
  const [ax, ay, bx, by] = pieces.at(i);
  const [cx, cy, dx, dy] = pieces.at(j);
  const la = Math.hypot(bx - ax, by - ay);
  const lc = Math.hypot(dx - cx, dy - cy);
  const [ux, uy] = [(bx - ax) / la, (by - ay) / la];
  const [vx, vy] = [(dx - cx) / lc, (dy - cy) / lc];
  const leaning = Math.abs(ux * vy - uy * vx);
  if (leaning > SIN_LEAN) return undefined;
  let best: { at: Point; size: number; s: number; t: number; ex: number; ey: number } | undefined;
  /** From a point s along piece i to a point t along piece j; `foot` where it is straight across one. */
  const see = (s: number, t: number, foot: boolean) => {
    const [px, py] = [ax + s * ux, ay + s * uy];
    const [ex, ey] = [cx + t * vx - px, cy + t * vy - py];
    const apart = Math.hypot(ex, ey);
    if (!(apart > TIP_MM && apart < most)) return;
    // Straight across, from either of them.
    const [off, offToo] = [
      Math.abs(ex * ux + ey * uy) / apart,
      Math.abs(ex * vx + ey * vy) / apart,
    ];
    if (Math.max(off, offToo) > (foot ? SIN_LEAN : SIN_CORNER)) return;
    // Straight across one of two lines that lean is less than the width between them.
    const size = apart / Math.cos((Math.asin(off) + Math.asin(offToo)) / 2);
    if (size >= most || (best && size >= best.size)) return;
    best = { at: [px + ex / 2, py + ey / 2], size, s, t, ex: ex / apart, ey: ey / apart };
  };
  for (const s of [0, la]) {
    const t = (ax + s * ux - cx) * vx + (ay + s * uy - cy) * vy;
    see(s, Math.max(0, Math.min(lc, t)), t >= 0 && t <= lc);
  }
  for (const t of [0, lc]) {
    const s = (cx + t * vx - ax) * ux + (cy + t * vy - ay) * uy;
    see(Math.max(0, Math.min(la, s)), t, s >= 0 && s <= la);
  }
  if (!best) return undefined;
  const path = pieces.path(i);
  if (path === pieces.path(j)) {
    const ahead = pieces.along(j) + best.t - pieces.along(i) - best.s;
    const length = pieces.lengths[path]!;
    const short = paths[path]!.closed ? Math.min(ahead, length - ahead) : ahead;
    if (short <= ownSwing || short - best.size < 2 * LEAST_DEPTH_MM) return undefined;
    // Along both lines toward where they are one: how fast they come together.
    const way = short === ahead ? 1 : -1;
    const closing = way * ((ux + vx) * best.ex + (uy + vy) * best.ey);
    if (isCorner(best.size, short, closing)) return undefined;
  }
  return { at: best.at, size: best.size };
}

/** Whether two stretches of one line meet where the line turns: `closing` is by how much they come together
 *  for each mm, `way` the length of line between them. */
function isCorner(size: number, way: number, closing: number): boolean {
  if (!(closing > 0)) return false;
  // Straight sides meet exactly there; those of a horn a little later or sooner.
  const [sooner, later] = [0.4, 1.3];
  const meeting = size / closing / (way / 2);
  return meeting > sooner && meeting < later;
}
