/** The register marks of a sheet in a scan or a photo of it. */
import type { Point, PrintedMark } from '../model.js';
import { candidatesIn, type Look, looksOf } from './candidates.js';
import { type Match, matches } from './constellation.js';
import { lookRound, placeFinely } from './fine.js';
import { aspectOf, fitLayout, inverse, onto, type Plane, slopesAt } from './plane.js';
import { type Grey, shrunk } from './raster.js';

export interface SeenMark {
  readonly mark: PrintedMark;
  /** Pixels from the picture's upper left corner, y down. */
  readonly at: Point;
  /** Correlation with the mark as it is printed, up to 1. */
  readonly like: number;
}
export interface SeenSheet {
  /** In the order of the sheet's marks. */
  readonly marks: readonly SeenMark[];
  readonly missing: readonly PrintedMark[];
  /** From the sheet (mm, y up) to pixels (y down), by least squares: projective from four marks. */
  readonly plane: Plane;
  /** How far the worst mark is from where the plane puts it, mm. */
  readonly worst: number;
  /** Length over width of the sheet as it is seen, over what it should be: 1 for our sheet. */
  readonly aspect: number;
  /** The marks that are there stand alike another way round: the sheet was taken to lie as it was printed. */
  readonly eitherWay: boolean;
}
/** What cannot be found, in words, with what to do. */
export interface Unseen {
  readonly unseen: string;
}

/** The first look is at a picture about so many pixels long: coarser, and neighbours run together. */
const FIRST_LOOK = 1900;
/** Less than this like, a spot is no mark, however well it stands. */
const LIKE = 0.6;
/** A mark that was overlooked is looked for within this, mm. */
const ROUND_MM = 2.5;
/** A spot of the first look is this near, mm. */
const NEAR_MM = 1.5;
/** No sheet bends, and no lens draws, so much, mm: another layout. */
const MOST_BENT_MM = 1.5;
/** Printers stretch by less than this one way and not the other. */
const MOST_STRETCHED = 0.03;
/** Only the best few ways to lay the sheet over the spots are looked at closely. */
const MOST_TRIED = 6;

export function findMarks(grey: Grey, marks: readonly PrintedMark[]): SeenSheet | Unseen {
  if (marks.length < 3) throw new RangeError(`a sheet of ${marks.length} marks`);
  const looks = looksOf(marks);
  const by = Math.max(1, Math.round(Math.max(grey.width, grey.height) / FIRST_LOOK));
  const small = shrunk(grey, by);
  const candidates = candidatesIn(small, [...new Set(looks.values())]).map(c => ({
    ...c,
    x: c.x * by,
    y: c.y * by,
    slopes: c.slopes.map(s => s * by) as unknown as typeof c.slopes,
  }));
  if (candidates.length === 0) {
    return {
      unseen:
        'no register mark is to be seen. Is this the printed side of the sheet, whole and in focus?',
    };
  }
  const tried = matches(marks, candidates, looks, grey).slice(0, MOST_TRIED);
  const seen: SeenSheet[] = [];
  for (const match of tried) {
    const sheet = refined(grey, marks, looks, match);
    if (sheet) seen.push(sheet);
    if (sheet?.missing.length === 0 && isOurs(sheet)) break;
  }
  const ours = seen.filter(isOurs);
  const best = mostLikely(ours.length > 0 ? ours : seen);
  if (!best) {
    const n = candidates.length;
    const some = `${n} ${n === 1 ? 'spot looks' : 'spots look'} like a register mark`;
    return {
      unseen: `${some}, but they do not stand as this sheet's marks do. Is it another sheet's scan, or are marks covered or cut off?`,
    };
  }
  if (!isOurs(best)) {
    const off = ((best.aspect - 1) * 100).toFixed(1);
    const gone = best.missing.map(m => m.name).join(', ');
    const without = gone === '' ? '' : ` (not found: ${gone})`;
    return {
      unseen: `there are register marks, but not this sheet's${without}: they miss their places by ${best.worst.toFixed(1)} mm, and their page is longer for its width by ${off} %. Is it another sheet's scan, or a photo with a mark covered?`,
    };
  }
  return best;
}

/** Laid out as this sheet's marks are; NaN is not. */
const isOurs = ({ worst, aspect }: SeenSheet): boolean =>
  worst <= MOST_BENT_MM && Math.abs(aspect - 1) <= MOST_STRETCHED;

/** A spot may be this much less like a mark than another and still be one. */
const AS_LIKE = 0.9;
const MOST_UPRIGHT = Math.PI / 4;

/** Most marks, most like; of several ways round that are as good, the one that lies as it was printed. */
function mostLikely(seen: readonly SeenSheet[]): SeenSheet | undefined {
  const [first] = [...seen].sort((a, b) => b.marks.length - a.marks.length || total(b) - total(a));
  if (!first) return undefined;
  const alike = seen.filter(
    s => s.marks.length === first.marks.length && total(s) >= AS_LIKE * total(first),
  );
  const turn = (s: SeenSheet) => {
    const [a, , c] = slopesAt(s.plane, s.marks[0]!.mark.at);
    return Math.abs(Math.atan2(c, a));
  };
  const upright = alike.find(s => turn(s) < MOST_UPRIGHT) ?? first;
  const other = alike.some(s => s !== upright && Math.abs(turn(s) - turn(upright)) > MOST_UPRIGHT);
  return { ...upright, eitherWay: other };
}

const total = ({ marks }: SeenSheet) => marks.reduce((s, m) => s + m.like, 0);

/** Each mark of a match finely, then those that were overlooked; twice, since the first fit is coarse. */
function refined(
  grey: Grey,
  marks: readonly PrintedMark[],
  looks: ReadonlyMap<string, Look>,
  match: Match,
): SeenSheet | undefined {
  let plane = match.plane;
  let seen: (SeenMark & { readonly blur: number })[] = [];
  for (const round of [1, 2]) {
    seen = marks.flatMap(mark => {
      const first = match.pairs.find(p => p.mark === mark)?.candidate;
      const known = seen.find(s => s.mark === mark);
      const slopes = slopesAt(plane, mark.at);
      const look = looks.get(mark.name)!;
      const from = known?.at ?? (round === 1 && first ? ([first.x, first.y] as const) : undefined);
      const placed = from
        ? placeFinely(grey, look, from, slopes, NEAR_MM, known?.blur)
        : round > 1
          ? lookRound(grey, look, onto(plane, mark.at), slopes, ROUND_MM)
          : undefined;
      return placed && placed.like >= LIKE ? [{ mark, ...placed }] : [];
    });
    const next = fitted(seen);
    if (!next) return undefined;
    plane = next;
  }
  const back = inverse(plane);
  const worst = Math.max(
    ...seen.map(({ mark, at }) => {
      const [x, y] = onto(back, at);
      return Math.hypot(x - mark.at[0], y - mark.at[1]);
    }),
  );
  const missing = marks.filter(m => !seen.some(s => s.mark === m));
  return {
    marks: seen,
    missing,
    plane,
    worst,
    aspect: aspectOf(plane, grey.width, grey.height),
    eitherWay: false,
  };
}

const fitted = (seen: readonly SeenMark[]): Plane | undefined =>
  fitLayout(seen.map(({ mark, at }) => ({ from: mark.at, to: at })));
