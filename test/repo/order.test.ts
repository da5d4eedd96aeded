import { mkdtempSync, readdirSync, readFileSync, realpathSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ICruiseResult } from 'dependency-cruiser';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  cruiseSrc,
  loadedAtOnce,
  plant,
  ROOT,
  rulesBroken,
  startedFrom,
  unimported,
} from './cruise.js';

const RULES: readonly string[] = createRequire(import.meta.url)(
  '../../.dependency-cruiser.cjs',
).forbidden.map((rule: { name: string }) => rule.name);

/** Libraries that cost more to load than the whole start may take. */
const HEAVY =
  /node_modules\/(paper|fontkit|pdfkit|zod|@svgdotjs|@resvg|yaml|@xmldom|clipper2-ts)\//;

/** The graph takes seconds on a busy machine; that is no fault of the code. */
const PATIENT_MS = 300_000;

describe('the import order of src', () => {
  let result: ICruiseResult;
  beforeAll(async () => {
    result = await cruiseSrc(ROOT);
  }, PATIENT_MS);

  it('saw every file: a graph of nothing has no faults', () => {
    const files = readdirSync(join(ROOT, 'src'), { recursive: true, encoding: 'utf8' })
      .filter(name => name.endsWith('.ts'))
      .map(name => `src/${name.replaceAll('\\', '/')}`);
    const seen = result.modules.map(m => m.source).filter(path => path.startsWith('src/'));
    expect(seen.sort()).toEqual(files.sort());
    expect(seen.length).toBeGreaterThan(40);
    expect(result.summary.totalDependenciesCruised ?? 0).toBeGreaterThan(100);
  });
  it('breaks no rule', () => {
    const faults = result.summary.violations.map(v => `${v.rule.name}: ${v.from} → ${v.to}`);
    expect(faults).toEqual([]);
  });
  it('has no file that nothing imports or starts, but main.ts and the pages', () => {
    const paths = result.modules.map(m => m.source).filter(path => path.startsWith('src/'));
    const started = paths.flatMap(p => startedFrom(p, readFileSync(join(ROOT, p), 'utf8')));
    expect(unimported(result).filter(p => !started.includes(p))).toEqual([
      'src/main.ts',
      'src/page/browser/contact.ts',
      'src/page/browser/preview.ts',
    ]);
  });
  it('starts without the heavy libraries', () => {
    const heavy = [...loadedAtOnce(result, 'src/main.ts')].filter(path => HEAVY.test(path));
    expect(heavy).toEqual([]);
    expect([...loadedAtOnce(result, 'src/main.ts')]).toContain('src/cli/program.ts');
  });
});

/** One planted fault for each rule: the file that imports, what it imports. */
const PLANTED: readonly (readonly [rule: string, from: string, what: string])[] = [
  ['units-import-only-upward', 'src/units/a.ts', '../geom/x.js'],
  ['geom-import-only-upward', 'src/geom/a.ts', '../model.js'],
  ['words-import-only-upward', 'src/words/a.ts', '../model.js'],
  ['model-import-only-upward', 'src/model.ts', './params.js'],
  ['params-import-only-upward', 'src/params.ts', './contracts.js'],
  ['contracts-import-only-upward', 'src/contracts.ts', './write/x.js'],
  ['stages-import-only-upward', 'src/tool/a.ts', '../pipeline.js'],
  ['job-and-pipeline-import-only-upward', 'src/job/a.ts', '../cli/x.js'],
  ['page-import-only-upward', 'src/page/a.ts', '../cli/x.js'],
  ['cli-import-only-upward', 'src/cli/a.ts', '../main.js'],
  ['stages-meet-in-the-model', 'src/styles/a.ts', '../motifs/x.js'],
  ['every-file-has-a-row', 'src/cli/a.ts', '../utils/x.js'],
  ['only-geom-knows-paper-and-clipper', 'src/fold/a.ts', 'paper'],
  ['only-write-knows-svg-and-pdf', 'src/guide/a.ts', 'pdfkit'],
  ['only-scan-knows-pictures', 'src/write/a.ts', 'jpeg-js'],
  ['only-cli-knows-the-terminal', 'src/job/a.ts', 'commander'],
  ['only-cli-and-main-touch-the-machine', 'src/write/a.ts', 'node:fs'],
  ['only-cli-and-main-touch-the-machine', 'src/write/b.ts', 'fs/promises'],
  ['only-cli-and-main-touch-the-machine', 'src/job/b.ts', 'node:child_process'],
  ['src-needs-no-test', 'src/cli/a.ts', '../../test/x.js'],
  ['src-needs-no-dev-package', 'src/cli/a.ts', 'vitest'],
  ['no-cycles', 'src/fit/a.ts', './a.js'],
  ['everything-resolves', 'src/fit/a.ts', './nowhere.js'],
];
const GROUND = {
  'src/geom/x.ts': 'export const x = 1;',
  'src/model.ts': 'export const x = 1;',
  'src/params.ts': 'export const x = 1;',
  'src/contracts.ts': 'export const x = 1;',
  'src/write/x.ts': 'export const x = 1;',
  'src/motifs/x.ts': 'export const x = 1;',
  'src/pipeline.ts': 'export const x = 1;',
  'src/utils/x.ts': 'export const x = 1;',
  'src/cli/x.ts': 'export const x = 1;',
  'src/main.ts': 'export const x = 1;',
  'test/x.ts': 'export const x = 1;',
};

