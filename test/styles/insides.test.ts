/** The clear space of soft packs, layers and inserts, measured on their folded nets. */
import { describe, expect, it } from 'vitest';
import type { BoxStyle } from '../../src/contracts.js';
import { place } from '../../src/fold/pose.js';
import { standing } from '../../src/fold/stand.js';
import { bounds } from '../../src/geom/index.js';
import type { Inside, Net, ParamValue } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { divider } from '../../src/styles/divider.js';
import { envelope } from '../../src/styles/envelope.js';
import { fourWallBurst } from '../../src/styles/four-wall-burst.js';
import { gussetBag } from '../../src/styles/gusset-bag.js';
import { platform } from '../../src/styles/platform.js';
import { clearInside } from '../support/nets.js';

const build = (
  style: BoxStyle,
  inside: Inside,
  thickness: number,
  given: Record<string, ParamValue> = {},
) => style.build({ inside, thickness }, fillParams(style.params, given));
const partOf = (nets: readonly Net[], id: string) => nets.find(n => n.id === id)!;
/** The extent of what stands, along an axis, between the papers' middles. */
const span = (net: Net, axis: 0 | 1 | 2, ids?: readonly string[]) => {
  const points = standing(net)
    .filter(p => !ids || ids.includes(p.panel.id))
    .flatMap(p => p.panel.outline.segments.map(s => place(p, s.to)[axis]));
  return [Math.min(...points), Math.max(...points)] as const;
};

describe.each([0, 0.2, 0.3, 0.6])('in paper of %s mm', t => {
  it('an envelope with gussets is clear between its seams, its walls and its ends', () => {
    const [net] = build(envelope, { length: 100, width: 12, height: 70 }, t, { gusset: true });
    const [along, up, deep] = clearInside(net!);
    expect(along).toBeCloseTo(100, 9);
    expect(up).toBeCloseTo(70, 9);
    expect(deep).toBeCloseTo(12, 9);
  });
  it('a flat envelope is larger by how thick its contents are, each way', () => {
    const [net] = build(envelope, { length: 100, width: 5, height: 70 }, t);
    const { minX, maxX, minY, maxY } = bounds(net!.panels[0]!.outline);
    expect([maxX - minX - t, maxY - minY - t]).toEqual([
      expect.closeTo(105, 9),
      expect.closeTo(75, 9),
    ]);
  });
  it('a gusset bag is clear within its cuff, from its bottom to its rim', () => {
    const [net] = build(gussetBag, { length: 80, width: 45, height: 110 }, t);
    const [along, up, deep] = clearInside(net!);
    expect(along).toBeCloseTo(80, 9);
    expect(up).toBeCloseTo(110, 9);
    expect(deep).toBeCloseTo(45, 9);
  });
  it('a gusset bag without a cuff is', () => {
    const [net] = build(gussetBag, { length: 80, width: 45, height: 110 }, t, { cuff: 0 });
    const sides = clearInside(net!);
    [80, 110, 45].forEach((side, i) => {
      expect(sides[i]).toBeCloseTo(side, 9);
    });
  });
  it('the layers of a burst leave each other the room asked for, the innermost the inside', () => {
    const nets = build(fourWallBurst, { length: 44, width: 50, height: 40 }, t, { between: 0.7 });
    const insides = ['layer-3', 'layer-2', 'layer-1'].map(id => clearInside(partOf(nets, id)));
    insides.forEach(([along, across], i) => {
      expect(along).toBeCloseTo(44 + 2 * i * (t + 0.7), 9);
      expect(across).toBeCloseTo(50 + 2 * i * (t + 0.7), 9);
    });
    // From the base's inner face up to the lid's: all walls end under the lid.
    const tops = ['layer-1', 'layer-2', 'layer-3'].map(id => span(partOf(nets, id), 2)[1]);
    const lid = span(partOf(nets, 'lid'), 2, ['base'])[0] - t / 2;
    for (const top of tops) expect(top).toBeCloseTo(lid, 9);
    const floor = span(partOf(nets, 'layer-3'), 2, ['base'])[1] + t / 2;
    expect(lid - floor).toBeCloseTo(40, 9);
  });
  it('a divider parts a box into places of one size, and its ends leave the ease', () => {
    const inside = { length: 150, width: 100, height: 40 };
    const nets = build(divider, inside, t, { columns: 4, rows: 3, ease: 0.25 });
    const at = (axis: 0 | 1, begin: string) =>
      nets
        .filter(n => n.id.startsWith(begin))
        .map(n => {
          const [low, high] = span(n, axis, ['strip']);
          expect(high - low).toBeLessThan(1e-9);
          return low;
        });
    const places = (walls: readonly number[], half: number) => {
      const faces = [-half - t / 2, ...walls, half + t / 2];
      return faces.slice(1).map((f, i) => f - faces[i]! - t);
    };
    // Common sense: n places and n − 1 papers make up the whole.
    const [x, y] = [places(at(0, 'cross'), 75), places(at(1, 'long'), 50)];
    expect(x).toHaveLength(4);
    expect(y).toHaveLength(3);
    for (const p of x) expect(p).toBeCloseTo((150 - 3 * t) / 4, 9);
    for (const p of y) expect(p).toBeCloseTo((100 - 2 * t) / 3, 9);
    const [low, high] = span(partOf(nets, 'long-1'), 0, ['strip', 'left-tab', 'right-tab']);
    const tabs = partOf(nets, 'long-1').panels.length > 1;
    expect(150 - (high - low) - (tabs ? t : 0)).toBeCloseTo(0.5, 9);
    expect(span(partOf(nets, 'cross-1'), 2, ['strip'])[1]).toBeCloseTo(40, 9);
  });
  it('a platform is the ease off each wall, its top face as high as asked', () => {
    const inside = { length: 150, width: 100, height: 60 };
    const [net] = build(platform, inside, t, { ease: 0.5, rise: 22 });
    const [left, right] = span(net!, 0);
    const [front, back] = span(net!, 1);
    expect(150 - (right - left) - t).toBeCloseTo(1, 9);
    expect(100 - (back - front) - t).toBeCloseTo(1, 9);
    // The feet's lower faces are half a thickness below their middles.
    const [low, high] = span(net!, 2);
    expect(high - low + t).toBeCloseTo(22, 9);
  });
});
