/** What wood and hedge give: acorn, mushroom, oak leaf. Drawn on a sheet about
 *  100 wide and brought to size. */
import { defineMotif } from '../contracts.js';
import { circle, clipOpenPaths, corner, heading, type Knot, openSpline } from '../geom/index.js';
import type { Path } from '../model.js';
import { drawn, figure, scored } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { EAST, ellipse, mirroredSpline, NORTH, WEST, within } from './shapes.js';

export const acorn = defineMotif({
  id: 'acorn',
  family: 'harvest',
  summary: 'an acorn in its cup, the cup drawn with scales',
  params: { size: { ...sizeParam(30), least: 15 } },
  build({ size }) {
    const nut = mirroredSpline([
      corner([0, -6], 'free', [0.5, 1]),
      [5, 1],
      [27, 15],
      heading([40, 50], NORTH),
      corner([36, 68]),
      corner([0, 68]),
    ]);
    const cup = mirroredSpline([
      heading([0, 48], EAST),
      [36, 52],
      heading([50, 62], NORTH),
      [36, 86],
      corner([6, 97], 'free', [-0.1, 1]),
      corner([6.5, 111]),
      heading([0, 114], WEST),
    ]);
    const region = { outer: within(cup, 70, 0.92, 0.86), holes: [] };
    // Two families of lines that lean to the left and to the right make the scales.
    const lines = [-1, 1].flatMap(side =>
      [-72, -52, -32, -12, 8, 28, 48].map(x =>
        openSpline([
          [side * (x - 8), 40],
          [side * (x + 8), 62],
          [side * (x * 0.72 + 26), 84],
          [side * (x * 0.5 + 34), 96],
        ]),
      ),
    );
    return figure(
      [
        layer('nut', nut),
        layer('cup', cup, {
          paper: 'cap',
          strokes: clipOpenPaths(lines, region).map(drawn),
          lift: 1,
        }),
      ],
      size,
    );
  },
});

export const mushroom = defineMotif({
  id: 'mushroom',
  family: 'harvest',
  summary: 'a toadstool with spots on its cap and gills below',
  params: { size: { ...sizeParam(40), least: 20 } },
  build({ size }) {
    const foot = mirroredSpline([
      heading([0, -30], EAST),
      [15, -28],
      heading([20, -16], NORTH),
      [13, 14],
      [13, 40],
      heading([0, 46], WEST),
    ]);
    const gills = ellipse([0, 38], 44, 13);
    const lines = [-3, -2, -1, 1, 2, 3].map(i => {
      const a = -Math.PI / 2 + Math.sign(i) * 0.25 + i * 0.31;
      return openSpline([
        [16 * Math.cos(a) * 1.3, 37 + 3 * Math.sin(a)],
        [40 * Math.cos(a), 38 + 11 * Math.sin(a)],
      ]);
    });
    const cap = mirroredSpline([
      heading([0, 45], EAST),
      [34, 39],
      heading([50, 42], NORTH),
      [36, 76],
      heading([0, 92], WEST),
    ]);
    const spots: readonly (readonly [number, number, number])[] = [
      [-4, 74, 9.5],
      [22, 62, 7],
      [-27, 60, 7.5],
      [37, 48, 4.2],
      [1, 54, 4.6],
    ];
    return figure(
      [
        layer('gills', gills, { paper: 'gill', strokes: lines.map(drawn) }),
        layer('foot', foot, { paper: 'foot' }),
        layer('front', cap, { lift: 1 }),
        ...spots.map(([x, y, r], i) =>
          layer(`spot-${i + 1}`, circle([x, y], r), { paper: 'spot' }),
        ),
      ],
      size,
    );
  },
});

/** Half the width of an oak leaf's lobes from its foot (0) to its last ones (1). */
const WIDTHS = (t: number): number => 17 + 29 * Math.sin(Math.PI * (0.08 + 0.6 * t));

export const oakLeaf = defineMotif({
  id: 'oak-leaf',
  family: 'harvest',
  summary: 'an oak leaf with round lobes, creased along its rib',
  params: {
    size: { ...sizeParam(30), least: 16 },
    lobes: { kind: 'count', default: 4, least: 3, most: 5, help: 'lobes on each side' },
  },
  build({ size, lobes }) {
    const pitch = 96 / lobes;
    const knots: Knot[] = [heading([0, -34], EAST), [4.4, -29], [3.8, -12]];
    const veins: Path[] = [];
    for (let i = 0; i < lobes; i++) {
      const y = pitch * i;
      const w = WIDTHS(i / (lobes - 1));
      knots.push([0.62 * w, y - 1], [0.97 * w, y + 0.36 * pitch], [0.8 * w, y + 0.66 * pitch]);
      knots.push([0.42 * w + 3, y + 0.7 * pitch]);
      veins.push(
        ...[-1, 1].map(side =>
          openSpline([
            [0, y - 0.5 * pitch],
            [side * w * 0.3, y - 0.06 * pitch],
            [side * w * 0.8, y + 0.2 * pitch],
          ]),
        ),
      );
    }
    const top = 96 + 14;
    knots.push([13, 96 + 3], heading([0, top], WEST));
    const rib = openSpline([
      [0, -26],
      [0, top - 14],
    ]);
    return figure(
      [layer('front', mirroredSpline(knots), { strokes: [scored(rib), ...veins.map(drawn)] })],
      size,
    );
  },
});