async function broken(files: Readonly<Record<string, string>>): Promise<string[]> {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'order-')));
  try {
    plant(folder, { ...GROUND, ...files });
    return rulesBroken(await cruiseSrc(folder));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

describe('the rules themselves', () => {
  it('find nothing in a tree that keeps them', async () => {
    const files = {
      'src/styles/a.ts': "import { x } from '../geom/x.js'; import './b.js'; x;",
      'src/styles/b.ts': "import '../model.js'; import 'node:zlib';",
      'src/geom/p.ts': "export const load = () => import('paper');",
      'src/cli/a.ts': "import 'node:fs'; import '../pipeline.js'; import 'commander';",
    };
    expect(await broken(files)).toEqual([]);
  });
  it.each(PLANTED)('find a planted fault: %s in %s', async (rule, from, what) => {
    expect(await broken({ [from]: `import '${what}';\nexport const x = 2;` })).toContain(rule);
  });
  it('find types and imports at run time as well', async () => {
    const type = {
      'src/styles/a.ts': "import type { x } from '../motifs/x.js'; export type T = typeof x;",
    };
    expect(await broken(type)).toEqual(['stages-meet-in-the-model']);
    const late = { 'src/styles/a.ts': "export const load = () => import('../motifs/x.js');" };
    expect(await broken(late)).toEqual(['stages-meet-in-the-model']);
  });
  it('are each tried above', () => {
    expect([...new Set(PLANTED.map(([rule]) => rule))].sort()).toEqual([...RULES].sort());
  });
});

describe('the questions asked of the graph', () => {
  const module = (source: string, ...to: [string, string?][]) => ({
    source,
    dependencies: to.map(([resolved, how]) => ({
      resolved,
      dynamic: how === 'late',
      dependencyTypes: how === 'type' ? ['local', 'type-only'] : ['local'],
    })),
  });
  const graph = {
    modules: [
      module('src/main.ts', ['src/a.ts'], ['src/b.ts', 'late'], ['src/c.ts', 'type']),
      module('src/a.ts', ['src/d.ts']),
      module('src/b.ts', ['node_modules/paper/x.js']),
      module('src/c.ts'),
      module('src/d.ts'),
      module('src/lost.ts', ['src/d.ts']),
    ],
  } as unknown as ICruiseResult;
  it('a file that nothing imports is found', () => {
    expect(unimported(graph)).toEqual(['src/main.ts', 'src/lost.ts']);
  });
  it('a file that is started as a thread is found', () => {
    const text = "new Worker(new URL('./worker.js', import.meta.url)); new URL('x.json', root);";
    expect(startedFrom('src/cli/a.ts', text)).toEqual(['src/cli/worker.ts']);
    expect(startedFrom('src/cli/a.ts', "new URL('../job/b.js', import.meta.url)")).toEqual([
      'src/job/b.ts',
    ]);
  });
  it('what is loaded at once leaves out late imports and types', () => {
    expect([...loadedAtOnce(graph, 'src/main.ts')].sort()).toEqual([
      'src/a.ts',
      'src/d.ts',
      'src/main.ts',
    ]);
    expect([...loadedAtOnce(graph, 'src/b.ts')]).toContain('node_modules/paper/x.js');
  });
});
