/** Drawings that a job names beside itself: `motif: ./fox.svg`. */
import type { Motif } from '../contracts.js';
import type { Convention } from '../model.js';
import { ownArt } from '../motifs/index.js';
import { ParamError } from '../params.js';
import { cleanOutlines } from '../tool/index.js';
import { ReadError, readOwnSvg } from '../write/index.js';
import type { OwnFiles } from './own-files.js';

/** Finds drawings by name, each read once. Throws `ParamError` for a file that cannot be used. */
export function ownDrawings(
  files: Pick<OwnFiles, 'text'>,
  convention: Convention | undefined,
): (file: string) => Motif | undefined {
  const known = new Map<string, Motif>();
  return file => {
    if (!/\.svg$/i.test(file)) return undefined;
    const found = known.get(file);
    if (found) return found;
    const source = files.text(file, 'drawing');
    if (typeof source !== 'string') {
      throw new ParamError(
        'motif',
        file,
        `a drawing that can be read; ${source.why}`,
        source.advice,
      );
    }
    const motif = ownArt(file, linesOf(file, source, convention), cleanOutlines);
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
