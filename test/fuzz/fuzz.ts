/**
 * `npm run fuzz`: random parameter sets for every style. Each must give a net that obeys all laws, or be
 * refused with the parameter and its bound; then the bound is kept, and what comes of it is judged too.
 * Prints its seed and the counts; exit 1 on a fault.
 *
 *   npm run fuzz -- --style pillow --runs 200 --seed 7 --from 0 --way 10 --limit 5000
 */
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { STYLES } from '../../src/styles/index.js';
import { drawCase } from './draw.js';
import type { Task, Tried } from './worker.js';

const { values: options } = parseArgs({
  options: {
    runs: { type: 'string', default: '2000' },
    style: { type: 'string', multiple: true },
    seed: { type: 'string', default: '20260' },
    from: { type: 'string', default: '0' },
    /** An order of folding is looked for in one of so many cases; 0 is none. */
    way: { type: 'string', default: '10' },
    /** Most time for one case, ms. */
    limit: { type: 'string', default: '10000' },
  },
});
const [runs, from, wayEvery, limit] = [options.runs, options.from, options.way, options.limit].map(
  Number,
) as [number, number, number, number];
const { seed } = options;
const unknown = (options.style ?? []).filter(id => !STYLES.some(s => s.id === id));
if (unknown.length > 0 || ![runs, from, wayEvery, limit].every(Number.isFinite)) {
  process.stderr.write(`no such style or number: ${unknown.join(', ')}\n`);
  process.exit(2);
}
const styles = STYLES.filter(s => !options.style || options.style.includes(s.id));

interface Count {
  readonly style: string;
  sound: number;
  mended: number;
  refused: number;
  faults: number;
  ways: number;
  slowest: number;
  seconds: number;
}

/** A thread of TypeScript: the loader has to be told in it anew. */
const START = `import(${JSON.stringify(import.meta.resolve('tsx/esm/api'))}).then(tsx => {
  tsx.register();
  return import(${JSON.stringify(new URL('./worker.ts', import.meta.url).href)});
})`;

const say = (line: string) => process.stdout.write(`${line}\n`);

function fault(count: Count, i: number, what: string, smallest?: object) {
  count.faults++;
  // Twenty of one kind teach no more than ten.
  if (count.faults > 10) return;
  say(`! ${count.style} ${i}: ${what}`);
  const style = STYLES.find(s => s.id === count.style)!;
  const shown = smallest ?? drawCase(style, `${seed} ${count.style} ${i}`);
  say(`    ${JSON.stringify(shown)}`);
  say(`    npm run fuzz -- --style ${count.style} --seed ${seed} --from ${i} --runs 1 --way 1`);
}

/** Runs cases on a thread; ends it when one takes too long, and says where it was. */
function thread(count: Count, begin: number, end: number): Promise<number | undefined> {
  const now = new Int32Array(new SharedArrayBuffer(4));
  Atomics.store(now, 0, begin);
  const task: Task = { style: count.style, seed, from: begin, to: end, wayEvery, now };
  const worker = new Worker(START, { eval: true, workerData: task });
  return new Promise((resolve, reject) => {
    // The first case also waits for the modules.
    let hung: number | undefined;
    let seen = { at: begin, since: performance.now() + 20_000 };
    const watch = setInterval(() => {
      const at = Atomics.load(now, 0);
      if (at !== seen.at) seen = { at, since: performance.now() };
      if (performance.now() - seen.since <= limit) return;
      hung = at;
      void worker.terminate();
    }, 100);
    worker.on('message', (tried: Tried) => {
      if (tried.way && tried.verdict !== 'refused') count.ways++;
      count.slowest = Math.max(count.slowest, tried.ms);
      if (tried.verdict === 'fault') fault(count, tried.i, tried.what, tried.smallest);
      else count[tried.verdict]++;
    });
    worker.on('error', error => {
      clearInterval(watch);
      reject(error);
    });
    worker.on('exit', () => {
      clearInterval(watch);
      resolve(hung);
    });
  });
}

async function tryStyle(id: string): Promise<Count> {
  const count: Count = {
    style: id,
    sound: 0,
    mended: 0,
    refused: 0,
    faults: 0,
    ways: 0,
    slowest: 0,
    seconds: 0,
  };
  const start = performance.now();
  const end = from + runs;
  let begin = from;
  while (begin < end) {
    const hung = await thread(count, begin, end);
    if (hung === undefined) break;
    fault(count, hung, `takes longer than ${limit} ms`);
    begin = hung + 1;
  }
  count.seconds = (performance.now() - start) / 1000;
  return count;
}

const row = (cells: readonly (string | number)[]) =>
  cells.map((c, i) => (i === 0 ? String(c).padEnd(18) : String(c).padStart(9))).join('');

say(`seed ${seed}, ${runs} cases a style from ${from}, a way for one in ${wayEvery}`);
say(row(['style', 'cases', 'sound', 'mended', 'refused', 'faults', 'ways', 'slowest', 'seconds']));
const counts: Count[] = [];
for (const { id } of styles) {
  const c = await tryStyle(id);
  counts.push(c);
  const { style, sound, mended, refused, faults: wrong, ways } = c;
  const cases = sound + mended + refused + wrong;
  const took = [`${c.slowest.toFixed(0)} ms`, c.seconds.toFixed(0)];
  say(row([style, cases, sound, mended, refused, wrong, ways, ...took]));
}
const seconds = counts.reduce((n, c) => n + c.seconds, 0);
say(`${(seconds / 60).toFixed(0)} min`);
const faults = counts.reduce((n, c) => n + c.faults, 0);
say(faults === 0 ? 'no faults' : `${faults} faults`);
process.exitCode = faults === 0 ? 0 : 1;
