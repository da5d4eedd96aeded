/** The clear space of each rectangular style is the one asked for: measured on the folded panels. */
import { describe, expect, it } from 'vitest';
import { fillParams } from '../../src/params.js';
import { flipLid } from '../../src/styles/flip-lid.js';
import { lidAndBase } from '../../src/styles/lid-and-base.js';
import { straightTuck } from '../../src/styles/straight-tuck.js';
import { clearInside, expectSides } from '../support/nets.js';

const THICKNESSES = [0, 0.2, 0.3, 0.6];
const SIZES = [
  { length: 152.4, width: 50.8, height: 25.4 },
  { length: 61, width: 43, height: 88 },
  { length: 20, width: 30, height: 12 },
];
const cases = SIZES.flatMap(inside => THICKNESSES.map(thickness => ({ inside, thickness })));

describe.each(cases)(
  'inside $inside.length × $inside.width × $inside.height, paper $thickness',
  spec => {
    const { length, width, height } = spec.inside;
    const t = spec.thickness;

    it('flip-lid, between tabs, walls and dust flaps', () => {
      const [box] = flipLid.build(spec, fillParams(flipLid.params, {}));
      expectSides(box!, [length, width, height]);
    });
    it('flip-lid without dust flaps, up to the lid', () => {
      const [box] = flipLid.build(spec, fillParams(flipLid.params, { dust: 0 }));
      expectSides(box!, [length, width, height]);
    });
    it('lid-and-base: the base as asked, the lid by its ease larger than the base outside', () => {
      const ease = 0.4;
      const values = fillParams(lidAndBase.params, { ease, lidHeight: 9 });
      const [base, lid] = lidAndBase.build(spec, values);
      expectSides(base!, [length, width, height]);
      // The base outside: walls on all sides, and a tab inside each end wall.
      expectSides(lid!, [length + 4 * t + 2 * ease, width + 2 * t + 2 * ease, 9]);
    });
    it('straight-tuck, lying on its back: between all flaps', () => {
      const [box] = straightTuck.build(spec, fillParams(straightTuck.params, {}));
      expectSides(box!, [length, height, width]);
    });
  },
);

it('a lid of its own choice is a paper thickness larger on each side, from 0.25 to 0.5 mm', () => {
  const inside = { length: 80, width: 60, height: 30 };
  const play = (thickness: number) => {
    const [, lid] = lidAndBase.build({ inside, thickness }, fillParams(lidAndBase.params, {}));
    return (clearInside(lid!)[1] - 60 - 2 * thickness) / 2;
  };
  expect([0, 0.2, 0.35, 0.6].map(t => Math.round(play(t) * 1e9) / 1e9)).toEqual([
    0, 0.25, 0.35, 0.5,
  ]);
});
