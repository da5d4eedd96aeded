/** Apple and pear, whole or cut in half. Drawn on a sheet about 100 wide and brought to size. */
import { defineMotif } from '../contracts.js';
import {
  closedSpline,
  compose,
  corner,
  heading,
  rotation,
  transform,
  translation,
} from '../geom/index.js';
import type { Layer, Point } from '../model.js';
import { figure, scored } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { EAST, ellipse, leafBlade, mirroredSpline, NORTH, stalk, WEST, within } from './shapes.js';

const cutParam = {
  kind: 'choice',
  default: 'whole',
  choices: ['whole', 'half'],
  help: 'whole with a shine, or cut in half with its pips',
} as const;

/** A leaf that is creased along its rib, so that it stands up a little. */
function leaf(base: Point, tip: Point, fullness: number, lean: number): Layer {
  const { outline, rib } = leafBlade(base, tip, fullness, lean);
  return layer('leaf', outline, { paper: 'leaf', strokes: [scored(rib)] });
}

/** A pip standing on its point. */
const pip = (id: string, at: Point, turn: number): Layer =>
  layer(
    id,
    transform(
      closedSpline([
        corner([0, 8], 'free', [-0.5, -1]),
        [-3.4, 0],
        heading([0, -4], EAST),
        [3.4, 0],
      ]),
      compose(translation(...at), rotation(turn)),
    ),
    { paper: 'pip' },
  );

const APPLE = mirroredSpline([
  heading([0, 4.5], EAST),
  [18, 0.5],
  [42, 20],
  heading([50, 53], NORTH),
  [31, 84.5],
  corner([0, 74], [-1, -0.8]),
]);

export const apple = defineMotif({
  id: 'apple',
  family: 'harvest',
  summary: 'a round apple with its stem and a leaf, whole or cut in half',
  params: { size: { ...sizeParam(40), least: 20 }, cut: cutParam },
  build({ size, cut }) {
    const stem = stalk([
      [0, 66, 6],
      [1, 84, 5.4],
      [8, 101, 8],
    ]);
    const half = [
      layer('flesh', within(APPLE, 42, 0.87, 0.86), { paper: 'flesh' }),
      layer('core', ellipse([0, 42], 15, 19), { paper: 'core' }),
      pip('pip-1', [-6.5, 40], 0.25),
      pip('pip-2', [6.5, 40], -0.25),
    ];
    const shine = stalk([
      [-34, 69, 8],
      [-38.5, 57, 9],
      [-38, 43, 6.5],
    ]);
    return figure(
      [
        layer('stem', stem, { paper: 'stem' }),
        layer('front', APPLE),
        ...(cut === 'half' ? half : [layer('shine', shine, { paper: 'shine' })]),
        leaf([3, 82], [44, 104], 0.5, 0.06),
      ],
      size,
    );
  },
});

const PEAR = mirroredSpline([
  heading([0, 2], EAST),
  [13, 0],
  heading([40, 32], NORTH),
  [27, 68],
  [18, 92],
  heading([0, 108], WEST),
]);

export const pear = defineMotif({
  id: 'pear',
  family: 'harvest',
  summary: 'a pear with its stem and a leaf, whole or cut in half',
  params: { size: { ...sizeParam(32), least: 20 }, cut: cutParam },
  build({ size, cut }) {
    const stem = stalk([
      [0, 100, 5.5],
      [1, 114, 5],
      [7, 129, 7.5],
    ]);
    const half = [
      layer('flesh', within(PEAR, 40, 0.84, 0.88), { paper: 'flesh' }),
      layer('core', ellipse([0, 36], 12, 16), { paper: 'core' }),
      pip('pip-1', [-5.5, 33], 0.22),
      pip('pip-2', [5.5, 33], -0.22),
    ];
    const shine = stalk([
      [-26.5, 47, 6.5],
      [-29.5, 36, 7.5],
      [-28, 24, 5.5],
    ]);
    return figure(
      [
        layer('stem', stem, { paper: 'stem' }),
        layer('front', PEAR),
        ...(cut === 'half' ? half : [layer('shine', shine, { paper: 'shine' })]),
        leaf([2, 112], [40, 124], 0.5, 0.08),
      ],
      size,
    );
  },
});
