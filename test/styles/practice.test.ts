/** What a box maker expects of each style. Check-values 2.3: common practice, no published source. */
import { describe, expect, it } from 'vitest';
import { drawNet } from '../../src/fold/outline.js';
import { bounds, endOf, pathLength } from '../../src/geom/index.js';
import type { Net, ParamValue } from '../../src/model.js';
import { fillParams, ParamError } from '../../src/params.js';
import { flipLid } from '../../src/styles/flip-lid.js';
import type { STYLES } from '../../src/styles/index.js';
import { lidAndBase } from '../../src/styles/lid-and-base.js';
import { pillow } from '../../src/styles/pillow.js';
import { straightTuck } from '../../src/styles/straight-tuck.js';

const panelOf = (net: Net, id: string) => net.panels.find(p => p.id === id)!;
const sizeOf = (net: Net, id: string) => {
  const b = bounds(panelOf(net, id).outline);
  return [b.maxX - b.minX, b.maxY - b.minY] as const;
};
const hingeOf = (net: Net, child: string) => net.hinges.find(h => h.child === child)!;

describe('straight-tuck of 60 × 40 × 90 mm in 0.3 mm card', () => {
  const t = 0.3;
  const [net] = straightTuck.build(
    { inside: { length: 60, width: 40, height: 90 }, thickness: t },
    fillParams(straightTuck.params, {}),
  );
  it('has its last panel one caliper shorter, so that the tube squares', () => {
    expect(sizeOf(net!, 'right')[0] - sizeOf(net!, 'left')[0]).toBeCloseTo(t, 12);
  });
  it('has tuck flaps narrower than the opening by 0.5 to 1 mm a side, 10 to 20 mm deep', () => {
    for (const id of ['top-tuck', 'bottom-tuck']) {
      const [wide, deep] = sizeOf(net!, id);
      const play = (60 - wide) / 2;
      expect(play).toBeGreaterThanOrEqual(0.5);
      expect(play).toBeLessThanOrEqual(1);
      expect(deep).toBeGreaterThanOrEqual(10);
      expect(deep).toBeLessThanOrEqual(20 + 1e-9);
    }
  });
  it('rounds the tuck flaps by 3 mm or more', () => {
    const arcs = panelOf(net!, 'top-tuck').outline.segments.filter(s => s.kind === 'arc');
    expect(arcs).toHaveLength(2);
    // A quarter of a circle of radius r spans r each way.
    const b = bounds(panelOf(net!, 'top-tuck').outline);
    expect(Math.max(...arcs.map(a => b.maxY - Math.min(a.to[1], b.maxY)))).toBeGreaterThanOrEqual(
      3,
    );
  });
  it('has dust flaps that leave each other free, set back from back and tuck flap', () => {
    const [wide, deep] = sizeOf(net!, 'top-right-dust');
    expect(deep).toBeLessThan(30 - 0.5);
    expect(wide).toBeLessThanOrEqual(40);
  });
  it('has a friction slit at each end of each tuck crease: one cut, not two', () => {
    const slits = drawNet(net!).slits.map(pathLength);
    expect(slits).toHaveLength(4);
    for (const s of slits) expect(s).toBeCloseTo(6, 9);
  });
  it('has a glue flap of 6 to 13 mm, mitred, never more than half of the side behind', () => {
    const [wide] = sizeOf(net!, 'glue-flap');
    expect(wide).toBeGreaterThanOrEqual(6);
    expect(wide).toBeLessThanOrEqual(13);
  });
});

