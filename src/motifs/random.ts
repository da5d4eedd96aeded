/** Repeatable chance: the same seed gives the same paper on every machine. */

/** Murmur3's finishing step: spreads a small seed over 32 bits (A. Appleby, public domain). */
function spread(n: number): number {
  let h = n | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/** Marsaglia's xorshift with 128 bits of state ("Xorshift RNGs", J. Stat. Softw. 8(14), 2003):
 *  whole numbers in [0, 2³²). The state must not be all zero. */
export function xorshift128(x: number, y: number, z: number, w: number): () => number {
  if (!((x | y | z | w) !== 0)) throw new RangeError('xorshift needs a state that is not zero');
  return () => {
    const t = x ^ (x << 11);
    x = y;
    y = z;
    z = w;
    w = w ^ (w >>> 19) ^ t ^ (t >>> 8);
    return w >>> 0;
  };
}

/** Numbers in [0, 1) from a seed. `stream` keeps two uses of one seed apart. */
export function seeded(seed: number, stream = 0): () => number {
  if (!Number.isFinite(seed)) throw new RangeError(`not a seed: ${seed}`);
  const a = spread(Math.trunc(seed) + 0x9e3779b9);
  const b = spread(a ^ Math.trunc(stream));
  const c = spread(b + 0x9e3779b9);
  const next = xorshift128(a | 1, b, c, spread(c ^ a));
  return () => next() / 0x1_0000_0000;
}

/** One of a list, each as likely as the next. */
export function pick<T>(list: readonly T[], random: () => number): T {
  const chosen = list[Math.floor(random() * list.length)];
  if (chosen === undefined) throw new RangeError('nothing to pick from');
  return chosen;
}

/** A number evenly between two. */
export const between = (lo: number, hi: number, random: () => number): number =>
  lo + (hi - lo) * random();
