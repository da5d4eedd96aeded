/** What only a process of its own can show: a kill in the middle, worker threads, exit codes. */
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { filesBelow, inFolder, root } from '../support/command.js';

/** The program as it ships: compiled into a folder of its own, beside its presets. */
let home = '';
const main = () => join(home, 'dist', 'main.js');
beforeAll(() => {
  home = mkdtempSync(join(tmpdir(), 'foldwright-built-'));
  cpSync(join(root, 'package.json'), join(home, 'package.json'));
  for (const name of ['presets', 'node_modules']) symlinkSync(join(root, name), join(home, name));
  const built = spawnSync(
    'node',
    [
      join(root, 'node_modules', 'typescript', 'bin', 'tsc'),
      ...['-p', join(root, 'tsconfig.build.json'), '--outDir', join(home, 'dist')],
    ],
    { encoding: 'utf8' },
  );
  expect(built.status, built.stdout).toBe(0);
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

const argv = (folder: string, ...more: string[]) => [
  main(),
  'batch',
  join(folder, 'job.yaml'),
  ...more,
];

const JOB = (rows: number) => `job: many
units: mm
stock: cardstock-65lb-12x12
formats: [svg, dxf]
tables:
  - name: box-{row}
    style: flip-lid
    rows:
${Array.from({ length: rows }, (_, i) => `      - ${60 + i} x 40 x 20`).join('\n')}
`;

const run = (args: readonly string[], cwd: string) =>
  spawnSync('node', args, { cwd, encoding: 'utf8' });

/** Anything that stands under a final name. */
const finals = (folder: string) =>
  existsSync(folder)
    ? [...filesBelow(folder)].filter(([name]) => !name.includes('.foldwright-'))
    : [];

describe('a batch that is killed', () => {
  it(
    'leaves no half file under a final name, and the next run completes it',
    () =>
      inFolder(async folder => {
        writeFileSync(join(folder, 'job.yaml'), JOB(12));
        const whole = run(argv(folder, '--out', 'whole'), folder);
        expect(whole.status, whole.stderr).toBe(0);
        const wanted = filesBelow(join(folder, 'whole'));
        let killed = 0;
        for (const wait of [400, 600, 800, 1000]) {
          const child = spawn('node', argv(folder, '--out', 'cut'), { cwd: folder });
          const ended = new Promise(resolve => child.on('exit', (_, signal) => resolve(signal)));
          await pause(wait);
          child.kill('SIGKILL');
          if ((await ended) === 'SIGKILL') killed++;
          for (const [name, content] of finals(join(folder, 'cut'))) {
            expect(content, name).toBe(wanted.get(name));
          }
        }
        expect(killed).toBeGreaterThan(0);
        const last = run(argv(folder, '--out', 'cut'), folder);
        expect(last.status, last.stderr).toBe(0);
        expect(filesBelow(join(folder, 'cut'))).toEqual(wanted);
      }),
    120_000,
  );
});

describe('workers', () => {
  it(
    'make the same bytes as one thread',
    () =>
      inFolder(async folder => {
        writeFileSync(join(folder, 'job.yaml'), JOB(7));
        const one = run(argv(folder, '--out', 'one', '--workers', '1'), folder);
        expect(one.status, one.stderr).toBe(0);
        const three = run(argv(folder, '--out', 'three', '--workers', '3'), folder);
        expect(three.status, three.stderr).toBe(0);
        expect(filesBelow(join(folder, 'three'))).toEqual(filesBelow(join(folder, 'one')));
      }),
    60_000,
  );
});

describe('exit codes reach the shell', () => {
  it(
    '0 for good, 2 for bad input, and a closed pipe is no fault',
    () =>
      inFolder(async folder => {
        writeFileSync(join(folder, 'job.yaml'), 'job: none\n');
        expect(run(argv(folder, '--check'), folder).status).toBe(2);
        const version = run([main(), '--version'], folder);
        expect(version.status).toBe(0);
        expect(version.stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
        const piped = spawnSync(
          'bash',
          ['-c', `set -o pipefail; node ${main()} list stocks | head -1`],
          { cwd: folder, encoding: 'utf8' },
        );
        expect(piped.stdout).toContain('card');
        expect(piped.stderr).toBe('');
      }),
    60_000,
  );
});

describe("drawings of one's own", () => {
  it('too large to be drawn are refused in a heap of 192 MB', async () => {
    await inFolder(async folder => {
      const path = `<path d="M0 0${'l1 1'.repeat(999_999)}"/>`;
      const open = '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm">';
      writeFileSync(join(folder, 'long.svg'), `${open}${path}</svg>`);
      writeFileSync(join(folder, 'many.svg'), `${open}${'<g/>'.repeat(1_900_000)}</svg>`);
      for (const [file, told] of [
        ['long.svg', /more than 20000 segments/],
        ['many.svg', /tags, at most 300000 are read/],
      ] as const) {
        const ran = run(
          ['--max-old-space-size=192', main(), 'decor', file, '--out', 'out'],
          folder,
        );
        expect(ran.stderr).toMatch(told);
        expect(ran.status).toBe(2);
      }
    });
  }, 60_000);
});
