/** Real roots in [0, 1] of a polynomial by its Bernstein coefficients: all of them, in order. */

/** Halvings before an interval that may hold a double root is taken for one: 1e-9 of the range. */
const DEEPEST = 30;
/** Rounds to close a bracket around a single root. */
const ROUNDS = 80;

/** Value at t, by de Casteljau. */
export function bernsteinAt(coefficients: readonly number[], t: number): number {
  const c = [...coefficients];
  for (let n = c.length - 1; n > 0; n--) {
    for (let i = 0; i < n; i++) c[i] = c[i]! + (c[i + 1]! - c[i]!) * t;
  }
  return c[0]!;
}

/** The two halves, each in its own coefficients. */
function halve(c: readonly number[]): [number[], number[]] {
  const n = c.length;
  const work = [...c];
  const left = [work[0]!];
  const right = [work[n - 1]!];
  for (let k = n - 1; k > 0; k--) {
    for (let i = 0; i < k; i++) work[i] = (work[i]! + work[i + 1]!) / 2;
    left.push(work[0]!);
    right.unshift(work[k - 1]!);
  }
  return [left, right];
}

/** Changes of sign along the coefficients, zeros left out: no fewer than the roots inside. */
function changes(c: readonly number[]): number {
  let count = 0;
  let last = 0;
  for (const v of c) {
    if (v === 0) continue;
    if (last !== 0 && v > 0 !== last > 0) count++;
    last = v;
  }
  return count;
}

/** The one root between 0 and 1 of coefficients whose ends differ in sign. */
function single(c: readonly number[]): number {
  let [lo, hi] = [0, 1];
  let [fLo, fHi] = [c[0]!, c[c.length - 1]!];
  if (fLo === 0) return 0;
  if (fHi === 0) return 1;
  for (let k = 0; k < ROUNDS && hi - lo > 1e-16; k++) {
    // Regula falsi every other time, so that the bracket closes from both sides.
    const guess = k % 2 === 0 ? lo - (fLo * (hi - lo)) / (fHi - fLo) : (lo + hi) / 2;
    const t = guess > lo && guess < hi ? guess : (lo + hi) / 2;
    const f = bernsteinAt(c, t);
    if (f === 0) return t;
    if (f > 0 === fLo > 0) [lo, fLo] = [t, f];
    else [hi, fHi] = [t, f];
  }
  return (lo + hi) / 2;
}

/**
 * Every root in [0, 1], ends included, ascending; a double root (a touch) is found once or twice, to the
 * root of the rounding. None for the zero polynomial, which is zero everywhere.
 */
export function bernsteinRoots(coefficients: readonly number[]): number[] {
  if (!coefficients.every(Number.isFinite) || coefficients.every(v => v === 0)) return [];
  const found: number[] = [];
  const stack: { c: readonly number[]; lo: number; size: number; depth: number }[] = [
    { c: coefficients, lo: 0, size: 1, depth: 0 },
  ];
  while (stack.length > 0) {
    const { c, lo, size, depth } = stack.pop()!;
    if (c[0] === 0) found.push(lo);
    if (c[c.length - 1] === 0) found.push(lo + size);
    const n = changes(c);
    if (n === 0) continue;
    const ends = c[0]! * c[c.length - 1]!;
    if (n === 1 && ends < 0) {
      found.push(lo + size * single(c));
    } else if (depth >= DEEPEST) {
      found.push(lo + size / 2);
    } else {
      const [left, right] = halve(c);
      stack.push({ c: right, lo: lo + size / 2, size: size / 2, depth: depth + 1 });
      stack.push({ c: left, lo, size: size / 2, depth: depth + 1 });
    }
  }
  found.sort((a, b) => a - b);
  return found.filter((t, i) => i === 0 || t - found[i - 1]! > 1e-9);
}
