/** The command line, run inside the test: what it printed and its exit code. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Environment } from '../../src/cli/environment.js';
import { runProgram } from '../../src/cli/program.js';

export const root = fileURLToPath(new URL('../..', import.meta.url));
const presetsDir = join(root, 'presets');

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs `foldwright ARGV` in a folder. */
export async function foldwright(
  argv: readonly string[],
  cwd: string,
  more: Partial<Environment> = {},
): Promise<Ran> {
  const out: string[] = [];
  const err: string[] = [];
  const environment: Environment = {
    version: '0.0.0',
    cwd,
    presetsDir,
    out: text => out.push(text),
    err: text => err.push(text),
    progressStream: undefined,
    columns: 100,
    ...more,
  };
  const code = await runProgram(argv, environment);
  return { code, out: out.join('\n'), err: err.join('\n') };
}

/** Runs `body` in a fresh folder that is gone afterwards. */
export async function inFolder<T>(body: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'foldwright-test-'));
  try {
    return await body(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Every file below a folder with its content, hidden ones too. */
export function filesBelow(folder: string): Map<string, string> {
  const found = new Map<string, string>();
  const look = (at: string) => {
    for (const name of readdirSync(at).sort()) {
      const path = join(at, name);
      if (statSync(path).isDirectory()) look(path);
      else found.set(relative(folder, path), readFileSync(path, 'latin1'));
    }
  };
  look(folder);
  return found;
}
