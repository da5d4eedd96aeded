/** Creatures in layers, their eyes separate: bird, fish, hedgehog. Drawn on a sheet about 100 wide
 *  and brought to size. */
import { defineMotif } from '../contracts.js';
import {
  arcThrough,
  circle,
  contains,
  corner,
  counterClockwise,
  heading,
  openPath,
  openSpline,
  polar,
  polygon,
  roundedPolygon,
} from '../geom/index.js';
import type { Path, Point } from '../model.js';
import { drawn, eye, figure, penOf, scored, shared } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { ellipse, leafBlade, shape, stalk } from './shapes.js';

export const bird = defineMotif({
  id: 'bird',
  family: 'creatures',
  summary: 'a round little bird with a bright breast and a lifted wing',
  params: { size: { ...sizeParam(45), least: 28 } },
  build({ size }) {
    const pen = penOf(112, size);
    const body = shape([
      corner([-62, 22]),
      [-32, 13],
      [-4, 26],
      [24, 42],
      [45, 22],
      [38, -14],
      [8, -34],
      [-24, -22],
      [-42, -3],
      corner([-65, -1]),
      corner([-56, 9]),
    ]);
    const breast = shared(ellipse([42, -12], 27, 25, -0.5), body);
    const wing = shape([[12, 10], [10, -6], [-8, -15], corner([-34, -12]), [-22, -2], [-8, 14]]);
    const feathers = [0, 1].map(i =>
      openSpline([
        [-19 + 12 * i, -7 - i],
        [-9 + 10 * i, -3 - i],
        [-1 + 8 * i, 4 - 2 * i],
      ]),
    );
    const leg = (x: number) =>
      roundedPolygon(
        [
          [x - 2, -20],
          [x - 2, -49],
          [x + 11, -49],
          [x + 11, -44.5],
          [x + 2.5, -44.5],
          [x + 2.5, -20],
        ],
        [0, 2.2, 2.2, 2.2, 1.5, 0],
      );
    return figure(
      [
        ...[3, 15].map((x, i) => layer(`leg-${i + 1}`, leg(x), { paper: 'beak' })),
        layer(
          'beak',
          shape([corner([41, 27]), [52, 23], corner([60, 16]), [50, 14], corner([40, 13])]),
          {
            paper: 'beak',
          },
        ),
        layer('front', body),
        layer('breast', breast, { paper: 'breast' }),
        layer('wing', wing, { paper: 'wing', lift: 1, strokes: feathers.map(drawn) }),
        eye('eye', [28, 22], 6.6, [0.25, 0], pen),
      ],
      size,
    );
  },
});

export const fish = defineMotif({
  id: 'fish',
  family: 'creatures',
  summary: 'a fish with a face of its own, drawn scales and three fins',
  params: { size: { ...sizeParam(50), least: 25 } },
  build({ size }) {
    const pen = penOf(104, size);
    const body = shape([
      heading([50, 0], [0, 1]),
      [20, 27],
      [-12, 21],
      heading([-39, 0], [0, -1]),
      [-12, -20],
      [20, -26],
    ]);
    const face = shared(circle([62, 0], 42), body);
    const tail = shape([
      corner([-28, 0]),
      [-44, 17],
      heading([-60, 28], [-1, 0.1]),
      [-63, 20],
      heading([-52, 0], [0, -1]),
      [-63, -20],
      heading([-60, -28], [1, 0.1]),
      [-44, -17],
    ]);
    const back = shape([
      corner([26, 20]),
      [12, 38],
      heading([-15, 42], [-1, 0]),
      [-17, 36],
      [-13, 26],
      corner([-15, 10]),
    ]);
    const belly = shape([
      corner([6, -20]),
      [-2, -35],
      heading([-19, -39], [-1, 0]),
      [-20, -34],
      [-16, -26],
      corner([-16, -12]),
    ]);
    const fin = shape([corner([16, -2]), [4, 6], [-8, 4], [-10, -6], [0, -13]]);
    const rays = [-0.35, 0.05, 0.45].map(a =>
      openSpline([
        [9, -3 - 2 * a],
        [-4, -4 - 14 * a],
      ]),
    );
    // Half rounds in rows; only whole ones that are clear of the edge.
    const clear = shape([
      [26, 22],
      [-8, 18],
      heading([-35, 0], [0, -1]),
      [-8, -17],
      [26, -22],
      [18, 0],
    ]);
    const scale = (x: number, y: number): Point[] => [
      [x, y + 5.5],
      [x - 5.5, y],
      [x, y - 5.5],
    ];
    const scales = [13, 4.5, -4, -12.5, -21, -29.5].flatMap((x, column) =>
      [-2, -1, 0, 1, 2].map(row => scale(x, 11 * row + (column % 2 === 0 ? 0 : 5.5))),
    );
    const shown = scales
      .filter(points => points.every(p => contains(clear, p) === 'in'))
      .map(([p, q, r]) => openPath(p!, [arcThrough(p!, q!, r!)!]));
    const mouth = openSpline([
      [39, -9],
      [43, -8],
      [46.5, -5],
    ]);
    return figure(
      [
        layer('tail', tail, { paper: 'fin' }),
        layer('back-fin', back, { paper: 'fin' }),
        layer('belly-fin', belly, { paper: 'fin' }),
        layer('front', body, { strokes: shown.map(drawn) }),
        layer('face', face, { paper: 'face', strokes: [drawn(mouth)] }),
        layer('fin', fin, { paper: 'fin', lift: 1, strokes: rays.map(drawn) }),
        eye('eye', [34, 7], 6.8, [0.25, 0], pen),
      ],
      size,
    );
  },
});

