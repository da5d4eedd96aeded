/**
 * Which spots are which marks: the layout of the sheet laid over the candidates, whatever way round, at
 * any size. Two candidates taken for two marks say where the others must be; what agrees best is kept.
 */
import type { Point, PrintedMark } from '../model.js';
import { type Candidate, LEAST_LIKE, type Look } from './candidates.js';
import {
  aspectOf,
  fitLayout,
  fitPlane,
  leanOf,
  onto,
  type Pair,
  type Plane,
  slopesAt,
} from './plane.js';
import type { Grey } from './raster.js';

export interface Match {
  /** From the sheet (mm, y up) to pixels (y down). */
  readonly plane: Plane;
  readonly pairs: readonly { readonly mark: PrintedMark; readonly candidate: Candidate }[];
}

/** Of the distance of the two marks: a page seen from the side puts the others so far off. */
const FIRST_GUESS = 0.16;
/** Of the page's diagonal: after the fit of all they agree by this. */
const AGREE = 0.012;
/** A spot's own size may be off by this factor from what the distance of two says. */
const SIZE_OFF = 1.45;
/** Marks nearer to each other than this share of the farthest two say too little of the others. */
const LONG = 0.45;

/** Before the marks are placed finely, a page is as long for its width as it should be by this, and its
 *  sides stand as square. */
const COARSE_ASPECT = 0.04;

export function matches(
  marks: readonly PrintedMark[],
  candidates: readonly Candidate[],
  looks: ReadonlyMap<string, Look>,
  { width, height }: Pick<Grey, 'width' | 'height'>,
): Match[] {
  const far = Math.max(...marks.flatMap(a => marks.map(b => apart(a.at, b.at))));
  const bases = marks.flatMap(a =>
    marks.filter(b => b !== a && apart(a.at, b.at) > LONG * far).map(b => [a, b] as const),
  );
  const found = new Map<string, Match>();
  for (const [a, b] of bases) {
    for (const p of candidates) {
      if (p.look !== looks.get(a.name)) continue;
      for (const q of candidates) {
        if (q === p || q.look !== looks.get(b.name)) continue;
        const size = apart([p.x, p.y], [q.x, q.y]) / apart(a.at, b.at);
        if (!isAlike(size, sizeOf(p)) || !isAlike(size, sizeOf(q))) continue;
        const grownUp = grown(marks, candidates, looks, { a, b, p, q });
        const match = grownUp && ofTheStrong(grownUp);
        if (!match) continue;
        const key = keyOf(match, candidates);
        if (!found.has(key)) found.set(key, match);
      }
    }
  }
  for (const match of fromCorners(marks, candidates, looks))
    found.set(keyOf(match, candidates), match);
  // Three spots that are very like say more than five that are a little.
  const rank = (m: Match) => {
    const like = m.pairs.reduce((s, { candidate }) => s + (candidate.like - LEAST_LIKE) ** 2, 0);
    const off = Math.max(Math.abs(aspectOf(m.plane, width, height) - 1), Math.abs(leanOf(m.plane)));
    return like - (off < COARSE_ASPECT ? 0 : 2);
  };
  const ranked = [...found.values()].map(match => ({ match, rank: rank(match) }));
  return ranked.sort((x, y) => y.rank - x.rank).map(r => r.match);
}

/** Where no more pairs agree than the plane takes, a spot less like than this share of the likeliest is
 *  no mark: a dot of the art that happens to stand there. */
const EVEN = 0.65;

/** Without spots that only chance speaks for; a mark that was smudged is looked for again later. */
function ofTheStrong(match: Match): Match | undefined {
  if (match.pairs.length > 4) return match;
  const most = Math.max(...match.pairs.map(p => p.candidate.like));
  const pairs = match.pairs.filter(p => p.candidate.like >= EVEN * most);
  if (pairs.length === match.pairs.length) return match;
  const plane = fitLayout(pairs.map(p => pairOf(p.mark, p.candidate)));
  return plane && { plane, pairs };
}

const keyOf = ({ pairs }: Match, candidates: readonly Candidate[]) =>
  pairs
    .map(m => `${m.mark.name}:${candidates.indexOf(m.candidate)}`)
    .sort()
    .join();

/** Of each look, so many of the likeliest spots are tried at every corner. */
const AT_CORNERS = 8;
/** Where the page runs away from the camera, spots grow smaller: the fit of four says how much. */
const SIZE_OF_FOUR = 1.3;

