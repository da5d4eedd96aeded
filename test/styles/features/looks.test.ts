/** Every feature as a picture: the net in the flat, with the piece that goes behind it, and folded. */
import { describe, expect, it } from 'vitest';
import { transform } from '../../../src/geom/index.js';
import { FEATURES } from '../../../src/styles/features/index.js';
import { expectGolden } from '../../support/golden.js';
import { picture } from '../../support/net-picture.js';
import { expectSound } from '../../support/nets.js';
import { SHOWN_FEATURES, shownNets } from '../../support/shown-features.js';

describe('goldens of features', () => {
  it.each(SHOWN_FEATURES.map(s => [s.id, s] as const))('%s', (id, shown) => {
    const { nets, pieces } = shownNets(shown);
    expectSound(nets, id);
    // A film is drawn where it is glued.
    const drawn = nets.map(net => ({
      ...net,
      panels: net.panels.map(p => {
        const own = pieces.filter(f => f.net === net.id && f.panel === p.id);
        const films = own.map(f => ({
          operation: 'draw' as const,
          path: transform(f.outline, f.at),
        }));
        return { ...p, strokes: [...p.strokes, ...films] };
      }),
    }));
    expectGolden(`features/${id}.svg`, picture(drawn));
  });
  it('are of all of them', () => {
    const shown = new Set(SHOWN_FEATURES.flatMap(s => s.features.map(f => f.feature)));
    expect([...shown].sort()).toEqual(FEATURES.map(f => f.id).sort());
  });
});
