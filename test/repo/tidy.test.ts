import { describe, expect, it } from 'vitest';
import { ROOT } from './cruise.js';
import {
  forbiddenWords,
  HABITS,
  lockedHosts,
  longFiles,
  longLines,
  namelessFolders,
  repositoryFiles,
  unrepeatable,
} from './tidy.js';

describe('the repository', () => {
  const files = repositoryFiles(ROOT);
  it('is all there: a check of nothing finds nothing', () => {
    const paths = files.map(f => f.path);
    for (const known of [
      'src/model.ts',
      'test/repo/tidy.ts',
      'package-lock.json',
      '.ci/run',
      'README.md',
    ]) {
      expect(paths).toContain(known);
    }
    expect(paths.filter(p => p.startsWith('src/')).length).toBeGreaterThan(40);
    expect(paths.some(p => p.includes('node_modules/') || p.startsWith('dist/'))).toBe(false);
  });
  it.each(Object.entries(HABITS))('keeps the habit: no %s', (_, check) => {
    expect(files.flatMap(check)).toEqual([]);
  });
});

/** Put together, so that this file can be read by the checks of others. */
const word = (...parts: string[]) => parts.join('');
const file = (path: string, text: string) => ({ path, text });

describe('the checks themselves', () => {
  it('longLines finds a line of 111, and leaves data, messages, tables and links', () => {
    const long = 'x'.repeat(111);
    expect(longLines(file('src/a.ts', `fine\n${long}`))).toEqual(['src/a.ts:2: 111 characters']);
    expect(longLines(file('README.md', long))).toHaveLength(1);
    expect(longLines(file('.ci/run', long))).toHaveLength(1);
    expect(longLines(file('src/a.ts', 'é'.repeat(110)))).toEqual([]);
    expect(longLines(file('src/a.ts', `  say('${long}');`))).toEqual([]);
    expect(longLines(file('src/a.ts', `say('a', ${long}, 'b');`))).toHaveLength(1);
    expect(longLines(file('src/a.ts', `// ${long}`))).toHaveLength(1);
    expect(longLines(file('src/a.ts', `  `.concat("'", long, "',")))).toEqual([]);
    expect(longLines(file('test/golden/a.svg', long))).toEqual([]);
    expect(longLines(file('README.md', `| ${long} |`))).toEqual([]);
    expect(longLines(file('README.md', `see https://example.org/${long}`))).toEqual([]);
  });
  it('longFiles finds a file of 401 lines', () => {
    expect(longFiles(file('src/a.ts', 'x\n'.repeat(401)))).toEqual(['src/a.ts: 401 lines']);
    expect(longFiles(file('src/a.ts', 'x\n'.repeat(400)))).toEqual([]);
    expect(longFiles(file('presets/a.json', 'x\n'.repeat(4000)))).toEqual([]);
  });
  it.each([
    [`// ${word('TO', 'DO')}: later`],
    [`// ${word('FIX', 'ME')}`],
    [`open('${word('/wo', 'rk/main')}')`],
    [`cd ${word('/ro', 'ot')}`],
    [`"${word('/tm', 'p/x.svg')}"`],
    [word('https://regis', 'try.npm', 'js.org/paper')],
    [`as the ${word('vid', 'eo')} shows`],
    [`Two ${word('Tran', 'scripts')}`],
  ])('forbiddenWords finds %s', line => {
    expect(forbiddenWords(file('src/a.ts', `\n${line}`))).toEqual([
      expect.stringMatching(/^src\/a.ts:2: /),
    ]);
  });
  it.each([
    ['a framework/root cause, out/work, ../tmp'],
    ['the registry of styles'],
    ['todo list of a person'],
    ['#!/usr/bin/env node'],
  ])('forbiddenWords leaves %s', line => {
    expect(forbiddenWords(file('src/a.ts', line))).toEqual([]);
  });
  it('lockedHosts finds a place', () => {
    const lock = (p: object) =>
      file('package-lock.json', JSON.stringify({ packages: { paper: p } }));
    expect(lockedHosts(lock({ resolved: 'https://example.org/p.tgz' }))).toHaveLength(1);
    expect(lockedHosts(lock({ version: '1.0.0' }))).toEqual([]);
  });
  it('namelessFolders finds one', () => {
    expect(namelessFolders(file('src/utils/a.ts', ''))).toHaveLength(1);
    expect(namelessFolders(file('test/sheet/helpers/a.ts', ''))).toHaveLength(1);
    expect(namelessFolders(file('src/units/helpers.ts', ''))).toEqual([]);
  });
  it.each([
    ['const x = Math.random();', 'Math.random'],
    ['const x = [1].map(Math.random);', 'Math.random'],
    ['const x = new Date();', 'Date()'],
    ['const x = Date.now();', 'Date.now'],
    ['const x = globalThis.performance.now();', 'performance.now'],
    ['const x = process.env.HOME;', 'process'],
    ['const { env } = process;', 'process'],
    ['names.sort((a, b) => a.localeCompare(b));', 'localeCompare'],
    ['n.toLocaleString();', 'toLocaleString'],
    ['new Intl.NumberFormat();', 'Intl'],
    ["import { randomUUID } from 'node:crypto';", 'randomUUID'],
    ['setTimeout(() => {}, 1);', 'setTimeout'],
    ["const fs = createRequire(import.meta.url)('fs');", 'a module of Node, hidden'],
    ['const fs = createRequire(import.meta.url)(name);', 'a module of Node, hidden'],
  ])('unrepeatable finds %s', (line, name) => {
    expect(unrepeatable(file('src/fold/a.ts', `\n${line}`))).toContain(`src/fold/a.ts:2: ${name}`);
    expect(unrepeatable(file('src/cli/a.ts', line))).toEqual([]);
    expect(unrepeatable(file('src/main.ts', line))).toEqual([]);
  });
  it.each([
    ['// Math.random and Date.now and process stand in a comment'],
    ["const x = 'process.env, new Date()';"],
    ['const x = new Date(0);'],
    ['const x = { process: 1, random: 2 }; x.process;'],
    ['interface Steps { process: string }'],
    ['tools.random();'],
    ["const paper = createRequire(import.meta.url)('paper');"],
  ])('unrepeatable leaves %s', line => {
    expect(unrepeatable(file('src/fold/a.ts', line))).toEqual([]);
  });
});
