/** A net cut in two is the same box: every panel where it was, and the laws hold glued together. */
import { describe, expect, it } from 'vitest';
import { splitNets } from '../../src/fold/cut-up.js';
import { drawNet, netPiece } from '../../src/fold/outline.js';
import { splitsOf } from '../../src/fold/split.js';
import { splitFindings } from '../../src/fold/split-check.js';
import { standing } from '../../src/fold/stand.js';
import { togetherFindings } from '../../src/fold/together.js';
import { bounds, signedArea } from '../../src/geom/index.js';
import type { Net } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { flipLid } from '../../src/styles/flip-lid.js';
import { STYLES } from '../../src/styles/index.js';
import { expectSound } from '../support/nets.js';

const build = (style: (typeof STYLES)[number], scale: number, thickness: number) => {
  const { length, width, height } = style.example;
  const inside = { length: scale * length, width: scale * width, height: scale * height };
  return style.build({ inside, thickness }, fillParams(style.params, {}));
};
const area = (net: Net) => net.panels.reduce((s, p) => s + signedArea(p.outline), 0);

/** Boxes of one net made of flat walls: each of them can be cut. */
const FLAT = [
  'flip-lid',
  'tuck-tray',
  'display-tray',
  'straight-tuck',
  'reverse-tuck',
  'snap-bottom',
];

describe.each(FLAT.flatMap(id => [0, 0.3, 0.6].map(t => [id, t] as const)))(
  '%s in paper of %s mm',
  (id, t) => {
    const [net] = build(STYLES.find(s => s.id === id)!, 1.5, t);
    // Which side of a net a fold shortens depends on the style; any fold lessens its area.
    const limit = 0.92 * area(net!);
    const { parts, splits } = splitNets([net!], n => area(n) <= limit);
    const [a, b] = parts[0]! as [Net, Net];
    const split = splits[0]![0];

    it('is cut in two that are smaller, and sound alone and together', () => {
      expect(splits[0]).toHaveLength(1);
      expect(Math.max(area(a), area(b))).toBeLessThanOrEqual(limit);
      expectSound([a, b]);
      expect(togetherFindings([a, b])).toEqual([]);
      expect(splitFindings(split!)).toEqual([]);
    });
    it('has every panel once, and one flap more', () => {
      const ids = [a, b].flatMap(n => n.panels.map(p => p.id)).sort();
      expect(ids).toEqual([...net!.panels.map(p => p.id), split!.flap].sort());
      const flap = signedArea(
        [a, b].flatMap(n => n.panels).find(p => p.id === split!.flap)!.outline,
      );
      const seam = split!.hinge.along;
      const end = seam.segments.at(-1)!.to;
      const long = Math.hypot(end[0] - seam.start[0], end[1] - seam.start[1]);
      // A strip is lost: one thickness beside the seam, as all these folds are square.
      const lost = area(net!) + flap - area(a) - area(b);
      expect(lost).toBeGreaterThanOrEqual(long * t - 1e-6);
      expect(lost).toBeLessThanOrEqual((long + 4 * t) * t + 1e-6);
    });
    it('stands with every panel where the whole box has it', () => {
      const whole = new Map(standing(split!.joined).map(p => [p.panel.id, p.frame]));
      for (const { panel, frame } of [a, b].flatMap(n => standing(n))) {
        const was = whole.get(panel.id)!;
        for (const k of ['x', 'y', 'z', 'at'] as const)
          for (const i of [0, 1, 2] as const) expect(frame[k][i]).toBeCloseTo(was[k][i], 6);
      }
    });
  },
);

/** The side of the least square that a net lies in. */
const square = (net: Net) => {
  const b = bounds(drawNet(net).outline);
  return Math.max(b.maxX - b.minX, b.maxY - b.minY);
};

