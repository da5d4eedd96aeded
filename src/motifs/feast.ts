/** Things of a feast: candle, gift, cake slice, balloon. Drawn on a sheet about 100 wide and brought
 *  to size. */
import { defineMotif } from '../contracts.js';
import {
  circle,
  clockwise,
  corner,
  heading,
  type Knot,
  lerp,
  polygon,
  rectangle,
  roundedPolygon,
} from '../geom/index.js';
import type { Layer, Path, Point } from '../model.js';
import { figure, pairOf } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { EAST, ellipse, mirroredSpline, NORTH, puffs, shape, stalk, WEST } from './shapes.js';

/** Drips that hang from (x0, y0) to (x1, y1), by how far each one hangs: knots from left to right. */
function drips(from: Point, to: Point, lengths: readonly number[]): Knot[] {
  const n = lengths.length;
  const along: Point = [to[0] - from[0], to[1] - from[1]];
  return lengths.flatMap((length, i): Knot[] => {
    const [x, y] = lerp(from, to, (i + 0.5) / n);
    const low = heading([x, y - length], along);
    if (i === n - 1) return [low];
    const [u, v] = lerp(from, to, (i + 1) / n);
    return [low, heading([u, v], along)];
  });
}

export const candle = defineMotif({
  id: 'candle',
  family: 'things',
  summary: 'a candle with wax running down, in a holder with a ring',
  params: { size: { ...sizeParam(32), least: 22 } },
  build({ size }) {
    const dish = mirroredSpline([
      heading([0, -40], EAST),
      corner([20, -40]),
      [33, -33],
      heading([39, -25], NORTH),
      heading([35, -22], WEST),
      corner([0, -22]),
    ]);
    const socket = roundedPolygon(
      [
        [-18, -26],
        [18, -26],
        [18, -10],
        [-18, -10],
      ],
      [0, 0, 3, 3],
    );
    const wax = shape([
      corner([-14, 50]),
      corner([-14, 46], 'free', [0, -1]),
      ...drips([-14, 36], [14, 36], [9, 23]),
      corner([14, 46], [0, 1], 'free'),
      corner([14, 50]),
      [9, 57],
      heading([0, 54], WEST),
      [-9, 57],
    ]);
    const flame = mirroredSpline([
      heading([0, 62], EAST),
      heading([11, 76], NORTH),
      corner([0, 104], [-0.4, 1]),
    ]);
    const glow = mirroredSpline([
      heading([0, 66], EAST),
      heading([5.5, 74], NORTH),
      corner([0, 89], [-0.4, 1]),
    ]);
    return figure(
      [
        layer('ring', circle([41, -22], 13), {
          paper: 'holder',
          holes: [clockwise(circle([41, -22], 7))],
        }),
        layer(
          'wick',
          stalk([
            [0, 50, 4.8],
            [0, 58, 4.8],
            [0.8, 68, 4.8],
          ]),
          { paper: 'wick' },
        ),
        layer('front', rectangle(-14, -20, 28, 70)),
        layer('wax', wax, { paper: 'wax' }),
        layer('socket', socket, { paper: 'holder' }),
        layer('dish', dish, { paper: 'holder', lift: 1 }),
        layer('flame', flame, { paper: 'flame', lift: 1 }),
        layer('glow', glow, { paper: 'glow' }),
      ],
      size,
    );
  },
});

