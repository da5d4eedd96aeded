/** Creatures in layers, their eyes separate: bird, fish. Drawn on a sheet about 100 wide
 *  and brought to size. */
import { defineMotif } from '../contracts.js';
import {
  arcThrough,
  circle,
  contains,
  corner,
  heading,
  openPath,
  openSpline,
} from '../geom/index.js';
import type { Point } from '../model.js';
import { drawn, eye, figure, penOf, shared } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { ellipse, shape, stalk } from './shapes.js';

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
      stalk([
        [x, -20, 4.6],
        [x, -36, 4.6],
        [x + 2.4, -44.5, 4.8],
        [x + 10, -47.5, 5],
      ]);
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
