/** A short straight cut in waste that turns a blade of unknown heading into a known one. */
import { type Bounds, bounds, type Path, polyline } from '../geom/index.js';

/**
 * Along a line tan(α/2) falls by e for every d of travel: after 20 d a blade that pointed up to
 * 179.999° away is within 0.03° of the line (the one heading dead against it never turns).
 */
const OFFSETS = 20;
/** Away from every other stroke by this, mm (common practice, no source: paper that holds). */
const CLEAR_MM = 2;

/**
 * A wake-up cut along the border of the sheet, inside the tools' reach and clear of all strokes;
 * `undefined` where there is no such place.
 */
export function wakeUpCut(
  strokes: readonly Path[],
  sheet: { readonly width: number; readonly height: number },
  margin: number,
  offset: number,
): Path | undefined {
  const length = Math.max(OFFSETS * offset, 1);
  const taken = strokes.map(path => bounds(path));
  const low = margin + CLEAR_MM;
  const right = sheet.width - low;
  const top = sheet.height - low;
  const free = (box: Bounds) =>
    box.minX >= low &&
    box.minY >= low &&
    box.maxX <= right &&
    box.maxY <= top &&
    taken.every(
      t =>
        t.minX > box.maxX + CLEAR_MM ||
        t.maxX < box.minX - CLEAR_MM ||
        t.minY > box.maxY + CLEAR_MM ||
        t.maxY < box.minY - CLEAR_MM,
    );
  for (const y of [low, top]) {
    for (let x = low; x + length <= right; x += length) {
      if (free({ minX: x, maxX: x + length, minY: y, maxY: y })) {
        return polyline([
          [x, y],
          [x + length, y],
        ]);
      }
    }
  }
  for (const x of [low, right]) {
    for (let y = low; y + length <= top; y += length) {
      if (free({ minX: x, maxX: x, minY: y, maxY: y + length })) {
        return polyline([
          [x, y],
          [x, y + length],
        ]);
      }
    }
  }
  return undefined;
}
