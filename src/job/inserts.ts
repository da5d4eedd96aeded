/** Dividers and platforms that a treat asks for: room for them in its box, and an item of their own. */
import { find } from '../contracts.js';
import { type Insert, insertValues, spacedFor } from '../fit/index.js';
import type { Arrangement, Item } from '../model.js';
import { fillParams, ParamError } from '../params.js';
import type { AskedTreat } from './asked-treat.js';
import type { Context } from './context.js';
import type { Span } from './fault.js';
import { inUnit } from './quantities.js';
import { cut, type Reading } from './reading.js';

/** The treat with room for the insert's paper, and what its places allow. */
export function withInsert(
  r: Reading,
  insert: Insert,
  at: Span,
  asked: AskedTreat,
  thickness: number,
): AskedTreat | undefined {
  const { kind } = asked.treat.shape;
  if (insert === 'platform' && (kind === 'block' || kind === 'pouch')) {
    return r.fault(at, `a platform has round holes, and a ${kind} does not go into them`, {
      allowed: 'divider; or a round, a ball or a stick',
      hint: 'take the divider',
    });
  }
  const { treat, choice } = spacedFor(insert, asked.treat, thickness);
  return { ...asked, treat, choice: { ...asked.choice, ...choice } };
}

/** The insert as an item, cut from the paper of its box. Nothing where it cannot be, which is told. */
export function insertItem(
  { r, library }: Context,
  { insert, at }: { readonly insert: Insert; readonly at: Span },
  arrangement: Arrangement,
  { name, title, count, box }: Item,
  thickness: number,
): Item | undefined {
  const style = find(library.styles, insert);
  if (!style || !box) throw new Error(`no style ${insert}`);
  // Of a box that is rounded for scoring by hand, what its paper leaves.
  const spec = { inside: box.rounding?.clear ?? box.spec.inside, thickness };
  try {
    const values = fillParams(style.params, insertValues(insert, arrangement));
    style.build(spec, values);
    return {
      name: `${name}-${insert}`,
      title: `${title}: ${insert}`,
      count,
      box: { style: insert, spec, values, stock: box.stock },
      decorations: [],
    };
  } catch (error) {
    if (!(error instanceof ParamError)) throw error;
    const { value, param, allowed, advice } = error;
    const shown = typeof value === 'number' ? inUnit(value, r.unit) : cut(String(value));
    return r.fault(at, `the ${insert} of ${name}: ${param} cannot be ${shown}`, {
      allowed,
      hint: advice,
    });
  }
}
