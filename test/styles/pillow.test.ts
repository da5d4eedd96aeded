import { describe, expect, it } from 'vitest';
import { netPiece } from '../../src/fold/index.js';
import { type Pose, place, pose } from '../../src/fold/pose.js';
import { distance3 } from '../../src/fold/space.js';
import { distance, endOf, pathLength, signedArea } from '../../src/geom/index.js';
import type { Net } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { pillow } from '../../src/styles/pillow.js';
import { narrowPlaces } from '../../src/tool/narrow.js';
import { stock } from '../sheet/shapes.js';

const build = (length: number, width: number, height: number, thickness: number): Net =>
  pillow.build({ inside: { length, width, height }, thickness }, fillParams(pillow.params, {}))[0]!;

/** Points across a body panel, from one side crease to the other, at its middle. */
function arc(net: Net, folded: Pose, id: string, n = 200) {
  const p = folded.get(id)!;
  const { along } = net.hinges.find(h => h.parent === 'front' && h.child === 'back')!;
  const y = (along.start[1] + endOf(along)[1]) / 2;
  const x0 = along.start[0];
  const whole = p.panel.bend!.stretches[0]!.length;
  const sign = id === 'front' ? -1 : 1;
  return Array.from({ length: n + 1 }, (_, i) => place(p, [x0 + (sign * whole * i) / n, y]));
}

// Published law and numbers: check-values section 8, pillow with circular arcs.
describe.each([
  { w: 80, rise: 30, chord: 71.928887, psiDeg: 45.279946, lens: 1487.450316 },
  { w: 60, rise: 25, chord: 52.375678, psiDeg: 51.032227, lens: 911.499283 },
  { w: 100, rise: 40, chord: 88.387194, psiDeg: 48.698663, lens: 2450.888688 },
])('a pillow from panels of $w mm bent to $rise mm', ({ w, rise, chord, psiDeg, lens }) => {
  const net = build(120, chord, rise, 0);
  const folded = pose(net);

  it('has panels of that width and that half angle', () => {
    const { bend } = net.panels.find(p => p.id === 'back')!;
    expect(bend!.stretches[0]!.length).toBeCloseTo(w, 5);
    expect((bend!.stretches[0]!.turn * 180) / Math.PI / 2).toBeCloseTo(psiDeg, 5);
  });
  it('encloses the lens', () => {
    const front = arc(net, folded, 'front', 2000);
    const back = arc(net, folded, 'back', 2000);
    const loop = [...front, ...back.reverse()].map(p => [p[0], p[2]] as const);
    let twice = 0;
    loop.forEach((p, i) => {
      const q = loop[(i + 1) % loop.length]!;
      twice += p[0] * q[1] - p[1] * q[0];
    });
    // 2000 chords for each arc lose 2/3 · sagitta · chord each: 0.0007 mm² at most here.
    expect(Math.abs(twice / 2)).toBeCloseTo(lens, 2);
  });
});

describe.each([0, 0.3, 0.6])('with paper of %s mm', thickness => {
  const net = build(90, 70, 28, thickness);
  const folded = pose(net);
  it('is as high inside as asked, in the middle', () => {
    const [front, back] = ['front', 'back'].map(id => arc(net, folded, id));
    const high = Math.max(...front!.map((p, i) => distance3(p, back![i]!)));
    expect(high - thickness).toBeGreaterThan(28 - 0.02);
    expect(high - thickness).toBeLessThan(28 + 0.1);
  });
  it('is as long inside as asked, between the inner flaps', () => {
    const ends = ['back-top', 'back-bottom'].map(id => {
      const { along } = net.hinges.find(h => h.child === id)!;
      const [a, b] = [along.start, endOf(along)];
      const panel = folded.get(id)!;
      // The middle of the chord of the crease lies on the flap's middle ruling.
      return place(panel, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]);
    });
    expect(Math.abs(ends[0]![1] - ends[1]![1]) - thickness).toBeCloseTo(90, 2);
  });
  it('has upright flaps: the mirrored cylinder of a crease at 45°', () => {
    for (const id of ['front-top', 'front-bottom', 'back-top', 'back-bottom']) {
      const { angle } = net.hinges.find(h => h.child === id)!;
      expect(angle).toBeCloseTo(Math.PI / 2, 12);
    }
  });
});

it('a flap that covers the whole opening would be the opening: cover scales the way there', () => {
  const inside = { length: 90, width: 70, height: 28 };
  const area = (cover: number) => {
    const [net] = pillow.build(
      { inside, thickness: 0 },
      fillParams(pillow.params, { cover, notch: 0 }),
    );
    return signedArea(net!.panels.find(p => p.id === 'front-top')!.outline);
  };
  // Area between crease and edge is (1 + cover) times that between crease and chord.
  expect(area(0.9) / area(0.5)).toBeCloseTo(1.9 / 1.5, 4);
});

it.each([
  [90, 70, 28, 0.1],
  [90, 70, 28, 0.3],
  [120, 90, 6, 0.3],
  [60, 40, 30, 0.6],
])('of %s x %s x %s mm in paper of %s mm a blade turns in its notches', (...size) => {
  const { outline, holes } = netPiece(build(...size), stock(1000, 1000), 1);
  expect(narrowPlaces([outline, ...holes], 2 * 0.25).places).toEqual([]);
});

it('creases are longer than their chord and alike on both panels of a fold', () => {
  const net = build(90, 70, 28, 0.3);
  const { along } = net.hinges.find(h => h.child === 'back-top')!;
  expect(pathLength(along)).toBeGreaterThan(distance(along.start, endOf(along)) + 1);
});
