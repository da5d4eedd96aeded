/** The laws of an arrangement, checked on true outlines by none of the code that arranges. */
import { bounds, transform } from '../../src/geom/index.js';
import type { Affine, Bounds, Path, Piece, Sheet, Stock } from '../../src/model.js';
import { cutterReach, printable, type SheetOptions } from '../../src/sheet/index.js';
import { clearance } from '../support/clearance.js';

/** Outlines that only touch may read as crossing by this much, mm. */
export const NEAR = 1e-5;
const within = (a: Bounds, b: Bounds) =>
  a.minX >= b.minX - NEAR &&
  a.minY >= b.minY - NEAR &&
  a.maxX <= b.maxX + NEAR &&
  a.maxY <= b.maxY + NEAR;

/** A path on its sheet, smaller by a ten-millionth, so that shapes that only touch do not cross by
 *  rounding. */
function onSheet(path: Path, at: Affine): Path {
  const placed = transform(path, at);
  const b = bounds(placed);
  const [x, y] = [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
  const k = 1 - 1e-7;
  return transform(placed, [k, 0, 0, k, x * (1 - k), y * (1 - k)]);
}

/** Every law of an arrangement at once, on true outlines. Gives what is broken, in words. */
export function broken(
  sheets: readonly Sheet[],
  pieces: readonly Piece[],
  s: Stock,
  options: SheetOptions,
): string[] {
  const faults: string[] = [];
  const gap = options.gap ?? 3;
  const reach = cutterReach(s, options.cutter);
  const { print } = options;
  const white = printable(s, print?.margin ?? 0);
  const made = new Map<string, number>();
  for (const sheet of sheets) {
    const laid = sheet.placements.map(({ piece: p, at }) => {
      made.set(p.id, (made.get(p.id) ?? 0) + sheet.copies);
      const [a, b, c, d] = at;
      if (a * d - b * c !== 1) faults.push(`${p.id} is mirrored or scaled`);
      return { p, outline: onSheet(p.outline, at), bleed: p.art && onSheet(p.art.bleed, at) };
    });
    for (const [i, one] of laid.entries()) {
      if (!within(bounds(one.outline), reach)) faults.push(`${one.p.id} leaves the reach`);
      if (one.bleed && !within(bounds(one.bleed), white))
        faults.push(`${one.p.id} not all printed`);
      for (const two of laid.slice(i + 1)) {
        const apart = clearance(one.outline, two.outline, gap);
        if (!(apart >= gap - NEAR)) faults.push(`${one.p.id} and ${two.p.id}: ${apart} mm`);
        if (one.bleed && clearance(one.bleed, two.outline, 1) < 0) faults.push('bleed on a piece');
        if (two.bleed && clearance(two.bleed, one.outline, 1) < 0) faults.push('bleed on a piece');
      }
    }
  }
  for (const p of pieces) {
    const n = made.get(p.id) ?? 0;
    if (n !== p.count) faults.push(`${p.id}: ${n} of ${p.count}`);
  }
  return faults;
}