// Sides in inches on a sheet of 11 1/2 in, as a mat of 12 in has it; the fewest parts counted by hand: an
// end wall beside a row of two, or a closure above it.
describe.each([
  ['flip-lid', [7, 3, 2], 292.1, 3],
  ['straight-tuck', [4, 3, 6], 292.1, 3],
  ['flip-lid', [7, 3, 3], 260, 4],
] as const)('%s of %j in, in squares of %s mm', (id, [length, width, height], side, count) => {
  const style = STYLES.find(s => s.id === id)!;
  const inside = { length: length * 25.4, width: width * 25.4, height: height * 25.4 };
  const [net] = style.build({ inside, thickness: 0.3 }, fillParams(style.params, {}));
  const { parts, splits } = splitNets([net!], n => square(n) <= side);
  const cut = parts[0]!;

  it(`is cut into ${count} that fit, are sound, and stand together`, () => {
    expect(square(net!)).toBeGreaterThan(side);
    expect(cut.map(p => p.id)).toEqual(Array.from({ length: count }, (_, i) => `box-${i + 1}`));
    expect(splits[0]).toHaveLength(count - 1);
    for (const part of cut) expect(square(part)).toBeLessThanOrEqual(side);
    expectSound(cut);
    expect(togetherFindings(cut)).toEqual([]);
    expect(cut.flatMap(p => p.seats ?? [])).toHaveLength(count - 1);
  });
  it('has every panel once, where the whole box has it, but for the paper of its joints', () => {
    const whole = new Map(standing(net!).map(p => [p.panel.id, p.frame]));
    const flaps = splits[0]!.map(s => s.flap);
    const all = cut.flatMap(n => standing(n));
    expect(all.map(p => p.panel.id).sort()).toEqual([...whole.keys(), ...flaps].sort());
    for (const { panel, frame } of all) {
      const was = whole.get(panel.id);
      if (!was) continue;
      for (const k of ['x', 'y', 'z'] as const)
        for (const i of [0, 1, 2] as const) expect(frame[k][i]).toBeCloseTo(was[k][i], 6);
      // What is outside of a joint moves by a sheet.
      const by = Math.hypot(...frame.at.map((v, i) => v - was.at[i]!));
      expect(by).toBeLessThanOrEqual((count - 1) * 0.3 + 1e-6);
    }
  });
});

// A joint's flap under the base of a nested layer would lie in the layer round it.
describe.each(['lid-and-base', 'sleeve-and-tray', 'four-wall-burst'])('%s of several nets', id => {
  const nets = build(STYLES.find(s => s.id === id)!, 1, 0.3);
  const side = 0.95 * Math.max(...nets.map(square));
  const { parts, splits } = splitNets(nets, n => square(n) <= side);
  it('is cut so that all parts fit together in their places', () => {
    expect(splits.flat().length).toBeGreaterThan(0);
    expect(parts.flat()).toHaveLength(nets.length + splits.flat().length);
    expect(togetherFindings(parts.flat())).toEqual([]);
  });
  it('is known where a part is not in its place', () => {
    const [first, ...rest] = parts.flat();
    const [x, y] = first!.stands?.at ?? [0, 0];
    const moved = { ...first!, stands: { ...first!.stands, at: [x + 3, y + 3] as const } };
    expect(togetherFindings([moved, ...rest])).not.toEqual([]);
  });
});

it('a net whose panel is larger than the sheet is not cut at all', () => {
  const [net] = build(flipLid, 1.5, 0.3);
  const found = splitNets([net!], n => square(n) <= 100);
  expect(found).toEqual({ parts: [[net]], splits: [[]] });
});

it('every style is cut soundly where it is cut at all', () => {
  let ways = 0;
  for (const style of STYLES) {
    for (const net of build(style, 1.5, 0.3)) {
      const good = splitsOf(net).find(s => splitFindings(s).length === 0);
      if (!good) continue;
      ways++;
      const small = { id: 'card' } as Parameters<typeof netPiece>[1];
      for (const part of good.parts) expect(netPiece(part, small, 1).outline.closed).toBe(true);
    }
  }
  expect(ways).toBeGreaterThan(12);
});

it('a closure from one part to the other is drawn on both', () => {
  const [net] = build(flipLid, 1.5, 0.3);
  const { parts, splits } = splitNets([net!], n => area(n) < 0.92 * area(net!));
  expect(splits[0]![0]!.joined.closures).toHaveLength(1);
  const marks = parts[0]!.map(p => p.panels.flatMap(q => q.strokes).length);
  expect(marks).toEqual([1, 1]);
});

it('what fits is left whole, and what no fold helps is too', () => {
  const [net] = build(flipLid, 1, 0.3);
  expect(splitNets([net!], () => true)).toEqual({ parts: [[net]], splits: [[]] });
  expect(splitNets([net!], () => false)).toEqual({ parts: [[net]], splits: [[]] });
});
it('the check of a split finds a flap that is too high', () => {
  const [net] = build(flipLid, 1.5, 0.3);
  const good = splitsOf(net!).find(s => splitFindings(s).length === 0)!;
  const thick = { ...good, joined: { ...good.joined, thickness: 0.6 } };
  expect(splitFindings(thick).map(f => f.law)).toContain('join');
});
