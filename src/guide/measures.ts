/** What is measured of a net in the flat: distances from line to line along both axes, and the lengths of
 *  what lies along neither. */
import {
  bounds,
  contains,
  endOf,
  flatten,
  pathLength,
  pointAt,
  type Step,
  signedArea,
  stepLength,
  steps,
  tangentAt,
} from '../geom/index.js';
import type { Lettered, Measure } from '../guide-model.js';
import type { Net, Path, Point, Segment } from '../model.js';
import { ON_PATH_MM } from '../units/tolerances.js';
import type { Drawn } from './recipe.js';

/** Lines nearer to each other than this are one to a ruler: paper's thickness parts them. */
const ONE_LINE_MM = 1;
/** Shorter edges follow from the ones beside them. */
const LEAST_EDGE_MM = 6;
/** More places along an axis than this are told for folds alone; and then for square folds alone. */
const MOST_PLACES = 16;
/** Slanted and curved lines shorter than this get no letter. */
const LEAST_LETTERED_MM = 8;
/** Lengths alike to the eye. */
const ALIKE_MM = 0.4;
const LETTERS = 'abcdefghijklmnopqrstuvwxyz';
/** Cosine of the angle from which two curves meet in a corner: about 8 degrees. */
const CORNER = 0.99;
/** A letter stands at this many of its lines. */
const MOST_COPIES = 2;

/** A line that is told by where it stands on one axis. `span` is how far it runs on the other. */
interface Stand {
  readonly at: number;
  readonly span: readonly [number, number];
  readonly long: number;
}

export function measuresOf({ outline, scores }: Drawn): Measure[] {
  const box = bounds(outline);
  return (['x', 'y'] as const).flatMap(axis => {
    const [i, j] = axis === 'x' ? ([0, 1] as const) : ([1, 0] as const);
    const [low, high] = axis === 'x' ? [box.minX, box.maxX] : [box.minY, box.maxY];
    const [near, far] = axis === 'x' ? [box.minY, box.maxY] : [box.minX, box.maxX];
    const folds = scores.flatMap(s => standsOf(s.path, i, j));
    const square = folds.filter(f => f.span[1] - f.span[0] > ON_PATH_MM);
    const edges = edgesAt(outline, i, j);
    const lists = [[...folds, ...edges], folds, square].map(list => gathered(list));
    const places = lists.find(l => l.length <= MOST_PLACES) ?? lists[2]!;
    const inner = places.filter(p => p.at > low + ONE_LINE_MM && p.at < high - ONE_LINE_MM);
    const isLow = (p: Stand) => p.span[0] - near <= far - p.span[1];
    const ends = [
      { at: low, span: extent(outline, i, j, low) },
      { at: high, span: extent(outline, i, j, high) },
    ] as const;
    const chain = (side: 'low' | 'high', own: readonly Stand[]): Measure[] => {
      if (own.length === 0) return [];
      const all = [ends[0], ...own, ends[1]];
      const reach = (p: Pick<Stand, 'span'>) => (side === 'low' ? p.span[0] : p.span[1]);
      return all.slice(1).map((p, k): Measure => {
        const before = all[k]!;
        return {
          axis,
          side,
          from: before.at,
          to: p.at,
          reach: [reach(before), reach(p)],
          whole: false,
        };
      });
    };
    const whole: Measure = {
      axis,
      side: 'low',
      from: low,
      to: high,
      reach: [ends[0].span[0], ends[1].span[0]],
      whole: true,
    };
    return [
      ...chain('low', inner.filter(isLow)),
      ...chain(
        'high',
        inner.filter(p => !isLow(p)),
      ),
      whole,
    ];
  });
}

/** Where a fold stands on axis i: once where it runs square to it, else where both its ends are. */
function standsOf(path: Path, i: 0 | 1, j: 0 | 1): Stand[] {
  const [a, b] = [path.start, endOf(path)];
  const straight = path.segments.every(s => s.kind === 'line');
  if (straight && Math.abs(a[j] - b[j]) <= ON_PATH_MM) return [];
  if (straight && Math.abs(a[i] - b[i]) <= ON_PATH_MM) return [between(a, b, i, j)];
  return [a, b].map(p => ({ at: p[i], span: [p[j], p[j]] as const, long: 0 }));
}

