/** What cut-outs do to the paper around them. */
import { offsetRegions, windingOf } from '../geom/index.js';
import type { Layer } from '../model.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';

/** Closed cuts inside a cut-out leave islands, which fall out of the piece. */
function islandsOf({ holes, strokes }: Layer): number {
  const inOpening = windingOf(...holes);
  return strokes.filter(
    ({ operation, path }) => operation === 'cut' && path.closed && inOpening(path.start) !== 0,
  ).length;
}

/** Whether paper is narrower somewhere than `LEAST_WIDTH_MM`: moved inward by half of that on
 *  every side it parts, or is gone. */
function isFrail({ outline, holes }: Layer): boolean {
  return offsetRegions([{ outer: outline, holes }], -LEAST_WIDTH_MM / 2, 'round').length !== 1;
}

/** Warnings about layers with cut-outs: letters whose middles fall out, and paper that tears. */
export function cutOutWarnings(layers: readonly Layer[], what: string): string[] {
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
  if (pierced.some(isFrail)) {
    warnings.push(
      `${what}: the cut-outs leave paper narrower than ${LEAST_WIDTH_MM} mm, which tears; ` +
        'make it larger, or draw or print the text',
    );
  }
  return warnings;
}
