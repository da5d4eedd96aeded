/** Files whose content shows which version they are, and whether they are whole. */
import { sha256 } from '../../src/cli/store-claims.js';

export const NAMES = [
  'a.svg',
  'maple/one.cut.svg',
  'maple/one.cut.dxf',
  'pear/two.cut.svg',
  'z.pdf',
];

/** Large enough that writing takes more than one call to the system. */
export const contentOf = (name: string, version: number): string =>
  `${name} ${version}\n${'leaf '.repeat(5_000)}\nend of ${name} ${version}\n`;

export const manifestOf = (version: number, names: readonly string[] = NAMES): string =>
  JSON.stringify({
    foldwright: '0.0.0',
    files: names.map(path => ({ path, sha256: sha256(contentOf(path, version)) })),
  });

/** The version of a whole file; throws for anything less. */
export function versionOf(name: string, text: string): number {
  const version = Number(/^\S+ (\d+)\n/.exec(text)?.[1]);
  if (text !== contentOf(name, version)) throw new Error(`${name} is not whole`);
  return version;
}
