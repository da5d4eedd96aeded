/** What features refuse, in words that help. */
import { describe, expect, it } from 'vitest';
import { distanceToPath, endOf } from '../../../src/geom/index.js';
import type { ParamValues } from '../../../src/model.js';
import { fillParams } from '../../../src/params.js';
import { STYLES } from '../../../src/styles/index.js';
import { flip, make, spec, T, tried } from './taken.js';

describe('on a carton with a gable top', () => {
  const style = STYLES.find(s => s.id === 'gable-top')!;
  const nets = style.build({ inside: style.example, thickness: T }, fillParams(style.params, {}));
  const refusal = (feature: string, panel: string, values: ParamValues = {}) =>
    tried(nets, spec(feature, panel, values)).refused;
  it('the fin keeps the paper that the gussets hook in behind', () => {
    expect(refusal('thumb-notch', 'front-fin')).toMatchObject({
      param: 'at',
      allowed: /(left-fin-left|right-fin-right) hooks in over front-fin/,
    });
  });
  it('the strip keeps the head that its roof hangs on', () => {
    const refused = refusal('slit-lock', 'strip');
    expect(refused).toMatchObject({ param: 'on', allowed: /strip-roof is joined/ });
  });
  it('folds that close a ring are marked too', () => {
    const { made } = tried(nets, spec('hinge-marks', ''));
    const ticks = made!.nets[0]!.panels.flatMap(p => p.strokes).map(s => s.path);
    for (const ring of nets[0]!.ringHinges!) {
      const on = ticks.filter(t =>
        [t.start, endOf(t)].every(p => distanceToPath(p, ring.along) < 1e-6),
      );
      expect(on).toHaveLength(2);
    }
  });
});

describe('is refused, with the parameter and the bound', () => {
  it.each([
    [
      'a window larger than its panel',
      'window',
      'lid',
      { size: 300 },
      {},
      'size',
      /at most 150\.7/,
    ],
    [
      'a window over a fold',
      'window',
      'lid',
      { size: 20 },
      { at: [0, -22] },
      'at',
      /the fold to back/,
    ],
    ['a slot through a hinge', 'ribbon', 'base', {}, { at: [0, 22] }, 'at', /the fold to back/],
    [
      'a notch larger than the flap',
      'thumb-notch',
      'left-dust',
      { radius: 20 },
      {},
      'radius',
      /at most 11\.7/,
    ],
    [
      'a window where a tab is glued',
      'window',
      'left',
      { size: 8, height: 8 },
      { at: [0, 18] },
      'at',
      /glued to left/,
    ],
    ['a window in a glue flap', 'window', 'front-left-tab', {}, {}, 'on', /is glued to left/],
    [
      'an edge that is not free',
      'thumb-notch',
      'lid',
      { edge: 'down' },
      {},
      'edge',
      /left|right|up/,
    ],
    ['a lock where nothing is glued', 'slit-lock', 'lid', {}, {}, 'on', /front-right-tab/],
    [
      'a dot where nothing lies',
      'closure',
      'front',
      { edge: 'auto' },
      {},
      'edge',
      /front has none/,
    ],
    ['a dot on a panel that is not there', 'closure', 'lid', { to: 'sky' }, {}, 'to', /lid-under/],
    ['corners on a panel without', 'corners', 'base', {}, {}, 'on', /two free edges/],
    ['holes too near to each other', 'ribbon', 'base', { apart: 2 }, {}, 'apart', /at least 2\.5/],
  ] as const)('%s', (_, feature, panel, values, more, param, allowed) => {
    const { refused } = tried(flip(), spec(feature, panel, values, more));
    expect(refused).toMatchObject({ param });
    expect(refused!.allowed).toMatch(allowed);
    expect(refused!.advice.length).toBeGreaterThan(5);
  });
  it('two features that overlap', () => {
    const one = make(flip(), spec('window', 'lid', { shape: 'round', size: 20 })).nets;
    const again = (x: number) =>
      tried(one, spec('hanging-hole', 'lid', { edge: 'none' }, { at: [x, 0] })).refused;
    expect(again(0)).toMatchObject({ param: 'at', allowed: /another opening of lid/ });
    // Radii 10 and 3: they need 14 mm from middle to middle.
    expect(again(13.9)).toMatchObject({ param: 'at' });
    expect(again(14.1)).toBeUndefined();
  });
});
