/**
 * Pieces by their true shapes: each goes to the lowest, then leftmost place where it fits, in the turn
 * that ends lowest ("bottom-left"; on a grid, so that any outline will do). Slower than by boxes and
 * looser by a fraction of a cell; worth it where rounds and hearts can lie in each other's corners.
 */
import { signedArea, transform } from '../geom/index.js';
import type { Bounds } from '../model.js';
import {
  type FillOne,
  fillSheets,
  type Pattern,
  type Put,
  type Quarters,
  sheetCount,
} from './fill.js';
import { type PieceBox, turning } from './footprint.js';
import { inOwnOrder, ORDERS } from './orders.js';
import { Grid, type Silhouette, silhouette } from './silhouette.js';

/** A finer grid packs closer and takes longer: fine for the few kinds that a batch of decorations
 *  has (53 ms for hearts), coarse for a mix (0.3 s for six kinds). */
const cellFor = (kinds: number) => (kinds <= 2 ? 0.5 : 1);
/** Above so many kinds of pieces the boxes must do: the search would be felt. */
const MOST_KINDS = 24;
/** Below this much of its box, a piece leaves room for another in its corners. */
const ROOMY = 0.93;

/** Fewer sheets than `most` by true shapes, `undefined` where that fails or cannot be. */
export function arrangeShapes(
  boxes: readonly PieceBox[],
  area: Bounds,
  zones: readonly Bounds[],
  side: number,
  most: number,
): readonly Pattern[] | undefined {
  const room = (area.maxX - area.minX) * (area.maxY - area.minY);
  const inked = boxes.map(b => Math.abs(signedArea(b.piece.outline)));
  const least = Math.ceil(boxes.reduce((s, b, i) => s + inked[i]! * b.piece.count, 0) / room);
  const roomy = boxes.some(
    (b, i) => inked[i]! < ROOMY * (b.width - 2 * side) * (b.height - 2 * side),
  );
  if (!roomy || least >= most || boxes.length > MOST_KINDS) return undefined;

  const field: Field = { area, cell: cellFor(boxes.length) };
  const grid = emptyGrid(field, zones);
  const kinds = inOwnOrder(boxes).map(box => ({ box, poses: posesOf(box, field) }));
  let best: Pattern[] | undefined;
  for (const order of ORDERS.slice(0, boxes.length > 1 ? 3 : 1)) {
    const ordered = [...kinds].sort((a, b) => order(a.box, b.box));
    const patterns = tryFill(ordered, grid, field);
    if (!patterns) return undefined;
    if (sheetCount(patterns) < (best ? sheetCount(best) : most)) best = patterns;
    if (best && sheetCount(best) <= least) return best;
  }
  return best;
}

/** The area of the sheet that footprints may lie in, in cells from its lower left corner. */
interface Field {
  readonly area: Bounds;
  readonly cell: number;
}
interface Pose {
  readonly quarters: Quarters;
  readonly shape: Silhouette;
  /** The last column and row of its lower left corner that keep its exact bounds in the area. */
  readonly lastX: number;
  readonly lastY: number;
  /** In cells. */
  readonly height: number;
}
interface Kind {
  readonly box: PieceBox;
  readonly poses: readonly Pose[];
}

function posesOf(box: PieceBox, { area, cell }: Field): Pose[] {
  const allowed = ([0, 1, 2, 3] as const).filter(q => (q % 2 === 0 ? box.straight : box.turned));
  return allowed.map(quarters => {
    const across = quarters % 2 === 1;
    const width = across ? box.height : box.width;
    const height = across ? box.width : box.height;
    const turn = turning(box.box, 0, 0, quarters);
    const grown = { ...box.shape, outline: transform(box.shape.outline, turn) };
    return {
      quarters,
      shape: silhouette(grown, { minX: 0, minY: 0, maxX: width, maxY: height }, cell),
      lastX: lastCell((area.maxX - area.minX - width) / cell),
      lastY: lastCell((area.maxY - area.minY - height) / cell),
      height: height / cell,
    };
  });
}

/** A hair of slack, so that a piece of exactly the area's size fits it. */
const lastCell = (cells: number) => Math.floor(cells + 1e-9);

function emptyGrid({ area, cell }: Field, zones: readonly Bounds[]): Grid {
  const columns = Math.ceil((area.maxX - area.minX) / cell);
  const rows = Math.ceil((area.maxY - area.minY) / cell);
  const grid = new Grid(columns, rows);
  const clamp = (v: number, most: number) => Math.min(most, Math.max(0, v / cell));
  for (const zone of zones) {
    const from = Math.floor(clamp(zone.minX - area.minX, columns));
    const to = Math.ceil(clamp(zone.maxX - area.minX, columns));
    const low = Math.floor(clamp(zone.minY - area.minY, rows));
    const high = Math.ceil(clamp(zone.maxY - area.minY, rows));
    if (!(to > from && high > low)) continue;
    grid.take({ rows: Array(high - low).fill(Int32Array.of(from, to)), firstRow: 0 }, 0, low);
  }
  return grid;
}

/** `undefined` when some piece fits no sheet on the grid (it may still fit by its exact box). */
function tryFill(kinds: readonly Kind[], empty: Grid, field: Field): Pattern[] | undefined {
  const fits = (k: Kind) => k.poses.some(p => lowest(empty, p, 0) !== undefined);
  if (!kinds.every(fits)) return undefined;
  return fillSheets(
    kinds.map(k => k.box.piece.count),
    shapeFiller(kinds, empty, field),
  );
}

function shapeFiller(kinds: readonly Kind[], empty: Grid, { area, cell }: Field): FillOne {
  return left => {
    const grid = empty.copy();
    const puts: Put[] = [];
    const used = kinds.map(({ box, poses }, i) => {
      // The grid only fills up: a pose's first free row never moves down again.
      const from = poses.map(() => 0);
      let n = 0;
      while (n < left[i]!) {
        let best: { pose: Pose; x: number; y: number } | undefined;
        for (const [k, pose] of poses.entries()) {
          const place = lowest(grid, pose, from[k]!);
          from[k] = place ? place.y : Number.POSITIVE_INFINITY;
          if (!place) continue;
          const lower = best ? place.y + pose.height - best.y - best.pose.height : -1;
          if (lower < 0 || (lower === 0 && place.x < best!.x)) best = { pose, ...place };
        }
        if (!best) break;
        grid.take(best.pose.shape, best.x, best.y);
        puts.push({
          box,
          x: area.minX + best.x * cell,
          y: area.minY + best.y * cell,
          quarters: best.pose.quarters,
        });
        n++;
      }
      return n;
    });
    return { puts, used };
  };
}

function lowest(grid: Grid, pose: Pose, from: number): { x: number; y: number } | undefined {
  for (let y = from; y <= pose.lastY; y++) {
    const x = grid.firstFit(pose.shape, 0, y, pose.lastX);
    if (x >= 0) return { x, y };
  }
  return undefined;
}
