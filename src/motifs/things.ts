/** Things about the house: cottage, key, love letter. Drawn on a sheet
 *  about 100 wide and brought to size. */
import { defineMotif } from '../contracts.js';
import {
  arcTo,
  circle,
  clockwise,
  closedPath,
  line,
  polygon,
  polyline,
  rectangle,
  roundedPolygon,
  transform,
  translation,
  uniteRegions,
} from '../geom/index.js';
import type { Path, Point } from '../model.js';
import { drawn, figure } from './figure.js';
import { heartOutline } from './hearts.js';
import { layer, sized, sizeParam } from './layers.js';
import { gable, pill } from './shapes.js';

const HEART = heartOutline({ proportion: 0.92, cleft: 0.2, point: 0.72 });
const heartAt = (at: Point, width: number): Path =>
  transform(sized(HEART, width), translation(...at));

/** Upright sides and a round head. */
function arched(x0: number, x1: number, y0: number, y1: number): Path {
  const r = (x1 - x0) / 2;
  return closedPath(
    [x0, y0],
    [line([x1, y0]), line([x1, y1 - r]), arcTo([x0, y1 - r], Math.PI), line([x0, y0])],
  );
}

export const house = defineMotif({
  id: 'house',
  family: 'things',
  summary: 'a cottage with scalloped eaves, a round-headed door and lit windows',
  params: {
    size: { ...sizeParam(50), least: 28 },
    scallops: { kind: 'count', default: 7, least: 5, most: 11, help: 'arcs along the eaves' },
  },
  build({ size, scallops: count }) {
    const pane = (x: number) => arched(x - 9, x + 9, -34, -12);
    const bars = (x: number) => [
      polyline([
        [x, -33],
        [x, -13],
      ]),
      polyline([
        [x - 8, -23],
        [x + 8, -23],
      ]),
    ];
    return figure(
      [
        layer('chimney', rectangle(17, 10, 14, 36), { paper: 'chimney' }),
        layer('chimney-top', pill(14, 34, 44, 51), { paper: 'roof' }),
        layer('front', rectangle(-41, -52, 82, 62)),
        layer('door', arched(-11, 11, -52, -16), { paper: 'door' }),
        layer('knob', circle([6, -36], 2.6), { paper: 'lit' }),
        ...[-26, 26].map((x, i) =>
          layer(`window-${i + 1}`, pane(x), { paper: 'lit', strokes: bars(x).map(drawn) }),
        ),
        layer('roof', gable(55, 3, 57, count), { paper: 'roof', lift: 1 }),
        layer('heart', heartAt([0, 20], 16), { paper: 'lit' }),
      ],
      size,
    );
  },
});

const BOWS: Readonly<Record<string, { readonly outer: readonly Path[]; readonly hole: Path }>> = {
  heart: { outer: [heartAt([0, 27], 54)], hole: heartAt([0, 26.5], 25) },
  clover: {
    outer: [
      [-15, 20],
      [15, 20],
      [0, 42],
    ].map(([x, y]) => circle([x!, y!], 16)),
    hole: circle([0, 26], 9),
  },
  ring: { outer: [circle([0, 26], 26)], hole: circle([0, 26], 15) },
};

export const key = defineMotif({
  id: 'key',
  family: 'things',
  summary: 'an old key with a pierced bow and two collars',
  params: {
    size: { ...sizeParam(22), least: 16 },
    bow: {
      kind: 'choice',
      default: 'heart',
      choices: ['heart', 'clover', 'ring'],
      help: 'the part that is held: a heart, a clover of three discs, or a ring',
    },
  },
  build({ size, bow }) {
    const { outer, hole } = BOWS[bow]!;
    const shaft = roundedPolygon(
      [
        [-4.5, -78],
        [4.5, -78],
        [4.5, 14],
        [-4.5, 14],
      ],
      [4, 4, 0, 0],
    );
    const bit = polygon([
      [0, -70],
      [21, -70],
      [21, -63],
      [13, -63],
      [13, -58],
      [24, -58],
      [24, -51],
      [13, -51],
      [13, -46],
      [19, -46],
      [19, -40],
      [0, -40],
    ]);
    const [whole] = uniteRegions([...outer, shaft, bit].map(path => ({ outer: path, holes: [] })));
    const collar = (y: number, half: number) => pill(-half, half, y - 3, y + 3);
    return figure(
      [
        layer('front', whole!.outer, { holes: [clockwise(hole)] }),
        layer('collar-1', collar(-5, 10), { paper: 'trim' }),
        layer('collar-2', collar(-14, 8), { paper: 'trim' }),
      ],
      size,
    );
  },
});

export const loveLetter = defineMotif({
  id: 'love-letter',
  family: 'things',
  summary: 'an envelope with a heart for its seal, closed or with the letter out',
  params: {
    size: { ...sizeParam(50), least: 25 },
    open: { kind: 'flag', default: true, help: 'open, with the letter looking out' },
  },
  build({ size, open }) {
    const body = roundedPolygon(
      [
        [-50, -34],
        [50, -34],
        [50, 34],
        [-50, 34],
      ],
      4,
    );
    const flap = open
      ? roundedPolygon(
          [
            [-46, 28],
            [46, 28],
            [0, 73],
          ],
          [0, 0, 8],
        )
      : roundedPolygon(
          [
            [-50, 34],
            [-50, 27],
            [0, -9],
            [50, 27],
            [50, 34],
          ],
          [4, 3, 8, 3, 4],
        );
    const folds = [-1, 1].map(side =>
      polyline([
        [side * 46, -30],
        [side * 11, 0],
      ]),
    );
    if (!open) {
      return figure(
        [
          layer('front', body, { strokes: folds.map(drawn) }),
          layer('flap', flap, { paper: 'flap' }),
          layer('seal', heartAt([0, 0], 22), { paper: 'seal', lift: 1 }),
        ],
        size,
      );
    }
    const sheet = roundedPolygon(
      [
        [-41, -26],
        [41, -26],
        [41, 60],
        [-41, 60],
      ],
      2,
    );
    const pocket = roundedPolygon(
      [
        [-50, -34],
        [50, -34],
        [50, 34],
        [0, -8],
        [-50, 34],
      ],
      [4, 4, 2, 7, 2],
    );
    const words = [51, 43, 35, 27].map((y, i) =>
      polyline([
        [-31, y],
        [i === 0 ? -4 : 31 - 12 * (i % 2), y],
      ]),
    );
    return figure(
      [
        layer('flap', flap, { paper: 'flap' }),
        layer('back', body, { paper: 'inside' }),
        layer('letter', sheet, { paper: 'letter', strokes: words.map(drawn) }),
        layer('front', pocket, { strokes: folds.map(drawn) }),
        layer('seal', heartAt([0, 12], 24), { paper: 'seal', lift: 1 }),
      ],
      size,
    );
  },
});
