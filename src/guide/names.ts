/** Names of panels for sentences: those that differ by a number in a row come as one. */
import type { PartName, PieceName } from '../model.js';
import type { Words } from '../words/english.js';

/** `tooth-1 … tooth-12` is one name; fewer than three stay apart. */
const LEAST_RUN = 3;

export function namesOf(ids: readonly string[], words: Pick<Words, 'panel' | 'panelRange'>) {
  const stems = new Map<string, number[]>();
  for (const id of ids) {
    const [, stem, n] = /^(.*?)-?(\d+)$/.exec(id) ?? [undefined, id, ''];
    stems.set(stem!, [...(stems.get(stem!) ?? []), Number(n || Number.NaN)]);
  }
  return [...stems].flatMap(([stem, numbers]) => {
    const sorted = [...numbers].sort((a, b) => a - b);
    const inRow = sorted.every((n, i) => i === 0 || n === sorted[i - 1]! + 1);
    if (sorted.length >= LEAST_RUN && inRow) {
      return [words.panelRange(stem, sorted[0]!, sorted.at(-1)!)];
    }
    return numbers.map(n => words.panel(Number.isNaN(n) ? stem : `${stem}-${n}`));
  });
}

/** A part of a box as it is called. */
export const partName = ({ title, portion }: PartName, words: Words): string =>
  portion
    ? words.portion(words.partTitle(portion.of), portion.number, portion.count)
    : words.partTitle(title);

/** A piece as it is called. */
export function pieceName(name: PieceName, words: Words): string {
  if ('part' in name) return partName(name.part, words);
  if ('film' in name) return words.filmPiece(words.feature(name.film), words.panel(name.panel));
  return words.layerPiece(name.decoration, name.layer, name.number, name.said);
}

/** Its name, without the rest of a net. */
export const partOf = ({ title, portion }: PartName): PartName => ({
  title,
  ...(portion && { portion }),
});
