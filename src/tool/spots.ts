/** Many points near each other as a few places. */
import Flatbush from 'flatbush';
import type { Point } from '../geom/index.js';

/** A point and what was measured there, mm. */
export interface Spot {
  readonly at: Point;
  readonly size: number;
}

/** Of several as good as each other the one nearest their middle stands for them. */
const AS_GOOD = 1.01;
const MOST_NEIGHBOURS = 64;

/**
 * Points that hang together by steps of at most `reach` are one place, told at its least size (`most`: at
 * its greatest). Sorted by size, the worst first.
 */
export function gatherPlaces(spots: readonly Spot[], reach: number, most = false): Spot[] {
  if (spots.length === 0) return [];
  const index = new Flatbush(spots.length);
  for (const { at } of spots) index.add(at[0], at[1], at[0], at[1]);
  index.finish();
  const seen = new Uint8Array(spots.length);
  const worse = (a: Spot, b: Spot) => (most ? b.size - a.size : a.size - b.size);
  const found: Spot[] = [];
  spots.forEach((_, i) => {
    if (seen[i]) return;
    seen[i] = 1;
    const group: Spot[] = [];
    const waiting = [i];
    for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
      const spot = spots[next]!;
      group.push(spot);
      const near = index.neighbors(spot.at[0], spot.at[1], MOST_NEIGHBOURS, reach, j => !seen[j]);
      for (const j of near) {
        seen[j] = 1;
        waiting.push(j);
      }
    }
    found.push(standFor(group, worse));
  });
  return found.sort(worse);
}

function standFor(group: readonly Spot[], worse: (a: Spot, b: Spot) => number): Spot {
  let worst = group[0]!;
  let [x, y] = [0, 0];
  for (const spot of group) {
    if (worse(spot, worst) < 0) worst = spot;
    x += spot.at[0] / group.length;
    y += spot.at[1] / group.length;
  }
  const off = ({ at }: Spot) => Math.hypot(at[0] - x, at[1] - y);
  const good = group.filter(s => s.size <= worst.size * AS_GOOD && s.size >= worst.size / AS_GOOD);
  return { at: good.reduce((a, b) => (off(b) < off(a) ? b : a)).at, size: worst.size };
}
