/**
 * The last step of a run: from temporary to final names. First everything is judged, and a name that
 * is taken stops it with nothing changed; then the journal, the files, the manifest, in this order.
 */
import { existsSync, lstatSync, mkdirSync, renameSync, rmdirSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { InputError } from './environment.js';
import {
  type Claims,
  claimsOf,
  JOURNAL,
  judge,
  listOf,
  MANIFEST,
  type ManifestCore,
  type ManifestFile,
  parseManifest,
  present,
  readJournal,
  sha256,
  type Verdict,
} from './store-claims.js';
import { onDisk } from './store-words.js';

export interface StoreOptions {
  /** Replace files of ours that the person changed since. */
  readonly force?: boolean;
  /** Remove files of ours that this run did not make again (a batch of everything), unless the
   *  person changed them. */
  readonly removeStale?: boolean;
}

export interface StoreResult {
  readonly written: readonly string[];
  /** Already there with the same content: not touched. */
  readonly untouched: readonly string[];
  /** Of ours from an earlier run, and not made by this one. */
  readonly removed: readonly string[];
  readonly left: readonly string[];
}

/** A file that the manifest forgets would be the person's own to the next run: our fault. */
export function checkManifest(text: string, files: readonly ManifestFile[]) {
  const claims = claimsOf(parseManifest(text)?.files ?? []);
  for (const { path, sha256: sum } of files) {
    if (!claims.get(path)?.has(sum)) throw new Error(`the manifest does not list ${path}`);
  }
}

export interface Staged extends ManifestFile {
  readonly temporary: string;
}

export interface Settling {
  readonly home: string;
  readonly files: readonly Staged[];
  readonly manifest: string;
  readonly previous: ManifestCore | undefined;
  readonly options: StoreOptions;
  keep(shown: string, bytes: string | Uint8Array): string;
  readonly madeFolders: string[];
}

export function settle(run: Settling): StoreResult {
  const { home, files, manifest, options } = run;
  const journal = readJournal(home);
  const listed = run.previous?.files ?? [];
  const claims = claimsOf(listed, journal);
  const wanted = new Set(files.map(f => f.path));
  const stillListed = new Set(parseManifest(manifest)!.files.map(f => f.path));

  const verdicts = files.map(file => {
    checkFolders(home, file.path);
    const found = present(join(home, file.path));
    return { file, verdict: judge(file.path, file.sha256, found, claims) };
  });
  refuse(home, verdicts, options);
  const stale = [...claims.keys()].filter(
    path => !wanted.has(path) && !stillListed.has(path) && existsSync(join(home, path)),
  );
  const unchanged = stale.filter(path => isUnchanged(home, path, claims));
  const removable = options.removeStale ? unchanged : [];

  // Everything that is ours now or will be in a moment, so that a kill from here on loses nothing.
  const journalPath = join(home, JOURNAL);
  const ours = listOf(claimsOf(listed, journal, files));
  const replace = (temporary: string, path: string) =>
    onDisk(path, () => renameSync(temporary, path));
  const writeJournal = (list: readonly ManifestFile[]) => {
    const core: ManifestCore = { foldwright: 'journal', files: list };
    replace(run.keep(journalPath, JSON.stringify(core)), journalPath);
  };
  writeJournal(ours);

  for (const { file, verdict } of verdicts) {
    const path = join(home, file.path);
    if (verdict === 'same') {
      rmSync(file.temporary);
      continue;
    }
    const first = onDisk(path, () => mkdirSync(dirname(path), { recursive: true }));
    if (first !== undefined) run.madeFolders.push(dirname(path));
    replace(file.temporary, path);
  }
  const manifestPath = join(home, MANIFEST);
  if (present(manifestPath) !== sha256(manifest)) {
    replace(run.keep(manifestPath, manifest), manifestPath);
  }
  for (const path of removable) {
    onDisk(join(home, path), () => rmSync(join(home, path), { force: true }));
    removeEmpty(dirname(join(home, path)), home);
  }
  // Ours, but in no manifest: a run of a part came after a whole one that was killed.
  const orphans = ours.filter(f => unchanged.includes(f.path) && !removable.includes(f.path));
  if (orphans.length > 0) writeJournal(orphans);
  else rmSync(journalPath, { force: true });
  const named = (same: boolean) =>
    verdicts.filter(v => (v.verdict === 'same') === same).map(v => v.file.path);
  return {
    written: named(false),
    untouched: named(true),
    removed: removable,
    left: stale.filter(path => !removable.includes(path)),
  };
}

/** All names that are taken, at once. */
function refuse(
  home: string,
  verdicts: readonly { readonly file: ManifestFile; readonly verdict: Verdict }[],
  options: StoreOptions,
) {
  const taken = (verdict: Verdict) => verdicts.filter(v => v.verdict === verdict);
  const list = (v: { readonly file: ManifestFile }) => `  ${join(home, v.file.path)}`;
  const lines: string[] = [];
  const foreign = taken('foreign');
  if (foreign.length > 0) {
    lines.push(
      'These files were not written by foldwright, so they are left alone and nothing was written:',
      ...foreign.map(list),
      'Move them away or choose another folder with --out.',
    );
  }
  const changed = options.force ? [] : taken('changed');
  if (changed.length > 0) {
    lines.push(
      'These files were changed since foldwright wrote them, so nothing was written:',
      ...changed.map(list),
      'Move them away to keep them, or use --force to replace them.',
    );
  }
  if (lines.length > 0) throw new InputError(lines.join('\n'));
}

/** Folders on the way to a file must be folders, not links out of the store or files. */
function checkFolders(home: string, path: string) {
  const parts = path.split('/').slice(0, -1);
  let at = home;
  for (const part of parts) {
    at = join(at, part);
    const stat = onDisk(at, () => lstatSync(at, { throwIfNoEntry: false }));
    if (!stat) return;
    if (stat.isDirectory()) continue;
    const what = stat.isSymbolicLink() ? 'a link' : 'a file';
    throw new InputError(
      `Cannot write into ${at}: ${what} stands where a folder is needed; move it away or choose another folder with --out.`,
    );
  }
}

function isUnchanged(home: string, path: string, claims: Claims): boolean {
  try {
    checkFolders(home, path);
    const found = present(join(home, path));
    return found !== undefined && claims.get(path)!.has(found);
  } catch {
    // Something else stands there by now: not ours to remove.
    return false;
  }
}

/** Removes empty folders from `path` upward, but not `top`. */
export function removeEmpty(path: string, top: string) {
  let at = path;
  while (at !== top && at.startsWith(top)) {
    try {
      rmdirSync(at);
    } catch {
      // Not empty, or gone already: either way nothing to remove.
      return;
    }
    at = dirname(at);
  }
}
