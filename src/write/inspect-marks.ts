/** Where numbered marks stand beside the places they point to, so that each can be read. */

export interface Pin {
  /** Where it points, px. */
  readonly x: number;
  readonly y: number;
  /** Its number on the list. */
  readonly number: number;
}
export interface PlacedPin extends Pin {
  /** The middle of its mark, px. */
  readonly markX: number;
  readonly markY: number;
}

/** Ways around a place, those up and to the side first: the eye looks there. */
const WAYS = 16;
const RINGS = [1.9, 4.1, 6.3, 8.5, 10.7, 12.9];

/** Marks of radius `r` px that lie on no other mark and on no other place, inside `width` by `height`; where
 *  there is no room left, as near as the last try. Places that are the same to the eye get one mark. */
export function placePins(
  pins: readonly Pin[],
  r: number,
  { width, height }: { readonly width: number; readonly height: number },
): PlacedPin[] {
  const placed: PlacedPin[] = [];
  const apart = (x: number, y: number, q: { x: number; y: number }) => Math.hypot(x - q.x, y - q.y);
  const seen = pins.filter(
    (p, i) => !pins.slice(0, i).some(q => q.number === p.number && apart(p.x, p.y, q) < r),
  );
  for (const pin of seen) {
    let best: { x: number; y: number; cost: number } | undefined;
    for (const [ring, reach] of RINGS.entries()) {
      for (let k = 0; k < WAYS; k++) {
        const angle = ((k % 2 ? -1 : 1) * Math.PI * Math.ceil(k / 2)) / (WAYS / 2) - Math.PI / 4;
        const [x, y] = [pin.x + reach * r * Math.cos(angle), pin.y + reach * r * Math.sin(angle)];
        const marks = placed.filter(q => Math.hypot(x - q.markX, y - q.markY) < 2.15 * r).length;
        const places = seen.filter(q => q !== pin && apart(x, y, q) < 1.4 * r).length;
        const out = x < r || y < r || x > width - r || y > height - r ? 1 : 0;
        const cost = 100 * marks + 30 * places + 150 * out + ring;
        if (!best || cost < best.cost) best = { x, y, cost };
      }
      if (best && best.cost <= RINGS.length) break;
    }
    placed.push({ ...pin, markX: best!.x, markY: best!.y });
  }
  return placed;
}
