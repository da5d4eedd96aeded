/** Items made on worker threads. Each worker reads the job itself and is handed names, so that
 *  nothing but names goes in and finished bytes come out. */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { Document, Source } from '../job/index.js';
import type { Environment } from './environment.js';
import type { MadeItem } from './make-item.js';
import type { Overrides } from './session.js';

/** Below this many items a worker's start costs more than it saves (measured: `npm run bench`). */
const FEWEST_FOR_WORKERS = 60;
/** Items handed to a worker before its earlier ones have been taken: bounds what is held. */
const AHEAD = 2;

export function workersFor(items: number, asked: number | undefined): number {
  if (asked !== undefined) return Math.min(asked, Math.max(1, items));
  return items < FEWEST_FOR_WORKERS ? 1 : availableParallelism();
}

export interface WorkerSetUp {
  readonly source: Source | Document;
  readonly overrides: Overrides;
  readonly presetsDir: string;
}
export type WorkerAnswer = { readonly made: MadeItem } | { readonly error: string };

/** The items in order. A worker's error stops the run and is thrown. */
export async function* onWorkers(
  count: number,
  source: Source | Document,
  { formats, compensatedBy }: Overrides,
  { presetsDir }: Environment,
  names: readonly string[],
): AsyncGenerator<MadeItem> {
  const workerData: WorkerSetUp = { source, overrides: { formats, compensatedBy }, presetsDir };
  const workers = Array.from(
    { length: count },
    () => new Worker(new URL('./worker.js', import.meta.url), { workerData }),
  );
  const waiting = new Map<string, (answer: WorkerAnswer) => void>();
  let broken: WorkerAnswer | undefined;
  const failAll = (error: Error) => {
    broken = { error: error.stack ?? error.message };
    for (const answer of waiting.values()) answer(broken);
  };
  for (const worker of workers) {
    worker.on('message', ({ name, answer }: { name: string; answer: WorkerAnswer }) => {
      waiting.get(name)?.(answer);
      waiting.delete(name);
    });
    worker.on('error', failAll);
  }
  const ask = (name: string, i: number) =>
    new Promise<WorkerAnswer>(answer => {
      if (broken) return answer(broken);
      waiting.set(name, answer);
      workers[i % count]!.postMessage(name);
    });
  try {
    const asked: Promise<WorkerAnswer>[] = [];
    for (let i = 0; i < names.length; i++) {
      while (asked.length < Math.min(names.length, i + count * AHEAD)) {
        asked.push(ask(names[asked.length]!, asked.length));
      }
      const answer = await asked[i]!;
      // Taken: let go of its bytes.
      asked[i] = Promise.resolve({ error: '' });
      if ('error' in answer) throw new Error(`on a worker: ${answer.error}`);
      yield answer.made;
    }
  } finally {
    await Promise.all(workers.map(w => w.terminate()));
  }
}