const between = (a: Point, b: Point, i: 0 | 1, j: 0 | 1): Stand => ({
  at: (a[i] + b[i]) / 2,
  span: [Math.min(a[j], b[j]), Math.max(a[j], b[j])],
  long: Math.abs(a[j] - b[j]),
});

/** Edges of the paper that run square to axis i. */
const edgesAt = (outline: Path, i: 0 | 1, j: 0 | 1): Stand[] =>
  [...steps(outline)].flatMap(({ from, segment: { kind, to } }) => {
    const square = kind === 'line' && Math.abs(from[i] - to[i]) <= ON_PATH_MM;
    return square && Math.abs(from[j] - to[j]) >= LEAST_EDGE_MM ? [between(from, to, i, j)] : [];
  });

/** How far the paper reaches on axis j where it is outermost on axis i. */
function extent(outline: Path, i: 0 | 1, j: 0 | 1, at: number): readonly [number, number] {
  const there = flatten(outline, ON_PATH_MM).filter(p => Math.abs(p[i] - at) <= ONE_LINE_MM);
  const all = there.map(p => p[j]);
  return [Math.min(...all), Math.max(...all)];
}

/** Lines that are one to a ruler, each told by its longest. */
function gathered(list: readonly Stand[]): Stand[] {
  const out: Stand[] = [];
  for (const s of [...list].sort((p, q) => p.at - q.at)) {
    const last = out.at(-1);
    if (!last || s.at - last.at > ONE_LINE_MM) {
      out.push(s);
      continue;
    }
    const span = [Math.min(last.span[0], s.span[0]), Math.max(last.span[1], s.span[1])] as const;
    const at = s.long > last.long ? s.at : last.at;
    out[out.length - 1] = { at, span, long: Math.max(last.long, s.long) };
  }
  return out;
}

interface Slanted {
  readonly length: number;
  /** Of an arc; of another curve, how far it rises over its chord. */
  readonly radius?: number;
  readonly rise?: number;
  readonly hole?: NonNullable<Lettered['hole']>;
  readonly middle: Point;
}

/** Lines along neither axis, the longest first, then holes; those alike have one letter. */
export function letteredOf(
  { outline, scores, holes }: Drawn & { readonly holes: readonly Path[] },
  net: Net,
): {
  readonly lettered: readonly Lettered[];
  /** Kinds for which no letter was left. */
  readonly over: number;
} {
  const lines = [...scores.flatMap(s => slantedIn(s.path)), ...slantedIn(outline)].filter(
    s => s.length >= LEAST_LETTERED_MM,
  );
  const kinds: Slanted[][] = [];
  for (const line of lines.sort((p, q) => q.length - p.length)) {
    const alike = kinds.find(
      ([k]) =>
        Math.abs(k!.length - line.length) <= ALIKE_MM &&
        Math.abs((k!.radius ?? 0) - (line.radius ?? 0)) <= ALIKE_MM &&
        Math.abs((k!.rise ?? 0) - (line.rise ?? 0)) <= ALIKE_MM,
    );
    if (alike) alike.push(line);
    else kinds.push([line]);
  }
  const pierced = holeKinds(holes, net);
  const most = Math.max(0, LETTERS.length - pierced.length);
  const told = [...kinds.slice(0, most), ...pierced];
  const lettered = told.slice(0, LETTERS.length).map((kind, n): Lettered => {
    const { middle: _, ...own } = kind[0]!;
    return { letter: LETTERS[n]!, ...own, at: spread(kind.map(k => k.middle)) };
  });
  return { lettered, over: kinds.length + pierced.length - lettered.length };
}

