/** A worker thread's whole program: names of items in, finished items out. */
import { parentPort, workerData } from 'node:worker_threads';
import { makeItem } from './make-item.js';
import { openSession } from './session.js';
import type { WorkerAnswer, WorkerSetUp } from './workers.js';

const { source, overrides, presetsDir } = workerData as WorkerSetUp;
const session = openSession(source, overrides, { presetsDir });
const items = new Map(session.design.items.map(item => [item.name, item]));

async function answerTo(name: string): Promise<WorkerAnswer> {
  try {
    const item = items.get(name);
    if (!item) throw new Error(`no item ${name}`);
    return { made: await makeItem(session, item) };
  } catch (error) {
    return { error: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

parentPort!.on('message', async (name: string) => {
  parentPort!.postMessage({ name, answer: await answerTo(name) });
});
