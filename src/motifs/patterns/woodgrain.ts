/** Wood grain: fine lines that run round knots, swell, thin and break off, as in an engraving. */
import { definePattern } from '../../contracts.js';
import { closedSpline, corner } from '../../geom/index.js';
import type { Path, Point } from '../../model.js';
import { between } from '../random.js';
import { ellipse } from '../shapes.js';
import { coats } from './fills.js';
import { inkOf, tintOf } from './inks.js';
import {
  type Painted,
  type Repeat,
  radians,
  shapeOf,
  startIn,
  tiled,
  turnedArea,
  turnedRepeat,
} from './repeats.js';

/** Of a tile, in spacings: along the grain and across it. */
const LONG = 44;
const LINES = 26;

interface Knot {
  readonly at: Point;
  /** Half of its eye, along the grain and across it. */
  readonly long: number;
  readonly high: number;
}

const grainRepeat = (spacing: number): Repeat => [
  [LONG * spacing, 0],
  [0, LINES * spacing],
];

const nearest = (d: number, period: number) => d - period * Math.round(d / period);

/** How far a line is pushed aside at a point: it drifts, and makes way for knots. No two lines cross,
 *  since what pushes falls off across the grain more slowly than the lines lie apart. */
function field(spacing: number, knots: readonly Knot[], random: () => number) {
  const [w, h] = [LONG * spacing, LINES * spacing];
  const waves = [1, 2, 3].map(n => ({
    along: (2 * Math.PI * n) / w,
    across: (2 * Math.PI * (n % 2)) / h,
    lag: 2 * Math.PI * random(),
    high: (spacing * between(0.7, 1.1, random)) / n,
  }));
  return ([x, y]: Point): number => {
    let push = 0;
    for (const { along, across, lag, high } of waves)
      push += high * Math.sin(along * x + across * y + lag);
    for (const { at, long, high } of knots) {
      const u = Math.abs(nearest(x - at[0], w)) / (2.1 * long);
      if (u >= 1) continue;
      const v = nearest(y - at[1], h);
      // Half of the way is made on each side of the knot's own line.
      push += Math.sign(v) * high * (1 - u * u) ** 3 * Math.exp(-Math.abs(v) / (2.4 * high));
    }
    return push;
  };
}

/** A stroke along a line from x0 to x1: pointed at both ends, swelling between. */
function stroke(
  line: (x: number) => number,
  x0: number,
  x1: number,
  width: number,
  swell: (x: number) => number,
  step: number,
): Path {
  const count = Math.max(2, Math.round((x1 - x0) / step));
  const xs = Array.from({ length: count + 1 }, (_, i) => x0 + ((x1 - x0) * i) / count);
  const half = (x: number) => {
    const end = Math.min(1, (4 * (x - x0)) / (x1 - x0), (4 * (x1 - x)) / (x1 - x0));
    return (width / 2) * Math.sqrt(end) * swell(x);
  };
  const inner = xs.slice(1, -1);
  const low = inner.map((x): Point => [x, line(x) - half(x)]);
  const high = inner.map((x): Point => [x, line(x) + half(x)]).reverse();
  return closedSpline([corner([x0, line(x0)]), ...low, corner([x1, line(x1)]), ...high]);
}

export const woodgrain = definePattern({
  id: 'woodgrain',
  summary: 'the grain of a plank with its knots, as an engraver draws it',
  params: {
    spacing: { kind: 'length', default: 3.2, least: 1, most: 20, help: 'between two lines' },
    width: {
      kind: 'number',
      default: 0.42,
      least: 0.1,
      most: 0.6,
      help: 'of a line, as a share of the spacing',
    },
    knots: { kind: 'count', default: 3, least: 0, most: 6, help: 'in one repeat' },
    angle: {
      kind: 'angleDeg',
      default: 0,
      least: -90,
      most: 90,
      help: 'direction of the grain: 0 is level, 90 is upright',
    },
  },
  repeat: ({ spacing, angle }) => turnedRepeat(grainRepeat(spacing), radians(angle)),
  build({ spacing, width, knots, angle }, area, palette, random) {
    const repeat = grainRepeat(spacing);
    const start = startIn(repeat, random);
    const w = LONG * spacing;
    const eyes = Array.from({ length: knots }, (_, i): Knot => {
      // One in each stretch of the tile, so that no two meet.
      const x = (w * (i + between(0.3, 0.7, random))) / knots;
      const row = Math.floor(((i * 0.618) % 1) * LINES + between(-2, 2, random)) + 0.5;
      return {
        at: [x, row * spacing],
        long: spacing * between(2.4, 3.4, random),
        high: spacing * between(1.1, 1.5, random),
      };
    });
    const push = field(spacing, eyes, random);
    const lines = Array.from({ length: LINES }, (_, n) => {
      const y = n * spacing;
      const fine = n % 3 === 1 || random() < 0.2;
      const line = (x: number) => y + push([x, y]);
      const lag = 2 * Math.PI * random();
      const turns = 2 + Math.floor(random() * 3);
      const swell = (x: number) => 0.78 + 0.22 * Math.sin((2 * Math.PI * turns * x) / w + lag);
      const breaks = fine ? 3 : 2;
      const first = random() * w;
      const gap = spacing * 0.45;
      return Array.from({ length: breaks }, (_, k): Painted => {
        const lengths = w / breaks;
        const [x0, x1] = [first + k * lengths + gap, first + (k + 1) * lengths - gap];
        const wide = spacing * width * (fine ? 0.55 : 1);
        const path = stroke(line, x0, x1, wide, swell, spacing * 2.6);
        return [fine ? tintOf(palette, 0, 0.55) : inkOf(palette, 0), shapeOf(path)];
      });
    }).flat();
    const middles = eyes.flatMap(({ at, long, high }) => {
      const y = at[1] + waveAt(push, at);
      const ring = (share: number) =>
        shapeOf(ellipse([at[0], y], long * 0.62 * share, high * 0.7 * share));
      return [ring(1), ring(0.68), ring(0.36)];
    });
    const coat = (n: number, colour: string): Painted[] =>
      middles.filter((_, i) => i % 3 === n).map((shape): Painted => [colour, shape]);
    const turned = turnedArea(area, radians(angle)).area;
    const lay = (shapes: readonly Painted[]) => tiled(shapes, repeat, start, turned);
    return coats(area, radians(angle), () => [
      lay(lines),
      lay(coat(0, inkOf(palette, 0))),
      lay(coat(1, palette[0]!)),
      lay(coat(2, tintOf(palette, 0, 0.55))),
    ]);

    function waveAt(f: (p: Point) => number, [x, y]: Point): number {
      // Just above and just below a knot's line it pushes either way: the drift is halfway.
      const by = spacing * 1e-6;
      return (f([x, y + by]) + f([x, y - by])) / 2;
    }
  },
});
