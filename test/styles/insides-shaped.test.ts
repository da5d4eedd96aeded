/** The clear space of boxes whose walls do not all stand square, within 0.1 mm a side, measured on the
 *  inner faces of their folded paper. */
import { describe, expect, it } from 'vitest';
import type { BoxStyle } from '../../src/contracts.js';
import { place } from '../../src/fold/pose.js';
import { standing } from '../../src/fold/stand.js';
import { bounds, windingOf } from '../../src/geom/index.js';
import type { Inside, Net, ParamValues, Point, Triple } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { cone } from '../../src/styles/cone.js';
import { cup } from '../../src/styles/cup.js';
import { gable } from '../../src/styles/gable.js';
import { gableTop } from '../../src/styles/gable-top.js';
import { house } from '../../src/styles/house.js';
import { petalClose } from '../../src/styles/petal-close.js';
import { prism } from '../../src/styles/prism.js';
import { pyramid } from '../../src/styles/pyramid.js';
import { acrossAt, type InnerFace, innerFaces, roundAt, uprightAt } from '../support/inner.js';

/** The promise: mm a side. */
const A_SIDE = 0.1;
/** And by how much it may fall short of what a treat asks for, mm: rolled and folded paper gives. */
const SHORT = 0.025;
const PAPERS = [0, 0.2, 0.3, 0.6];

const build = (style: BoxStyle, inside: Inside, thickness: number, given: ParamValues = {}) =>
  style.build({ inside, thickness }, fillParams(style.params, given));
const round = (diameter: number, height: number): Inside => ({
  length: diameter,
  width: diameter,
  height,
});
const between = (a: number, b: number, n: number) =>
  Array.from({ length: n + 1 }, (_, i) => a + ((b - a) * i) / n);

function expectSide(measured: number, asked: number, sides: 1 | 2) {
  expect(measured).toBeGreaterThan(asked - SHORT);
  expect(measured).toBeLessThan(asked + sides * A_SIDE);
}

/** Heights of the highest level face under the middle and the lowest one over it. */
function levels(faces: readonly InnerFace[], middle: number): readonly [number, number] {
  const flat = faces.filter(f => Math.abs(f.normal[2]) > 1 - 1e-9).map(f => f.at[2]);
  return [Math.max(...flat.filter(z => z < middle)), Math.min(...flat.filter(z => z > middle))];
}

/** How low and how high paper that lies level reaches, its bent parts with it: half a thickness on either
 *  side of its middle. The glue flap of the walls stands. */
function paperAt(nets: readonly Net[], named: RegExp) {
  const heights = nets.flatMap(net =>
    standing(net)
      .filter(p => named.test(p.panel.id) && p.panel.id !== 'glue-flap')
      .flatMap(p => {
        const b = bounds(p.panel.outline);
        const on = windingOf(p.panel.outline);
        const grid = between(b.minX, b.maxX, 40).flatMap(x =>
          between(b.minY, b.maxY, 40).map((y): Point => [x, y]),
        );
        return grid.filter(at => on(at) !== 0).map(at => place(p, at)[2]);
      }),
  );
  const half = nets[0]!.thickness / 2;
  return { low: Math.min(...heights) - half, high: Math.max(...heights) + half };
}

/** Measured in the middle of what stands on a table; heights from it. */
const facesOf = (nets: readonly Net[], up: number, middle: Triple = [0, 0, up]) =>
  innerFaces(nets, middle);

