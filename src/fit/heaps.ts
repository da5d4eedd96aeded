/**
 * From plans to heaps in space: even pieces stand on each other, lying rounds rest in rows on each
 * other or in the grooves between, balls in the hollows. x, y level, z up, mm, from the lower left
 * front corner of the box; the clearance is kept to the walls and the lid.
 */
import type { Arrangement, Treat, Triple } from '../model.js';
import type { PieceLie } from './lies.js';
import { gridPlan, type Plan, range, rowsTurned } from './plan.js';

export interface Piece3 {
  readonly at: Triple;
  readonly size: Triple;
  /** 0, 1, 2 for x, y, z: of rounds that are no balls. */
  readonly axis?: 0 | 1 | 2;
  readonly layer: number;
  readonly row: number;
}

export interface Heap {
  readonly pattern: Arrangement['pattern'];
  readonly lie: Arrangement['lie'];
  readonly columns: number;
  readonly rows: number;
  readonly layers: number;
  readonly rowsAcross: boolean;
  readonly total: number;
  /** The clear space that it needs. */
  readonly size: Triple;
  /** In no order. */
  pieces(): readonly Piece3[];
}

/** Room around pieces, mm: to the walls, and between two. */
export interface Room {
  readonly wall: number;
  readonly between: number;
}
export const roomOf = ({ clearance, apart }: Treat): Room => ({
  wall: clearance,
  between: Math.max(apart, clearance),
});

/** Layers of even pieces, straight on each other. The plan's pieces are `between` larger than the
 *  treat's. Balls too, with paper or a tray between the layers. */
export function pile(plan: Plan, piece: PieceLie, layers: number, { wall, between }: Room): Heap {
  const [w, d, h] = piece.size;
  const shift = wall - between / 2;
  return {
    pattern: plan.pattern,
    lie: piece.lie,
    columns: plan.columns,
    rows: plan.rows,
    layers,
    rowsAcross: plan.rowsAcross,
    total: plan.total * layers,
    size: [plan.width + 2 * shift, plan.depth + 2 * shift, layers * h + wall],
    pieces: () =>
      range(layers).flatMap(layer =>
        plan.spots().map(({ x, y, row, turned }) => ({
          at: [x + shift, y + shift, (layer + 0.5) * h],
          size: turned ? [d, w, h] : [w, d, h],
          ...(piece.rests === 'even' && piece.round ? { axis: 2 } : {}),
          layer,
          row,
        })),
      ),
  };
}

/** Lying rounds: a section across their axes, `lines` of it one behind the other. The section's
 *  pieces are `between` apart level, and touch upward; `loose` is what its width holds beyond. */
export function roll(
  section: Plan,
  piece: PieceLie,
  lines: number,
  { wall, between }: Room,
  loose: number,
): Heap {
  const [d, long] = piece.size;
  const shift = wall - loose / 2;
  return {
    pattern: section.pattern,
    lie: piece.lie,
    columns: section.columns,
    rows: lines,
    layers: section.rows,
    rowsAcross: false,
    total: section.total * lines,
    size: [
      section.width + 2 * shift,
      lines * (long + between) - between + 2 * wall,
      section.depth + wall,
    ],
    pieces: () =>
      range(lines).flatMap(line =>
        section.spots().map(({ x, y, row }) => ({
          at: [x + shift, wall + long / 2 + line * (long + between), y],
          size: [d, long, d],
          axis: 1,
          layer: row,
          row: line,
        })),
      ),
  };
}

/** From layer to layer of balls `pitch` apart in square rows, each in the hollow of four; undefined
 *  where they fall through until every second layer would touch. */
export function hollowRise(pitch: number, diameter: number): number | undefined {
  const rise = Math.sqrt(Math.max(0, diameter * diameter - (pitch * pitch) / 2));
  return rise >= diameter / 2 ? rise : undefined;
}

export const nestedTotal = (columns: number, rows: number, layers: number): number =>
  Math.ceil(layers / 2) * columns * rows + Math.floor(layers / 2) * (columns - 1) * (rows - 1);

/** Balls in square layers, every second one in the hollows of the one below and a row smaller. */
export function nest(
  columns: number,
  rows: number,
  layers: number,
  piece: PieceLie,
  { wall, between }: Room,
  rise: number,
): Heap {
  const d = piece.size[0];
  const pitch = d + between;
  const shift = wall - between / 2;
  const odd = gridPlan(columns - 1, rows - 1, pitch, pitch).spots();
  const even = gridPlan(columns, rows, pitch, pitch).spots();
  return {
    pattern: 'nested',
    lie: piece.lie,
    columns,
    rows,
    layers,
    rowsAcross: false,
    total: nestedTotal(columns, rows, layers),
    size: [columns * pitch + 2 * shift, rows * pitch + 2 * shift, d + (layers - 1) * rise + wall],
    pieces: () =>
      range(layers).flatMap(layer => {
        const moved = shift + (layer % 2 === 1 ? pitch / 2 : 0);
        return (layer % 2 === 1 ? odd : even).map(({ x, y, row }) => ({
          at: [x + moved, y + moved, d / 2 + layer * rise] as const,
          size: piece.size,
          layer,
          row,
        }));
      }),
  };
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
