/** Medians of repeated runs, printed beside their aim. Nothing fails on a time. */
import { spawnSync } from 'node:child_process';

export interface Row {
  readonly what: string;
  /** The figure as measured, in `unit`. */
  readonly value: number;
  readonly unit: 'ms' | '×' | 'kB' | 'MB' | '%';
  readonly aim: number;
}

export const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
};

/** Wall time of a command, median of `runs`, ms. Throws when it fails. */
export function command(argv: readonly string[], runs: number, status = 0): number {
  const times: number[] = [];
  for (let i = 0; i < runs; i++) {
    const from = performance.now();
    const done = spawnSync(argv[0]!, argv.slice(1), { stdio: 'ignore' });
    times.push(performance.now() - from);
    if (done.status !== status) throw new Error(`${argv.join(' ')}: exit ${done.status}`);
  }
  return median(times);
}

/** A call is warm once it has been made for so long: V8 has compiled what is hot by then. Ten calls of a
 *  few milliseconds were not enough: 17 ms by them, 13 ms in the long run. */
const WARM_MS = 500;

/** Wall time of a call after `warm` unmeasured ones, `WARM_MS` of them at least; median of `runs`, ms. */
export async function warmed(run: () => unknown, warm = 5, runs = 21): Promise<number> {
  const begun = performance.now();
  for (let i = 0; i < warm || performance.now() - begun < WARM_MS; i++) await run();
  const times: number[] = [];
  for (let i = 0; i < runs; i++) {
    const from = performance.now();
    await run();
    times.push(performance.now() - from);
  }
  return median(times);
}

const shown = (value: number) => (value < 10 ? value.toFixed(2) : value.toFixed(0));

export function table(rows: readonly Row[]): string {
  const wide = Math.max(...rows.map(r => r.what.length));
  return rows
    .map(({ what, value, unit, aim }) => {
      const ratio = (value / aim).toFixed(2);
      const sign = value <= aim ? ' ' : '!';
      return `${sign} ${what.padEnd(wide)}  ${shown(value).padStart(8)} ${unit.padEnd(2)}  aim ${shown(aim).padStart(6)}  ${ratio} of it`;
    })
    .join('\n');
}
