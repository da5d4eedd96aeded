/** Small creatures in layers, their eyes separate: bee, butterfly, snail. Drawn on a sheet about 100
 *  wide and brought to size. */
import { defineMotif } from '../contracts.js';
import { circle, corner, heading, openSpline } from '../geom/index.js';
import type { Layer, Path, Point } from '../model.js';
import { drawn, eye, figure, pairOf, penOf, scored, shared } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { flipped, mirroredSpline, NORTH, shape, stalk, WEST } from './shapes.js';

/** A wing that widens from its root, turned `turn` from the x axis. */
function wing(root: Point, tip: Point, fullness: number): Path {
  const [x, y] = root;
  const [dx, dy] = [tip[0] - x, tip[1] - y];
  const at = (u: number, v: number): Point => [x + u * dx - v * dy, y + u * dy + v * dx];
  const half = fullness / 2;
  return shape([
    at(0, 0),
    at(0.34, -0.62 * half),
    at(0.76, -half),
    at(1, 0),
    at(0.76, half),
    at(0.34, 0.62 * half),
  ]);
}

export const bee = defineMotif({
  id: 'bee',
  family: 'creatures',
  summary: 'a plump bee with striped body, two wings and a smile',
  params: {
    size: { ...sizeParam(45), least: 25 },
    stripes: { kind: 'count', default: 2, least: 1, most: 3, help: 'stripes round its body' },
  },
  build({ size, stripes }) {
    const pen = penOf(104, size);
    const body = shape([
      heading([50, 2], NORTH),
      [24, 30],
      [-18, 27],
      [-48, -4],
      [-20, -27],
      [26, -26],
    ]);
    const pitch = 42 / stripes;
    const bands = Array.from({ length: stripes }, (_, i): Layer => {
      const x = -32 + pitch * i + (stripes === 1 ? 8 : 0);
      const w = stripes === 1 ? 16 : pitch * 0.54;
      const band = shape([
        corner([x, 40]),
        [x - 4, 0],
        corner([x, -40]),
        corner([x + w, -40]),
        [x + w - 3, 0],
        corner([x + w, 40]),
      ]);
      return layer(`stripe-${i + 1}`, shared(band, body), { paper: 'stripe' });
    });
    const feelers = [
      stalk([
        [32, 20, 4.5],
        [36, 34, 4.5],
        [46, 41, 8.5],
      ]),
      stalk([
        [22, 22, 4.5],
        [23, 38, 4.5],
        [30, 47, 8.5],
      ]),
    ];
    const smile = openSpline([
      [34, -8],
      [39, -11.5],
      [44, -8.5],
    ]);
    const sting = shape([corner([-57, -7]), corner([-40, -12]), corner([-42, 4])]);
    return figure(
      [
        layer('sting', sting, { paper: 'stripe' }),
        ...feelers.map((f, i) => layer(`feeler-${i + 1}`, f, { paper: 'stripe' })),
        layer('back-wing', wing([2, 20], [12, 68], 0.62), { paper: 'wing' }),
        layer('front', body, { strokes: [drawn(smile)] }),
        ...bands,
        layer('cheek', circle([28, -8], 4.6), { paper: 'cheek' }),
        eye('eye', [33, 7], 7.5, [0.3, -0.1], pen),
        layer('wing', wing([-4, 14], [-30, 62], 0.66), { paper: 'wing', lift: 1 }),
      ],
      size,
    );
  },
});

export const butterfly = defineMotif({
  id: 'butterfly',
  family: 'creatures',
  summary: 'a butterfly whose wings are creased to lift beside its body',
  params: { size: { ...sizeParam(55), least: 30 } },
  build({ size }) {
    const pen = penOf(100, size);
    const wings = mirroredSpline([
      corner([0, -18]),
      [9, -34],
      [25, -42],
      [37, -27],
      [31, -9],
      corner([24, -2]),
      [44, 7],
      heading([50, 27], NORTH),
      [41, 39],
      [20, 32],
      corner([0, 10]),
    ]);
    const upper = shape([
      [9, 8],
      [24, 4],
      [40, 13],
      [44, 27],
      [36, 32],
      [20, 25],
    ]);
    const lower = shape([
      [10, -12],
      [21, -10],
      [29, -20],
      [25, -34],
      [14, -29],
    ]);
    const spots: readonly (readonly [number, number, number])[] = [
      [37.5, 24, 3.6],
      [29.5, 15.5, 2.6],
      [22.5, -26, 2.8],
    ];
    const feeler = stalk([
      [1.5, 16, 4],
      [5, 32, 3.8],
      [14, 43, 6.4],
    ]);
    const body = mirroredSpline([
      heading([0, -29], [1, 0]),
      [4.2, -18],
      [5.6, 4],
      [4.6, 10],
      [8, 17],
      [5.4, 24],
      heading([0, 26], WEST),
    ]);
    const crease = openSpline([
      [7.5, -26],
      [7.5, 12],
    ]);
    return figure(
      [
        ...pairOf('feeler', feeler, 'body'),
        layer('front', wings, { strokes: [scored(crease), scored(flipped(crease))] }),
        ...pairOf('upper', upper, 'inner'),
        ...pairOf('lower', lower, 'inner'),
        ...spots.flatMap(([x, y, r], i) => pairOf(`spot-${i + 1}`, circle([x, y], r), 'spot')),
        layer('body', body, { paper: 'body', lift: 1 }),
        eye('eye-right', [4, 20], 3.1, [0, 0.1], pen),
        eye('eye-left', [-4, 20], 3.1, [0, 0.1], pen),
      ],
      size,
    );
  },
});

export const snail = defineMotif({
  id: 'snail',
  family: 'creatures',
  summary: 'a snail with eyes on stalks and a shell of nested discs',
  params: {
    size: { ...sizeParam(50), least: 25 },
    whorls: { kind: 'count', default: 3, least: 2, most: 4, help: 'discs that make the shell' },
  },
  build({ size, whorls }) {
    const pen = penOf(104, size);
    const body = shape([
      corner([-56, -33]),
      [-36, -22],
      [-6, -15],
      [16, -14],
      [24, 0],
      [28, 14],
      [38, 20],
      [47, 12],
      [46, -2],
      [40, -20],
      [26, -31],
      corner([8, -34]),
    ]);
    const stalks = [
      stalk([
        [33, 12, 5],
        [31, 24, 4.6],
        [28, 37, 5],
      ]),
      stalk([
        [40, 12, 5],
        [43, 24, 4.6],
        [46, 35, 5],
      ]),
    ];
    const [x, y, r] = [-10, 8, 31];
    const discs = Array.from({ length: whorls }, (_, i): Layer => {
      const k = 1 - i / whorls;
      // Each touches the one behind it near its foot, as a shell that is wound.
      const at: Point = [x + 0.16 * r * (1 - k), y - 0.42 * r * (1 - k)];
      const id = i === 0 ? 'shell' : `whorl-${i}`;
      return layer(id, circle(at, r * k), { paper: i % 2 === 0 ? 'shell' : 'whorl' });
    });
    const smile = openSpline([
      [36, 1],
      [40, -2.5],
      [44.5, -0.5],
    ]);
    return figure(
      [
        ...stalks.map((s, i) => layer(`stalk-${i + 1}`, s)),
        layer('front', body, { strokes: [drawn(smile)] }),
        ...discs,
        layer('cheek', circle([33, 3], 3.6), { paper: 'cheek' }),
        eye('eye-1', [28, 40], 7, [0.25, -0.05], pen),
        eye('eye-2', [47, 38], 7, [0.25, -0.05], pen),
      ],
      size,
    );
  },
});
