/** A hedgehog. Drawn on a sheet about 100 wide and brought to size. */
import { defineMotif } from '../contracts.js';
import { circle, counterClockwise, heading, openSpline, polar, polygon } from '../geom/index.js';
import type { Path, Point } from '../model.js';
import { drawn, eye, figure, penOf, scored } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { ellipse, leafBlade, shape, stalk } from './shapes.js';

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
