/** Tube cartons: what a box maker expects (check-values 2.3: common practice, no published source),
 *  and the clear space measured on the folded panels. */
import { describe, expect, it } from 'vitest';
import type { BoxStyle } from '../../src/contracts.js';
import { checkNet } from '../../src/fold/check.js';
import { drawNet } from '../../src/fold/outline.js';
import { place, pose } from '../../src/fold/pose.js';
import { bounds, endOf, vertices } from '../../src/geom/index.js';
import type { BoxSpec, Net, ParamValue, Point } from '../../src/model.js';
import { fillParams, ParamError } from '../../src/params.js';
import { crashBottom } from '../../src/styles/crash-bottom.js';
import { reverseTuck } from '../../src/styles/reverse-tuck.js';
import { snapBottom } from '../../src/styles/snap-bottom.js';
import { clearInside } from '../support/nets.js';

const THICKNESSES = [0, 0.2, 0.3, 0.6];
const SIZES = [
  { length: 60, width: 40, height: 90 },
  { length: 61, width: 43, height: 32 },
  { length: 30, width: 50, height: 45 },
];
const cases = SIZES.flatMap(inside => THICKNESSES.map(thickness => ({ inside, thickness })));

const build = (style: BoxStyle, spec: BoxSpec, given: Record<string, ParamValue> = {}): Net =>
  style.build(spec, fillParams(style.params, given))[0]!;
/** Where a point of a folded panel is; the start of its outline if not said. */
const placeOn = (net: Net, id: string, at?: Point) => {
  const panel = pose(net).get(id)!;
  return place(panel, at ?? panel.panel.outline.start);
};
/** The one edge that hooks in. */
const hookOf = (net: Net) => {
  const [edge] = net.joins.flatMap(j => (j.kind === 'tuck' && 'along' in j.a ? [j.a] : []));
  return edge!;
};
const sizeOf = (net: Net, id: string) => {
  const b = bounds(net.panels.find(p => p.id === id)!.outline);
  return [b.maxX - b.minX, b.maxY - b.minY] as const;
};
/** The direction in which the folded panel's outer face looks, in the root's frame. */
const facing = (net: Net, id: string) =>
  pose(net)
    .get(id)!
    .frame.z.map(v => Math.round(-v) + 0);

describe.each(cases)(
  'inside $inside.length × $inside.width × $inside.height, paper $thickness',
  spec => {
    const { length, width, height } = spec.inside;
    it('reverse-tuck, lying on its back: between all flaps', () => {
      const clear = clearInside(build(reverseTuck, spec));
      clear.forEach((side, i) => {
        expect(side).toBeCloseTo([length, height, width][i]!, 9);
      });
    });
    it('crash-bottom, lying on its back: between all flaps', () => {
      const clear = clearInside(build(crashBottom, spec));
      clear.forEach((side, i) => {
        expect(side).toBeCloseTo([length, height, width][i]!, 9);
      });
    });
    it('snap-bottom, lying on its back: down to the tip of the tongue', () => {
      const net = build(snapBottom, spec);
      const tip = hookOf(net).along.start;
      const first = placeOn(net, 'bottom-first');
      const under = placeOn(net, 'bottom-last', tip)[1] - first[1];
      expect(under).toBeCloseTo(spec.thickness, 9);
      const [along, up, across] = clearInside(net);
      expect(along).toBeCloseTo(length, 9);
      expect(up - under).toBeCloseTo(height, 9);
      expect(across).toBeCloseTo(width, 9);
    });
  },
);

describe('reverse-tuck', () => {
  const net = build(reverseTuck, { inside: reverseTuck.example, thickness: 0.3 });
  it('hangs its closures on opposite walls, each tucked behind the other one', () => {
    const host = (child: string) => net.hinges.find(h => h.child === child)!.parent;
    expect([host('top'), host('bottom')]).toEqual(['back', 'front']);
    const tucked = net.joins.filter(j => j.kind === 'tuck').map(j => [j.a.panel, j.b.panel]);
    expect(tucked).toEqual([
      ['top-tuck', 'front'],
      ['bottom-tuck', 'back'],
    ]);
    expect(facing(net, 'top')).toEqual([0, 1, 0]);
    expect(facing(net, 'bottom')).toEqual([0, -1, 0]);
  });
  it('has its last panel one caliper shorter, so that the tube squares', () => {
    expect(sizeOf(net, 'right')[0] - sizeOf(net, 'left')[0]).toBeCloseTo(0.3, 12);
  });
});

