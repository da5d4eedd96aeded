/** Files that a job names beside itself: a face of the person's own, a list of names. Nothing here is
 *  run or followed; what is larger than such a file can be is not read. */
import { readFileSync, statSync } from 'node:fs';
import { dirname, isAbsolute, resolve } from 'node:path';

/** The largest list: ten thousand names take about 200 kB. A face with every script takes 20 MB. */
const MOST_TEXT_BYTES = 1_000_000;
const MOST_FONT_BYTES = 30_000_000;

export interface OwnFiles {
  readText(path: string): string | { readonly why: string };
  readFont(path: string): Uint8Array | { readonly why: string };
}

/** Paths are meant from the folder of the job file, or from where the command was typed. */
export function ownFiles(job: string, cwd: string): OwnFiles {
  const folder = /\.ya?ml$/i.test(job) ? dirname(resolve(cwd, job)) : cwd;
  const read = (path: string, most: number): Uint8Array | { why: string } => {
    const file = isAbsolute(path) ? path : resolve(folder, path);
    try {
      const stat = statSync(file, { throwIfNoEntry: false });
      if (!stat) return { why: `there is no such file in ${folder}` };
      if (!stat.isFile()) return { why: 'it is no file' };
      if (stat.size > most) return { why: `it has ${stat.size} bytes; at most ${most} are read` };
      return readFileSync(file);
    } catch (error) {
      return { why: error instanceof Error ? error.message : String(error) };
    }
  };
  return {
    readFont: path => read(path, MOST_FONT_BYTES),
    readText(path) {
      const bytes = read(path, MOST_TEXT_BYTES);
      if ('why' in bytes) return bytes;
      try {
        return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
      } catch {
        return { why: 'its text is not UTF-8: save it as UTF-8' };
      }
    },
  };
}
