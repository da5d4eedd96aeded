/** Every feature on every style: the box folds as before, or the panel is told why it cannot. */
import { afterAll, describe, expect, it } from 'vitest';
import { netPiece } from '../../../src/fold/outline.js';
import { isFinitePath } from '../../../src/geom/index.js';
import { fillParams } from '../../../src/params.js';
import { FEATURES } from '../../../src/styles/features/index.js';
import { STYLES } from '../../../src/styles/index.js';
import { LEAST_WIDTH_MM } from '../../../src/units/tolerances.js';
import { CARD } from '../../support/card.js';
import { linesApart } from '../../support/clearance.js';
import { expectSound } from '../../support/nets.js';
import { changed, spec, tried, typicalPanels } from './taken.js';

/** Chords of the sampled curves lie this near to them: 24 parts of a half circle of 20 mm. */
const CHORD_MM = 0.05;

/** How many boxes took each feature. */
const taken = new Map(FEATURES.map(f => [f.id, 0]));

describe.each(STYLES.map(s => [s.id, s] as const))('%s', (_, style) => {
  const nets = style.build({ inside: style.example, thickness: 0.3 }, fillParams(style.params, {}));
  const panels = typicalPanels(nets);

  it.each(FEATURES.map(f => [f.id, f] as const))('takes %s, or says why not', (id, feature) => {
    const names = feature.on === 'panel' ? panels : ['', panels[0]!];
    for (const panel of names) {
      const { made, refused } = tried(nets, spec(id, panel, {}, { film: 'film' }));
      if (refused) {
        expect(['on', 'at', 'edge', ...Object.keys(feature.params)]).toContain(refused.param);
        expect(refused.message).not.toMatch(/NaN|Infinity|undefined|at most -/);
        expect(refused.advice.length).toBeGreaterThan(5);
        continue;
      }
      taken.set(id, taken.get(id)! + 1);
      expectSound(made.nets, `${style.id} with ${id} on ${panel}`);
      for (const net of made.nets) {
        const piece = netPiece(net, CARD, 1);
        const paths = [piece.outline, ...piece.holes, ...piece.strokes.map(s => s.path)];
        expect(paths.every(isFinitePath)).toBe(true);
      }
      for (const { old, now } of changed(nets, made.nets)) {
        const holes = now.holes.filter(h => !old.holes.includes(h));
        for (const hole of holes) {
          for (const other of [now.outline, ...now.holes.filter(h => h !== hole)]) {
            expect(linesApart(hole, other)).toBeGreaterThan(LEAST_WIDTH_MM - CHORD_MM);
          }
        }
      }
    }
  });
});

// A check that everything was refused by would prove nothing.
afterAll(() => {
  for (const [id, n] of taken) expect(n, id).toBeGreaterThan(3);
});
