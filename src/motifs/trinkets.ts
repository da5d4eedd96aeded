/** Small round things: a cut stone, pebbles, a button. */
import { defineMotif } from '../contracts.js';
import {
  circle,
  clockwise,
  closedPath,
  closedSpline,
  compose,
  distance,
  endOf,
  heading,
  line,
  openPath,
  openSpline,
  partOf,
  pathLength,
  polar,
  polygon,
  rotation,
  scaling,
  transform,
  translation,
} from '../geom/index.js';
import type { Layer, Path, Point, Stroke } from '../model.js';
import { drawn, figure, scored } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { between } from './random.js';
import { scallopedCircle } from './scallops.js';
import { pill } from './shapes.js';

/** The corners of an upright hexagon about the origin, from the top counter-clockwise; `high` over
 *  wide. A regular one is 2 / √3 as high as wide. */
function hexagon(width: number, high: number): Point[] {
  const [x, y] = [width / 2, (width * high) / 2];
  return [
    [0, y],
    [-x, y / 2],
    [-x, -y / 2],
    [0, -y],
    [x, -y / 2],
    [x, y / 2],
  ];
}

export const gem = defineMotif({
  id: 'gem',
  family: 'trinkets',
  summary: 'a hexagon cut like a stone: light and dark facets about a table',
  params: {
    size: { ...sizeParam(34), least: 16 },
    proportion: {
      kind: 'number',
      default: 2 / Math.sqrt(3),
      least: 1,
      most: 1.8,
      help: 'height over width; 1.1547 is a regular hexagon',
    },
    table: {
      kind: 'number',
      default: 0.56,
      least: 0.4,
      most: 0.68,
      help: 'width of the flat in the middle, as a part of the whole',
    },
    lift: { kind: 'length', default: 1, least: 0, most: 3, help: 'foam under the table' },
  },
  build({ size, proportion, table, lift }): readonly Layer[] {
    const whole = hexagon(size, proportion);
    const out = hexagon(0.93 * size, proportion);
    const inner = hexagon(table * size, proportion);
    /** Two facets side by side about corner i. */
    const facets = (i: number): Path => {
      const round = [i + 5, i, i + 1].map(k => k % 6);
      return polygon([...round.map(k => out[k]!), ...[...round].reverse().map(k => inner[k]!)]);
    };
    const edge = (from: Point, to: Point): Stroke => scored(openPath(from, [line(to)]));
    const rays = [1, 2, 4, 5].map(i =>
      edge(whole[i]!.map(v => 0.9 * v) as unknown as Point, inner[i]!),
    );
    const ridge = (i: number) => {
      const [from, to] = [out[i]!, inner[i]!];
      return edge([0, 0.97 * from[1]], [0, 0.03 * from[1] + 0.97 * to[1]]);
    };
    const lit = hexagon(0.62 * table * size, proportion);
    return [
      layer('girdle', polygon(whole), { strokes: rays }),
      layer('crown', facets(0), { paper: 'light', strokes: [ridge(0)] }),
      layer('pavilion', facets(3), { paper: 'dark', strokes: [ridge(3)] }),
      layer('table', polygon(inner), { paper: 'table', lift, strokes: [scored(polygon(lit))] }),
    ];
  },
});

/**
 * A superellipse |x/a|^n + |y/b|^n = 1, through points of it with its own directions there.
 * `lean` moves its top sideways, as a part of the width.
 */
export function superellipse(a: number, b: number, n: number, lean = 0): Path {
  const STEPS = 8;
  const knots = Array.from({ length: 4 * STEPS }, (_, i) => {
    const t = (i * Math.PI) / (2 * STEPS);
    const [c, s] = i % STEPS === 0 ? axis(i / STEPS) : [Math.cos(t), Math.sin(t)];
    const power = (v: number) => Math.sign(v) * Math.abs(v) ** (2 / n);
    const rate = (v: number) => Math.abs(v) ** (2 / n - 1);
    const way: Point = i % STEPS === 0 ? [-s * a, c * b] : [-a * rate(c) * s, b * rate(s) * c];
    const [x, y] = [a * power(c), b * power(s)];
    const shear = (lean * 2 * a) / b;
    const bow = (shear * y * y) / (2 * b);
    return heading([x + bow, y], [way[0] + (shear * y * way[1]) / b, way[1]]);
  });
  return closedSpline(knots);
}
const axis = (quarter: number): Point =>
  (
    [
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
    ] as const
  )[quarter % 4]!;

const STONES = ['main', 'second', 'third', 'fourth'] as const;

