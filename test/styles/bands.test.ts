/** Wraps and header cards. Common practice, no published source, unless said. */
import { describe, expect, it } from 'vitest';
import type { BoxStyle } from '../../src/contracts.js';
import { checkNet } from '../../src/fold/check.js';
import { place, pose } from '../../src/fold/pose.js';
import { bounds, distance, endOf, signedArea } from '../../src/geom/index.js';
import type { BoxSpec, Net, ParamValue, Point } from '../../src/model.js';
import { fillParams, ParamError } from '../../src/params.js';
import { bagTopper } from '../../src/styles/bag-topper.js';
import { wrap } from '../../src/styles/wrap.js';
import { clearInside } from '../support/nets.js';

const build = (style: BoxStyle, spec: BoxSpec, given: Record<string, ParamValue> = {}): Net =>
  style.build(spec, fillParams(style.params, given))[0]!;
const sizeOf = (net: Net, id: string) => {
  const b = bounds(net.panels.find(p => p.id === id)!.outline);
  return [b.maxX - b.minX, b.maxY - b.minY] as const;
};
const placeOn = (net: Net, id: string, at?: Point) => {
  const panel = pose(net).get(id)!;
  return place(panel, at ?? panel.panel.outline.start);
};

describe.each([0, 0.2, 0.3, 0.6])('wrap in paper of %s mm', thickness => {
  const inside = { length: 110, width: 70, height: 30 };
  const spec = { inside, thickness };
  it('leaves the box its ease on each side', () => {
    const sides = (given: Record<string, ParamValue>) =>
      clearInside(build(wrap, spec, { ease: 0.4, band: 40, ...given }));
    const [band, across, up] = sides({});
    expect(band).toBeCloseTo(40, 9);
    expect(across).toBeCloseTo(70.8, 9);
    expect(up).toBeCloseTo(30.8, 9);
    expect(sides({ around: 'length' })[1]).toBeCloseTo(110.8, 9);
    const locked = build(wrap, spec, { ease: 0.4, close: 'slits' });
    const hooks = locked.joins.flatMap(j => (j.kind === 'tuck' && 'along' in j.a ? [j.a] : []));
    expect(hooks).toHaveLength(2);
    for (const edge of hooks) {
      // The top lies at 0, its inside is down the box: from its face to that of the ends.
      const [, , low] = placeOn(locked, edge.panel, edge.along.start);
      expect(low - thickness).toBeCloseTo(30.8, 9);
    }
  });
  it('has slits from opposite edges, half a millimetre past the middle each', () => {
    const net = build(wrap, spec, { close: 'slits', band: 40 });
    const slits = net.panels.flatMap(p => p.strokes.map(s => [p.id, s.path] as const));
    expect(slits).toHaveLength(2);
    const [a, b] = slits.map(([id, path]) => [
      placeOn(net, id, path.start),
      placeOn(net, id, endOf(path)),
    ]);
    for (const slit of [a!, b!]) expect(Math.abs(slit[0]![0] - slit[1]![0])).toBeCloseTo(20.5, 9);
    expect(Math.abs(a![0]![0] - b![0]![0])).toBeCloseTo(40, 9);
    // One line when it is closed.
    for (const axis of [1, 2] as const) expect(a![0]![axis]).toBeCloseTo(b![0]![axis], 9);
  });
});

describe('a wrap', () => {
  const spec = { inside: wrap.example, thickness: 0.3 };
  it('cannot be locked without its slits, nor by shorter ones', () => {
    const net = build(wrap, spec, { close: 'slits' });
    const cut = (share: number): Net => ({
      ...net,
      panels: net.panels.map(p => ({
        ...p,
        strokes: p.strokes.flatMap(s => {
          const { start, segments } = s.path;
          const to = segments[0]!.to;
          const end = [start[0] + (to[0] - start[0]) * share, to[1]] as const;
          const path = { ...s.path, segments: [{ kind: 'line' as const, to: end }] };
          return share > 0 ? [{ ...s, path }] : [];
        }),
      })),
    });
    expect(checkNet(cut(1))).toEqual([]);
    expect(new Set(checkNet(cut(0)).map(f => f.law))).toEqual(new Set(['through']));
    expect(new Set(checkNet(cut(0.8)).map(f => f.law))).toEqual(new Set(['through']));
  });
});

