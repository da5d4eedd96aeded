/** Drawings that a job names beside itself: `motif: ./fox.svg`. */
import { readFileSync, realpathSync, statSync } from 'node:fs';
import { dirname, isAbsolute, relative, resolve, sep } from 'node:path';
import type { Motif } from '../contracts.js';
import type { Convention } from '../model.js';
import { ownArt } from '../motifs/index.js';
import { ParamError } from '../params.js';
import { cleanOutlines } from '../tool/index.js';
import { ReadError, readOwnSvg } from '../write/index.js';

/** A drawing of 20,000 segments has about 1 MB; what is larger is not even opened. */
const MOST_BYTES = 8_000_000;

/**
 * Finds drawings by name, each read once. A job file's are looked for in its own folder and below, so that a
 * job from elsewhere opens nothing else, by whatever way: not by `..`, not by a link. Names typed on the
 * command line may lead anywhere. Throws `ParamError` for a file that cannot be used.
 */
export function ownDrawings(
  job: string,
  cwd: string,
  convention: Convention | undefined,
): (file: string) => Motif | undefined {
  const typed = !/\.ya?ml$/i.test(job);
  const folder = typed ? cwd : dirname(resolve(cwd, job));
  const known = new Map<string, Motif>();
  return file => {
    if (!/\.svg$/i.test(file)) return undefined;
    const found = known.get(file);
    if (found) return found;
    const lines = linesOf(file, textOf(file, folder, typed), convention);
    const motif = ownArt(file, lines, cleanOutlines);
    known.set(file, motif);
    return motif;
  };
}

function linesOf(file: string, source: string, convention: Convention | undefined) {
  try {
    return readOwnSvg(source, convention);
  } catch (error) {
    if (!(error instanceof ReadError)) throw error;
    const where = error.where === '' ? '' : `, ${error.where}`;
    throw new ParamError(
      'motif',
      file,
      `a plain drawing of paths and shapes; ${file}${where}: ${error.what}`,
      error.advice,
    );
  }
}

function textOf(file: string, folder: string, typed: boolean): string {
  const refuse = (allowed: string, advice: string) =>
    new ParamError('motif', file, allowed, advice);
  const leads = isAbsolute(file) || /[\\\0:]/.test(file) || file.split('/').includes('..');
  if (!typed && leads) {
    throw refuse(
      "a drawing in the job file's own folder or below it, as ./fox.svg or art/fox.svg",
      'copy the drawing beside the job file',
    );
  }
  try {
    const path = resolve(folder, file);
    const stat = statSync(path, { throwIfNoEntry: false });
    if (!stat?.isFile()) {
      throw refuse(
        `a drawing that is there; ${stat ? 'this is no file' : 'there is no such file'}`,
        typed ? 'see where the file is' : 'its name counts from the folder of the job file',
      );
    }
    const inside = relative(realpathSync(folder), realpathSync(path));
    if (!typed && (inside.split(sep)[0] === '..' || isAbsolute(inside))) {
      throw refuse(
        "a drawing in the job file's own folder; this is a link that leads out of it",
        'copy the drawing beside the job file',
      );
    }
    if (stat.size > MOST_BYTES) {
      const mb = (n: number) => (n / 1e6).toFixed(0);
      throw refuse(
        `drawings of at most ${mb(MOST_BYTES)} MB; it has ${mb(stat.size)} MB`,
        'simplify the drawing, and take pictures out of it',
      );
    }
    return new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(path));
  } catch (error) {
    if (error instanceof ParamError) throw error;
    if (error instanceof TypeError) throw refuse('a drawing in UTF-8', 'save it as UTF-8');
    const why = error instanceof Error ? error.message : String(error);
    throw refuse(`a drawing that can be read; ${why}`, 'see to the file');
  }
}
