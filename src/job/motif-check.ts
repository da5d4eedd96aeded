/** A motif drawn once while the job is read, so that what it refuses is told at its place. */
import { find } from '../contracts.js';
import { ParamError } from '../params.js';
import type { Context } from './context.js';
import type { MotifAsk } from './decoration-parts.js';
import { didYouMean } from './nearest.js';
import { cut, type Fields, listed } from './reading.js';
import { tellParamError } from './values.js';

/** The papers of a motif's layers; those that a job gives a stock for must be among them. */
export function paperFaults(c: Context, asked: MotifAsk, f: Fields): void {
  const { r, library } = c;
  const motif = find(library.motifs, asked.what.motif);
  if (!motif || !library.tools || !asked.sound) return;
  let papers: string[];
  try {
    papers = motif.build(asked.what.values, library.tools).map(layer => layer.paper);
  } catch (error) {
    if (!(error instanceof ParamError)) throw error;
    tellParamError(r, error, asked.places.get(error.param) ?? asked.at, motif, 'the decoration');
    return;
  }
  const known = [...new Set(['main', ...papers])];
  const stocks = f.get('stocks');
  if (stocks?.kind !== 'map') return;
  for (const { key, keyAt } of stocks.pairs) {
    if (known.includes(key)) continue;
    const hint = didYouMean(key, known);
    r.fault(keyAt, `${motif.id} has no layer paper "${cut(key)}"`, {
      allowed: listed(known),
      ...(hint ? { hint } : {}),
    });
  }
}
