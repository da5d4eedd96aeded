/** A crew of worker threads. Each reads the job itself and is handed names, so that nothing but
 *  names goes in and finished items come out. */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { Document, Source } from '../job/index.js';
import type { CheckedItem, Crew } from './crew.js';
import type { Environment } from './environment.js';
import type { MadeItem } from './make-item.js';
import type { Overrides } from './session.js';

/** Below this many items two threads are slower than one: each warms up on its own (the demo took 5.4 s
 *  on two, 3.8 s on one). */
const FEWEST_FOR_WORKERS = 60;
/** Names handed to a worker before its earlier answers have been taken: bounds what is held. */
const AHEAD = 2;

export function workersFor(items: number, asked: number | undefined): number {
  if (asked !== undefined) return Math.min(asked, Math.max(1, items));
  return items < FEWEST_FOR_WORKERS ? 1 : availableParallelism();
}

export interface WorkerSetUp {
  readonly source: Source | Document;
  readonly overrides: Overrides;
  readonly presetsDir: string;
  readonly cwd: string;
}
type Work = { readonly task: 'check'; readonly proofs: boolean } | { readonly task: 'make' };
export type WorkerTask = Work & { readonly number: number; readonly name: string };
export type WorkerAnswer =
  | { readonly number: number; readonly done: CheckedItem | MadeItem }
  | { readonly number: number; readonly error: string };

/** Starts the threads, which read the job at once. `stop` ends them. */
export function onWorkers(
  count: number,
  source: Source | Document,
  { formats, dxf, compensatedBy, guidePaper, look }: Overrides,
  { presetsDir, cwd }: Environment,
): Crew {
  const workerData: WorkerSetUp = {
    source,
    overrides: { formats, dxf, compensatedBy, guidePaper, look },
    presetsDir,
    cwd,
  };
  const waiting = new Map<number, (answer: WorkerAnswer) => void>();
  let broken: string | undefined;
  let number = 0;
  const workers = Array.from({ length: count }, () => {
    const worker = new Worker(new URL('./worker.js', import.meta.url), { workerData });
    worker.on('message', (answer: WorkerAnswer) => {
      waiting.get(answer.number)?.(answer);
      waiting.delete(answer.number);
    });
    worker.on('error', error => {
      broken = error.stack ?? error.message;
      for (const [n, answer] of waiting) answer({ number: n, error: broken });
    });
    return worker;
  });
  const ask = (work: Work, name: string, to: number) =>
    new Promise<WorkerAnswer>(answer => {
      const asked: WorkerTask = { ...work, number: number++, name };
      if (broken !== undefined) return answer({ number: asked.number, error: broken });
      waiting.set(asked.number, answer);
      workers[to]!.postMessage(asked);
    });

  /** An item goes to the same worker both times, which then still has its plan. */
  async function* all(work: Work, names: readonly string[]) {
    const asked: (Promise<WorkerAnswer> | undefined)[] = [];
    for (let i = 0; i < names.length; i++) {
      while (asked.length < Math.min(names.length, i + count * AHEAD)) {
        asked.push(ask(work, names[asked.length]!, asked.length % count));
      }
      const answer = (await asked[i])!;
      // Taken: let go of its bytes.
      asked[i] = undefined;
      if ('error' in answer) throw new Error(`on a worker: ${answer.error}`);
      yield answer.done;
    }
  }
  return {
    check: (names, proofs) => all({ task: 'check', proofs }, names) as AsyncGenerator<CheckedItem>,
    make: names => all({ task: 'make' }, names) as AsyncGenerator<MadeItem>,
    async stop() {
      await Promise.all(workers.map(w => w.terminate()));
    },
  };
}
