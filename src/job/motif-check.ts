/** Motifs and patterns drawn once while the job is read, so that what they refuse is told at its place. */
import { motifNamed, type Pattern } from '../contracts.js';
import type { CutOutSpec } from '../model.js';
import { cutThrough, keepLeastWidth } from '../motifs/index.js';
import { ParamError } from '../params.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import type { MotifAsk } from './asked.js';
import type { Context } from './context.js';
import type { Span } from './fault.js';
import { didYouMean } from './nearest.js';
import { cut, type Fields, listed } from './reading.js';
import { type Params, tellParamError } from './values.js';

/** What a decoration asks of its motif's layers. */
interface LayersAsked {
  readonly cutOuts: readonly CutOutSpec[] | undefined;
  readonly leastWidth: number | undefined;
}

/** What the motif refuses, and what its layers do not keep; and the papers that a job gives a stock for:
 *  they must be among those of the layers. */
export function motifFaults(c: Context, asked: MotifAsk, f: Fields, more: LayersAsked): void {
  const { r, library } = c;
  const motif = motifNamed(library.motifs, asked.what.motif, library.tools);
  if (!motif || !library.tools || !asked.sound) return;
  let papers: string[];
  const { cutOuts, leastWidth } = more;
  try {
    const layers = motif.build(asked.what.values, library.tools);
    papers = layers.map(layer => layer.paper);
    // Every motif keeps the usual one, or refuses: a law of the tests.
    if (leastWidth !== undefined && leastWidth > LEAST_WIDTH_MM) {
      keepLeastWidth(motif, asked.what.values, layers, leastWidth, library.tools);
    }
    const least = leastWidth ?? LEAST_WIDTH_MM;
    if (cutOuts) cutThrough(layers, cutOuts, library.motifs, library.tools, least);
  } catch (error) {
    if (!(error instanceof ParamError)) throw error;
    const own = { 'cut-outs': 'cut-outs', through: 'cut-outs', 'least-width': 'least-width' };
    const key = own[error.param as keyof typeof own];
    const at = asked.places.get(error.param) ?? f.pair(key ?? '')?.keyAt ?? asked.at;
    tellParamError(r, error, at, motif);
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
