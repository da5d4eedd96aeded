/** What a decoration's layers are asked for beside its papers: a shadow, cut-outs, the least width. */
import type { CutOutSpec, ShadowSpec } from '../model.js';
import type { Context } from './context.js';
import type { Entry } from './document.js';
import { motifOf } from './drawings.js';
import { pointOf } from './placing.js';
import { degreesOf, lengthOf } from './quantities.js';
import { ask, fields, listOf, type Reading, textOf } from './reading.js';
import { paramPairs, readParams } from './values.js';

/** Under a third of a millimetre no paper holds; over 10 nothing is left of a motif. */
const LEAST_WIDTH = { least: 0.3, most: 10 };
export const leastWidthOf = (r: Reading, entry: Entry) =>
  lengthOf(r, entry, 'least-width', LEAST_WIDTH);

/** `shadow: [1mm, -1mm]`, or a map with its paper. */
export function readShadow(c: Context, entry: Entry): ShadowSpec | undefined {
  const standard = c.papers.standard ?? '';
  if (entry.kind !== 'map') {
    const by = pointOf(c, entry, 'shadow');
    return by && { by, stock: standard };
  }
  const f = fields(c.r, entry, 'a shadow', ['by', 'stock'], ['by']);
  const by = f && ask(f, 'by', e => pointOf(c, e, 'by'));
  const stock = (f && ask(f, 'stock', e => c.papers.use(e))) ?? standard;
  return by && { by, stock };
}

const MOST_CUT_OUTS = 24;
const TURN_DEG = { least: -360, most: 360 };

export function readCutOuts(c: Context, entry: Entry): readonly CutOutSpec[] {
  const items = listOf(c.r, entry, 'cut-outs', MOST_CUT_OUTS, true) ?? [];
  return items.flatMap(item => readCutOut(c, item) ?? []);
}

/** `heart` is `{ motif: heart }`. */
function readCutOut(c: Context, entry: Entry): CutOutSpec | undefined {
  const { r } = c;
  const keys = ['motif', 'params', 'at', 'turn', 'through'] as const;
  const f = entry.kind === 'text' ? undefined : fields(r, entry, 'a cut-out', keys, ['motif']);
  const named = entry.kind === 'text' ? entry : f?.get('motif');
  if (!named) return undefined;
  const motif = motifOf(c, named);
  const params = motif && readParams(r, paramPairs(r, f?.get('params')), motif);
  const at = (f && ask(f, 'at', e => pointOf(c, e))) ?? ([0, 0] as const);
  const turn = (f && ask(f, 'turn', e => degreesOf(r, e, 'turn', TURN_DEG))) ?? 0;
  const through = f && ask(f, 'through', e => textOf(r, e, 'through'));
  if (!motif || !params?.sound) return undefined;
  const place = { at, turn: (turn * Math.PI) / 180, ...(through !== undefined && { through }) };
  return { motif: motif.id, values: params.values, ...place };
}
