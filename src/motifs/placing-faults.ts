/** What is told of a decoration that lies where it must not: over what, by how much, where it fits. */
import { transform } from '../geom/index.js';
import type { Affine, Decoration, Path } from '../model.js';
import { middleOf } from './panel-frame.js';
import { coveredBy, type Ground, nearestFit } from './placement.js';

/** A decoration that lies where it must not. */
export interface PlacingFault {
  readonly message: string;
  readonly hint: string;
}

export function placingFaults(
  outline: Path,
  frames: readonly Affine[],
  ground: Ground,
  decoration: Decoration,
  what: string,
): PlacingFault[] {
  const { over = [], repeat, anchor, face } = decoration;
  for (const [i, frame] of frames.entries()) {
    const there = transform(outline, frame);
    const covered = coveredBy(there, ground, over);
    if (covered.length === 0) continue;
    const copy = frames.length > 1 ? ` (copy ${i + 1} of ${frames.length})` : '';
    const words = covered.map(c => c.words).join(', and ');
    const allow = `over: ${covered.length > 1 ? `[${[...new Set(covered.map(c => c.what))].join(', ')}]` : covered[0]!.what}`;
    const fit = nearestFit(there, ground, over);
    const toSeen = face === 'outside' ? -1 : 1;
    // Where its own middle would be: its frame's origin, moved.
    const [mx, my] = middleOf(ground.panel);
    const at =
      fit &&
      [(frame[4] + fit.by[0] - mx) * toSeen, frame[5] + fit.by[1] - my].map(
        v => `${v.toFixed(1)}mm`,
      );
    const size = fit && fit.scale < 1 ? ` made ${(fit.scale * 100).toFixed(0)} % as large,` : '';
    const place = repeat || !at ? undefined : ` it fits${size} with at: [${at.join(', ')}]`;
    const move = place
      ? `${place.trim()}${anchor ? ' in place of its anchor' : ''}`
      : repeat
        ? 'make fewer or smaller copies, or bring them nearer'
        : 'make it smaller';
    return [{ message: `${what}${copy} ${words}`, hint: `${move}; or allow it with  ${allow}` }];
  }
  return [];
}
