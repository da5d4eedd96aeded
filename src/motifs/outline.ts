import type { Motif, MotifTools } from '../contracts.js';
import type { ParamValues, Path } from '../model.js';
import { fillParams } from '../params.js';
import { footprint } from './backing.js';

/** The outline round all of a motif's layers, about the origin: what a window in its shape is cut
 *  to. Throws `ParamError` for values that cannot be. */
export const motifOutline = (motif: Motif, values: ParamValues, tools: MotifTools): Path =>
  footprint(motif.build(fillParams(motif.params, values), tools));
