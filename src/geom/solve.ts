/** Small systems of linear equations. */

/**
 * x with matrix · x = right, by elimination with pivots; `undefined` where there is not just one: where
 * a pivot is no more than `tiny` of the largest number of the matrix.
 */
export function solve(
  matrix: readonly (readonly number[])[],
  right: readonly number[],
  tiny = 1e-12,
): number[] | undefined {
  const n = right.length;
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  const largest = Math.max(...matrix.flat().map(Math.abs));
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) {
      if (Math.abs(rows[i]![k]!) > Math.abs(rows[pivot]![k]!)) pivot = i;
    }
    // Relative: what rounding leaves where nothing should be.
    if (!(Math.abs(rows[pivot]![k]!) > tiny * largest)) return undefined;
    [rows[k], rows[pivot]] = [rows[pivot]!, rows[k]!];
    const top = rows[k]!;
    for (const row of rows.slice(k + 1)) {
      const share = row[k]! / top[k]!;
      for (let j = k; j <= n; j++) row[j]! -= share * top[j]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    const row = rows[k]!;
    let rest = row[n]!;
    for (let j = k + 1; j < n; j++) rest -= row[j]! * x[j]!;
    x[k] = rest / row[k]!;
  }
  return x;
}
