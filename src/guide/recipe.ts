/**
 * The hand-scoring recipe: how a net whose scores are all parallel to its edges is made with a scoring
 * board, a ruler and scissors. Data only.
 */

import { bounds, distanceToPath, endOf, lerp, pointAt, signedArea, steps } from '../geom/index.js';
import type { Net, PartName, Path, Point } from '../model.js';
import { ON_PATH_MM, SAME_POINT_MM } from '../units/tolerances.js';
import { partOf } from './names.js';
import { type Cell, wasteOf } from './waste.js';

/** A straight mark, square to the side that lies along the fence. */
export interface Mark {
  /** From the left edge of the blank as it lies, mm. */
  readonly at: number;
  /** From where to where it runs, from the edge at the bottom, mm: a score need not cross the blank. */
  readonly runs: readonly (readonly [from: number, to: number])[];
  readonly fold: 'valley' | 'mountain';
}

/** The blank laid with one side along the fence at the top. */
export interface Side {
  /** Length of that side, mm. */
  readonly side: number;
  /** Scores from left to right. */
  readonly scores: readonly Mark[];
  /** Straight cuts between two panels, from left to right. */
  readonly cuts: readonly Omit<Mark, 'fold'>[];
}

/** A flap whose sides lean in from its fold: cut off `left` and `right` at its free edge, over `depth`. */
export interface Mitre {
  readonly panel: string;
  readonly left: number;
  readonly right: number;
  readonly depth: number;
}

export interface Recipe {
  readonly net: string;
  readonly part: PartName;
  /** The blank as it lies first, its longer side along the fence, seen from the inside of the box; mm. */
  readonly blank: { readonly width: number; readonly height: number };
  readonly first: Side;
  /** How the blank is turned between the sides. */
  readonly turn: 'a quarter clockwise';
  readonly second: Side;
  /** Rectangles to cut away, as the blank lies first, from its lower left corner, mm. */
  readonly away: readonly Cell[];
  readonly mitres: readonly Mitre[];
  /** Straight cuts aslant, from left to right, as the blank lies first, mm: a wall that slopes. */
  readonly slants: readonly Slant[];
}
export interface Slant {
  readonly from: Point;
  readonly to: Point;
}

/** Less of an outline aslant than this, mm, is a cut by eye. */
const LEAST_SLANT = 1;
/** Of a net's paper, what curves may take beside what a ruler marks: corners and notches. */
const MOST_CURVED = 0.08;

/** What is drawn of a net: straight from its drawing. */
export interface Drawn {
  readonly outline: Path;
  readonly slits: readonly Path[];
  readonly scores: readonly { readonly path: Path; readonly angle: number }[];
}

/** Why a net cannot be scored by marks alone. */
export type NoRecipe =
  | { readonly why: 'curled' | 'round'; readonly panel: string }
  | { readonly why: 'slanted'; readonly scores: number }
  | { readonly why: 'curved' };

/** The recipe, or why there is none. */
export function recipeFor(net: Net, drawn: Drawn): Recipe | { readonly none: NoRecipe } {
  const { minX, minY, maxX, maxY } = bounds(drawn.outline);
  const [wide, tall] = [maxX - minX, maxY - minY];
  // The longer side goes along the fence: a tall net is turned clockwise, its left end to the top.
  const lay = (p: Point): Point =>
    wide >= tall ? [p[0] - minX, p[1] - minY] : [p[1] - minY, maxX - p[0]];
  const laid = (path: Path): [Point, Point] => [lay(path.start), lay(endOf(path))];
  const curled = net.panels.find(p => p.bend)?.id;
  if (curled) return { none: { why: 'curled', panel: curled } };
  const round = net.panels.find(p => p.outline.segments.every(s => s.kind !== 'line'))?.id;
  if (round) return { none: { why: 'round', panel: round } };
  const slanted = drawn.scores.filter(s => !isSquare(s.path)).length;
  if (slanted > 0) return { none: { why: 'slanted', scores: slanted } };
  const marks = drawn.scores.map(s => ({ ends: laid(s.path), angle: s.angle }));
  const cuts = drawn.slits.filter(isSquare).map(laid);
  const side = (across: 0 | 1, length: number): Side => ({
    side: length,
    scores: gathered(
      marks.filter(m => runsAlong(m.ends, across)),
      across,
    ),
    cuts: gatheredRuns(
      cuts.filter(c => runsAlong(c, across)),
      across,
    ),
  });
  const blank = { width: Math.max(wide, tall), height: Math.min(wide, tall) };
  const faces = net.panels.map(p => ({ id: p.id, corners: cornersOf(p.outline).map(lay) }));
  const away = wasteOf(blank, faces);
  const mitres = mitresOf(net);
  const slants = slantsOf(net, drawn.outline, mitres).map(([a, b]): Slant => {
    const [from, to] = [lay(a), lay(b)].sort((p, q) => p[0] - q[0]) as [Point, Point];
    return { from, to };
  });
  const sum = (sizes: readonly number[]) => sizes.reduce((a, b) => a + b, 0);
  const paper = sum(net.panels.map(p => signedArea(p.outline)));
  const told =
    sum(away.map(c => (c.x[1] - c.x[0]) * (c.y[1] - c.y[0]))) +
    sum(mitres.map(m => (m.depth * (m.left + m.right)) / 2)) +
    sum(slants.map(({ from, to }) => Math.abs((to[0] - from[0]) * (to[1] - from[1])) / 2));
  if (!(Math.abs(blank.width * blank.height - told - paper) <= MOST_CURVED * paper)) {
    return { none: { why: 'curved' } };
  }
  return {
    net: net.id,
    part: partOf(net),
    blank,
    first: side(0, blank.width),
    turn: 'a quarter clockwise',
    second: side(1, blank.height),
    away,
    mitres,
    slants,
  };
}

