/** Draws and judges the cases of one style, on a thread of its own: what hangs can be ended. */
import { parentPort, workerData } from 'node:worker_threads';
import { STYLES } from '../../src/styles/index.js';
import { type Case, drawCase } from './draw.js';
import { judgeMended, smaller } from './judge.js';

export interface Task {
  readonly style: string;
  readonly seed: string;
  readonly from: number;
  readonly to: number;
  /** An order of folding is looked for in every one of so many sound cases; 0 is none. */
  readonly wayEvery: number;
  /** The case that is being tried, for the watch. */
  readonly now: Int32Array;
}
export interface Tried {
  readonly i: number;
  /** `mended`: refused at first, and sound when the bounds that were told are kept. */
  readonly verdict: 'sound' | 'mended' | 'refused' | 'fault';
  readonly what: string;
  readonly ms: number;
  readonly way: boolean;
  /** Of a fault: the same with as little said as possible. */
  readonly smallest?: Case;
}

const { style: id, seed, from, to, wayEvery, now } = workerData as Task;
const style = STYLES.find(s => s.id === id)!;
for (let i = from; i < to; i++) {
  Atomics.store(now, 0, i);
  const drawn = drawCase(style, `${seed} ${id} ${i}`);
  const way = wayEvery > 0 && i % wayEvery === 0;
  const start = performance.now();
  const { verdict, last, at } = judgeMended(style, drawn, way);
  const ms = performance.now() - start;
  const mended = verdict.kind === 'refused' && last.kind === 'sound';
  const kind = last.kind === 'fault' ? 'fault' : mended ? 'mended' : verdict.kind;
  const tried: Tried = { i, verdict: kind, what: last.kind === 'fault' ? last.what : '', ms, way };
  const told = last.kind === 'fault' ? { ...tried, smallest: smaller(style, at, way) } : tried;
  parentPort!.postMessage(told);
}
Atomics.store(now, 0, to);