describe.each(PAPERS)('in paper of %s mm', t => {
  describe.each([3, 4, 5, 6, 8, 12])('of %s sides', sides => {
    it('a prism with tuck ends holds its round from end to end', () => {
      const faces = facesOf(build(prism, round(60, 80), t, { sides }), 40);
      const [low, high] = levels(faces, 40);
      expectSide(high - low, 80, 2);
      const rounds = between(low + 0.01, high - 0.01, 16).map(z => roundAt(faces, z));
      expectSide(Math.min(...rounds), 60, 2);
    });
    it('a prism with petal ends does', () => {
      const nets = build(prism, round(60, 80), t, { sides, ends: 'petal', swirl: 0.1 });
      const [low, high] = [paperAt(nets, /^bottom-/), paperAt(nets, /^top-/)];
      expectSide(high.low - low.high, 80, 2);
      expectSide(roundAt(facesOf(nets, 40), 40), 60, 2);
    });
    it('the base of a prism with a lid is as wide and deep, and the lid slides over it', () => {
      const play = 0.3;
      const nets = build(prism, round(60, 80), t, { sides, ends: 'lid', play, lidHeight: 80 });
      const [base, lid] = [nets.slice(0, 1), nets.slice(1)].map(n => facesOf(n, 40));
      const [low] = levels(base!, 40);
      for (const z of [2 * t + 1, 40, 77]) expectSide(roundAt(base!, low + z), 60, 2);
      const rim = Math.max(...base!.flatMap(f => f.corners).map(c => c[2]));
      expectSide(rim - low, 80, 1);
      // Over the base's wall, its tab inside and the play; the lid stands in its place.
      expectSide(roundAt(lid!, 40), 60 + 4 * t + 2 * play, 2);
      expectSide(levels(lid!, 40)[1], low + 80, 1);
    });
    it('a cup widens from its floor to its mouth as asked', () => {
      const faces = facesOf(
        build(cup, round(60, 80), t, { sides, floor: 44, scoop: 0, back: 0 }),
        40,
      );
      const low = Math.max(...faces.filter(f => f.normal[2] > 1 - 1e-9).map(f => f.at[2]));
      // The seam's flap begins a little over the floor.
      for (const z of [2, 40, 80 - 1e-3]) {
        expectSide(roundAt(faces, low + z), 44 + (z * 16) / 80, 2);
      }
      const rim = Math.min(
        ...faces
          .filter(f => /^(wall|back)/.test(f.id) && !f.id.endsWith('flap'))
          .map(f => Math.max(...f.corners.map(c => c[2]))),
      );
      expectSide(rim - low, 80, 1);
    });
    it('a pyramid narrows from the round on its floor to its tip', () => {
      const faces = facesOf(build(pyramid, round(60, 80), t, { sides, hole: 0 }), 8);
      const [low] = levels(faces, 8);
      for (const share of [0.0001, 0.25, 0.5, 0.75]) {
        expect(roundAt(faces, low + share * 80)).toBeCloseTo(60 * (1 - share), 6);
      }
    });
  });

  it('a box that petals close is', () => {
    const nets = build(petalClose, round(60, 50), t, { swirl: 0.1 });
    const faces = facesOf(nets, 20);
    expectSide(roundAt(faces, 25), 60, 2);
    const floor = paperAt(nets, /floor|flap$/).high;
    expectSide(paperAt(nets, /^top-/).low - floor, 50, 2);
  });

  it.each([12, 16, 24])('a cone of %s flats is as wide at its mouth and at its tip', sides => {
    for (const wall of ['rolled', 'scored']) {
      const [net] = build(cone, round(56, 120), t, { sides, wall, top: 'straight', tip: 20 });
      const faces = facesOf([net!], 60);
      const foot = Math.min(...faces.flatMap(f => f.corners).map(c => c[2]));
      // The flap begins a little over the foot; the papers' faces lean past their corners.
      for (const z of [2, 60, 118]) expectSide(roundAt(faces, foot + z), 20 + (z * 36) / 120, 2);
    }
  });

  it.each([
    ['house', house, {}],
    ['house without flaps', house, { flap: 0 }],
    ['house with a flat roof', house, { pitchDeg: 20 }],
    ['house with a steep roof', house, { pitchDeg: 65 }],
    ['gable', gable, {}],
    ['gable with a flat roof', gable, { pitchDeg: 30 }],
    ['gable with a steep roof', gable, { pitchDeg: 65 }],
    ['gable top', gableTop, {}],
  ] as const)('a %s is clear from wall to wall, and up to its eaves', (_, style, given) => {
    const nets = build(style, { length: 80, width: 60, height: 50 }, t, given);
    const faces = facesOf(nets, 20);
    const sides = ([0, 1] as const).map(axis => {
      const rows = between(-29, 29, 24).flatMap(at =>
        between(4 * t + 1, 45, 16).map((z): Triple => (axis === 0 ? [0, at, z] : [at, 0, z])),
      );
      const all = rows.map(from => acrossAt(faces, from, axis));
      return [Math.max(...all.map(a => a[0])), Math.min(...all.map(a => a[1]))] as const;
    });
    const [x, y] = sides as [readonly [number, number], readonly [number, number]];
    expectSide(x[1] - x[0], 80, 2);
    expectSide(y[1] - y[0], 60, 2);
    const grid = between(x[0] + 1e-6, x[1] - 1e-6, 40).flatMap(px =>
      between(y[0] + 1e-6, y[1] - 1e-6, 40).map(py => uprightAt(faces, [px, py], 20)),
    );
    const [low, high] = [Math.max(...grid.map(g => g[0])), Math.min(...grid.map(g => g[1]))];
    expectSide(high - low, 50, 1);
  });
});
