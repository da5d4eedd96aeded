/** Trays and what goes round them: the clear space measured on the folded panels, and what a box
 *  maker expects (common practice, no published source). */
import { describe, expect, it } from 'vitest';
import type { BoxStyle } from '../../src/contracts.js';
import type { BoxSpec, Net, ParamValue } from '../../src/model.js';
import { fillParams, ParamError } from '../../src/params.js';
import { sleeveAndTray } from '../../src/styles/sleeve-and-tray.js';
import { clearInside } from '../support/nets.js';

const THICKNESSES = [0, 0.2, 0.3, 0.6];
const SIZES = [
  { length: 90, width: 55, height: 25 },
  { length: 61, width: 43, height: 32 },
  { length: 30, width: 50, height: 20 },
];
const cases = SIZES.flatMap(inside => THICKNESSES.map(thickness => ({ inside, thickness })));

const build = (style: BoxStyle, spec: BoxSpec, given: Record<string, ParamValue> = {}) =>
  style.build(spec, fillParams(style.params, given));

function expectSides(net: Net, sides: readonly number[]) {
  clearInside(net).forEach((side, i) => {
    expect(side).toBeCloseTo(sides[i]!, 9);
  });
}

describe.each(cases)(
  'inside $inside.length × $inside.width × $inside.height, paper $thickness',
  spec => {
    const { length, width, height } = spec.inside;
    const t = spec.thickness;
    it('sleeve-and-tray: the tray as asked, the sleeve larger than it outside by the ease', () => {
      const [drawer, sleeve] = build(sleeveAndTray, spec, { ease: 0.4 });
      expectSides(drawer!, [length, width, height]);
      // Outside the tray has a wall and a tab at each end, a wall on each side, and its base.
      const ends = length + 4 * t;
      expectSides(sleeve!, [ends, width + 2 * t + 0.8, height + t + 0.8]);
    });
  },
);

describe('parameters that cannot be', () => {
  const told: readonly (readonly [BoxStyle, Record<string, ParamValue>, string])[] = [
    [sleeveAndTray, { notch: 27 }, 'or the sleeve falls apart'],
    [sleeveAndTray, { glue: 30 }, 'the height of the side'],
  ];
  it.each(told.map(t => [t[0].id, ...t] as const))('%s', (_, style, given, words) => {
    const make = () => build(style, { inside: style.example, thickness: 0.3 }, given);
    expect(make).toThrow(ParamError);
    expect(make).toThrow(words);
  });
});
