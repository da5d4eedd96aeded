/** Files that a job names beside itself: drawings, faces of the person's own, lists of names. Nothing in
 *  them is run or followed; what is larger than such a file can be is not opened. */
import { readFileSync, realpathSync, statSync } from 'node:fs';
import { dirname, isAbsolute, relative, resolve, sep } from 'node:path';
import { checkKind, ReadError } from '../write/index.js';

/** A drawing of 20,000 segments has about 1 MB, a list of ten thousand names 200 kB, a face with every
 *  script 20 MB. */
const MOST_BYTES = { drawing: 8_000_000, list: 1_000_000, face: 30_000_000 } as const;
export type OwnKind = keyof typeof MOST_BYTES;

/** Why a file cannot be used, and what to do. */
export interface Unusable {
  readonly why: string;
  readonly advice: string;
}

export interface OwnFiles {
  bytes(name: string, kind: OwnKind): Uint8Array | Unusable;
  /** As `bytes`, in UTF-8. */
  text(name: string, kind: OwnKind): string | Unusable;
}

/**
 * The one rule for every name of a file: in a job file it counts from the folder of that file and leads to it
 * or below, so that a job from elsewhere opens nothing else, by whatever way: not by `..`, not by a link.
 * What is typed on the command line (a `job` that is no YAML file) counts from where it was typed and
 * may lead anywhere.
 */
export function ownFiles(job: string, cwd: string): OwnFiles {
  const typed = !/\.ya?ml$/i.test(job);
  const folder = typed ? cwd : dirname(resolve(cwd, job));
  const bytes = (name: string, kind: OwnKind): Uint8Array | Unusable => {
    try {
      return pathIn(folder, name, typed, kind);
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      return { why, advice: 'see to the file' };
    }
  };
  return {
    bytes,
    text(name, kind) {
      const found = bytes(name, kind);
      if ('why' in found) return found;
      try {
        if (kind === 'drawing') checkKind(found, 'SVG');
        return new TextDecoder('utf-8', { fatal: true }).decode(found);
      } catch (error) {
        if (error instanceof ReadError) return { why: error.what, advice: error.advice };
        return { why: 'its text is not UTF-8', advice: 'save it as UTF-8' };
      }
    },
  };
}

function pathIn(folder: string, name: string, typed: boolean, kind: OwnKind) {
  const outside = {
    advice: `copy the ${kind} beside the job file, and name it as ./${baseOf(name)}`,
  };
  const leads = isAbsolute(name) || /[\\\0:]/.test(name) || name.split('/').includes('..');
  if (!typed && leads) {
    return {
      why: 'a job opens files of its own folder and below it, and this leads elsewhere',
      ...outside,
    };
  }
  const path = resolve(folder, name);
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat?.isFile()) {
    return {
      why: stat ? 'this is no file' : 'there is no such file',
      advice: typed ? 'see where the file is' : 'its name counts from the folder of the job file',
    };
  }
  const inside = relative(realpathSync(folder), realpathSync(path));
  if (!typed && (inside.split(sep)[0] === '..' || isAbsolute(inside))) {
    return { why: 'a job opens files of its own folder, and this is a link out of it', ...outside };
  }
  const most = MOST_BYTES[kind];
  if (stat.size > most) {
    const mb = (n: number) => `${(n / 1e6).toFixed(n < most * 2 ? 1 : 0)} MB`;
    return {
      why: `a ${kind} has at most ${mb(most)}, and this has ${mb(stat.size)}`,
      advice: 'make the file simpler or shorter',
    };
  }
  return readFileSync(path);
}

const baseOf = (name: string): string => name.replace(/^.*[\\/:]/, '') || 'its name';
