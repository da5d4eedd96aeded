#!/usr/bin/env node
/** argv in, exit code out. */
import { readFileSync } from 'node:fs';
import type { Interface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { setFlagsFromString } from 'node:v8';
import type { Environment } from './cli/environment.js';
import { runProgram } from './cli/program.js';

// Most runs end before what V8 optimises has paid for itself, and its compiler takes the cores from us:
// the demo took 5.8 s of processor time by V8's own measure of what is hot, 4.0 s by this one.
setFlagsFromString('--interrupt-budget=500000');

const root = new URL('..', import.meta.url);
const { version } = JSON.parse(readFileSync(new URL('package.json', root), 'utf8'));

// A reader that closes the pipe early (`foldwright list styles | head -1`) is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit(0);
});

let lines: Interface | undefined;
let answers: NodeJS.AsyncIterator<string> | undefined;

/** One question at the terminal; nothing where the person ends it (Ctrl+D, Ctrl+C). The reader of lines
 *  is kept from question to question: lines that were pasted together each answer one. */
async function ask(question: string): Promise<string | undefined> {
  if (lines === undefined || answers === undefined) {
    const { createInterface } = await import('node:readline');
    lines = createInterface({ input: process.stdin, output: process.stdout });
    answers = lines[Symbol.asyncIterator]();
  }
  lines.setPrompt(question);
  lines.prompt();
  const { value, done } = await answers.next();
  if (done) process.stdout.write('\n');
  return done ? undefined : value;
}

const environment: Environment = {
  version,
  cwd: process.cwd(),
  presetsDir: fileURLToPath(new URL('presets', root)),
  out: text => process.stdout.write(`${text}\n`),
  err: text => process.stderr.write(`${text}\n`),
  progressStream: process.stderr.isTTY ? process.stderr : undefined,
  columns: process.stdout.columns ?? 80,
  ask: process.stdin.isTTY && process.stdout.isTTY ? ask : undefined,
};

process.exitCode = await runProgram(process.argv.slice(2), environment);
lines?.close();