describe('bag-topper', () => {
  const build1 = (given: Record<string, ParamValue>, width = 1, thickness = 0.3) =>
    build(bagTopper, { inside: { length: 90, width, height: 45 }, thickness }, given);
  it.each([0, 1, 6])('is two alike sides, %s mm and a paper apart', width => {
    for (const edge of ['straight', 'scalloped', 'arched']) {
      const net = build1({ edge }, width);
      const [front, back] = ['front', 'back'].map(id => net.panels.find(p => p.id === id)!);
      expect(signedArea(front!.outline)).toBeCloseTo(signedArea(back!.outline), 9);
      const gap = placeOn(net, 'back')[2] - placeOn(net, 'front')[2];
      expect(gap).toBeCloseTo(width + 0.3, 9);
      expect(net.panels.map(p => p.id).includes('top')).toBe(width >= 2);
    }
  });
  it('reaches down over the bag as far as asked, from the strip', () => {
    const net = build1({ edge: 'straight' }, 6);
    expect(sizeOf(net, 'front')[1] - 0.15).toBeCloseTo(45, 9);
  });
  it('has both halves of its hole on each other', () => {
    for (const slot of ['auto', 26] as const) {
      const net = build1({ slot });
      const holes = net.panels.flatMap(p => p.holes.map(h => [p.id, bounds(h)] as const));
      expect(holes).toHaveLength(2);
      const middles = holes.map(([id, b]) =>
        placeOn(net, id, [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2]),
      );
      const flat = (p: readonly number[]): Point => [p[0]!, p[1]!];
      expect(distance(flat(middles[0]!), flat(middles[1]!))).toBeLessThan(1e-9);
      const b = holes[0]![1];
      expect(b.maxX - b.minX).toBeCloseTo(slot === 'auto' ? 6 : 26, 9);
      expect(b.maxY - b.minY).toBeCloseTo(6, 9);
    }
  });
  it('has whole scallops, no wider than asked', () => {
    const net = build1({ scallop: 15 });
    const { segments } = net.panels.find(p => p.id === 'front')!.outline;
    // 94 mm of card in scallops of at most 15 mm.
    expect(segments.filter(s => s.kind === 'arc')).toHaveLength(7);
  });
  it('takes a bag that lies flat, but none thinner', () => {
    expect(build1({}, 0, 0).panels).toHaveLength(2);
    expect(() => build1({}, -0.1)).toThrow('width: -0.1 is not possible: from 0 mm');
  });
});

describe('parameters that cannot be', () => {
  const told: readonly (readonly [BoxStyle, Record<string, ParamValue>, string])[] = [
    [wrap, { band: 111 }, 'the side of the box'],
    [wrap, { overlap: 70 }, 'the bottom'],
    [wrap, { close: 'slits', overlap: 35 }, 'or the ends strike the walls'],
    [bagTopper, { scallop: 90 }, 'or the scallops are higher than half of the card'],
    [bagTopper, { hole: 20 }, 'a third of the height'],
    [bagTopper, { slot: 4 }, 'the diameter of the hole'],
    [bagTopper, { edge: 'straight', corner: 45 }, 'or the card has no edge left'],
  ];
  it.each(told.map(t => [t[0].id, ...t] as const))('%s', (_, style, given, words) => {
    const make = () => build(style, { inside: style.example, thickness: 0.3 }, given);
    expect(make).toThrow(ParamError);
    expect(make).toThrow(words);
  });
});
