/**
 * The order in which paths of one operation are worked, where each begins and which way it runs.
 * What a contour holds comes before the contour, so nothing is cut from a piece that lies loose.
 * Much smaller pieces come before larger ones, while the sheet is whole and holds still. Under
 * that the travel of the lifted tool is kept short. A row of dashes is worked from one end.
 */
import {
  endOf,
  type Path,
  type Point,
  reverse,
  signedArea,
  splitStep,
  startingAt,
  stepLength,
  steps,
} from '../geom/index.js';
import { holders } from './nesting.js';
import { type Row, rowsOf } from './rows.js';
import { type Entry, type Stop, shortTour, type Visit } from './tour.js';

export interface OrderOptions {
  /** Where the tool waits at first; the sheet's origin if not given. */
  readonly from?: Point;
  /** For path i, the closed contour that it is a part of, where it no longer is one itself. */
  readonly contours?: readonly (Path | undefined)[];
  /** Closed contours that lost edges to others, even all of them. */
  readonly outlines?: readonly Path[];
  /** Closed paths begin in the middle of a straight run of at least this, mm, where they have one,
   *  so that a blade is not lowered into a corner. Left out, they begin at a corner. */
  readonly leadIn?: number | undefined;
  /** Most kicks of the search; see `shortTour`. */
  readonly kicks?: number;
}

export interface Ordered {
  readonly paths: readonly Path[];
  /** Index of each in what was given. */
  readonly sources: readonly number[];
  /** Travel of the lifted tool, mm, as given and as ordered, from the same place. */
  readonly travelBefore: number;
  readonly travelAfter: number;
}

export function orderPaths(paths: readonly Path[], options: OrderOptions = {}): Ordered {
  const from: Point = options.from ?? [0, 0];
  const held = holders(paths, options.contours, options.outlines);
  const { contours } = options;
  const rows = rowsOf(paths, (a, b) => held[a] !== held[b] || contours?.[a] !== contours?.[b]);
  const rowOf = new Int32Array(paths.length);
  rows.forEach(({ members }, row) => {
    for (const i of members) rowOf[i] = row;
  });
  const ways = rows.map(row => waysThrough(row, paths, options.leadIn));
  const stops = rows.map(({ members }, row): Stop => {
    const holder = held[members[0]!]!;
    return { entries: ways[row]!, before: holder >= 0 ? rowOf[holder]! : undefined };
  });
  const visits: Visit[] = [];
  let at = from;
  for (const members of bySize(paths, held, contours)) {
    const group = [...new Set(members.map(i => rowOf[i]!))];
    const place = new Map(group.map((stop, k) => [stop, k]));
    const some = group.map((row): Stop => {
      const { entries, before } = stops[row]!;
      return { entries, before: before === undefined ? undefined : place.get(before) };
    });
    const tour = shortTour(some, { from: at, kicks: options.kicks });
    for (const { stop, entry } of tour) visits.push({ stop: group[stop]!, entry });
    const last = visits.at(-1)!;
    at = stops[last.stop]!.entries[last.entry]!.end;
  }
  const ordered = visits.flatMap(({ stop, entry }) => ways[stop]![entry]!.work());
  return {
    paths: ordered.map(o => o.path),
    sources: ordered.map(o => o.source),
    travelBefore: travel(paths, from),
    travelAfter: travel(
      ordered.map(o => o.path),
      from,
    ),
  };
}

/** Travel of the lifted tool from a place, the sheet's origin if not given, through paths in order, mm. */
export function travel(paths: readonly Path[], from: Point = [0, 0]): number {
  let total = 0;
  let at = from;
  for (const path of paths) {
    total += Math.hypot(path.start[0] - at[0], path.start[1] - at[1]);
    at = endOf(path);
  }
  return total;
}

/** One way to work a row: where the tool comes down and goes up, and the paths as worked. */
interface Way extends Entry {
  readonly work: () => readonly { readonly path: Path; readonly source: number }[];
}

function waysThrough({ members, round }: Row, paths: readonly Path[], leadIn?: number): Way[] {
  const first = members[0]!;
  const path = paths[first]!;
  if (path.closed) {
    return startsOf(path, leadIn).map(start => ({
      start: start.at,
      end: start.at,
      work: () => [{ path: beginAt(path, start), source: first }],
    }));
  }
  if (round) {
    return thinned(members.map((_, k) => k)).map(k => {
      const turned = [...members.slice(k), ...members.slice(0, k)];
      return {
        start: paths[turned[0]!]!.start,
        end: endOf(paths[turned.at(-1)!]!),
        work: () => turned.map(source => ({ path: paths[source]!, source })),
      };
    });
  }
  const start = path.start;
  const end = endOf(paths[members.at(-1)!]!);
  const ahead = () => members.map(source => ({ path: paths[source]!, source }));
  const back = () => members.map(source => ({ path: reverse(paths[source]!), source })).reverse();
  return [
    { start, end, work: ahead },
    { start: end, end: start, work: back },
  ];
}

/** Pieces sixteen times as large, four times as long and wide, come later. */
const SIZE_STEP = 16;

/** Paths in groups, smallest pieces first; what a contour holds goes with the outermost one. Lines
 *  that no contour holds go first of all. */
function bySize(
  paths: readonly Path[],
  held: Int32Array,
  contours: OrderOptions['contours'] = [],
): number[][] {
  const areas = paths.map((path, i) => {
    const ring = contours[i] ?? (path.closed ? path : undefined);
    return ring ? Math.abs(signedArea(ring)) : 0;
  });
  const largest = areas.reduce((a, b) => Math.max(a, b), 0);
  const groups = new Map<number, number[]>();
  paths.forEach((_, i) => {
    let root = i;
    while (held[root]! >= 0) root = held[root]!;
    const steps = Math.log(largest / areas[root]!) / Math.log(SIZE_STEP);
    const group = areas[root]! > 0 ? Math.round(steps) : Number.POSITIVE_INFINITY;
    const members = groups.get(group);
    if (members) members.push(i);
    else groups.set(group, [i]);
  });
  return [...groups].sort((a, b) => b[0] - a[0]).map(([, members]) => members);
}

/** A place on a closed path: the start of a segment, or its middle. */
interface Beginning {
  readonly at: Point;
  readonly segment: number;
  readonly middle: boolean;
}

/** More beginnings than this are thinned out evenly. */
const MOST_BEGINNINGS = 12;

function startsOf(path: Path, leadIn: number | undefined): readonly Beginning[] {
  const corners: Beginning[] = [];
  const straights: Beginning[] = [];
  let k = 0;
  for (const step of steps(path)) {
    corners.push({ at: step.from, segment: k, middle: false });
    if (leadIn !== undefined && step.segment.kind === 'line' && stepLength(step) >= leadIn) {
      straights.push({ at: splitStep(step, 0.5)[1].from, segment: k, middle: true });
    }
    k++;
  }
  const all = straights.length > 0 ? straights : corners;
  return thinned(all);
}

function thinned<T>(all: readonly T[]): readonly T[] {
  if (all.length <= MOST_BEGINNINGS) return all;
  return Array.from(
    { length: MOST_BEGINNINGS },
    (_, i) => all[Math.floor((i * all.length) / MOST_BEGINNINGS)]!,
  );
}

function beginAt(path: Path, { at, segment, middle }: Beginning): Path {
  const turned = startingAt(path, segment);
  if (!middle) return turned;
  const [first, ...rest] = turned.segments;
  const [a, b] = splitStep({ from: turned.start, segment: first! }, 0.5);
  return { start: at, segments: [b.segment, ...rest, { ...a.segment, to: at }], closed: true };
}
