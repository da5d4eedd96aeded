import { spawn } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { InputError } from '../../src/cli/environment.js';
import { openStore, type StoreOptions } from '../../src/cli/store.js';
import { isInside, JOURNAL, MANIFEST, sha256 } from '../../src/cli/store-claims.js';
import { diskError } from '../../src/cli/store-words.js';
import { contentOf, manifestOf, NAMES, versionOf } from './store-content.js';

let root: string;
let out: string;
beforeEach(() => {
  root = realpathSync(mkdtempSync(join(tmpdir(), 'store-test-')));
  out = join(root, 'out');
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

type Files = Readonly<Record<string, string>>;
const listing = (files: Files) =>
  JSON.stringify({
    foldwright: '0.0.0',
    files: Object.entries(files).map(([path, text]) => ({ path, sha256: sha256(text) })),
  });
function run(files: Files, options: StoreOptions = {}, manifest = listing(files)) {
  const store = openStore(out, options);
  try {
    for (const [path, text] of Object.entries(files)) store.put(path, text);
    return store.finish(manifest);
  } finally {
    store.abandon();
  }
}
const read = (path: string) => readFileSync(join(out, path), 'utf8');
/** Every file under a folder, with its content. */
function tree(folder: string): Record<string, string> {
  if (!existsSync(folder)) return {};
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();
  const files = names.filter(n => lstatSync(join(folder, n)).isFile());
  return Object.fromEntries(files.map(n => [n, readFileSync(join(folder, n), 'utf8')]));
}
function refusal(step: () => unknown): string {
  const before = tree(root);
  try {
    step();
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    expect(tree(root), 'a refusal changes nothing').toEqual(before);
    return (error as Error).message;
  }
  throw new Error('was not refused');
}

describe('a run', () => {
  it('writes files in folders, then the manifest, and nothing else', () => {
    const files = { 'a.svg': 'A', 'pear/b.dxf': 'B' };
    const result = run(files);
    expect(result).toEqual({
      written: ['a.svg', 'pear/b.dxf'],
      untouched: [],
      removed: [],
      left: [],
    });
    expect(tree(out)).toEqual({ ...files, [MANIFEST]: listing(files) });
  });
  it('takes bytes as well as text, and gives their sums', () => {
    const store = openStore(out);
    const bytes = new Uint8Array([0, 255, 10]);
    // FIPS 180-2, example B.1.
    const abc = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
    expect(store.put('abc', 'abc')).toBe(abc);
    const sum = store.put('raw.pdf', bytes);
    const files = [
      { path: 'abc', sha256: abc },
      { path: 'raw.pdf', sha256: sum },
    ];
    store.finish(JSON.stringify({ foldwright: '0', files }));
    expect([...readFileSync(join(out, 'raw.pdf'))]).toEqual([...bytes]);
  });
  it('leaves a file with the same content untouched, time and all', () => {
    run({ a: 'A', b: 'B' });
    const old = new Date(2001, 1, 3);
    for (const name of ['a', 'b', MANIFEST]) utimesSync(join(out, name), old, old);
    expect(run({ a: 'A', b: 'B' }).untouched).toEqual(['a', 'b']);
    for (const name of ['a', 'b', MANIFEST]) {
      expect(statSync(join(out, name)).mtimeMs).toBe(old.getTime());
    }
    expect(run({ a: 'A', b: 'B2' })).toMatchObject({ written: ['b'], untouched: ['a'] });
    expect(statSync(join(out, 'a')).mtimeMs).toBe(old.getTime());
  });
  it('that is abandoned leaves nothing, not even the folders it made', () => {
    const deep = join(root, 'x/y/z');
    const store = openStore(deep);
    store.put('pear/a', 'A');
    store.abandon();
    store.abandon();
    expect(readdirSync(root)).toEqual([]);
  });
  it('that is abandoned leaves what was there before', () => {
    mkdirSync(join(out, 'kept'), { recursive: true });
    const store = openStore(join(out, 'job'));
    store.put('a', 'A');
    store.abandon();
    expect(readdirSync(out)).toEqual(['kept']);
  });
  it('follows a link that is the out folder itself', () => {
    mkdirSync(join(root, 'real'));
    symlinkSync(join(root, 'real'), out);
    run({ a: 'A' });
    expect(read('a')).toBe('A');
    expect(openStore(out).folder).toBe(join(root, 'real'));
  });
  it('of a part keeps what the manifest still lists', () => {
    run({ a: 'A', b: 'B' });
    expect(openStore(out).previous?.files.map(f => f.path)).toEqual(['a', 'b']);
    const result = run({ b: 'B2' }, { removeStale: true }, listing({ a: 'A', b: 'B2' }));
    expect(result).toMatchObject({ removed: [], left: [] });
    expect(read('a')).toBe('A');
  });
});

describe('a run of a part after a whole run that was killed', () => {
  it('keeps knowing what the killed one had written', () => {
    mkdirSync(out);
    const files = [{ path: 'a', sha256: sha256('A') }];
    writeFileSync(join(out, JOURNAL), JSON.stringify({ foldwright: 'journal', files }));
    writeFileSync(join(out, 'a'), 'A');
    expect(run({ b: 'B' }).left).toEqual(['a']);
    run({ a: 'A2', b: 'B2' }, { removeStale: true });
    expect(tree(out)).toEqual({ a: 'A2', b: 'B2', [MANIFEST]: listing({ a: 'A2', b: 'B2' }) });
  });
});

describe('results of ours that are made no more', () => {
  it('are left, and told, unless asked otherwise', () => {
    run({ a: 'A', 'pear/b': 'B' });
    expect(run({ a: 'A' })).toMatchObject({ removed: [], left: ['pear/b'] });
    expect(read('pear/b')).toBe('B');
  });
  it('are removed with their empty folders, but not what the person changed', () => {
    run({ a: 'A', 'pear/b': 'B', 'plum/c': 'C', 'plum/d': 'D', gone: 'G' });
    rmSync(join(out, 'gone'));
    writeFileSync(join(out, 'plum/d'), 'changed');
    writeFileSync(join(out, 'plum/own'), 'own');
    const result = run({ a: 'A' }, { removeStale: true });
    expect(result).toMatchObject({ removed: ['pear/b', 'plum/c'], left: ['plum/d'] });
    expect(Object.keys(tree(out))).toEqual(['a', MANIFEST, 'plum/d', 'plum/own']);
    expect(existsSync(join(out, 'pear'))).toBe(false);
  });
  it('cannot be anything outside the folder, whatever the manifest says', () => {
    writeFileSync(join(root, 'own'), 'own');
    mkdirSync(out);
    const files = [{ path: '../own', sha256: sha256('own') }];
    writeFileSync(join(out, MANIFEST), JSON.stringify({ foldwright: '0', files }));
    expect(refusal(() => run({ a: 'A' }, { removeStale: true }))).toContain('was not written by');
    symlinkSync(root, join(out, 'way'));
    const sly = [{ path: 'way/own', sha256: sha256('own') }];
    writeFileSync(join(out, MANIFEST), JSON.stringify({ foldwright: '0', files: sly }));
    expect(run({ a: 'A' }, { removeStale: true })).toMatchObject({ removed: [] });
    expect(readFileSync(join(root, 'own'), 'utf8')).toBe('own');
  });
});

describe('the person’s own files', () => {
  it('are never overwritten, and all are named at once', () => {
    mkdirSync(join(out, 'pear'), { recursive: true });
    writeFileSync(join(out, 'a'), 'own');
    writeFileSync(join(out, 'pear/b'), 'own');
    const said = refusal(() => run({ a: 'A', 'pear/b': 'B', c: 'C' }));
    expect(said).toContain('not written by foldwright');
    expect(said).toContain(join(out, 'a'));
    expect(said).toContain(join(out, 'pear/b'));
    expect(said).not.toContain(join(out, 'c'));
    expect(refusal(() => run({ a: 'A' }, { force: true }))).toContain('left alone');
  });
  it('may be a manifest of something else', () => {
    mkdirSync(out);
    writeFileSync(join(out, MANIFEST), '{"name":"web page"}');
    expect(refusal(() => run({ a: 'A' }))).toContain('was not written by foldwright');
    writeFileSync(join(out, MANIFEST), 'not json');
    expect(refusal(() => run({ a: 'A' }, { force: true }))).toContain('left alone');
  });
  it('of ours but changed are kept, unless forced', () => {
    run({ a: 'A', b: 'B' });
    writeFileSync(join(out, 'a'), 'mended by hand');
    const said = refusal(() => run({ a: 'A2', b: 'B2' }));
    expect(said).toContain('changed since foldwright wrote them');
    expect(said).toContain('--force');
    expect(said).not.toContain(join(out, 'b'));
    run({ a: 'A2', b: 'B2' }, { force: true });
    expect(read('a')).toBe('A2');
  });
  it('may have the same content as ours', () => {
    mkdirSync(out);
    writeFileSync(join(out, 'a'), 'A');
    expect(run({ a: 'A' }).untouched).toEqual(['a']);
  });
  it('with names that look like ours but not quite are not swept', () => {
    mkdirSync(out);
    for (const name of ['.foldwright-notes', '.foldwright-1-2.part.txt', 'x.part']) {
      writeFileSync(join(out, name), 'own');
    }
    run({ a: 'A' });
    expect(readdirSync(out)).toHaveLength(5);
  });
});

describe('what cannot be written', () => {
  it('a file where the out folder should be, at once', () => {
    writeFileSync(out, 'file');
    expect(refusal(() => openStore(out))).toMatch(/out: .* no folder .*--out/);
    expect(refusal(() => openStore(join(out, 'job')))).toMatch(/is a file, not a folder/);
  });
  it('a file, a link or a folder in the way inside', () => {
    mkdirSync(join(out, 'b/c'), { recursive: true });
    writeFileSync(join(out, 'a'), 'file');
    symlinkSync(root, join(out, 'way'));
    symlinkSync(join(root, 'nowhere'), join(out, 'loose'));
    expect(refusal(() => run({ 'a/x': 'X' }))).toContain('a file stands where a folder is needed');
    expect(refusal(() => run({ b: 'B' }))).toContain('a folder stands there');
    expect(refusal(() => run({ 'way/x': 'X' }))).toContain('a link stands where a folder');
    expect(refusal(() => run({ loose: 'L' }))).toContain('a link stands there');
  });
  it('a link that leads nowhere or in a circle', () => {
    symlinkSync(join(root, 'nowhere'), out);
    expect(refusal(() => openStore(out))).toContain(out);
    symlinkSync(join(root, 'round'), join(root, 'round'));
    expect(refusal(() => openStore(join(root, 'round/job')))).toContain('circle');
  });
  it('a name longer than the disk takes', () => {
    expect(refusal(() => openStore(join(out, 'x'.repeat(300))))).toContain('too long');
  });
  it('a folder without permission', () => {
    mkdirSync(out);
    chmodSync(root, 0o755);
    chmodSync(out, 0o555);
    // The superuser may write anywhere: then try it as a user who may not (65534 is nobody).
    const superuser = process.geteuid?.() === 0;
    try {
      if (superuser) process.seteuid?.(65534);
      expect(refusal(() => openStore(out))).toMatch(/out: you may not write there \(EACCES\)/);
      expect(refusal(() => openStore(join(out, 'job')))).toContain('you may not write there');
    } finally {
      if (superuser) process.seteuid?.(0);
    }
  });
  it('is told with path, reason and what next, for every code we know', () => {
    for (const [code, why, next] of [
      ['EACCES', 'may not write', '--out'],
      ['EROFS', 'only be read', 'another disk'],
      ['ENOSPC', 'the disk is full', 'make room'],
      ['EDQUOT', 'used up', 'make room'],
      ['EBUSY', 'holds it open', 'close'],
    ] as const) {
      const said = diskError('/fair/a.svg', Object.assign(new Error('x'), { code }));
      expect(said).toBeInstanceOf(InputError);
      const { message } = said as Error;
      expect(message).toContain('/fair/a.svg');
      expect(message).toContain(why);
      expect(message).toContain(next);
    }
    const ours = new Error('bug');
    expect(diskError('/fair', ours)).toBe(ours);
  });
});

describe('faults of ours', () => {
  it('names that lead elsewhere, twice the same name, a manifest that forgets', () => {
    const store = openStore(out);
    for (const bad of ['../a', '/a', 'a//b', 'a/./b', '', 'a\\b', 'c:x', MANIFEST, JOURNAL]) {
      expect(() => store.put(bad, ''), bad).toThrow('not a name for a result');
    }
    expect(isInside('pear/a.cut.svg')).toBe(true);
    store.put('Pear/a', '');
    expect(() => store.put('pear/A', '')).toThrow('two results');
    expect(() => store.finish(listing({ b: '' }))).toThrow('does not list Pear/a');
    expect(() => store.finish('{}')).toThrow('does not list');
    store.abandon();
    expect(existsSync(out)).toBe(false);
  });
});

describe('killed at any moment', () => {
  const child = fileURLToPath(new URL('store-child.ts', import.meta.url));
  /** Starts the child, lets it work for `ms` after its first round, and kills it. */
  const killAfter = (ms: number, version: number) =>
    new Promise<void>((resolve, reject) => {
      const args = ['--import', 'tsx', child, out, String(version)];
      const p = spawn(process.execPath, args, {
        cwd: dirname(child),
        stdio: ['ignore', 'pipe', 'pipe'],
      });
      let complaint = '';
      p.stderr.on('data', d => {
        complaint += d;
      });
      p.stdout.once('data', () => setTimeout(() => p.kill('SIGKILL'), ms));
      p.on('error', reject);
      p.on('exit', (_, signal) =>
        signal === 'SIGKILL' ? resolve() : reject(new Error(complaint)),
      );
    });

  it('no half file under a final name, and the next run completes it', {
    timeout: 120_000,
  }, async () => {
    mkdirSync(join(out, 'maple'), { recursive: true });
    writeFileSync(join(out, 'maple/own.txt'), 'own');
    let version = 100;
    for (const ms of [3, 17, 8, 29, 1, 41, 12, 23]) {
      await killAfter(ms, version);
      const found = NAMES.map(name => versionOf(name, read(name)));
      // Two versions at most: one was being put in the place of the other.
      expect(Math.max(...found) - Math.min(...found)).toBeLessThanOrEqual(1);
      version = Math.max(...found) + 100;
    }
    const store = openStore(out);
    for (const name of NAMES) store.put(name, contentOf(name, 7));
    store.finish(manifestOf(7));
    const files = tree(out);
    expect(files['maple/own.txt']).toBe('own');
    expect(Object.keys(files).sort()).toEqual([...NAMES, MANIFEST, 'maple/own.txt'].sort());
    for (const name of NAMES) expect(versionOf(name, files[name]!)).toBe(7);
  });
});