/** A coat of `count` spikes round an oval from low in front to low behind, closed by a flat foot. The
 *  spikes lean back. */
function spines(centre: Point, rx: number, ry: number, count: number, depth: number): Path {
  const [from, to] = [-0.5, Math.PI + 0.48];
  const on = (t: number, k: number): Point => {
    const [x, y] = polar(k, from + (to - from) * t);
    return [centre[0] + x * rx, centre[1] + y * ry];
  };
  const points = Array.from({ length: count }, (_, i) => [
    on(i / count, 1 - depth),
    on((i + 0.68) / count, 1),
  ]);
  return counterClockwise(polygon([...points.flat(), on(1, 1 - depth)]));
}

export const hedgehog = defineMotif({
  id: 'hedgehog',
  family: 'creatures',
  summary: 'a hedgehog with two coats of spines, carrying an apple home',
  params: {
    size: { ...sizeParam(50), least: 30 },
    apple: { kind: 'flag', default: true, help: 'an apple on its back' },
  },
  build({ size, apple }) {
    const pen = penOf(112, size);
    const coat = spines([-15, 0], 45, 41, 15, 0.16);
    const quills = spines([-17, -3], 31, 28, 10, 0.2);
    const body = shape([
      [56, -9],
      [44, 4],
      [26, 22],
      [0, 26],
      [-36, 2],
      [-40, -20],
      [-10, -28],
      [26, -27],
      [47, -18],
    ]);
    const foot = (x: number) => ellipse([x, -26], 9, 5.4);
    const leaf = leafBlade([-16, 48], [2, 57], 0.55, 0.06);
    const rosy = shape([
      heading([-17, 44.5], [-1, -0.1]),
      [-28, 46],
      [-35, 34],
      [-26, 20],
      [-17, 22],
      [-8, 20],
      [1, 34],
      [-6, 46],
    ]);
    const stem = stalk([
      [-17, 42, 3.8],
      [-16, 51, 3.8],
      [-13, 56, 4.8],
    ]);
    const fruit = [
      layer('apple-stem', stem, { paper: 'stem' }),
      layer('apple', rosy, { paper: 'apple' }),
      layer('apple-leaf', leaf.outline, { paper: 'leaf', strokes: [scored(leaf.rib)] }),
    ];
    const dashes = [
      [-28, 6],
      [-16, 10],
      [-4, 6],
      [-36, -6],
      [-23, -4],
      [-10, -4],
      [3, -6],
    ].map(([x, y]) =>
      openSpline([
        [x! + 2, y! - 3.5],
        [x! - 2, y! + 3.5],
      ]),
    );
    const smile = openSpline([
      [40, -14],
      [44, -16.5],
      [49, -15],
    ]);
    return figure(
      [
        ...[-22, 20].map((x, i) => layer(`foot-${i + 1}`, foot(x), { paper: 'foot' })),
        layer('front', body, { strokes: [drawn(smile)] }),
        layer('coat', coat, { paper: 'coat' }),
        ...(apple ? fruit : []),
        layer('quills', quills, { paper: 'quills', lift: 1, strokes: dashes.map(drawn) }),
        layer('ear', circle([22, 17], 7), { paper: 'foot' }),
        layer('nose', circle([56, -8], 5), { paper: 'nose' }),
        layer('cheek', circle([34, -11], 4.4), { paper: 'cheek' }),
        eye('eye', [37, 3], 5.8, [0.25, -0.1], pen),
      ],
      size,
    );
  },
});
