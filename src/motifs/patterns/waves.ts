/** Papers of bands that run on: chevron and ripple. */
import { definePattern } from '../../contracts.js';
import { closedPath, cubic, line, polygon } from '../../geom/index.js';
import type { Bounds, Path, Point, Segment } from '../../model.js';
import { ParamError } from '../../params.js';
import { coats } from './fills.js';
import { inkOf, tintOf } from './inks.js';
import { type Painted, type Repeat, radians, shapeOf, startIn, turnedRepeat } from './repeats.js';

const angleParam = {
  kind: 'angleDeg',
  default: 0,
  least: -90,
  most: 90,
  help: 'direction the bands run in: 0 is level, 90 is upright',
} as const;

/** A zigzag of `rise` and `wave`, moved up: corners from left to right. */
function zigzag(area: Bounds, wave: number, rise: number, from: Point): Point[] {
  const half = wave / 2;
  const first = Math.floor((area.minX - from[0]) / half);
  const last = Math.ceil((area.maxX - from[0]) / half);
  return Array.from({ length: last - first + 1 }, (_, k): Point => {
    const n = first + k;
    return [from[0] + n * half, from[1] + (n % 2 === 0 ? 0 : rise)];
  });
}

interface Band {
  readonly up: number;
  readonly width: number;
  readonly colour: string;
}

/** For each ink a broad band, then a fine line of the next ink in the ground between. */
function chevronBands(band: number, gap: number, palette: readonly string[], pins: boolean) {
  const bands: Band[] = [];
  const inks = palette.length - 1;
  let up = 0;
  for (let n = 0; n < inks; n++) {
    bands.push({ up, width: band, colour: inkOf(palette, n) });
    const pin = gap / 4;
    if (pins && pin > 0) {
      const colour = inkOf(palette, n + 1);
      bands.push({ up: up + band + (gap - pin) / 2, width: pin, colour });
    }
    up += band + gap;
  }
  return { bands, period: up };
}

export const chevron = definePattern({
  id: 'chevron',
  summary: 'zigzag bands in all inks, with fine lines between them',
  params: {
    band: { kind: 'length', default: 5, least: 1, most: 40, help: 'width of a band, straight up' },
    gap: { kind: 'length', default: 4.4, least: 0, most: 40, help: 'ground between two bands' },
    wave: { kind: 'length', default: 22, least: 4, most: 120, help: 'from peak to peak' },
    rise: { kind: 'length', default: 9, least: 1, most: 80, help: 'from valley to peak' },
    pins: { kind: 'flag', default: true, help: 'a fine line in the ground between two bands' },
    angle: angleParam,
  },
  repeat: ({ band, gap, wave, angle }, palette) =>
    turnedRepeat(
      [
        [wave, 0],
        [0, (band + gap) * (palette.length - 1)],
      ],
      radians(angle),
    ),
  build({ band, gap, wave, rise, pins, angle }, area, palette, random) {
    const { bands, period } = chevronBands(band, gap, palette, pins);
    const start = startIn(
      [
        [wave, 0],
        [0, period],
      ],
      random,
    );
    return coats(area, radians(angle), turned => {
      const painted: Painted[] = [];
      const lowest = Math.floor((turned.minY - rise - start[1]) / period);
      for (let k = lowest; start[1] + k * period < turned.maxY; k++) {
        for (const { up, width, colour } of bands) {
          const from = start[1] + k * period + up;
          if (from + rise + width < turned.minY || from > turned.maxY) continue;
          const low = zigzag(turned, wave, rise, [start[0], from]);
          const high = low.map(([x, y]): Point => [x, y + width]).reverse();
          painted.push([colour, shapeOf(polygon([...low, ...high]))]);
        }
      }
      return [painted];
    });
  },
});

/** A smooth wave through x, as cubics between its samples: y and its slope are given. */
function smooth(samples: readonly (readonly [at: Point, slope: number])[]): Segment[] {
  return samples.slice(1).map(([to, slope], i) => {
    const [from, before] = samples[i]!;
    const third = (to[0] - from[0]) / 3;
    return cubic(
      [from[0] + third, from[1] + third * before],
      [to[0] - third, to[1] - third * slope],
      to,
    );
  });
}

/** Samples a wave in eighths: Hermite cubics then keep within 0.1 % of its height. */
const EIGHTH = 8;
/** Rows of ripples before they come again. */
const ROWS = 12;

