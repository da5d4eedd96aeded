/** All heaps of a treat that may be worth a box, and all that fill a given space. */
import type { Treat, Triple } from '../model.js';
import { circlePlans, circlesIn, type Section, sectionsFor, sectionsIn } from './circles.js';
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
import { across, leastOf, type Plan, range, rowsTurned, stepsIn } from './plan.js';
import { rectanglePlans, rectanglesIn } from './rectangles.js';

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
    return piece.rests === 'ball' ? [...heaps, ...nestsFor(treat.count, piece, room)] : heaps;
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

const rolled = ({ plan, grooved }: Section, piece: PieceLie, lines: number, room: Room): Heap =>
  roll(plan, piece, lines, room, grooved ? 0 : room.between);

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

/** As many pieces as each way of lying and each pattern can hold in a space, in `size`'s frame. */
export function heapsIn(treat: Treat, size: Triple): Heap[] {
  const room = roomOf(treat);
  const [length, width, height] = size;
  const heaps = liesOf(treat).flatMap(piece => {
    if (piece.rests === 'curved') {
      const there = rollsIn(piece, [length, width, height], room);
      const back = rollsIn(piece, [width, length, height], room);
      return [...there, ...back.map(turned)];
    }
    const layers = stepsIn(height - room.wall, piece.size[2]);
    const area = [length, width].map(s => s - 2 * room.wall + room.between) as [number, number];
    const piles = plansIn(piece, area, room).map(plan =>
      pile(plan, piece, Math.max(0, layers), room),
    );
    return piece.rests === 'ball' ? [...piles, ...nestsIn(piece, area, height, room)] : piles;
  });
  return heaps.filter(heap => heap.total > 0);
}

function plansIn(
  { size: [w, d], round }: PieceLie,
  area: [number, number],
  { between }: Room,
): Plan[] {
  const [x, y] = area;
  if (!(x > 0 && y > 0)) return [];
  if (!round) return rectanglesIn(x, y, w + between, d + between);
  return [...circlesIn(x, y, w + between), ...circlesIn(y, x, w + between).map(across)];
}

function rollsIn(piece: PieceLie, [x, y, z]: Triple, room: Room): Heap[] {
  const [d, long] = piece.size;
  const lines = stepsIn(y - 2 * room.wall + room.between, long + room.between);
  const found = sectionsIn(x - 2 * room.wall, z - room.wall, d, d + room.between);
  return found.filter(s => s.plan.total > 0 && lines > 0).map(s => rolled(s, piece, lines, room));
}

function nestsIn(piece: PieceLie, area: [number, number], height: number, room: Room): Heap[] {
  const [d] = piece.size;
  const rise = hollowRise(d + room.between, d);
  const [columns, rows] = area.map(s => stepsIn(s, d + room.between)) as [number, number];
  if (rise === undefined || columns < 2 || rows < 2) return [];
  const layers = stepsIn(height - room.wall - d, rise) + 1;
  return layers < 2 ? [] : [nest(columns, rows, layers, piece, room, rise)];
}

/** A heap with its length and width exchanged. */
export function turned(heap: Heap): Heap {
  const [x, y, z] = heap.size;
  return {
    ...heap,
    ...rowsTurned(heap),
    size: [y, x, z],
    pieces: () =>
      heap.pieces().map(({ at, size, axis, ...rest }) => ({
        ...rest,
        at: [at[1], at[0], at[2]],
        size: [size[1], size[0], size[2]],
        ...(axis === undefined ? {} : { axis: axis === 2 ? 2 : axis === 1 ? 0 : 1 }),
      })),
  };
}
