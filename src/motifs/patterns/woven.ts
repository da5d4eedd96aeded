/** Woven papers: gingham and plaid. A thread that is crossed shows half of its own colour and half of
 *  the other's. */
import { definePattern } from '../../contracts.js';
import { rectangle } from '../../geom/index.js';
import type { Bounds } from '../../model.js';
import { pick } from '../random.js';
import { coats } from './fills.js';
import { inkOf, mixed } from './inks.js';
import { type Painted, type Repeat, radians, shapeOf, startIn, turnedRepeat } from './repeats.js';

interface Thread {
  readonly from: number;
  readonly width: number;
  readonly colour: string;
}

/** Bands of a repeat that a stretch can show, each in its place. */
function laid(sett: readonly Thread[], period: number, from: number, lo: number, hi: number) {
  const bands: Thread[] = [];
  for (let k = Math.floor((lo - from) / period); from + k * period < hi; k++) {
    for (const t of sett) {
      const at = from + k * period + t.from;
      if (at + t.width > lo && at < hi) bands.push({ ...t, from: at });
    }
  }
  return bands;
}

/** Warp and weft of one sett over an area, and what they make where they cross. */
function woven(
  area: Bounds,
  sett: { readonly warp: readonly Thread[]; readonly weft: readonly Thread[] },
  period: number,
  start: readonly [number, number],
  ground: string,
): Painted[][] {
  const warp = laid(sett.warp, period, start[0], area.minX, area.maxX);
  const weft = laid(sett.weft, period, start[1], area.minY, area.maxY);
  const [w, h] = [area.maxX - area.minX, area.maxY - area.minY];
  const half = (colour: string) => mixed(ground, colour, 0.5);
  const upright = warp.map(
    (t): Painted => [half(t.colour), shapeOf(rectangle(t.from, area.minY, t.width, h))],
  );
  const level = weft.map(
    (t): Painted => [half(t.colour), shapeOf(rectangle(area.minX, t.from, w, t.width))],
  );
  const crossings = warp.flatMap(a =>
    weft.map(
      (b): Painted => [
        mixed(a.colour, b.colour, 0.5),
        shapeOf(rectangle(a.from, b.from, a.width, b.width)),
      ],
    ),
  );
  return [upright, level, crossings];
}

const squareRepeat = (period: number, angle: number): Repeat =>
  turnedRepeat(
    [
      [period, 0],
      [0, period],
    ],
    radians(angle),
  );

const angleParam = {
  kind: 'angleDeg',
  default: 0,
  least: -90,
  most: 90,
  help: 'turn of the whole pattern; 45 cuts it on the bias',
} as const;

export const gingham = definePattern({
  id: 'gingham',
  summary: 'woven checks: ink over ground, deep where the stripes cross',
  params: {
    check: { kind: 'length', default: 6, least: 2, most: 40, help: 'side of a square' },
    angle: angleParam,
    inks: {
      kind: 'choice',
      default: 'one',
      choices: ['one', 'two'],
      help: 'both ways in the first ink, or across in the second',
    },
  },
  repeat: ({ check, angle }) => squareRepeat(2 * check, angle),
  build({ check, angle, inks }, area, palette, random) {
    const start = startIn(squareRepeat(2 * check, 0), random);
    const thread = (ink: number): Thread => ({
      from: 0,
      width: check,
      colour: inkOf(palette, ink),
    });
    const sett = { warp: [thread(0)], weft: [thread(inks === 'two' ? 1 : 0)] };
    return coats(area, radians(angle), a => woven(a, sett, 2 * check, start, palette[0]!));
  },
});

/** Setts as shares of a half repeat, from one pivot to the other; -1 is ground. As the Scottish setts
 *  are, they are mirrored at both pivots. */
const SETTS: readonly (readonly (readonly [share: number, ink: number])[])[] = [
  [
    [0.26, 0],
    [0.05, -1],
    [0.05, 0],
    [0.14, -1],
    [0.2, 2],
    [0.12, -1],
    [0.04, 1],
    [0.14, -1],
  ],
  [
    [0.2, 2],
    [0.04, -1],
    [0.24, 0],
    [0.18, -1],
    [0.05, 1],
    [0.06, -1],
    [0.05, 1],
    [0.18, -1],
  ],
  [
    [0.08, 1],
    [0.22, 0],
    [0.04, -1],
    [0.1, 0],
    [0.22, -1],
    [0.05, 2],
    [0.08, -1],
    [0.21, 2],
  ],
];

function threadsOf(period: number, palette: readonly string[], half: (typeof SETTS)[number]) {
  const threads: Thread[] = [];
  let from = 0;
  const whole = [...half, ...half.slice(1, -1).reverse()];
  const total = whole.reduce((sum, [share]) => sum + share, 0);
  for (const [share, ink] of whole) {
    const width = (share / total) * period;
    if (ink >= 0) threads.push({ from, width, colour: inkOf(palette, ink) });
    from += width;
  }
  return threads;
}

export const plaid = definePattern({
  id: 'plaid',
  summary: 'a tartan: broad and fine stripes crossing, mirrored at their middles',
  params: {
    sett: { kind: 'length', default: 44, least: 12, most: 150, help: 'one whole repeat' },
    angle: angleParam,
  },
  repeat: ({ sett, angle }) => squareRepeat(sett, angle),
  build({ sett, angle }, area, palette, random) {
    const start = startIn(squareRepeat(sett, 0), random);
    const threads = threadsOf(sett, palette, pick(SETTS, random));
    const both = { warp: threads, weft: threads };
    return coats(area, radians(angle), a => woven(a, both, sett, start, palette[0]!));
  },
});
