/** The known name that a person most likely meant. */

/** Names longer than this are no slip of the finger, and the comparison stays cheap. */
const LONGEST = 64;

/**
 * The nearest of the known names by letters left out, added, changed or swapped; `undefined` when
 * none is near. A name of the same words and more is near as well (`lid-and-base` to `lid-base`).
 * The first of equals wins, so the answer follows the order of the list.
 */
export function nearest(name: string, known: readonly string[]): string | undefined {
  const wanted = fold(name);
  if (wanted === '' || wanted.length > LONGEST) return undefined;
  const most = Math.max(1, Math.floor(wanted.length / 3));
  let best: string | undefined;
  let bestDistance = Infinity;
  for (const candidate of known) {
    const distance = distanceOf(wanted, fold(candidate));
    if (distance < bestDistance) [best, bestDistance] = [candidate, distance];
  }
  if (bestDistance <= most) return best;
  return known.find(k => {
    const other = fold(k);
    const [short, long] = other.length < wanted.length ? [other, wanted] : [wanted, other];
    const parts = long.split('-');
    const within = (part: string) => part.length >= 3 && parts.some(p => isWord(p, part));
    return short.split('-').every(within);
  });
}

/** The same word, or its plural. */
const isWord = (a: string, b: string) => a === b || a === `${b}s` || b === `${a}s`;

/** `did you mean …?` for a fault's hint, or nothing. */
export function didYouMean(name: string, known: readonly string[]): string | undefined {
  const near = nearest(name, known);
  return near === undefined ? undefined : `did you mean ${near}?`;
}

const fold = (name: string) =>
  name
    .trim()
    .toLowerCase()
    .replace(/[_\s]+/g, '-');

/** Optimal string alignment distance (Damerau 1964, swaps of neighbours count one). */
export function distanceOf(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > LONGEST) return Infinity;
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const changed = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + changed);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, beforeLast[j - 2]! + 1);
      row.push(least);
    }
    [beforeLast, last] = [last, row];
  }
  return last[b.length]!;
}
