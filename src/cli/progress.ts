/** A bar on a terminal; off a terminal nothing is drawn, so that logs hold plain lines only. */
import cliProgress from 'cli-progress';
import type { Environment } from './environment.js';

/** Fewer items than this are done before a bar could be read. */
const FEWEST_SHOWN = 4;

export interface Progress {
  step(name: string): void;
  stop(): void;
}

export function startProgress(what: string, total: number, environment: Environment): Progress {
  const stream = environment.progressStream;
  if (total < FEWEST_SHOWN) return { step() {}, stop() {} };
  if (!stream) {
    environment.err(`${what} ${total} items`);
    return { step() {}, stop() {} };
  }
  const bar = new cliProgress.SingleBar({
    stream,
    format: `${what} {bar} {value}/{total} {item}`,
    barCompleteChar: '=',
    barIncompleteChar: '·',
    hideCursor: true,
    clearOnComplete: true,
  });
  bar.start(total, 0, { item: '' });
  return { step: item => bar.increment({ item }), stop: () => bar.stop() };
}
