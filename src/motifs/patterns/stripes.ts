/** Striped papers. */
import { definePattern } from '../../contracts.js';
import { add, dot, perp, polar, polygon, scale } from '../../geom/index.js';
import type { Bounds, Path, Point, Region } from '../../model.js';
import { between, pick } from '../random.js';
import { fillsByInk } from './fills.js';
import { inkOf } from './inks.js';
import { radians, turnedRepeat } from './repeats.js';

/** A stripe of a repeat: where it begins and how wide it is, across the stripes. */
export interface Band {
  readonly from: number;
  readonly width: number;
  /** Which ink; `undefined` leaves the ground. */
  readonly ink: number | undefined;
}

/** A straight band across an area: a rectangle along `angle` that reaches past it at both ends. */
export function bandAcross(area: Bounds, angle: number, from: number, width: number): Path {
  const along = polar(1, angle);
  const across = perp(along);
  const [lo, hi] = extent(area, along);
  const at = (u: number, v: number): Point => add(scale(along, u), scale(across, v));
  return polygon([at(lo, from), at(hi, from), at(hi, from + width), at(lo, from + width)]);
}

/** Least and greatest coordinate of an area along a direction. */
export function extent(area: Bounds, along: Point): [number, number] {
  const corners: Point[] = [
    [area.minX, area.minY],
    [area.maxX, area.minY],
    [area.maxX, area.maxY],
    [area.minX, area.maxY],
  ];
  const reach = corners.map(c => dot(c, along));
  return [Math.min(...reach), Math.max(...reach)];
}

/** A repeat of stripes that is its own mirror image, as woven stripes are: a broad stripe, then
 *  by chance narrow ones and pin lines with ground between, then the same back again. */
function variedRepeat(width: number, inks: number, random: () => number): Band[] {
  const side: [number, number | undefined][] = [];
  const count = 2 + Math.floor(random() * 2);
  let ink = 1 % inks;
  for (let i = 0; i < count; i++) {
    side.push([width * between(0.35, 0.6, random), undefined]);
    const kind = i === 0 ? 'pin' : pick(['pin', 'narrow', 'narrow'], random);
    side.push([width * (kind === 'pin' ? 0.16 : between(0.4, 0.75, random)), ink]);
    ink = (ink + 1) % inks;
  }
  side.push([width * between(0.5, 0.8, random), undefined]);
  const middle: [number, number] = [width * between(1.3, 1.7, random), 0];
  const turning: [number, number] = [width * between(0.5, 0.9, random), 0];
  const all = [middle, ...side, turning, ...side.slice().reverse()];
  // Whatever chance made, it repeats after as much.
  const total = all.reduce((sum, [wide]) => sum + wide, 0);
  return layOut(
    all.map(([wide, which]): [number, number | undefined] => [
      (wide * VARIED * width) / total,
      which,
    ]),
  );
}

/** A repeat of varied stripes, in widths of a middling stripe. */
const VARIED = 8;
/** The same of a ticking. */
const TICKING = 2;

/** One repeat across the stripes. */
const periodOf = (weave: string, width: number, inks: number): number =>
  width * (weave === 'even' ? 2 * inks : weave === 'ticking' ? TICKING : VARIED);

/** A mattress ticking: a stripe between two pin lines, then plain ground. */
const tickingRepeat = (width: number): Band[] =>
  layOut([
    [width * 0.12, 0],
    [width * 0.2, undefined],
    [width * 0.42, 0],
    [width * 0.2, undefined],
    [width * 0.12, 0],
    [width * 0.94, undefined],
  ]);

const evenRepeat = (width: number, inks: number): Band[] =>
  layOut(
    Array.from({ length: inks }, (_, i): [number, number | undefined][] => [
      [width, i],
      [width, undefined],
    ]).flat(),
  );

function layOut(widths: readonly (readonly [number, number | undefined])[]): Band[] {
  let from = 0;
  return widths.map(([width, ink]) => {
    const band = { from, width, ink };
    from += width;
    return band;
  });
}

export const stripes = definePattern({
  id: 'stripes',
  summary: 'stripes of varied widths, even stripes, or ticking',
  params: {
    weave: {
      kind: 'choice',
      default: 'varied',
      choices: ['varied', 'even', 'ticking'],
      help: 'varied widths by chance, all alike, or the pin-edged stripes of a mattress ticking',
    },
    width: { kind: 'length', default: 5, least: 0.6, most: 60, help: 'of a middling stripe' },
    angle: {
      kind: 'angleDeg',
      default: 60,
      least: -90,
      most: 90,
      help: 'direction they run in: 0 is level, 90 is upright',
    },
  },
  repeat: ({ weave, width, angle }, palette) => {
    const period = periodOf(weave, width, Math.max(palette.length - 1, 1));
    // Along themselves stripes do not change: any step will do.
    return turnedRepeat(
      [
        [period, 0],
        [0, period],
      ],
      radians(angle),
    );
  },
  build({ weave, width, angle }, area, palette, random) {
    const inks = palette.length - 1;
    const phase = random();
    const repeat =
      weave === 'even'
        ? evenRepeat(width, Math.max(inks, 1))
        : weave === 'ticking'
          ? tickingRepeat(width)
          : variedRepeat(width, Math.max(inks, 1), random);
    const period = periodOf(weave, width, Math.max(inks, 1));
    const turn = radians(angle);
    const [lo, hi] = extent(area, perp(polar(1, turn)));
    const start = (Math.floor(lo / period - phase) + phase) * period;
    const painted: [string, Region][] = [];
    // Bounded by the area over the least width of a stripe.
    for (let k = 0; start + k * period < hi; k++) {
      for (const { from, width: wide, ink } of repeat) {
        const at = start + k * period + from;
        if (ink === undefined || at + wide < lo || at > hi) continue;
        painted.push([inkOf(palette, ink), { outer: bandAcross(area, turn, at, wide), holes: [] }]);
      }
    }
    return fillsByInk(painted);
  },
});
