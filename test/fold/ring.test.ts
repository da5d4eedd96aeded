/** Folds that close a ring of panels: the webbed corner of a tray that holds water. */
import { describe, expect, it } from 'vitest';
import { checkNet } from '../../src/fold/check.js';
import { drawNet } from '../../src/fold/outline.js';
import type { Net } from '../../src/model.js';
import { newNet } from '../../src/styles/build.js';
import { polygonShape, rect } from '../../src/styles/shapes.js';

/**
 * A base, two walls, and between them a square folded in two that points outward from the corner,
 * halfway between the walls. `web` is the angle from wall to web.
 */
function corner(web: number, fold = Math.PI): Net {
  const b = newNet('corner', 'Corner', 0);
  const base = b.root('base', 'base', rect(40, 30));
  const right = b.fold(base.side('right'), 'right', 'wall', w => rect(w, 20));
  const back = b.fold(base.side('head'), 'back', 'wall', w => rect(w, 20));
  // Seen from the right wall the web is at its left, the base's corner at its lower right.
  const first = b.fold(
    right.side('left'),
    'first',
    'gusset',
    polygonShape([
      { at: [0, 0], side: 'foot' },
      { at: [20, 0], side: 'head' },
      { at: [20, 20], side: 'diagonal' },
    ]),
    { angle: web },
  );
  const second = b.fold(
    first.side('diagonal'),
    'second',
    'gusset',
    polygonShape([
      { at: [0, 0], side: 'foot' },
      { at: [20 * Math.SQRT2, 0], side: 'head' },
      { at: [10 * Math.SQRT2, 10 * Math.SQRT2], side: 'side' },
    ]),
    { angle: fold },
  );
  b.ring(back.side('right'), second.side('side'), web);
  return b.done();
}
const eighth = -Math.PI / 4;
const laws = (net: Net) => [...new Set(checkNet(net).map(f => f.law))];

describe('a ring of panels', () => {
  it('that closes is sound, and creased all round', () => {
    const net = corner(eighth);
    expect(checkNet(net)).toEqual([]);
    const { scores, slits } = drawNet(net);
    expect(slits).toEqual([]);
    expect(scores).toHaveLength(5);
  });
  it('that stays open by a degree is found, by how much', () => {
    const degree = Math.PI / 180;
    const found = checkNet(corner(eighth, Math.PI - degree)).filter(f => f.law === 'ring');
    // The far end of the wall's edge is 20 mm from the corner and 20 mm · sin 45° from the fold.
    const apart = 2 * 20 * Math.SQRT1_2 * Math.sin(degree / 2);
    expect(found[0]!.measured).toBeCloseTo(apart, 9);
    expect(found[0]!.message).toContain('back and second come apart along their fold by 0.247 mm');
  });
  it('whose fold is said to be another angle than it is, is found', () => {
    const net = corner(eighth);
    const [ring] = net.ringHinges!;
    const wrong = { ...net, ringHinges: [{ ...ring!, angle: -eighth }] };
    expect(laws(wrong)).toEqual(['ring']);
    expect(checkNet(wrong)[0]!.measured).toBeCloseTo(Math.PI / 2, 9);
  });
  it('that is not a fold of both panels is found in the flat', () => {
    const net = corner(eighth);
    const [ring] = net.ringHinges!;
    expect(laws({ ...net, ringHinges: [{ ...ring!, child: 'first' }] })).toEqual(['hinge']);
  });
});