describe('snap-bottom', () => {
  const t = 0.3;
  const net = build(snapBottom, { inside: snapBottom.example, thickness: t });
  const up = (id: string, at?: Point) => placeOn(net, id, at)[1] / t;
  it('folds its bottom 1-2-3: the recessed flap, the sides over it, the tongue last', () => {
    const last = up('bottom-last');
    // Thicknesses above the last flap, from outside to inside.
    expect(up('bottom-left') - last).toBeCloseTo(1, 9);
    expect(up('bottom-right') - last).toBeCloseTo(1, 9);
    expect(up('bottom-first') - last).toBeCloseTo(2, 9);
    expect(up('bottom-last', hookOf(net).along.start) - last).toBeCloseTo(3, 9);
  });
  it('has a recess 0.5 to 1 mm wider than the tongue, whatever its width', () => {
    for (const tongue of [10, 20, 40]) {
      const made = build(snapBottom, { inside: snapBottom.example, thickness: t }, { tongue });
      const { outline } = made.panels.find(p => p.id === 'bottom-first')!;
      // The inner edges of the legs are the outline's only upright lines; its outer ones lean in.
      const corners = vertices(outline);
      const upright = corners.filter((p, i) => {
        const q = corners[(i + 1) % corners.length]!;
        return Math.abs(p[0] - q[0]) < 1e-9;
      });
      expect(upright).toHaveLength(2);
      const wide = Math.abs(upright[0]![0] - upright[1]![0]);
      expect(wide - tongue).toBeGreaterThanOrEqual(0.5);
      expect(wide - tongue).toBeLessThanOrEqual(1 + 1e-9);
    }
  });
  it('comes open when the tongue is too short', () => {
    const { panels } = net;
    const last = panels.find(p => p.id === 'bottom-last')!;
    const from = [last.bend!.from[0], last.bend!.from[1] - 6] as const;
    const late = { ...last, bend: { ...last.bend!, from } };
    const found = checkNet({ ...net, panels: panels.map(p => (p === last ? late : p)) });
    expect(found.map(f => f.law)).toContain('through');
  });
});

describe('crash-bottom', () => {
  /** The glued carton pressed flat, top open. The mechanism (memory: trade knowledge): at a glued
   *  corner two walls and two bottom flaps meet with angles of 90°, 90°, 45°, 45°. */
  const packed = (net: Net): Net => ({
    ...net,
    panels: net.panels.map(({ bend: _, ...flat }) => flat),
    hinges: net.hinges.map(h => ({ ...h, angle: h.packed ?? 0 })),
    joins: net.joins.filter(j => j.kind === 'glue'),
  });
  it.each(SIZES)('lies flat with its glue in place: %o', inside => {
    const net = packed(build(crashBottom, { inside, thickness: 0 }));
    expect(checkNet(net)).toEqual([]);
    for (const p of pose(net).values()) {
      for (const at of vertices(p.panel.outline)) expect(place(p, at)[2]).toBeCloseTo(0, 9);
    }
    const right = net.hinges.find(h => h.child === 'right')!;
    const open = { ...net, hinges: net.hinges.map(h => (h === right ? { ...h, angle: 0 } : h)) };
    expect(checkNet(open).map(f => f.law)).toContain('join');
  });
  it('shows its diagonal folds as mountains, though they lie flat when it is closed', () => {
    const net = build(crashBottom, { inside: crashBottom.example, thickness: 0.3 });
    const scores = drawNet(net).scores.filter(s => s.angle < 0);
    expect(scores).toHaveLength(2);
    for (const { path } of scores) {
      const [a, b] = [path.start, endOf(path)];
      expect(Math.abs(a[0] - b[0])).toBeCloseTo(Math.abs(a[1] - b[1]), 9);
    }
  });
  it('hooks each long flap in over the other', () => {
    const net = build(crashBottom, { inside: crashBottom.example, thickness: 0.3 });
    const hooks = net.joins.flatMap(j => (j.kind === 'tuck' && 'along' in j.a ? [j] : []));
    expect(hooks.map(j => [j.a.panel, j.b.panel])).toEqual([
      ['bottom-back', 'bottom-front'],
      ['bottom-front', 'bottom-back'],
    ]);
  });
});

describe('parameters that cannot be', () => {
  const told: readonly (readonly [BoxStyle, Record<string, ParamValue>, string])[] = [
    [reverseTuck, { tuck: 89 }, 'or the tuck flap strikes the other end'],
    [crashBottom, { side: 25 }, 'no room to be glued and to hook in'],
    [crashBottom, { grip: 30 }, 'or the hooks strike the walls'],
    [snapBottom, { tongue: 56 }, 'or the flap with the recess has no legs left'],
    [snapBottom, { grip: 40 }, 'or the tongue strikes the front'],
    [reverseTuck, { glue: 21 }, 'half of the side it is glued to'],
  ];
  it.each(told.map(t => [t[0].id, ...t] as const))('%s', (_, style, given, words) => {
    const make = () => build(style, { inside: style.example, thickness: 0.3 }, given);
    expect(make).toThrow(ParamError);
    expect(make).toThrow(words);
  });
});
