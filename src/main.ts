#!/usr/bin/env node
/** argv in, exit code out. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Environment } from './cli/environment.js';
import { runProgram } from './cli/program.js';

const root = new URL('..', import.meta.url);
const { version } = JSON.parse(readFileSync(new URL('package.json', root), 'utf8'));

// A reader that closes the pipe early (`foldwright list styles | head -1`) is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit(0);
});

const environment: Environment = {
  version,
  cwd: process.cwd(),
  presetsDir: fileURLToPath(new URL('presets', root)),
  out: text => process.stdout.write(`${text}\n`),
  err: text => process.stderr.write(`${text}\n`),
  progressStream: process.stderr.isTTY ? process.stderr : undefined,
  columns: process.stdout.columns ?? 80,
};

process.exitCode = await runProgram(process.argv.slice(2), environment);