export const pebble = defineMotif({
  id: 'pebble',
  family: 'trinkets',
  summary: 'a smooth pebble, or a few on each other, with a pale vein',
  params: {
    size: { ...sizeParam(34), least: 16 },
    stones: { kind: 'count', default: 3, least: 1, most: 4, help: 'how many lie on each other' },
    roundness: {
      kind: 'number',
      default: 2.35,
      least: 2,
      most: 4,
      help: 'exponent of the outline: 2 is an ellipse, 4 nearly a tile',
    },
    vein: { kind: 'flag', default: true, help: 'a pale vein through the lowest' },
    seed: { kind: 'count', default: 3, least: 1, most: 9999, help: 'which pebbles' },
  },
  build({ size, stones, roundness, vein, seed }, tools): readonly Layer[] {
    const random = tools.seeded(seed);
    const layers: Layer[] = [];
    let wide = 100;
    let y = 0;
    let x = 0;
    for (let i = 0; i < stones; i++) {
      const high = wide * between(0.44, 0.56, random);
      const lean = between(-0.05, 0.05, random);
      const turn = i === 0 ? 0 : between(-0.09, 0.09, random);
      const form = superellipse(wide / 2, high / 2, roundness, lean);
      const at = compose(translation(x, y + high / 2), rotation(turn));
      const outline = transform(form, at);
      const speck = (): Path => {
        const p = polar(Math.sqrt(random()) * 0.34, 2 * Math.PI * random());
        return transform(circle([p[0] * wide, p[1] * high], 0.006 * wide), at);
      };
      const specks = Array.from({ length: 6 }, () => drawn(speck()));
      layers.push(layer(`stone-${i + 1}`, outline, { paper: STONES[i]!, strokes: specks }));
      if (i === 0 && vein)
        layers.push(layer('vein', veinOf(outline, wide, high), { paper: 'vein' }));
      y += 0.94 * high;
      wide *= between(0.66, 0.78, random);
      x += between(-0.06, 0.06, random) * wide;
    }
    return figure(layers, size);
  },
});

/** A band that runs across a stone and thins on its way; its ends are parts of the stone's edge, which
 *  starts at the right. */
function veinOf(stone: Path, wide: number, high: number): Path {
  const whole = pathLength(stone);
  const right = partOf(stone, 0.03 * whole, 0.08 * whole);
  const left = partOf(stone, 0.495 * whole, 0.545 * whole);
  const band = (from: Point, to: Point, up: number) => {
    const waves: Point[] = [
      [0.16 * wide, (0.54 + up) * high],
      [-0.2 * wide, (0.49 + up) * high],
    ];
    return openSpline([from, ...(from[0] > to[0] ? waves : waves.reverse()), to]);
  };
  return closedPath(right.start, [
    ...right.segments,
    ...band(endOf(right), left.start, 0.11).segments,
    ...left.segments,
    ...band(endOf(left), right.start, -0.06).segments,
  ]);
}

export const button = defineMotif({
  id: 'button',
  family: 'trinkets',
  summary: 'a button with a raised rim, sewn on with thread',
  params: {
    size: { ...sizeParam(26), least: 14 },
    holes: { kind: 'choice', default: 'four', choices: ['two', 'four'], help: 'holes' },
    edge: { kind: 'choice', default: 'plain', choices: ['plain', 'scalloped'], help: 'its edge' },
    thread: { kind: 'flag', default: true, help: 'thread through the holes' },
  },
  build({ size, holes, edge, thread }): readonly Layer[] {
    const outer =
      edge === 'plain'
        ? circle([0, 0], 50)
        : transform(scallopedCircle(16, (120 * Math.PI) / 180), scaling(47));
    const sides = holes === 'two' ? 2 : 4;
    const at = Array.from(
      { length: sides },
      (_, i): Point =>
        polar(sides === 2 ? 12 : 15.5, (Math.PI * (2 * i + (sides === 2 ? 0 : 1))) / sides),
    );
    const openings = at.map(p => clockwise(circle(p, 5.6)));
    const inner = clockwise(circle([0, 0], 36));
    const groove = drawn(circle([0, 0], 30));
    const bars = Array.from({ length: sides / 2 }, (_, i): Layer => {
      const [p, q] = [at[i]!, at[i + sides / 2]!];
      const half = distance(p, q) / 2 + 3;
      const bar = pill(-half, half, -3.6, 3.6);
      const way = Math.atan2(q[1] - p[1], q[0] - p[0]);
      return layer(`thread-${i + 1}`, transform(bar, rotation(way)), { paper: 'thread' });
    });
    return figure(
      [
        layer('button', outer, { holes: openings, strokes: [groove] }),
        layer('rim', outer, { paper: 'rim', holes: [inner] }),
        ...(thread ? bars : []),
      ],
      size,
    );
  },
});
