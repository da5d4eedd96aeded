/** All heaps of a treat's count that may be worth a box. */
import type { Treat } from '../model.js';
import { circlePlans, type Section, sectionsFor } from './circles.js';
import {
  type Heap,
  hollowRise,
  nest,
  nestedTotal,
  pile,
  type Room,
  roll,
  roomOf,
} from './heaps.js';
import { liesOf, type PieceLie } from './lies.js';
import { leastOf, type Plan, range } from './plan.js';
import { rectanglePlans } from './rectangles.js';

/** For the treat's count. None would hold it with a row, a column or a layer less. `every` keeps
 *  layers that others beat on both sides. */
export function heapsFor(treat: Treat, every = false): Heap[] {
  const room = roomOf(treat);
  return liesOf(treat).flatMap(piece => {
    const heaps = shares(treat.count).flatMap(({ parts, each }) =>
      piece.rests === 'curved'
        ? sections(each, piece, room).map(s => rolled(s, piece, parts, room))
        : plans(each, piece, room, every).map(plan => pile(plan, piece, parts, room)),
    );
    const all = piece.rests === 'ball' ? [...heaps, ...nestsFor(treat.count, piece, room)] : heaps;
    return all.filter(heap => heap.layers <= treat.stack);
  });
}

/** Ways to part a count evenly; where a part less holds no more each, it is left out. */
function shares(count: number): { readonly parts: number; readonly each: number }[] {
  return range(count).flatMap(i => {
    const parts = i + 1;
    const each = Math.ceil(count / parts);
    return (parts - 1) * each >= count ? [] : [{ parts, each }];
  });
}

function plans(count: number, piece: PieceLie, { between }: Room, every: boolean): Plan[] {
  const [w, d] = piece.size;
  const all = piece.round
    ? circlePlans(count, w + between)
    : rectanglePlans(count, w + between, d + between);
  return every ? all : leastOf(all);
}

const sections = (count: number, { size: [d] }: PieceLie, { between }: Room): Section[] =>
  sectionsFor(count, d, d + between);

/** A section, `lines` of it one behind the other. */
export const rolled = (
  { plan, grooved }: Section,
  piece: PieceLie,
  lines: number,
  room: Room,
): Heap => roll(plan, piece, lines, room, grooved ? 0 : room.between);

function nestsFor(count: number, piece: PieceLie, room: Room): Heap[] {
  const rise = hollowRise(piece.size[0] + room.between, piece.size[0]);
  if (rise === undefined) return [];
  const heaps: Heap[] = [];
  for (let columns = 2; columns < count; columns++) {
    for (let rows = 2; rows <= columns && columns * rows < count; rows++) {
      const layers = layersFor(count, columns, rows);
      if (nestedTotal(columns - 1, rows, layers) >= count) continue;
      heaps.push(nest(columns, rows, layers, piece, room, rise));
    }
  }
  return heaps;
}

/** The fewest layers, two or more, that hold `count`. */
function layersFor(count: number, columns: number, rows: number): number {
  const pair = nestedTotal(columns, rows, 2);
  const least = Math.max(2, 2 * Math.floor(count / pair));
  // So many pairs are too few by less than a pair.
  return (
    range(2)
      .map(i => least + i)
      .find(n => nestedTotal(columns, rows, n) >= count) ?? least + 2
  );
}