/** Seen so much from the side that two marks say too little: every four spots taken for the corners. */
function fromCorners(
  marks: readonly PrintedMark[],
  candidates: readonly Candidate[],
  looks: ReadonlyMap<string, Look>,
): Match[] {
  // The first four marks of a sheet stand at its corners, counter-clockwise.
  const corners = marks.slice(0, 4);
  const spots = corners.map(m =>
    candidates.filter(c => c.look === looks.get(m.name)).slice(0, AT_CORNERS),
  );
  if (corners.length < 4) return [];
  const found: Match[] = [];
  const turns = (a: Candidate, b: Candidate, c: Candidate) =>
    (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x) < 0;
  for (const a of spots[0]!) {
    for (const b of spots[1]!) {
      for (const c of spots[2]!) {
        if (!turns(a, b, c)) continue;
        for (const d of spots[3]!) {
          // y runs down: what is counter-clockwise on the sheet turns the other way.
          if (!turns(b, c, d) || !turns(c, d, a) || !turns(d, a, b)) continue;
          const four = [a, b, c, d];
          const plane = fitLayout(corners.map((m, i) => pairOf(m, four[i]!)));
          if (!plane || !isUpright(plane, marks)) continue;
          const alike = corners.every((m, i) => {
            const off = sizeAt(plane, m) / sizeOf(four[i]!);
            return off < SIZE_OF_FOUR && off > 1 / SIZE_OF_FOUR;
          });
          if (!alike) continue;
          const reach = AGREE * apart([a.x, a.y], [c.x, c.y]);
          const pairs = nearest(plane, marks, candidates, looks, reach);
          if (pairs.length > 4) found.push({ plane, pairs });
        }
      }
    }
  }
  return found;
}

const sizeAt = (plane: Plane, { at }: PrintedMark): number => {
  const [a, b, c, d] = slopesAt(plane, at);
  return Math.sqrt(Math.abs(a * d - b * c));
};

const apart = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1]);
/** Pixels in a millimetre. */
const sizeOf = ({ slopes: [a, b, c, d] }: Candidate) => Math.sqrt(Math.abs(a * d - b * c));
const isAlike = (a: number, b: number) => a < SIZE_OFF * b && b < SIZE_OFF * a;

interface Base {
  readonly a: PrintedMark;
  readonly b: PrintedMark;
  readonly p: Candidate;
  readonly q: Candidate;
}

/** From two marks to as many as agree; `undefined` for fewer than three. */
function grown(
  marks: readonly PrintedMark[],
  candidates: readonly Candidate[],
  looks: ReadonlyMap<string, Look>,
  { a, b, p, q }: Base,
): Match | undefined {
  const base = [pairOf(a, p), pairOf(b, q)];
  let plane = fitPlane('similarity', base);
  if (!plane) return undefined;
  const far = apart([p.x, p.y], [q.x, q.y]);
  let reach = FIRST_GUESS * far;
  let pairs: { mark: PrintedMark; candidate: Candidate }[] = [];
  for (let round = 0; round < 3; round++) {
    pairs = nearest(plane, marks, candidates, looks, reach);
    if (pairs.length < 3) return undefined;
    const next = fitLayout(pairs.map(m => pairOf(m.mark, m.candidate)));
    if (!next || !isUpright(next, marks)) return undefined;
    plane = next;
    reach = Math.max(AGREE * far, reach / 4);
  }
  return { plane, pairs };
}

const pairOf = (mark: PrintedMark, { x, y }: Candidate): Pair => ({ from: mark.at, to: [x, y] });

/** Every mark's nearest candidate, each candidate once. */
function nearest(
  plane: Plane,
  marks: readonly PrintedMark[],
  candidates: readonly Candidate[],
  looks: ReadonlyMap<string, Look>,
  reach: number,
) {
  const all = marks.flatMap(mark => {
    const at = onto(plane, mark.at);
    const size = sizeAt(plane, mark);
    return candidates
      .filter(s => s.look === looks.get(mark.name) && isAlike(size, sizeOf(s)))
      .map(candidate => ({ mark, candidate, off: apart(at, [candidate.x, candidate.y]) }))
      .filter(s => s.off <= reach);
  });
  all.sort((x, y) => x.off - y.off);
  const taken: { mark: PrintedMark; candidate: Candidate }[] = [];
  for (const { mark, candidate } of all) {
    if (taken.some(t => t.mark === mark || t.candidate === candidate)) continue;
    taken.push({ mark, candidate });
  }
  return taken;
}

/** Seen from its printed side, and all of it in front of the camera. */
function isUpright(plane: Plane, marks: readonly PrintedMark[]): boolean {
  return marks.every(({ at }) => {
    const [a, b, c, d] = slopesAt(plane, at);
    const w = plane[6] * at[0] + plane[7] * at[1] + 1;
    // y turns over from the sheet to the picture.
    return w > 0.2 && a * d - b * c < 0;
  });
}
