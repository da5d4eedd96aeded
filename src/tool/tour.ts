/**
 * The shortest way round a set of stops that a tool must visit, each entered at one of several
 * places, some only after others. Nearest neighbour first, then 2-opt and Or-opt over near
 * neighbours, where a stop that is carried is entered anew, then small kicks, each kept if it helps
 * (iterated local search); all entry places are chosen by dynamic programming between rounds.
 * Everything is bounded and repeatable.
 */
import { TourSearch } from './tour-search.js';
import { gap, type Stop, type TourOptions, type Visit } from './tour-state.js';

export type { Entry, Stop, TourOptions, Visit } from './tour-state.js';

/** Travel of a sequence of visits, mm, work along the stops not counted. */
export function travelOf(
  stops: readonly Stop[],
  visits: readonly Visit[],
  { from, to }: Pick<TourOptions, 'from' | 'to'>,
): number {
  let total = 0;
  let at = from;
  for (const { stop, entry } of visits) {
    const e = stops[stop]!.entries[entry]!;
    total += gap(at, e.start);
    at = e.end;
  }
  return to ? total + gap(at, to) : total;
}

/** Kicks for each stop, and in all. Six times as many made the demo 0.24 % less travel for 0.8 s more. */
const MAX_KICKS = 3_000;
const KICKS_PER_STOP = 1;
const ROUNDS = 3;

export function shortTour(stops: readonly Stop[], options: TourOptions): Visit[] {
  if (stops.length === 0) return [];
  const search = new TourSearch(stops, options);
  search.nearestFirst();
  const kicks = options.kicks ?? Math.min(MAX_KICKS, stops.length * KICKS_PER_STOP);
  for (let round = 0; round < ROUNDS; round++) {
    search.improve();
    search.chooseEntries();
    search.kick(Math.ceil(kicks / ROUNDS));
    search.chooseEntries();
  }
  search.improve();
  search.chooseEntries();
  return search.visits();
}
