/** All heaps of a treat that fill a given space. */
import type { Treat, Triple } from '../model.js';
import { circlesIn, sectionsIn } from './circles.js';
import { type Heap, hollowRise, nest, pile, type Room, roomOf, turned } from './heaps.js';
import { rolled } from './heaps-for.js';
import { liesOf, type PieceLie } from './lies.js';
import { across, type Plan, stepsIn } from './plan.js';
import { rectanglesIn } from './rectangles.js';

/** As many pieces as each way of lying and each pattern can hold in a space, in `size`'s frame. */
export function heapsIn(treat: Treat, size: Triple): Heap[] {
  const room = roomOf(treat);
  const [length, width, height] = size;
  const heaps = liesOf(treat).flatMap(piece => {
    if (piece.rests === 'curved') {
      const there = rollsIn(piece, [length, width, height], treat.stack, room);
      const back = rollsIn(piece, [width, length, height], treat.stack, room);
      return [...there, ...back.map(turned)];
    }
    const layers = Math.min(treat.stack, stepsIn(height - room.wall, piece.size[2]));
    const area = [length, width].map(s => s - 2 * room.wall + room.between) as [number, number];
    const piles = plansIn(piece, area, room).map(plan =>
      pile(plan, piece, Math.max(0, layers), room),
    );
    return piece.rests === 'ball'
      ? [...piles, ...nestsIn(piece, area, height, treat.stack, room)]
      : piles;
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

function rollsIn(piece: PieceLie, [x, y, z]: Triple, stack: number, room: Room): Heap[] {
  const [d, long] = piece.size;
  const lines = stepsIn(y - 2 * room.wall + room.between, long + room.between);
  const found = sectionsIn(x - 2 * room.wall, z - room.wall, d, d + room.between, stack);
  return found.filter(s => s.plan.total > 0 && lines > 0).map(s => rolled(s, piece, lines, room));
}

function nestsIn(
  piece: PieceLie,
  area: [number, number],
  height: number,
  stack: number,
  room: Room,
): Heap[] {
  const [d] = piece.size;
  const rise = hollowRise(d + room.between, d);
  const [columns, rows] = area.map(s => stepsIn(s, d + room.between)) as [number, number];
  if (rise === undefined || columns < 2 || rows < 2) return [];
  const layers = Math.min(stack, stepsIn(height - room.wall - d, rise) + 1);
  return layers < 2 ? [] : [nest(columns, rows, layers, piece, room, rise)];
}
