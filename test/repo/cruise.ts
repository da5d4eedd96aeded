/** The import graph of a tree, seen by dependency-cruiser with the rules of this repository. */
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cruise, type ICruiseResult } from 'dependency-cruiser';
import extractOptions from 'dependency-cruiser/config-utl/extract-depcruise-options';
import extractTsConfig from 'dependency-cruiser/config-utl/extract-ts-config';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** Cruises `src` under `baseDir`. Throws when the tool gives anything but a graph. */
export async function cruiseSrc(baseDir: string): Promise<ICruiseResult> {
  const options = await extractOptions(join(ROOT, '.dependency-cruiser.cjs'));
  const tsConfig = extractTsConfig(join(ROOT, 'tsconfig.json'));
  const { output } = await cruise(['src'], { ...options, baseDir, validate: true }, undefined, {
    tsConfig,
  });
  if (typeof output === 'string') throw new Error(`no graph: ${output}`);
  return output;
}

/** Writes a small tree under `folder`, with the packages of this repository beside it. */
export function plant(folder: string, files: Readonly<Record<string, string>>) {
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'));
  const manifest = { name: 'planted', dependencies: { paper: '1', pdfkit: '1', commander: '1' } };
  writeFileSync(join(folder, 'package.json'), JSON.stringify(manifest));
}

export const rulesBroken = (result: ICruiseResult): string[] => [
  ...new Set(result.summary.violations.map(v => v.rule.name)),
];

/** Files that no other file of `src` imports. */
export function unimported(result: ICruiseResult): string[] {
  const imported = new Set(result.modules.flatMap(m => m.dependencies.map(d => d.resolved)));
  return result.modules
    .map(m => m.source)
    .filter(path => path.startsWith('src/') && !imported.has(path));
}

/** Files that a file starts as a thread or a process of its own: `new URL('./name.js', import.meta.url)`. */
export function startedFrom(path: string, text: string): string[] {
  const starts = text.matchAll(/new URL\(\s*'(\.{1,2}\/[^']+)\.js',\s*import\.meta\.url/g);
  return [...starts].map(([, name]) => posix.join(posix.dirname(path), `${name}.ts`));
}

/** What is loaded at once when `entry` starts: everything it reaches without an `import()`, types
 *  aside. */
export function loadedAtOnce(result: ICruiseResult, entry: string): Set<string> {
  const modules = new Map(result.modules.map(m => [m.source, m]));
  const seen = new Set<string>();
  const waiting = [entry];
  for (let path = waiting.pop(); path !== undefined; path = waiting.pop()) {
    if (seen.has(path)) continue;
    seen.add(path);
    for (const d of modules.get(path)?.dependencies ?? []) {
      if (!d.dynamic && !d.dependencyTypes.includes('type-only')) waiting.push(d.resolved);
    }
  }
  return seen;
}
