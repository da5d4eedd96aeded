/** Dotted papers. */
import { definePattern } from '../../contracts.js';
import { circle } from '../../geom/index.js';
import type { Point, Region } from '../../model.js';
import { ParamError } from '../../params.js';
import { fillsByInk } from './fills.js';
import { inkOf } from './inks.js';
import { dealt, latticeOver, type Painted, type Repeat, startIn, within } from './repeats.js';

/** Rows √3/2 of a spacing apart, every second one moved by half a spacing: each point has six neighbours
 *  equally far. */
export const staggered = (spacing: number): Repeat => [
  [spacing, 0],
  [spacing / 2, (spacing * Math.sqrt(3)) / 2],
];

/** Dots each way before their chance inks come again. */
const DEALT = 12;

const dot = (at: Point, diameter: number): Region => ({
  outer: circle(at, diameter / 2),
  holes: [],
});

export const dots = definePattern({
  id: 'dots',
  summary: 'staggered dots, with pin dots between them',
  params: {
    diameter: { kind: 'length', default: 5, least: 0.8, most: 40, help: 'of a dot' },
    spacing: { kind: 'length', default: 11, least: 2, most: 80, help: 'from middle to middle' },
    pins: {
      kind: 'length',
      default: 1.4,
      least: 0,
      most: 10,
      help: 'diameter of the pin dots in the gaps; 0 leaves them out',
    },
    mix: {
      kind: 'flag',
      default: false,
      help: 'dots in all inks by chance; without it, dots in the first and pins in the second',
    },
  },
  repeat: ({ spacing, mix }) => {
    const times = mix ? DEALT : 1;
    const [u, v] = staggered(spacing);
    return [
      [u[0] * times, u[1] * times],
      [v[0] * times, v[1] * times],
    ];
  },
  build({ diameter, spacing, pins, mix }, area, palette, random) {
    if (!(diameter <= spacing * 0.95)) {
      throw new ParamError(
        'diameter',
        diameter,
        `at most ${(spacing * 0.95).toFixed(2)} mm for dots ${spacing} mm apart`,
        'make the dots smaller or the spacing wider',
      );
    }
    // A pin dot sits where three dots are equally far, spacing / √3 from each.
    const free = (2 * spacing) / Math.sqrt(3) - diameter;
    if (!(pins <= free * 0.9)) {
      throw new ParamError(
        'pins',
        pins,
        `at most ${(free * 0.9).toFixed(2)} mm in the gaps there are`,
        'make the pin dots smaller, or 0 to leave them out',
      );
    }
    const from = startIn(staggered(spacing), random);
    const inks = palette.length - 1;
    const deal = dealt(DEALT, DEALT, () => (mix ? Math.floor(random() * inks) : 0));
    const over = (start: Point, reach: number) =>
      latticeOver(area, staggered(spacing), start, within(reach));
    const painted = over(from, diameter / 2).map(
      ({ at, i, j }): Painted => [inkOf(palette, deal(i, j)), dot(at, diameter)],
    );
    if (pins > 0) {
      const gap: Point = [from[0], from[1] + spacing / Math.sqrt(3)];
      const ink = inkOf(palette, 1);
      for (const { at } of over(gap, pins / 2)) painted.push([ink, dot(at, pins)]);
    }
    return fillsByInk(painted);
  },
});
