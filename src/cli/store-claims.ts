/**
 * Which files of an out folder are ours. Two lists say so: the manifest of the last finished run, and
 * the journal of a run that was stopped. What neither lists belongs to the person.
 */
import { createHash } from 'node:crypto';
import { lstatSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { InputError } from './environment.js';
import { onDisk } from './store-words.js';

export const MANIFEST = 'manifest.json';
/** Written before the first file takes its final name, removed after the last. */
export const JOURNAL = '.foldwright-run.json';

/** What a manifest must say for the next run; it may say more. Paths are relative, with `/`. */
export interface ManifestFile {
  readonly path: string;
  readonly sha256: string;
}
export interface ManifestCore {
  /** The version that wrote it; also how we know a manifest of ours from any other. */
  readonly foldwright: string;
  readonly files: readonly ManifestFile[];
}

/** Contents that a path may have and still be ours, unchanged since we wrote it. */
export type Claims = ReadonlyMap<string, ReadonlySet<string>>;

export const sha256 = (bytes: string | Uint8Array): string =>
  createHash('sha256').update(bytes).digest('hex');

/** Relative, with `/`, and no part that leads elsewhere. */
export const isInside = (path: string): boolean =>
  path.split('/').every(part => part !== '' && part !== '.' && part !== '..') &&
  !/[\\\0:]/.test(path);

/** A manifest or journal of ours from its text, `undefined` when it is another's. */
export function parseManifest(text: string): ManifestCore | undefined {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return undefined;
  }
  if (typeof value !== 'object' || value === null) return undefined;
  const { foldwright, files } = value as Partial<ManifestCore>;
  const good =
    typeof foldwright === 'string' &&
    Array.isArray(files) &&
    files.every(
      f => typeof f?.path === 'string' && typeof f.sha256 === 'string' && isInside(f.path),
    );
  return good ? (value as ManifestCore) : undefined;
}

/** What stands at a path: its content's sum, `undefined` for nothing. Anything but a plain file is
 *  an error, links too: we never write through one. */
export function present(path: string): string | undefined {
  const stat = onDisk(path, () => lstatSync(path, { throwIfNoEntry: false }));
  if (!stat) return undefined;
  if (!stat.isFile()) {
    const what = stat.isDirectory() ? 'a folder' : stat.isSymbolicLink() ? 'a link' : 'no file';
    throw new InputError(
      `Cannot write ${path}: ${what} stands there; move it away or choose another folder with --out.`,
    );
  }
  return sha256(onDisk(path, () => readFileSync(path)));
}

/** The manifest of an earlier run, `undefined` when there is none. A file of that name which is not
 *  ours is an error, for it would be overwritten. */
export function readManifest(folder: string): ManifestCore | undefined {
  const path = join(folder, MANIFEST);
  if (present(path) === undefined) return undefined;
  const manifest = parseManifest(onDisk(path, () => readFileSync(path, 'utf8')));
  if (manifest) return manifest;
  throw new InputError(
    `${path} was not written by foldwright, so it is left alone; move it away or choose another folder with --out.`,
  );
}

/** A journal lists a path once for each content that it may have. One that cannot be read (a crash
 *  of the whole machine) claims nothing. */
export function readJournal(folder: string): readonly ManifestFile[] {
  const path = join(folder, JOURNAL);
  if (present(path) === undefined) return [];
  return parseManifest(onDisk(path, () => readFileSync(path, 'utf8')))?.files ?? [];
}

export function claimsOf(...lists: readonly (readonly ManifestFile[])[]): Claims {
  const claims = new Map<string, Set<string>>();
  for (const { path, sha256: sum } of lists.flat()) {
    const sums = claims.get(path) ?? new Set();
    claims.set(path, sums.add(sum));
  }
  return claims;
}

export const listOf = (claims: Claims): ManifestFile[] =>
  [...claims].flatMap(([path, sums]) => [...sums].map(sum => ({ path, sha256: sum })));

export type Verdict = 'new' | 'same' | 'replace' | 'changed' | 'foreign';

/** What to do about a file that is wanted with content `wanted` where `found` stands now. */
export function judge(
  path: string,
  wanted: string,
  found: string | undefined,
  claims: Claims,
): Verdict {
  if (found === undefined) return 'new';
  if (found === wanted) return 'same';
  const sums = claims.get(path);
  if (!sums) return 'foreign';
  return sums.has(found) ? 'replace' : 'changed';
}
