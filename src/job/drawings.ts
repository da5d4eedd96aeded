/** Motifs by name, and drawings of the person's own by the names of their files. */
import { find, type Motif } from '../contracts.js';
import { ParamError } from '../params.js';
import type { Context } from './context.js';
import type { Entry } from './document.js';
import { plainName } from './names.js';
import { cut, oneOf } from './reading.js';

/** Whether a motif's name is meant as a file. */
const isFile = (name: string) => /\.svg$/i.test(name.trim()) || /[\\/]/.test(name);

/** The motif that an entry names; a fault where there is none or its file cannot be used. */
export function motifOf({ r, library }: Context, entry: Entry): Motif | undefined {
  if (entry.kind !== 'text' || !isFile(entry.text)) {
    const ids = library.motifs.map(m => m.id);
    return oneOf(r, entry, 'motif', ids, id => find(library.motifs, id));
  }
  const drawing = library.tools?.drawing;
  if (!drawing) return r.fault(entry.at, 'drawings of your own cannot be read here');
  try {
    const motif = drawing(entry.text.trim());
    if (motif) return motif;
    return r.fault(entry.at, `motif cannot be ${cut(entry.text)}`, {
      allowed: 'a motif, or a drawing whose name ends in .svg',
      hint: 'save the drawing as SVG; for motifs see: foldwright list motifs',
    });
  } catch (error) {
    if (!(error instanceof ParamError)) throw error;
    return r.fault(entry.at, `motif cannot be ${cut(entry.text)}`, {
      allowed: error.allowed,
      hint: error.advice,
    });
  }
}

/** What a decoration is called after its motif: its name, or its file's without folder and ending. */
export const motifWord = (text: string): string =>
  isFile(text)
    ? plainName(
        text
          .trim()
          .replace(/^.*[\\/]/, '')
          .replace(/\.svg$/i, ''),
      ) || 'drawing'
    : text;