interface Row {
  readonly phase: number;
  readonly swell: number;
  readonly colour: string;
}

/** A band that follows a sine and swells and thins along it. */
function rippleBand(
  area: Bounds,
  wave: number,
  high: number,
  width: number,
  y: number,
  row: Row,
): Path {
  const k = (2 * Math.PI) / wave;
  const middle = (x: number) => high * Math.sin(k * x + row.phase);
  const slope = (x: number) => high * k * Math.cos(k * x + row.phase);
  const half = (x: number) => (width / 2) * (0.6 + 0.4 * Math.sin(k * x + row.swell));
  const halfSlope = (x: number) => (width / 2) * 0.4 * k * Math.cos(k * x + row.swell);
  const step = wave / EIGHTH;
  const n0 = Math.floor(area.minX / step);
  const n1 = Math.ceil(area.maxX / step);
  const xs = Array.from({ length: n1 - n0 + 1 }, (_, i) => (n0 + i) * step);
  const low = xs.map(
    x => [[x, y + middle(x) - half(x)], slope(x) - halfSlope(x)] as [Point, number],
  );
  const top = xs.map(
    x => [[x, y + middle(x) + half(x)], slope(x) + halfSlope(x)] as [Point, number],
  );
  top.reverse();
  return closedPath(low[0]![0], [...smooth(low), line(top[0]![0]), ...smooth(top)]);
}

export const ripple = definePattern({
  id: 'ripple',
  summary: 'rippled water: wavy lines that swell and thin',
  params: {
    wave: { kind: 'length', default: 34, least: 6, most: 150, help: 'from crest to crest' },
    rise: { kind: 'length', default: 3.2, least: 0.2, most: 30, help: 'half the height of a wave' },
    width: {
      kind: 'length',
      default: 2.6,
      least: 0.4,
      most: 20,
      help: 'of a line where it swells',
    },
    spacing: { kind: 'length', default: 5.2, least: 1, most: 40, help: 'from line to line' },
    angle: angleParam,
  },
  repeat: ({ wave, spacing, angle }): Repeat =>
    turnedRepeat(
      [
        [wave, 0],
        [0, ROWS * spacing],
      ],
      radians(angle),
    ),
  build({ wave, rise, width, spacing, angle }, area, palette, random) {
    // Neighbours lag by at most a quarter wave, so that they never touch.
    const room = spacing - 2 * rise * Math.sin(LAG / 2);
    if (!(width <= room * 0.95)) {
      throw new ParamError(
        'width',
        width,
        `at most ${Math.max(0, room * 0.95).toFixed(2)} mm for lines ${spacing} mm apart that rise ${rise} mm`,
        'make the lines finer, the spacing wider or the waves lower',
      );
    }
    const start = startIn(
      [
        [wave, 0],
        [0, ROWS * spacing],
      ],
      random,
    );
    const rows = rowsOf(palette, random);
    return coats(area, radians(angle), turned => {
      const painted: Painted[] = [];
      const lowest = Math.floor((turned.minY - rise - width - start[1]) / spacing);
      for (let n = lowest; start[1] + n * spacing < turned.maxY + rise + width; n++) {
        const row = rows[((n % ROWS) + ROWS) % ROWS]!;
        const y = start[1] + n * spacing;
        const band = rippleBand(turned, wave, rise, width, y, row);
        painted.push([row.colour, shapeOf(band)]);
      }
      return [painted];
    });
  },
});

/** The most that a line lags behind its neighbour, radians. */
const LAG = 0.55;

/** Lines that lag behind each other now this way and now that, and are where they began after
 *  `ROWS`. */
function rowsOf(palette: readonly string[], random: () => number): Row[] {
  const inks = palette.length - 1;
  const [turn, swell] = [2 * Math.PI * random(), 2 * Math.PI * random()];
  // A sine through all rows, whose steepest step is the lag: sway · 2π / ROWS.
  const sway = (LAG * ROWS) / (2 * Math.PI);
  return Array.from({ length: ROWS }, (_, n): Row => {
    const chance = random();
    const colour =
      n % 4 === 3 && inks > 1
        ? inkOf(palette, 1)
        : chance < 0.5
          ? inkOf(palette, 0)
          : tintOf(palette, 0, 0.55);
    const phase = turn + sway * Math.sin((2 * Math.PI * n) / ROWS);
    return { phase, swell: swell + ((2 * Math.PI * n) / ROWS) * 2, colour };
  });
}
