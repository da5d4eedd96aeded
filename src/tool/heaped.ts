/** Where lines lie on other lines. */
import type { Path } from '../geom/index.js';
import type { FoundPlace } from '../model.js';
import { TIP_MM } from '../units/tolerances.js';
import { type Piece, Pieces } from './pieces.js';
import { gatherPlaces, type Spot } from './spots.js';

/** Two lines that cross are near each other at one point only: they must also run alike (0.6°). */
const SIN_ALIKE = 0.01;
/** More need not be told. */
const MOST_SPOTS = 5000;
/** Pairs of pieces looked at in all, for drawings of lines heaped on each other. */
const MOST_ASKED = 2e7;

/** Middles of the stretches. */
export function heapedPlaces(paths: readonly Path[]): FoundPlace[] {
  const pieces = new Pieces(paths, TIP_MM);
  const index = pieces.index();
  const spots: Spot[] = [];
  let asked = 0;
  for (let i = 0; i < pieces.count; i++) {
    if (spots.length >= MOST_SPOTS || asked >= MOST_ASKED) break;
    const own = pieces.at(i);
    const [x, y] = [(own[0] + own[2]) / 2, (own[1] + own[3]) / 2];
    const on = (j: number) => {
      asked++;
      return j !== i && liesOn(own, pieces.at(j));
    };
    if (index?.collides(x - TIP_MM, y - TIP_MM, x + TIP_MM, y + TIP_MM, on)) {
      spots.push({ at: [x, y], size: 1 });
    }
  }
  return gatherPlaces(spots, 1.1 * pieces.longest).map(({ at }) => ({ at }));
}

/** The middle of one piece is on the other, and both run the same way or back. */
function liesOn([ax, ay, bx, by]: Piece, [cx, cy, dx, dy]: Piece): boolean {
  const [ux, uy, vx, vy] = [bx - ax, by - ay, dx - cx, dy - cy];
  const [lu, lv] = [Math.hypot(ux, uy), Math.hypot(vx, vy)];
  if (Math.abs(ux * vy - uy * vx) > SIN_ALIKE * lu * lv) return false;
  const [ex, ey] = [(ax + bx) / 2 - cx, (ay + by) / 2 - cy];
  const t = (ex * vx + ey * vy) / (lv * lv);
  return t >= 0 && t <= 1 && Math.abs(ex * vy - ey * vx) <= TIP_MM * lv;
}
