/**
 * Goldens: texts kept under test/golden and compared to the letter. What differs is written beside
 * the golden with `-changed` in its name, to be looked at; `BLESS=1` makes it the golden. On a
 * build machine (CI set) nothing is written.
 */
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, parse } from 'node:path';
import { fileURLToPath } from 'node:url';

const GOLDEN = fileURLToPath(new URL('../golden/', import.meta.url));

export interface GoldenPlace {
  readonly root: string;
  readonly env: Readonly<Record<string, string | undefined>>;
}

/** Throws when `text` is not the golden's at `path`, as in `styles/flip-lid.svg`. */
export function expectGolden(
  path: string,
  text: string,
  { root, env }: GoldenPlace = { root: GOLDEN, env: process.env },
): void {
  const file = join(root, path);
  const { dir, name, ext } = parse(file);
  const changed = join(dir, `${name}-changed${ext}`);
  const onBuildMachine = Boolean(env.CI);
  const golden = existsSync(file) ? readFileSync(file, 'utf8') : undefined;
  if (golden === text) {
    if (!onBuildMachine) rmSync(changed, { force: true });
    return;
  }
  if (onBuildMachine) {
    throw new Error(
      golden === undefined ? `no golden ${path}` : `${path}: ${differ(golden, text)}`,
    );
  }
  mkdirSync(dirname(file), { recursive: true });
  if (env.BLESS === '1') {
    writeFileSync(file, text);
    rmSync(changed, { force: true });
    return;
  }
  writeFileSync(changed, text);
  const what = golden === undefined ? 'there is no golden yet' : differ(golden, text);
  throw new Error(`${path}: ${what}; look at ${name}-changed${ext}, then BLESS=1 keeps it`);
}

function differ(golden: string, text: string): string {
  const [a, b] = [golden.split('\n'), text.split('\n')];
  const line = a.findIndex((l, i) => l !== b[i]);
  const at = line < 0 ? a.length : line;
  const cut = (s: string | undefined) => (s === undefined ? 'nothing' : s.slice(0, 120));
  return `line ${at + 1} was ${cut(a[at])} and is ${cut(b[at])}`;
}
