/** Tube cartons: what a box maker expects (check-values 2.3: common practice, no published source),
 *  and the clear space measured on the folded panels. */
import { describe, expect, it } from 'vitest';
import type { BoxStyle } from '../../src/contracts.js';
import { pose } from '../../src/fold/pose.js';
import { bounds } from '../../src/geom/index.js';
import type { BoxSpec, Net, ParamValue } from '../../src/model.js';
import { fillParams, ParamError } from '../../src/params.js';
import { reverseTuck } from '../../src/styles/reverse-tuck.js';
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

describe('parameters that cannot be', () => {
  const told: readonly (readonly [BoxStyle, Record<string, ParamValue>, string])[] = [
    [reverseTuck, { tuck: 89 }, 'or the tuck flap strikes the other end'],
    [reverseTuck, { glue: 21 }, 'half of the side it is glued to'],
  ];
  it.each(told.map(t => [t[0].id, ...t] as const))('%s', (_, style, given, words) => {
    const make = () => build(style, { inside: style.example, thickness: 0.3 }, given);
    expect(make).toThrow(ParamError);
    expect(make).toThrow(words);
  });
});
