/** Whether a picture that holds a sheet's marks may be of another sheet with the same marks. */
import { bounds, contains, distanceToPath } from '../geom/index.js';
import type { Path, Point } from '../model.js';
import { onto, type Plane } from './plane.js';
import { type Grey, sampled } from './raster.js';

/** The sheet is looked at every so many mm. */
const EVERY_MM = 1;
/** Between pieces, farther than this from any, mm, nothing is printed: bleed, and a sheet printed askew. */
const CLEAR_MM = 6;
/** Fewer looks tell nothing. */
const LEAST_LOOKS = 300;
/** Light is taken to be even over squares of this side, mm. */
const SQUARE_MM = 25;
/** Paper is what is at least this bright, of the bright tenth of its square: shadows and grain are paper. */
const PAPER = 0.8;

/**
 * The share, from 0 to 1, of the waste between a sheet's pieces on which the picture shows print; nothing
 * where there is too little waste to tell. `outlines` are the pieces' (mm), `plane` takes the sheet to pixels.
 */
export function printInWaste(
  grey: Grey,
  plane: Plane,
  outlines: readonly Path[],
): number | undefined {
  if (outlines.length === 0) return undefined;
  const boxes = outlines.map(outline => ({ outline, box: bounds(outline) }));
  const all = bounds(...outlines);
  const squares = new Map<string, number[]>();
  for (let y = all.minY; y <= all.maxY; y += EVERY_MM) {
    for (let x = all.minX; x <= all.maxX; x += EVERY_MM) {
      if (!boxes.every(({ outline, box }) => isClear([x, y], outline, box))) continue;
      const [u, v] = onto(plane, [x, y]);
      if (!(u >= 1 && v >= 1 && u < grey.width - 1 && v < grey.height - 1)) continue;
      const key = `${Math.floor(x / SQUARE_MM)},${Math.floor(y / SQUARE_MM)}`;
      const square = squares.get(key) ?? [];
      square.push(sampled(grey, u, v));
      squares.set(key, square);
    }
  }
  let [looks, printed] = [0, 0];
  for (const square of squares.values()) {
    const paper = [...square].sort((a, b) => b - a)[Math.floor(square.length / 10)]!;
    looks += square.length;
    printed += square.filter(value => value < PAPER * paper).length;
  }
  return looks < LEAST_LOOKS ? undefined : printed / looks;
}

function isClear(p: Point, outline: Path, box: ReturnType<typeof bounds>): boolean {
  const [x, y] = p;
  const away =
    x < box.minX - CLEAR_MM ||
    x > box.maxX + CLEAR_MM ||
    y < box.minY - CLEAR_MM ||
    y > box.maxY + CLEAR_MM;
  if (away) return true;
  return contains(outline, p) === 'out' && distanceToPath(p, outline) > CLEAR_MM;
}
