/**
 * A run that dies at each of its calls to the disk in turn, from the first to the last: what SIGKILL
 * does at random moments, here at every moment. A call that dies while it writes leaves half a file.
 */
import { mkdtempSync, readdirSync, readFileSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openStore } from '../../src/cli/store.js';
import { MANIFEST } from '../../src/cli/store-claims.js';
import { contentOf, manifestOf, NAMES, versionOf } from './store-content.js';

class Killed extends Error {}

/** Calls left until the process is dead, or until the disk is full; a dead one does nothing more. */
const disk = vi.hoisted(() => ({ left: Number.POSITIVE_INFINITY, full: Number.POSITIVE_INFINITY }));

vi.mock('node:fs', async importOriginal => {
  const real = await importOriginal<typeof import('node:fs')>();
  const half = (path: unknown, data: string) =>
    real.writeFileSync(path as string, data.slice(0, data.length / 2));
  const mortal =
    (name: string, step: (...args: never[]) => unknown) =>
    (...args: unknown[]) => {
      disk.left--;
      if (disk.left < 0) throw new Killed();
      if (disk.left === 0) {
        if (name === 'writeFileSync') half(args[0], String(args[1]));
        throw new Killed();
      }
      if (name === 'writeFileSync' && --disk.full < 0) {
        half(args[0], String(args[1]));
        throw Object.assign(new Error('no space left'), { code: 'ENOSPC' });
      }
      return step(...(args as never[]));
    };
  const watched = ['mkdirSync', 'writeFileSync', 'renameSync', 'rmSync', 'rmdirSync'] as const;
  const mocks = watched.map(name => [name, mortal(name, real[name] as never)]);
  return { ...real, ...Object.fromEntries(mocks) };
});

let out: string;
beforeEach(() => {
  out = realpathSync(mkdtempSync(join(tmpdir(), 'store-crash-')));
});
afterEach(() => {
  disk.left = Number.POSITIVE_INFINITY;
  disk.full = Number.POSITIVE_INFINITY;
  rmSync(out, { recursive: true, force: true });
});

function run(version: number, names: readonly string[] = NAMES) {
  const store = openStore(out, { removeStale: true });
  try {
    for (const name of names) store.put(name, contentOf(name, version));
    store.finish(manifestOf(version, names));
  } catch (error) {
    // A killed process clears nothing away.
    if (!(error instanceof Killed)) store.abandon();
    throw error;
  }
}
/** How many calls a run makes when nothing stops it. */
function callsOf(step: () => void): number {
  disk.left = 1_000_000;
  step();
  const calls = 1_000_000 - disk.left;
  disk.left = Number.POSITIVE_INFINITY;
  return calls;
}
function dieAt(call: number, step: () => void) {
  disk.left = call;
  expect(step).toThrow(Killed);
  disk.left = Number.POSITIVE_INFINITY;
}
const files = () =>
  readdirSync(out, { recursive: true, withFileTypes: true, encoding: 'utf8' })
    .filter(e => e.isFile())
    .map(e => join(e.parentPath, e.name).slice(out.length + 1))
    .sort();
const versions = () =>
  files()
    .filter(n => NAMES.includes(n))
    .map(n => versionOf(n, readFileSync(join(out, n), 'utf8')));
const complete = (version: number, names: readonly string[] = NAMES) => {
  expect(files()).toEqual([...names, MANIFEST].sort());
  for (const v of versions()) expect(v).toBe(version);
  expect(readFileSync(join(out, MANIFEST), 'utf8')).toBe(manifestOf(version, names));
};
const clear = () => {
  for (const name of readdirSync(out)) rmSync(join(out, name), { recursive: true });
};

describe('dying at every call', () => {
  it('of a first run: whole files only, and the same run completes it', () => {
    const calls = callsOf(() => run(1));
    expect(calls).toBeGreaterThan(2 * NAMES.length);
    for (let call = 1; call <= calls; call++) {
      clear();
      dieAt(call, () => run(1));
      versions();
      run(1);
      complete(1);
    }
  });
  it('of a second run: each file is the old or the new one; another version completes it', () => {
    run(1);
    const calls = callsOf(() => run(2));
    for (let call = 1; call <= calls; call++) {
      clear();
      run(1);
      dieAt(call, () => run(2));
      for (const v of versions()) expect([1, 2]).toContain(v);
      expect(versions()).toHaveLength(NAMES.length);
      run(3);
      complete(3);
    }
  });
  it('of a run that makes less: what it removes is gone in the end, and nothing else', () => {
    const fewer = NAMES.slice(0, 2);
    run(1);
    const calls = callsOf(() => run(2, fewer));
    for (let call = 1; call <= calls; call++) {
      clear();
      run(1);
      dieAt(call, () => run(2, fewer));
      run(2, fewer);
      complete(2, fewer);
    }
  });
  it.each(['later and later', 'earlier and earlier'])('%s, then once to the end', way => {
    run(1);
    const calls = callsOf(() => run(2));
    for (let i = 1; i <= calls; i++) {
      const call = way === 'later and later' ? i : calls + 1 - i;
      dieAt(call, () => run(i + 2));
    }
    run(500);
    complete(500);
  });
});

describe('a disk that fills up at every write', () => {
  it('is told, changes nothing while files are put, and is completed when there is room', () => {
    let stopped = 0;
    for (let write = 0; write < 20; write++) {
      clear();
      run(1);
      disk.full = write;
      let said = '';
      try {
        run(2);
      } catch (error) {
        said = (error as Error).message;
      }
      disk.full = Number.POSITIVE_INFINITY;
      if (said === '') {
        complete(2);
        continue;
      }
      stopped++;
      expect(said).toMatch(/disk is full \(ENOSPC\); make room, then run it again/);
      for (const v of versions()) expect([1, 2]).toContain(v);
      expect(files().filter(n => n.endsWith('.part'))).toEqual([]);
      run(2);
      complete(2);
    }
    // The proof, the files, the journal, the manifest.
    expect(stopped).toBe(NAMES.length + 3);
  });
});
