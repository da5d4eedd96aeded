/**
 * Which way round a sheet lies when the mark that tells it is not to be seen: the others stand alike turned
 * or mirrored. Then the wedge beside the fifth mark is looked for in every place where it could be.
 */
import type { Point, PrintedMark } from '../model.js';
import { looksOf } from './candidates.js';
import { lookRound } from './fine.js';
import { chained, onto, type Plane, slopesAt } from './plane.js';
import type { Grey } from './raster.js';

/** A way to lay the sheet on itself: turned by quarters or mirrored about the middle of its corner marks,
 *  as a map of the sheet's millimetres. */
export interface Way {
  readonly map: Plane;
  readonly mirrored: boolean;
}
export interface Told {
  /** The sheet lies as its marks were named, turned or mirrored by this. */
  readonly way: Way;
  /** `nothing`: that which is the least turned in the picture. */
  readonly by: 'marks' | 'wedge' | 'nothing';
}

/** Marks this near to each other after a turn stand alike, mm. */
const ALIKE_MM = 3;
/** The wedge is looked for this far round its place, mm. */
const ROUND_MM = 1.5;
/** Less than this like, it is none. */
const LIKE = 0.75;
/** Where two places show something like it, one has to be so much more like it. */
const MORE_LIKE = 0.1;

/** `marks` are all of the sheet's, the first four at its corners; `seen` those that were found, which
 *  `plane` takes to pixels. */
export function whichWay(
  grey: Grey,
  plane: Plane,
  seen: readonly PrintedMark[],
  marks: readonly PrintedMark[],
  wedge?: PrintedMark,
): Told {
  const ways = waysRound(seen, marks);
  const [asNamed] = ways as [Way, ...Way[]];
  if (ways.length === 1) return { way: asNamed, by: 'marks' };
  const found = (wedge ? ways : [])
    .map(way => ({ way, like: likeAt(grey, chained(plane, way.map), wedge!) }))
    .sort((a, b) => b.like - a.like);
  const [first, second] = found;
  if (first && first.like >= LIKE && first.like - (second?.like ?? 0) >= MORE_LIKE) {
    return { way: first.way, by: 'wedge' };
  }
  const turn = (way: Way) => {
    const [a, , c] = slopesAt(chained(plane, way.map), marks[0]!.at);
    return Math.abs(Math.atan2(c, a));
  };
  const turned = ways.filter(w => !w.mirrored);
  return { way: turned.reduce((a, b) => (turn(b) < turn(a) ? b : a)), by: 'nothing' };
}

/** All ways in which every mark that was seen stands where the sheet has one; as it is, first. */
function waysRound(seen: readonly PrintedMark[], marks: readonly PrintedMark[]): Way[] {
  const corners = marks.slice(0, 4);
  const x = corners.reduce((s, m) => s + m.at[0], 0) / corners.length;
  const y = corners.reduce((s, m) => s + m.at[1], 0) / corners.length;
  const ways = [1, -1].flatMap(side =>
    [
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
    ].map(([c, s]): Way => {
      const [a, b, d, e] = [c! * side, -s!, s! * side, c!];
      return { map: [a, b, x - a * x - b * y, d, e, y - d * x - e * y, 0, 0], mirrored: side < 0 };
    }),
  );
  return ways.filter(({ map }) => seen.every(m => standingAt(onto(map, m.at), marks)));
}

/** The mark of the sheet at a place. */
export const standingAt = ([x, y]: Point, marks: readonly PrintedMark[]): PrintedMark | undefined =>
  marks.find(({ at }) => Math.hypot(at[0] - x, at[1] - y) <= ALIKE_MM);

function likeAt(grey: Grey, plane: Plane, wedge: PrintedMark): number {
  const at = onto(plane, wedge.at);
  if (!(at[0] >= 0 && at[1] >= 0 && at[0] <= grey.width && at[1] <= grey.height)) return 0;
  const look = looksOf([wedge]).get(wedge.name)!;
  return lookRound(grey, look, at, slopesAt(plane, wedge.at), ROUND_MM)?.like ?? 0;
}
