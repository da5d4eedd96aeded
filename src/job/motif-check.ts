/** Motifs and patterns drawn once while the job is read, so that what they refuse is told at its place. */
import { find, type Pattern } from '../contracts.js';
import { ParamError } from '../params.js';
import type { MotifAsk } from './asked.js';
import type { Context } from './context.js';
import type { Span } from './fault.js';
import { didYouMean } from './nearest.js';
import { cut, type Fields, listed } from './reading.js';
import { type Params, tellParamError } from './values.js';

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
    tellParamError(r, error, asked.places.get(error.param) ?? asked.at, motif);
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

/** A little area is enough: what a pattern refuses does not depend on it. */
const SAMPLE = { minX: 0, minY: 0, maxX: 20, maxY: 20 };

/** What a pattern refuses. */
export function patternFaults(
  c: Context,
  pattern: Pattern,
  params: Params,
  palette: readonly string[],
  at: Span,
): void {
  if (!params.sound) return;
  // Park and Miller's generator (1988): chance enough to draw with.
  let state = 1;
  const random = () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
  try {
    pattern.build(params.values, SAMPLE, palette, random);
  } catch (error) {
    if (!(error instanceof ParamError)) throw error;
    tellParamError(c.r, error, params.places.get(error.param) ?? at, pattern);
  }
}
