/** The printed art of a decoration: its pattern, its colours. */
import { find } from '../contracts.js';
import type { ArtSpec } from '../model.js';
import { type Context, presetOf } from './context.js';
import type { Entry } from './document.js';
import { patternFaults } from './motif-check.js';
import { coloursOf, countOf } from './quantities.js';
import { ask, fields, oneOf } from './reading.js';
import { paramPairs, readParams } from './values.js';

/** The palette of a pattern that names none. */
const STANDARD_PALETTE = 'windfall';

/** `art: dots` is `art: { pattern: dots }`. */
export function readArt(c: Context, entry: Entry): ArtSpec | undefined {
  const { r, library } = c;
  const f =
    entry.kind === 'text'
      ? undefined
      : fields(r, entry, 'art', ['pattern', 'palette', 'seed', 'params'], ['pattern']);
  const named = entry.kind === 'text' ? entry : f?.get('pattern');
  if (!named) return undefined;
  const ids = library.patterns.map(p => p.id);
  const pattern = oneOf(r, named, 'pattern', ids, id => find(library.patterns, id));
  const palette = paletteOf(c, f?.get('palette'));
  const seed = f && ask(f, 'seed', e => countOf(r, e, 'seed', { least: 0, most: 999_999_999 }));
  const params = pattern && readParams(r, paramPairs(r, f?.get('params')), pattern);
  if (!params || !palette) return undefined;
  patternFaults(c, pattern, params, palette, named.at);
  return { pattern: pattern.id, values: params.values, palette, seed: seed ?? 1 };
}

function paletteOf(c: Context, entry: Entry | undefined): readonly string[] | undefined {
  if (entry?.kind === 'list') return coloursOf(c.r, entry, 'palette');
  const named = entry ?? { kind: 'text', text: STANDARD_PALETTE, at: { start: 0, end: 0 } };
  const found = presetOf(c.r, c.library, 'palette', named);
  return found && 'value' in found ? found.value.colours : undefined;
}
