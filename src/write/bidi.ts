/** Lines with right-to-left letters, as runs in the order in which they are seen (Unicode Annex 9). */
import { createRequire } from 'node:module';
import type { Bidi } from 'bidi-js';

/** Hebrew, Arabic and their presentation forms. */
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]/;

export const runsRightToLeft = (text: string): boolean => RIGHT_TO_LEFT.test(text);

/** What is set from one font. Right-to-left letters stand as they are written, since shaping them with
 *  their font turns them round; their digits, which run on from left to right, stand the other way. */
export interface Run<F> {
  readonly font: F;
  readonly text: string;
}

interface Piece<F> {
  readonly font: F;
  readonly level: number;
  text: string;
}

let bidi: Bidi | undefined;

/** The runs from left to right; the first letter says which way the line goes. `fontOf` gives the font of a
 *  character and what is set for it. */
export function visualRuns<F>(
  text: string,
  fontOf: (char: string) => { readonly font: F; readonly char: string },
): Run<F>[] {
  // Loaded with the first such line.
  const open = createRequire(import.meta.url)('bidi-js') as () => Bidi;
  bidi ??= open();
  const embedding = bidi.getEmbeddingLevels(text, 'auto');
  const mirrored = bidi.getMirroredCharactersMap(text, embedding.levels);
  const pieces: Piece<F>[] = [];
  let at = 0;
  for (const given of text) {
    const { font, char } = fontOf(mirrored.get(at) ?? given);
    const level = embedding.levels[at]!;
    const last = pieces.at(-1);
    if (last && last.font === font && last.level === level) last.text += char;
    else pieces.push({ font, level, text: char });
    at += given.length;
  }
  return inSight(pieces).map(({ font, level, text: said }) => ({
    font,
    // A font turns its letters round, and their digits too; signs and spaces it leaves.
    text: (level % 2 === 1) === runsRightToLeft(said) ? said : [...said].reverse().join(''),
  }));
}

/** From the highest level down to the lowest odd one, whatever is at least so high is turned round (L2). */
function inSight<F>(pieces: readonly Piece<F>[]): Piece<F>[] {
  const order = [...pieces];
  const highest = Math.max(0, ...order.map(p => p.level));
  for (let level = highest; level >= 1; level--) {
    for (let i = 0; i < order.length; i++) {
      let end = i;
      while (end < order.length && order[end]!.level >= level) end++;
      if (end === i) continue;
      order.splice(i, end - i, ...order.slice(i, end).reverse());
      i = end;
    }
  }
  return order;
}
