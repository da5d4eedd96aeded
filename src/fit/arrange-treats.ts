/** Arrangements of a treat: all that are worth a box, and the fullest one in a given box. */
import type { Arrangement, Inside, Place, Treat } from '../model.js';
import { SIDES } from '../model.js';
import { SAME_POINT_MM } from '../units/tolerances.js';
import { type Heap, turned } from './heaps.js';
import { heapsFor } from './heaps-for.js';
import { heapsIn } from './heaps-in.js';
import { simpler } from './plan.js';

/** What a person may fix beforehand; as the numbers of `Arrangement`. */
export interface Choice {
  readonly columns?: number | undefined;
  readonly rows?: number | undefined;
  readonly layers?: number | undefined;
  /** Straight rows only, as slotted dividers need them. */
  readonly straight?: boolean | undefined;
}

/** An arrangement before its places are worked out. */
export interface Outline {
  readonly inside: Inside;
  readonly columns: number;
  readonly rows: number;
  readonly layers: number;
  readonly rowsAcross: boolean;
  readonly spare: number;
  readonly heap: Heap;
}

/** What comes later takes more space than any box for a treat would. */
const MOST_OUTLINES = 400;

/** Every arrangement of the treat's count that no other beats on length, width and height at once
 *  (the simpler pattern of equals), the least space first. Length is at least width. */
export function outlinesFor(treat: Treat, choice: Choice = {}): Outline[] {
  const chosen = Object.values(choice).some(v => v !== undefined && v !== false);
  const all = heapsFor(treat, chosen)
    .map(heap => outlineOf(heap, treat.count))
    .filter(o => fits(o, choice))
    .map(o => ({ o, space: spaceOf(o.inside) }))
    .sort(
      (a, b) =>
        a.space - b.space || simpler(a.o.heap.pattern, b.o.heap.pattern) || a.o.spare - b.o.spare,
    );
  const kept: Outline[] = [];
  for (const { o } of all) {
    if (kept.length === MOST_OUTLINES) break;
    if (!kept.some(k => within(k.inside, o.inside))) kept.push(o);
  }
  return kept;
}

export const arrangementsFor = (treat: Treat, choice: Choice = {}): Arrangement[] =>
  outlinesFor(treat, choice).map(o => arranged(treat, o));

export interface Fullest {
  readonly count: number;
  /** Where they go, unless they are more than `MOST_PLACES`. The arrangement's treat has `count` as
   *  its own, and its `inside` is what they need. */
  readonly arrangement?: Arrangement;
}
/** Nobody lays out more one by one. */
export const MOST_PLACES = 2000;

/** As many pieces as we find room for in `inside`. */
export function fullest(treat: Treat, inside: Inside): Fullest {
  const heaps = heapsIn(treat, [inside.length, inside.width, inside.height]);
  const best = heaps.reduce<Heap | undefined>((a, b) => (a && !better(b, a) ? a : b), undefined);
  const count = best?.total ?? 0;
  if (!best || count > MOST_PLACES) return { count };
  return { count, arrangement: arranged({ ...treat, count }, asItStands(best, count)) };
}

function better(a: Heap, b: Heap): boolean {
  if (a.total !== b.total) return a.total > b.total;
  const simple = simpler(a.pattern, b.pattern);
  return simple !== 0
    ? simple < 0
    : a.size[0] * a.size[1] * a.size[2] < b.size[0] * b.size[1] * b.size[2];
}

function asItStands(heap: Heap, count: number): Outline {
  const [length, width, height] = heap.size;
  const { columns, rows, layers, rowsAcross } = heap;
  const inside = { length, width, height };
  return { inside, columns, rows, layers, rowsAcross, spare: heap.total - count, heap };
}

const outlineOf = (heap: Heap, count: number): Outline =>
  asItStands(heap.size[0] + SAME_POINT_MM >= heap.size[1] ? heap : turned(heap), count);

const fits = (o: Outline, { columns, rows, layers, straight }: Choice): boolean =>
  (columns === undefined || o.columns === columns) &&
  (rows === undefined || o.rows === rows) &&
  (layers === undefined || o.layers === layers) &&
  (!straight || o.heap.pattern === 'grid');

const spaceOf = ({ length, width, height }: Inside) => length * width * height;
const within = (a: Inside, b: Inside) => SIDES.every(s => a[s] <= b[s] + SAME_POINT_MM);

/** The places of an outline, lowest layer first, then from the front, then from the left. */
export function arranged(treat: Treat, outline: Outline): Arrangement {
  const { inside, columns, rows, layers, rowsAcross, spare, heap } = outline;
  const pieces = [...heap.pieces()].sort(
    (a, b) => a.layer - b.layer || a.row - b.row || a.at[1] - b.at[1] || a.at[0] - b.at[0],
  );
  const places = pieces.slice(0, treat.count).map(
    ({ at, size, axis, layer }): Place => ({
      at,
      size,
      ...(axis === undefined ? {} : { axis: SIDES[axis]! }),
      layer,
    }),
  );
  return {
    treat,
    pattern: heap.pattern,
    lie: heap.lie,
    columns,
    rows,
    layers,
    rowsAcross,
    inside,
    up: 'height',
    places,
    spare,
  };
}
