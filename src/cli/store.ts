/**
 * The file store: the only place that writes results. A run puts its files under temporary names
 * (`put`), and only when all of them are there gives them their final names (`finish`), so that a run
 * that fails or is killed while it works has changed nothing. Giving the names is covered by a
 * journal: a run killed in the middle of it leaves whole files only, and the next run knows them.
 */
import { mkdirSync, readdirSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { isInside, MANIFEST, type ManifestCore, readManifest, sha256 } from './store-claims.js';
import {
  checkManifest,
  removeEmpty,
  type Staged,
  type StoreOptions,
  type StoreResult,
  settle,
} from './store-settle.js';
import { onDisk } from './store-words.js';

export type { StoreOptions, StoreResult };

export interface Store {
  /** The folder, with links followed. */
  readonly folder: string;
  /** The manifest of the run before, for a run that makes only a part. */
  readonly previous: ManifestCore | undefined;
  /** Keeps a file under a temporary name. `path` is relative to the folder, with `/`. Gives the
   *  content's sha256. */
  put(path: string, bytes: string | Uint8Array): string;
  /**
   * Gives all files their final names, then writes the manifest. Throws `InputError`, with nothing
   * changed, when a final name is taken by a file of the person's own, or by one of ours that the
   * person changed (unless `force`).
   */
  finish(manifest: string): StoreResult;
  /** Removes what this run left under temporary names and the folders it made in vain. Does nothing
   *  after `finish`. */
  abandon(): void;
}

/** `.foldwright-` process `-` number `.part`: recognisable, and out of the way of file listings. */
const TEMPORARY = /^\.foldwright-(\d+)-\d+\.part$/;

/** Opens a folder for one run, makes it if need be, and proves that it can be written: before the
 *  long work, not after. Throws `InputError`. */
export function openStore(folder: string, options: StoreOptions = {}): Store {
  const made = onDisk(folder, () => mkdirSync(folder, { recursive: true }));
  const home = onDisk(folder, () => realpathSync(folder));
  const staged = new Map<string, Staged>();
  const madeFolders: string[] = [];
  let number = 0;
  let open = true;

  const temporaryName = () => join(home, `.foldwright-${process.pid}-${number++}.part`);
  const keep = (shown: string, bytes: string | Uint8Array): string => {
    const temporary = temporaryName();
    try {
      onDisk(shown, () => writeFileSync(temporary, bytes, { flag: 'wx' }));
    } catch (error) {
      rmSync(temporary, { force: true });
      throw error;
    }
    return temporary;
  };
  const abandon = () => {
    if (!open) return;
    open = false;
    for (const { temporary } of staged.values()) rmSync(temporary, { force: true });
    for (const path of madeFolders) removeEmpty(path, home);
    if (made !== undefined) removeEmpty(home, realpathSync(dirname(made)));
  };

  try {
    sweep(home);
    rmSync(keep(folder, ''));
    const previous = readManifest(home);
    return {
      folder: home,
      previous,
      put(path, bytes) {
        const key = path.normalize('NFC').toLowerCase();
        if (!isInside(path) || path === MANIFEST || path.startsWith('.foldwright-')) {
          throw new Error(`not a name for a result: ${path}`);
        }
        if (staged.has(key)) throw new Error(`two results for ${path}`);
        const sum = sha256(bytes);
        staged.set(key, { path, sha256: sum, temporary: keep(join(home, path), bytes) });
        return sum;
      },
      finish(manifest) {
        const files = [...staged.values()];
        checkManifest(manifest, files);
        const result = settle({ home, files, manifest, previous, options, keep, madeFolders });
        open = false;
        return result;
      },
      abandon,
    };
  } catch (error) {
    abandon();
    throw error;
  }
}

/** Removes what killed runs left under temporary names; a run that still works keeps its own. */
function sweep(home: string) {
  for (const name of onDisk(home, () => readdirSync(home))) {
    const pid = Number(TEMPORARY.exec(name)?.[1] ?? Number.NaN);
    if (Number.isNaN(pid) || (pid !== process.pid && isRunning(pid))) continue;
    onDisk(join(home, name), () => rmSync(join(home, name), { force: true }));
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}
