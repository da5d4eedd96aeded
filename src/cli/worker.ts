/** A worker thread's whole program: names of items in, checked or finished items out. */
import { parentPort, workerData } from 'node:worker_threads';
import { Hand } from './crew.js';
import { openSession } from './session.js';
import type { WorkerAnswer, WorkerSetUp, WorkerTask } from './workers.js';

const { source, overrides, presetsDir, cwd } = workerData as WorkerSetUp;
const hand = new Hand(openSession(source, overrides, { presetsDir, cwd }));

async function answerTo({ number, name, ...asked }: WorkerTask): Promise<WorkerAnswer> {
  try {
    const done = asked.task === 'check' ? hand.check(name, asked.proofs) : hand.make(name);
    return { number, done: await done };
  } catch (error) {
    const told = error instanceof Error ? (error.stack ?? error.message) : String(error);
    return { number, error: told };
  }
}

parentPort!.on('message', async (task: WorkerTask) => {
  parentPort!.postMessage(await answerTo(task));
});
