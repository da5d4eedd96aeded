import { describe, expect, it } from 'vitest';
import { newNet } from '../../src/styles/build.js';
import { rect } from '../../src/styles/shapes.js';
import { clearInside, expectSides, expectSound } from './nets.js';

/** A tray without tabs, 30 × 20 mm crease to crease, its front wall as high as said. */
function tray(front: number, thickness = 0) {
  const net = newNet('tray', 'Tray', thickness);
  const base = net.root('base', 'base', rect(30, 20));
  const f = net.fold(base.side('foot'), 'front', 'wall', w => rect(w, front));
  const r = net.fold(base.side('right'), 'right', 'wall', w => rect(w, 10));
  net.fold(base.side('head'), 'back', 'wall', w => rect(w, 10));
  net.fold(base.side('left'), 'left', 'wall', w => rect(w, 10));
  net.meet(f.side('left'), r.side('right'));
  return net.done();
}

describe('expectSound', () => {
  it('passes a tray whose corner closes', () => expectSound([tray(10)]));
  it('fails when one wall is too high for the edge it must meet', () => {
    expect(() => expectSound([tray(10.2)], 'a high front')).toThrow(/a high front\ntray: join/);
  });
  it('fails when a part stands in another', () => {
    const lower = { ...tray(10), id: 'lower', stands: { height: -5, turn: 0.5 } };
    expect(() => expectSound([tray(10), lower])).toThrow(/together: through: tray/);
  });
});

describe('clearInside', () => {
  it('is what the walls leave: half of two thicknesses less each way, and up to the rim', () => {
    const [x, y, z] = clearInside(tray(10, 0.4));
    expect(x).toBeCloseTo(29.6, 12);
    expect(y).toBeCloseTo(19.6, 12);
    expect(z).toBeCloseTo(9.8, 12);
  });
  it('tells a box that is too short', () => {
    expect(clearInside(tray(10, 0.4))[0]).not.toBeCloseTo(30, 1);
  });
});

describe('expectSides', () => {
  it('fails by a thousandth of a millimetre on any side', () => {
    const sides = clearInside(tray(10, 0.4));
    expectSides(tray(10, 0.4), sides);
    for (const i of [0, 1, 2]) {
      const off = sides.map((side, k) => (k === i ? side + 1e-3 : side));
      expect(() => expectSides(tray(10, 0.4), off)).toThrow();
    }
  });
});
