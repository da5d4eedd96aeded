/** What cut-outs do to the paper around them. */
import { windingOf } from '../geom/index.js';
import type { Layer } from '../model.js';
import { narrowPlace } from './least-width.js';

/** Closed cuts inside a cut-out leave islands, which fall out of the piece. */
function islandsOf({ holes, strokes }: Layer): number {
  const inOpening = windingOf(...holes);
  return strokes.filter(
    ({ operation, path }) => operation === 'cut' && path.closed && inOpening(path.start) !== 0,
  ).length;
}

/** Warnings about layers with cut-outs: letters whose middles fall out, and paper that tears. */
export function cutOutWarnings(
  layers: readonly Layer[],
  what: string,
  leastWidth: number,
): string[] {
  const pierced = layers.filter(l => l.holes.length > 0);
  const warnings: string[] = [];
  const islands = pierced.reduce((sum, l) => sum + islandsOf(l), 0);
  if (islands > 0) {
    const they = islands === 1 ? '1 island falls' : `${islands} islands fall`;
    warnings.push(
      `${what}: ${they} out of the cut letters (the middle of an "o"); keep them to glue back, ` +
        'or draw or print the text',
    );
  }
  if (pierced.some(l => narrowPlace(l, leastWidth) === 'neck')) {
    warnings.push(
      `${what}: the cut-outs leave paper narrower than ${leastWidth} mm, which tears; ` +
        'make it larger, or draw or print the text',
    );
  }
  return warnings;
}