/** Straight stretches of the outline aslant that are not the sides of a mitred flap. */
function slantsOf(net: Net, outline: Path, mitres: readonly Mitre[]): (readonly [Point, Point])[] {
  const own = net.panels.filter(p => mitres.some(m => m.panel === p.id));
  return [...steps(outline)].flatMap(({ from, segment }) => {
    const [dx, dy] = [segment.to[0] - from[0], segment.to[1] - from[1]].map(Math.abs);
    if (segment.kind !== 'line' || !(dx! > LEAST_SLANT && dy! > LEAST_SLANT)) return [];
    const middle = lerp(from, segment.to, 0.5);
    const mitred = own.some(p => distanceToPath(middle, p.outline) <= ON_PATH_MM);
    return mitred ? [] : [[from, segment.to] as const];
  });
}

function isSquare(path: Path): boolean {
  const [a, b] = [path.start, endOf(path)];
  const straight = path.segments.every(s => s.kind === 'line');
  return straight && (Math.abs(a[0] - b[0]) <= ON_PATH_MM || Math.abs(a[1] - b[1]) <= ON_PATH_MM);
}

/** Marks at one place of axis 0 run along axis 1, and the other way round. */
const runsAlong = ([a, b]: readonly [Point, Point], across: 0 | 1): boolean =>
  Math.abs(a[across] - b[across]) <= ON_PATH_MM;

function gathered(
  list: readonly { readonly ends: readonly [Point, Point]; readonly angle: number }[],
  across: 0 | 1,
): Mark[] {
  return (['valley', 'mountain'] as const)
    .flatMap(fold => {
      const own = list.filter(m => m.angle > 0 === (fold === 'valley'));
      const runs = gatheredRuns(
        own.map(m => m.ends),
        across,
      );
      return runs.map((r): Mark => ({ ...r, fold }));
    })
    .sort((p, q) => p.at - q.at);
}

function gatheredRuns(
  list: readonly (readonly [Point, Point])[],
  across: 0 | 1,
): { at: number; runs: (readonly [number, number])[] }[] {
  const along = across === 0 ? 1 : 0;
  const marks: { at: number; runs: (readonly [number, number])[] }[] = [];
  for (const [a, b] of list) {
    const at = (a[across] + b[across]) / 2;
    const run = [Math.min(a[along], b[along]), Math.max(a[along], b[along])] as const;
    const mark = marks.find(m => Math.abs(m.at - at) <= ON_PATH_MM);
    if (mark) mark.runs.push(run);
    else marks.push({ at, runs: [run] });
  }
  return marks
    .sort((p, q) => p.at - q.at)
    .map(({ at, runs }) => ({ at, runs: joined(runs.sort((p, q) => p[0] - q[0])) }));
}

/** Runs that touch are one. */
function joined(runs: readonly (readonly [number, number])[]): (readonly [number, number])[] {
  const out: (readonly [number, number])[] = [];
  for (const run of runs) {
    const last = out.at(-1);
    if (last && run[0] <= last[1] + SAME_POINT_MM) {
      out[out.length - 1] = [last[0], Math.max(last[1], run[1])];
    } else out.push(run);
  }
  return out;
}

/** The corners of an outline; of a curve its middle too. */
const cornersOf = (outline: Path): Point[] =>
  [...steps(outline)].flatMap(s =>
    s.segment.kind === 'line' ? [s.segment.to] : [pointAt(s, 0.5), s.segment.to],
  );

/** Flaps on which nothing hangs, whose straight sides lean in from the ends of their fold. */
function mitresOf(net: Net): Mitre[] {
  const parents = new Set(net.hinges.map(h => h.parent));
  return net.hinges.flatMap((h): Mitre[] => {
    const panel = net.panels.find(p => p.id === h.child)!;
    if (parents.has(panel.id) || h.along.segments.length !== 1) return [];
    // With the fold below: it runs from the child's right end to its left one.
    const [right, left] = [h.along.start, endOf(h.along)];
    const long = Math.hypot(right[0] - left[0], right[1] - left[1]);
    const u: Point = [(right[0] - left[0]) / long, (right[1] - left[1]) / long];
    const own = ([x, y]: Point): Point => {
      const [dx, dy] = [x - left[0], y - left[1]];
      return [dx * u[0] + dy * u[1], dy * u[0] - dx * u[1]];
    };
    const corners = panel.outline.segments.map(s => own(s.to));
    const depth = Math.max(...corners.map(c => c[1]));
    const slope = (end: Point) => leanAt(panel.outline, end, own);
    const [l, r] = [slope(left) * depth, -slope(right) * depth];
    const mitred = l > SAME_POINT_MM || r > SAME_POINT_MM;
    return mitred ? [{ panel: panel.id, left: Math.max(0, l), right: Math.max(0, r), depth }] : [];
  });
}

/** How far the side that leaves an end of the fold leans, across per depth; 0 where it is square. */
function leanAt(outline: Path, end: Point, own: (p: Point) => Point): number {
  for (const { from, segment } of steps(outline)) {
    if (segment.kind !== 'line') continue;
    for (const [p, q] of [
      [from, segment.to],
      [segment.to, from],
    ] as const) {
      if (Math.hypot(p[0] - end[0], p[1] - end[1]) > ON_PATH_MM) continue;
      const [a, b] = [own(p), own(lerp(p, q, 1))];
      if (b[1] - a[1] > ON_PATH_MM) return (b[0] - a[0]) / (b[1] - a[1]);
    }
  }
  return 0;
}