/** Holes of one size at one distance from their fold are one kind. */
function holeKinds(holes: readonly Path[], net: Net): Slanted[][] {
  const kinds = new Map<string, Slanted[]>();
  for (const path of holes) {
    const b = bounds(path);
    const size = [b.maxX - b.minX, b.maxY - b.minY] as const;
    const middle: Point = [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
    // A circle's area: an ellipse or a heart of the same bounds is less.
    const full = (Math.PI / 4) * size[0] * size[1];
    const round =
      Math.abs(size[0] - size[1]) <= ALIKE_MM &&
      Math.abs(Math.abs(signedArea(path)) - full) < 0.01 * full;
    const fromFold = foldBeside(middle, net);
    const key = [...size, round, fromFold ?? '']
      .map(v => (typeof v === 'number' ? Math.round(v / ALIKE_MM) : v))
      .join();
    const hole = { size, round, ...(fromFold !== undefined && { fromFold }) };
    // At its rim, so that it is seen.
    const made = { length: pathLength(path), hole, middle: [b.maxX, middle[1]] as const };
    kinds.set(key, [...(kinds.get(key) ?? []), made]);
  }
  return [...kinds.values()];
}

/** How far a point is from the straight fold that its panel hangs on. */
function foldBeside(at: Point, { panels, hinges }: Net): number | undefined {
  const panel = panels.find(p => contains(p.outline, at) === 'in');
  const along = hinges.find(h => h.child === panel?.id)?.along;
  if (along?.segments.length !== 1 || along.segments[0]!.kind !== 'line') return undefined;
  const [a, b] = [along.start, endOf(along)];
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return Math.abs((b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0])) / long;
}

/** The first place, and the one furthest from it. */
function spread(places: readonly Point[]): Point[] {
  const [first] = places;
  const far = (p: Point) => Math.hypot(p[0] - first![0], p[1] - first![1]);
  const last = places.reduce((best, p) => (far(p) > far(best) ? p : best), first!);
  return last === first ? [first!] : [first!, last].slice(0, MOST_COPIES);
}

/** Straight lines by themselves; curves that run on from each other as one. */
function slantedIn(path: Path): Slanted[] {
  const out: Slanted[] = [];
  let curve: Step[] = [];
  const close = () => {
    if (curve.length > 0) out.push(curveOf(curve));
    curve = [];
  };
  for (const step of steps(path)) {
    const { from, segment } = step;
    if (segment.kind !== 'line') {
      if (curve.length > 0 && !runsOn(curve.at(-1)!, step)) close();
      curve.push(step);
      continue;
    }
    close();
    if (isSquare(from, segment)) continue;
    out.push({ length: stepLength(step), middle: pointAt(step, 0.5) });
  }
  close();
  return out;
}

/** Without a corner, and with the curve's own radius where both are arcs. */
function runsOn(a: Step, b: Step): boolean {
  const [u, v] = [tangentAt(a, 1), tangentAt(b, 0)];
  const smooth = u[0] * v[0] + u[1] * v[1] > CORNER;
  const [r, s] = [radiusOf(a), radiusOf(b)];
  return (
    smooth && (r === undefined) === (s === undefined) && Math.abs((r ?? 0) - (s ?? 0)) <= ALIKE_MM
  );
}

function curveOf(curve: readonly Step[]): Slanted {
  const length = curve.reduce((sum, s) => sum + stepLength(s), 0);
  const middle = pointAt(curve[curve.length >> 1]!, curve.length % 2 ? 0.5 : 0);
  const radius = radiusOf(curve[0]!);
  if (radius !== undefined) return { length, radius, middle };
  const [a, b] = [curve[0]!.from, curve.at(-1)!.segment.to];
  const chord = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const off = (p: Point) =>
    chord > 0
      ? Math.abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / chord
      : Math.hypot(p[0] - a[0], p[1] - a[1]);
  const rise = Math.max(...curve.flatMap(s => [0.25, 0.5, 0.75, 1].map(t => off(pointAt(s, t)))));
  return { length, rise, middle };
}

const isSquare = (a: Point, { to: b }: Segment): boolean =>
  Math.abs(a[0] - b[0]) <= ON_PATH_MM || Math.abs(a[1] - b[1]) <= ON_PATH_MM;

/** Of a bulge b on a chord c: c (1 + b²) / (4 |b|). */
function radiusOf({ from: a, segment }: Step): number | undefined {
  if (segment.kind !== 'arc') return undefined;
  const { to: b, bulge } = segment;
  return (Math.hypot(b[0] - a[0], b[1] - a[1]) * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
}
