/** The register marks of a sheet in a scan or a photo of it. */
import type { Point, PrintedMark } from '../model.js';
import { candidatesIn, type Look, looksOf } from './candidates.js';
import { type Match, matches } from './constellation.js';
import { lookRound, placeFinely } from './fine.js';
import { aspectOf, fitLayout, inverse, leanOf, onto, type Plane, slopesAt } from './plane.js';
import { stretchOf } from './proportions.js';
import { type Grey, shrunk } from './raster.js';
import { standingAt, type Told, whichWay } from './which-way.js';

export interface SeenMark {
  readonly mark: PrintedMark;
  /** Pixels from the picture's upper left corner, y down. */
  readonly at: Point;
  /** Correlation with the mark as it is printed, up to 1. */
  readonly like: number;
  /** How black its ink is, of the paper's light. */
  readonly black: number;
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
  /** What tells which way round the sheet lies; by `nothing`, it was taken to lie upright. */
  readonly wayBy: Told['by'];
}
/** What cannot be found, in words, with what to do. */
export interface Unseen {
  readonly unseen: string;
}

/** Fewer do not tell how the sheet lies. */
const LEAST_MARKS = 3;
/** The first look is at a picture about so many pixels long: coarser, and neighbours run together. */
const FIRST_LOOK = 1900;
/** Less than this like, a spot is no mark, however well it stands. */
const LIKE = 0.6;
/** Nor if it were printed so, its ink would be blacker than black: marks far off in photos seem to be 1.3. */
const MOST_BLACK = 1.6;
/** Where no mark is there to check the others by, each must be surer: printed dots are 0.55 black. */
const SURE = { like: 0.7, black: 0.6 } as const;
/** A mark that was overlooked is looked for within this, mm. */
const ROUND_MM = 2.5;
/** A spot of the first look is this near, mm. */
const NEAR_MM = 1.5;
/** No sheet bends, and no lens draws, so much, mm: another layout. */
const MOST_BENT_MM = 1.5;
/** Printers stretch by less than this one way and not the other. */
const MOST_STRETCHED = 0.03;
/** Nor do they lean it by more, a cosine: 1.7°. */
const MOST_LEANING = 0.03;
/** Only the best few ways to lay the sheet over the spots are looked at closely. */
const MOST_TRIED = 12;

/** `wedge`, where one is printed, tells which way round the sheet lies if the marks seen do not. */
export function findMarks(
  grey: Grey,
  marks: readonly PrintedMark[],
  wedge?: PrintedMark,
): SeenSheet | Unseen {
  if (marks.length < LEAST_MARKS) throw new RangeError(`a sheet of ${marks.length} marks`);
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
    return {
      unseen: `fewer than ${LEAST_MARKS} of this sheet's ${marks.length} marks are to be seen in their places. Are they covered, smudged or cut off? Or is it the scan of another sheet? Scan the whole sheet again, or measure by hand.`,
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
  const stretch = isTilted(best.plane, marks) ? stretchOf(grey, best.plane, best.marks, looks) : 1;
  if (!(Math.abs(stretch - 1) <= MOST_OUT_OF_SHAPE)) {
    const off = Math.abs((stretch - 1) * 100).toFixed(0);
    return {
      unseen: `there are register marks, but not this sheet's: laid out as this sheet's are they would be ${off} % too ${stretch > 1 ? 'wide for their height' : 'high for their width'}. Is it a photo of another sheet, on paper of another size?`,
    };
  }
  const { way, by: wayBy } = whichWay(
    grey,
    best.plane,
    best.marks.map(m => m.mark),
    marks,
    wedge,
  );
  if (way.mirrored) {
    return {
      unseen:
        'the sheet is mirrored in the picture: the wedge beside the fifth mark is on the wrong side of it. Scan its printed side, and do not let the program flip the picture.',
    };
  }
  // A mark that was taken for another one is that which stands where it comes to lie.
  const back = inverse(way.map);
  const named = best.marks.map(m => ({ ...m, mark: standingAt(onto(back, m.mark.at), marks)! }));
  return { ...(sheetFrom(grey, marks, named) ?? best), wayBy };
}

/** Laid out as this sheet's marks are; NaN is not. */
const isOurs = ({ worst, aspect, plane }: SeenSheet): boolean =>
  worst <= MOST_BENT_MM &&
  Math.abs(aspect - 1) <= MOST_STRETCHED &&
  Math.abs(leanOf(plane)) <= MOST_LEANING;

/** Marks in photos seem wide or high by less than this: A4 for Letter makes 0.10. */
const MOST_OUT_OF_SHAPE = 0.05;
/** Near and far ends of a sheet differ by more in a photo; in a flat scan the layout itself tells. */
const TILTED = 0.006;
const isTilted = (plane: Plane, marks: readonly PrintedMark[]): boolean => {
  const [x, y] = [0, 1].map(k => Math.max(...marks.map(m => m.at[k as 0 | 1]))) as [number, number];
  return Math.abs(plane[6]) * x + Math.abs(plane[7]) * y >= TILTED;
};

/** Three marks that are sure say more than five that are not. */
const mostLikely = (seen: readonly SeenSheet[]): SeenSheet | undefined =>
  [...seen].sort((a, b) => total(b) - total(a))[0];

const total = ({ marks }: SeenSheet) => marks.reduce((s, m) => s + (m.like - LIKE) ** 2, 0);

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
      return placed && placed.like >= LIKE && placed.black <= MOST_BLACK
        ? [{ mark, ...placed }]
        : [];
    });
    const next = fitted(seen);
    if (!next) return undefined;
    plane = next;
  }
  return sheetFrom(grey, marks, seen);
}

function sheetFrom(
  grey: Grey,
  marks: readonly PrintedMark[],
  found: readonly SeenMark[],
): SeenSheet | undefined {
  const all = marks.flatMap(mark => found.filter(s => s.mark === mark));
  const sure = all.filter(s => s.like >= SURE.like && s.black >= SURE.black);
  const seen = all.length > 4 ? all : sure;
  const plane = fitted(seen);
  if (!plane) return undefined;
  const back = inverse(plane);
  const worst = Math.max(
    ...seen.map(({ mark, at }) => {
      const [x, y] = onto(back, at);
      return Math.hypot(x - mark.at[0], y - mark.at[1]);
    }),
  );
  const missing = marks.filter(m => !seen.some(s => s.mark === m));
  const aspect = aspectOf(plane, grey.width, grey.height);
  return { marks: seen, missing, plane, worst, aspect, wayBy: 'marks' };
}

const fitted = (seen: readonly SeenMark[]): Plane | undefined =>
  fitLayout(seen.map(({ mark, at }) => ({ from: mark.at, to: at })));
