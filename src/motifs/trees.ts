/** Trees. Drawn on a sheet about 100 wide and brought to size. */
import { defineMotif } from '../contracts.js';
import { circle, heading, roundedPolygon } from '../geom/index.js';
import type { Layer, Point } from '../model.js';
import { figure } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { EAST, ellipse, gable, mirroredSpline, once, pill, puffs, star, WEST } from './shapes.js';

/** Where fruit hangs in the crown, the first ones first. */
const BRANCHES: readonly Point[] = [
  [-22, 26],
  [20, 12],
  [2, 44],
  [29, 33],
  [-33, 6],
  [-4, 12],
  [-14, 52],
  [22, 54],
];

const crown = once(() =>
  puffs(ellipse([0, 22], 34, 34), [
    [-29, 8, 20],
    [29, 8, 20],
    [-25, 38, 21],
    [25, 38, 21],
    [0, 54, 20],
    [0, -2, 20],
  ]),
);
const light = once(() =>
  puffs(ellipse([-2, 30], 22, 20), [
    [-17, 24, 14],
    [-12, 42, 14],
    [8, 45, 13],
    [12, 30, 14],
  ]),
);

export const tree = defineMotif({
  id: 'tree',
  family: 'things',
  summary: 'an apple tree with a round crown full of fruit',
  params: {
    size: { ...sizeParam(50), least: 25 },
    fruit: { kind: 'count', default: 6, least: 0, most: 8, help: 'apples in the crown' },
  },
  build({ size, fruit }) {
    const trunk = mirroredSpline([
      heading([0, -58], EAST),
      heading([17, -58], EAST),
      [9, -46],
      [7.5, -24],
      [10, 6],
      heading([0, 10], WEST),
    ]);
    const apples = BRANCHES.slice(0, fruit).map(
      (at, i): Layer => layer(`apple-${i + 1}`, circle(at, 6.4), { paper: 'apple' }),
    );
    return figure(
      [
        layer('ground', pill(-36, 36, -64, -53), { paper: 'grass' }),
        layer('trunk', trunk, { paper: 'stem' }),
        layer('front', crown(), { lift: 1 }),
        layer('light', light(), { paper: 'light' }),
        ...apples,
      ],
      size,
    );
  },
});

export const firTree = defineMotif({
  id: 'fir-tree',
  family: 'things',
  summary: 'a fir of scalloped tiers, one on the other, with a star',
  params: {
    size: { ...sizeParam(45), least: 25 },
    tiers: { kind: 'count', default: 3, least: 2, most: 5, help: 'tiers of branches' },
  },
  build({ size, tiers }) {
    const rise = 84 / tiers;
    const all = Array.from({ length: tiers }, (_, i): Layer => {
      const t = tiers === 1 ? 0 : i / (tiers - 1);
      const half = 50 - 24 * t;
      const count = 7 - 2 * Math.round(2 * t);
      const outline = gable(half, rise * i, rise * i + rise + 30 - 6 * t, count);
      return layer(`tier-${i + 1}`, outline, { paper: i % 2 === 0 ? 'main' : 'light', lift: 1 });
    });
    const trunk = roundedPolygon(
      [
        [-9, -24],
        [9, -24],
        [7, 8],
        [-7, 8],
      ],
      [2, 2, 0, 0],
    );
    return figure(
      [
        layer('trunk', trunk, { paper: 'stem' }),
        ...all,
        layer('star', star([0, 84 + 22], 13, 5, 0), { paper: 'star', lift: 1 }),
      ],
      size,
    );
  },
});
