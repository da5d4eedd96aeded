/** Names of panels for sentences: those that differ by a number in a row come as one. */
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
