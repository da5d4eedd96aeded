/** Edges that hook in over another panel. */
import { describe, expect, it } from 'vitest';
import { checkNet } from '../../src/fold/check.js';
import { transform, translation } from '../../src/geom/index.js';
import type { Net } from '../../src/model.js';
import { newNet } from '../../src/styles/build.js';
import { rect } from '../../src/styles/shapes.js';

/** A base of 40 × 30 mm in paper of 1 mm with two flaps over it from opposite sides; the edge of the
 *  lower one hooks in under the upper one. */
function hooked(low: number, high: number, reach: number): Net {
  const b = newNet('n', 'N', 1);
  const base = b.root('base', 'base', rect(40, 30));
  const lowWall = b.fold(base.side('foot'), 'low-wall', 'wall', w => rect(w, low));
  const highWall = b.fold(base.side('head'), 'high-wall', 'wall', w => rect(w, high));
  const flap = b.fold(lowWall.side('head'), 'low', 'flap', w => rect(w, reach));
  const upper = b.fold(highWall.side('head'), 'high', 'flap', w => rect(w, 20));
  b.hook(flap.side('head'), upper);
  return b.done();
}
const laws = (net: Net) => checkNet(net).map(f => `${f.law} ${f.measured.toFixed(2)}`);

describe('an edge that hooks in', () => {
  it('lies on the inside of the other panel', () => {
    expect(laws(hooked(10, 11, 18))).toEqual([]);
  });
  it('is noticed when it ends before the other panel', () => {
    expect(laws(hooked(10, 11, 9))).toEqual(['join 1.00']);
  });
  it('is noticed when it lies outside', () => {
    expect(laws(hooked(10, 9, 18))).toEqual(['join 1.00']);
  });
  it('is noticed when it is too far off', () => {
    expect(laws(hooked(10, 12.5, 18))).toEqual(['join 1.50']);
  });
  it('does not excuse its panel from lying in the other paper', () => {
    expect(laws(hooked(10, 10.5, 18))).toEqual(['crowded 0.50']);
  });
  it('must be an edge of its panel, and a number', () => {
    const net = hooked(10, 11, 18);
    const moved = (by: number): Net => ({
      ...net,
      joins: net.joins.map(j =>
        j.kind === 'tuck' && 'along' in j.a
          ? { ...j, a: { ...j.a, along: transform(j.a.along, translation(0, by)) } }
          : j,
      ),
    });
    expect(laws(moved(0.5))).toEqual(['join 0.50']);
    expect(laws(moved(Number.NaN))).toEqual(['finite NaN']);
  });
});
