/** The main job, end to end: start-up, the demo, one box, a long table. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeItem } from '../../src/cli/make-item.js';
import { openSession } from '../../src/cli/session.js';
import { boxDocument } from '../../src/job/index.js';
import { command, type Row, warmed } from './measure.js';

const root = new URL('../..', import.meta.url).pathname;
const main = join(root, 'dist', 'main.js');
const presetsDir = join(root, 'presets');

/** The aims of its parts together: 3 s for the files, 250 ms for each of 14 guides, 60 ms for each of 10
 *  folding pages, 50 ms a card of the contact sheet. */
const WHOLE_DEMO_MS = 3000 + 14 * 250 + 10 * 60 + 14 * 50;

/** A job of one table with `rows` sizes, all different. */
function longTable(rows: number): string {
  const sizes = Array.from({ length: rows }, (_, i) => {
    const [l, w, h] = [40 + (i % 100), 30 + (i % 37), 20 + Math.floor(i / 100) * 2];
    return `      - ${l} x ${Math.min(l, w)} x ${h}`;
  });
  return `job: long-table\nunits: mm\ncutter: mat-12x12\nformats: [svg, dxf]\ntables:\n  - name: box-{row}\n    style: flip-lid\n    params: { tab: 9 }\n    rows:\n${sizes.join('\n')}\n`;
}

/** Greatest resident memory of a batch, MB, by GNU time's own account in /proc. */
function peakMemory(argv: readonly string[]): number {
  const script = `process.on('exit', () => console.log(process.resourceUsage().maxRSS)); process.argv = ${JSON.stringify(['node', ...argv])}; await import(${JSON.stringify(main)});`;
  const done = spawnSync('node', ['--input-type=module', '-e', script], { encoding: 'utf8' });
  if (done.status !== 0) throw new Error(done.stderr);
  return Number(done.stdout.trim().split('\n').at(-1)) / 1024;
}

export async function mainJob(): Promise<Row[]> {
  const out = mkdtempSync(join(tmpdir(), 'foldwright-bench-'));
  try {
    const bare = command(['node', '-e', '0'], 15);
    const version = command(['node', main, '--version'], 15);
    const fresh = (job: string, ...more: string[]) => {
      rmSync(join(out, 'o'), { recursive: true, force: true });
      return ['node', main, 'batch', job, '--out', join(out, 'o'), ...more];
    };
    const median = (...argv: string[]) =>
      Array.from({ length: 5 }, () => command(fresh('orchard-fair', ...argv), 1)).sort(
        (a, b) => a - b,
      )[2]!;
    const demo = median('--formats', 'svg,dxf,pdf');
    const whole = median();

    const source = boxDocument({ style: 'flip-lid', inside: '6x2x1in', set: {} });
    const session = openSession(
      source,
      { formats: ['svg'], compensatedBy: 'file' },
      { presetsDir, cwd: presetsDir },
    );
    const item = session.design.items[0]!;
    const one = await warmed(() => makeItem(session, item), 20, 41);

    const jobs = [100, 1000].map(rows => {
      const file = join(out, `table-${rows}.yaml`);
      writeFileSync(file, longTable(rows));
      return file;
    });
    const thousand = command(fresh(jobs[1]!), 1);
    const [small, large] = jobs.map(file => {
      fresh(file);
      return peakMemory([main, 'batch', file, '--out', join(out, 'o'), '--workers', '1']);
    });
    return [
      {
        what: 'foldwright --version, beside bare node',
        value: version / bare,
        unit: '×',
        aim: 2.5,
      },
      { what: 'the demo: ten sizes, SVG + DXF + PDF', value: demo, unit: 'ms', aim: 3000 },
      {
        what: 'and its guides, folding pages, contact sheet',
        value: whole,
        unit: 'ms',
        aim: WHOLE_DEMO_MS,
      },
      { what: 'one flip-lid box to SVG, warm', value: one, unit: 'ms', aim: 25 },
      { what: '1,000 sizes to SVG + DXF', value: thousand, unit: 'ms', aim: 20_000 },
      { what: 'memory, 1,000 sizes over 100', value: large! / small!, unit: '×', aim: 1.5 },
    ];
  } finally {
    rmSync(out, { recursive: true, force: true });
  }
}