export const gift = defineMotif({
  id: 'gift',
  family: 'things',
  summary: 'a wrapped gift with a lid, a ribbon and a full bow',
  params: { size: { ...sizeParam(45), least: 22 } },
  build({ size }) {
    const box = roundedPolygon(
      [
        [-42, -46],
        [42, -46],
        [42, 16],
        [-42, 16],
      ],
      [3, 3, 0, 0],
    );
    const lid = roundedPolygon(
      [
        [-50, 10],
        [50, 10],
        [50, 32],
        [-50, 32],
      ],
      3,
    );
    const loop = shape([corner([1, 34]), [20, 34], heading([39, 46], NORTH), [30, 60], [12, 52]]);
    const inside = shape([corner([9, 39]), [20, 39], heading([33, 47], NORTH), [28, 54], [15, 48]]);
    const tail = shape([
      corner([0, 38]),
      [14, 30],
      corner([26, 17]),
      corner([21, 12]),
      corner([13, 12]),
      [7, 22],
    ]);
    return figure(
      [
        layer('front', box),
        layer('band', rectangle(-8, -46, 16, 60), { paper: 'ribbon' }),
        layer('lid', lid, { paper: 'lid', lift: 1 }),
        layer('lid-band', rectangle(-8.5, 10, 17, 22), { paper: 'ribbon' }),
        ...pairOf('tail', tail, 'ribbon'),
        ...pairOf('loop', loop, 'ribbon'),
        ...pairOf('inside', inside, 'inside'),
        layer('knot', ellipse([0, 37], 8, 7), { paper: 'ribbon', lift: 1 }),
      ],
      size,
    );
  },
});

export const cakeSlice = defineMotif({
  id: 'cake-slice',
  family: 'things',
  summary: 'a slice of layer cake with running icing and a cherry',
  params: {
    size: { ...sizeParam(50), least: 25 },
    fillings: { kind: 'count', default: 2, least: 1, most: 3, help: 'layers of filling' },
  },
  build({ size, fillings }) {
    const tip: Point = [-48, 10];
    const near: Point = [46, 0];
    const deep = 44;
    const down = ([x, y]: Point, by: number): Point => [x, y - by];
    const crumb = roundedPolygon([down(tip, deep), down(near, deep), near, tip], [3, 3, 0, 0]);
    const band = (i: number): Path => {
      const y = 10 + (34 * (i + 1)) / (fillings + 1) - 3.2;
      return polygon([down(tip, y + 6.4), down(near, y + 6.4), down(near, y), down(tip, y)]);
    };
    const icing = shape([
      corner([-51, 11], [-1, -0.5], [0, -1]),
      ...drips([-51, 3], [49, -7.5], [7, 1, 10, 4, 11, 3]),
      heading([50, 2], [-0.2, 1]),
      [38, 27],
      heading([28, 35], [-1, -0.1]),
    ]);
    const cream = puffs(ellipse([12, 20], 15, 6), [
      [1, 20, 6],
      [23, 19, 6],
      [8, 24, 7],
      [17, 24, 7],
    ]);
    return figure(
      [
        layer('front', crumb),
        ...Array.from(
          { length: fillings },
          (_, i): Layer => layer(`filling-${i + 1}`, band(i), { paper: 'filling' }),
        ),
        layer('icing', icing, { paper: 'icing', lift: 1 }),
        layer('cream', cream, { paper: 'cream' }),
        layer(
          'stem',
          stalk([
            [13, 40, 3.4],
            [17, 49, 3.4],
            [24, 54, 4.4],
          ]),
          { paper: 'stem' },
        ),
        layer('cherry', circle([12, 34], 9.5), { paper: 'cherry' }),
      ],
      size,
    );
  },
});

export const balloon = defineMotif({
  id: 'balloon',
  family: 'things',
  summary: 'a balloon with its knot, a shine and a curling string',
  params: { size: { ...sizeParam(35), least: 26 } },
  build({ size }) {
    const body = mirroredSpline([
      corner([0, -56], 'free', [1, 0.25]),
      [30, -32],
      heading([50, 14], NORTH),
      heading([0, 64], WEST),
    ]);
    const knot = shape([corner([0, -50]), corner([9, -66]), [0, -64], corner([-9, -66])]);
    const string = stalk([
      [0, -60, 5],
      [5, -80, 5],
      [-6, -104, 5],
      [5, -130, 5],
      [-2, -152, 5],
    ]);
    const shine = stalk([
      [-20, 46, 8],
      [-32, 34, 9.5],
      [-36.5, 17, 7],
    ]);
    return figure(
      [
        layer('string', string, { paper: 'string' }),
        layer('knot', knot),
        layer('front', body, { lift: 1 }),
        layer('shine', shine, { paper: 'shine' }),
      ],
      size,
    );
  },
});