describe('lid-and-base in 0.3 mm card', () => {
  const [base, lid] = lidAndBase.build(
    { inside: { length: 90, width: 70, height: 35 }, thickness: 0.3 },
    fillParams(lidAndBase.params, {}),
  );
  it('is two trays with glue tabs on all corners, mitred by 15°', () => {
    for (const net of [base!, lid!]) {
      const tabs = net.panels.filter(p => p.role === 'glue-flap');
      expect(tabs).toHaveLength(4);
      for (const tab of tabs) {
        const foot = pathLength(hingeOf(net, tab.id).along);
        const deep = sizeOf(net, tab.id)[0];
        const head = foot - 2 * deep * Math.tan((15 * Math.PI) / 180);
        const least = Math.min(
          ...tab.outline.segments
            .map((s, i) => [i === 0 ? tab.outline.start : tab.outline.segments[i - 1]!.to, s.to])
            .filter(([a, b]) => Math.abs(a![0] - b![0]) < 1e-9)
            .map(([a, b]) => Math.abs(a![1] - b![1])),
        );
        expect(least).toBeCloseTo(head, 9);
      }
    }
  });
  it('can have thumb notches in the lid', () => {
    const [, notched] = lidAndBase.build(
      { inside: { length: 90, width: 70, height: 35 }, thickness: 0.3 },
      fillParams(lidAndBase.params, { notch: 8 }),
    );
    const area = (net: Net) => pathLength(drawNet(net).outline);
    // Two half circles of radius 8 in place of their diameters.
    expect(area(notched!) - area(lid!)).toBeCloseTo(2 * (Math.PI - 2) * 8, 9);
  });
});

describe('flip-lid', () => {
  it('closes with dots that meet, as many as asked', () => {
    const [net] = flipLid.build(
      { inside: flipLid.example, thickness: 0.3 },
      fillParams(flipLid.params, { dots: 3 }),
    );
    expect(net!.closures).toHaveLength(3);
    const xs = net!.closures.map(c => c.at[0]);
    expect(Math.abs(xs[1]! - xs[0]!)).toBeCloseTo((152.4 + 0.3) / 3, 9);
  });
  it('has its second lid one caliper higher than the first', () => {
    const [net] = flipLid.build(
      { inside: flipLid.example, thickness: 0.3 },
      fillParams(flipLid.params, {}),
    );
    expect(sizeOf(net!, 'back')[1] - sizeOf(net!, 'front')[1]).toBeCloseTo(0.3, 12);
    expect(endOf(hingeOf(net!, 'lid').along)[1]).toBeCloseTo(
      sizeOf(net!, 'base')[1] + sizeOf(net!, 'back')[1],
      9,
    );
  });
});

describe('parameters that cannot be', () => {
  const cases: readonly (readonly [(typeof STYLES)[number], Record<string, ParamValue>, string])[] =
    [
      [flipLid, { tab: 30 }, 'tab: 30 is not possible: at most'],
      [flipLid, { tab: 20, mitreDeg: 45 }, 'make the tab or mitreDeg smaller, or the box higher'],
      [flipLid, { lid: 60 }, 'a deeper lid strikes the other wall'],
      [flipLid, { lid: 26 }, 'make the lid deeper, or set dots to 0'],
      [flipLid, { dots: 3, dot: 30 }, 'make the dots smaller or fewer'],
      [flipLid, { dust: 90 }, 'or the dust flaps meet'],
      [flipLid, { lid: 40, corner: 41 }, 'or the lid has no edge left'],
      [lidAndBase, { notch: 30 }, 'or the wall falls apart'],
      [lidAndBase, { lidHeight: 36 }, 'the height of the base'],
      [straightTuck, { notch: 19 }, 'or it shows an opening behind the tuck flap'],
      [straightTuck, { glue: 21 }, 'half of the side it is glued to'],
      [straightTuck, { tuck: 44 }, 'or the two tuck flaps meet'],
      [straightTuck, { dust: 30 }, 'or the dust flaps meet'],
      [straightTuck, { lock: 16 }, 'make the slits shorter'],
      [pillow, { notch: 26 }, 'or the flap falls apart'],
      [pillow, { glue: 40 }, 'a third of a panel'],
    ];
  it.each(cases)('$id: %o', (style, given, told) => {
    const spec = { inside: style.example, thickness: 0.3 };
    const build = () => style.build(spec, fillParams(style.params, given));
    expect(build).toThrow(ParamError);
    expect(build).toThrow(told);
  });
  it('a pillow as high as wide', () => {
    const inside = { length: 90, width: 40, height: 40 };
    const build = () => pillow.build({ inside, thickness: 0 }, fillParams(pillow.params, {}));
    expect(build).toThrow('height: 40 is not possible: at most 30 mm, three quarters of the width');
  });
});
