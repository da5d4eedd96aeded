/** Papers laid in straight-edged tiles: honeycomb, triangles, herringbone. */
import { definePattern } from '../../contracts.js';
import { polar, polygon, rectangle, roundedPolygon, translation } from '../../geom/index.js';
import type { Point } from '../../model.js';
import { ParamError } from '../../params.js';
import { pick } from '../random.js';
import { coats } from './fills.js';
import { inkOf, tintOf } from './inks.js';
import {
  dealt,
  latticeOver,
  moved,
  type Painted,
  type Repeat,
  radians,
  shapeOf,
  startIn,
  turnedRepeat,
  within,
} from './repeats.js';

/** So many tiles each way are dealt their colours before they come again: enough to look random on a
 *  sheet, few enough that a repeat fits one. */
const DEALT = 12;

/** An ink and how much of it. */
type Shade = readonly [ink: number, share: number];

/** A lattice's steps, taken as often as colours are dealt. */
const dealtRepeat = ([u, v]: Repeat): Repeat => [
  [u[0] * DEALT, u[1] * DEALT],
  [v[0] * DEALT, v[1] * DEALT],
];

const gapParam = (most: number, fallback: number) =>
  ({
    kind: 'length',
    default: fallback,
    least: 0,
    most,
    help: 'ground that shows between the tiles',
  }) as const;

/** Throws where the gap leaves nothing of a tile. */
function checkGap(gap: number, room: number): void {
  if (gap <= room * 0.6) return;
  throw new ParamError(
    'gap',
    gap,
    `at most ${(room * 0.6).toFixed(2)} mm between tiles of this size`,
    'make the gap narrower or the tiles larger',
  );
}

/** Rows of hexagons that stand on a corner, `cell` wide. */
const hexRepeat = (cell: number): Repeat => [
  [cell, 0],
  [cell / 2, (cell * Math.sqrt(3)) / 2],
];

export const honeycomb = definePattern({
  id: 'honeycomb',
  summary: 'hexagons in honey tints, some of them filled, some open',
  params: {
    cell: { kind: 'length', default: 11, least: 3, most: 60, help: 'width of a cell' },
    gap: { ...gapParam(12, 1.1), help: 'width of the walls, which show the ground' },
    filled: {
      kind: 'number',
      default: 0.5,
      least: 0,
      most: 1,
      help: 'share of the cells with a smaller hexagon inside',
    },
  },
  repeat: ({ cell }) => dealtRepeat(hexRepeat(cell)),
  build({ cell, gap, filled }, area, palette, random) {
    checkGap(gap, cell);
    const start = startIn(hexRepeat(cell), random);
    const hexagon = (width: number) => {
      const radius = width / Math.sqrt(3);
      const corners = Array.from({ length: 6 }, (_, i) => polar(radius, (i + 0.5) * (Math.PI / 3)));
      return shapeOf(roundedPolygon(corners, radius * 0.12));
    };
    const [whole, small] = [hexagon(cell - gap), hexagon((cell - gap) * 0.56)];
    const shades: readonly Shade[] = [
      ...[0, 1, 1, 2].map((ink): Shade => [ink, 1]),
      ...[0.5, 0.5, 0.28].map((share): Shade => [1, share]),
      [0, 0.5],
    ];
    const deal = dealt(DEALT, DEALT, () => ({
      shade: pick(shades, random),
      filled: random() < filled,
    }));
    const at = latticeOver(area, hexRepeat(cell), start, within(cell / Math.sqrt(3)));
    const tint = ([ink, share]: Shade) => tintOf(palette, ink, share);
    const cells = at.map(
      ({ at, i, j }): Painted => [tint(deal(i, j).shade), moved(whole, translation(...at))],
    );
    const insides = at
      .filter(({ i, j }) => deal(i, j).filled)
      .map(({ at, i, j }): Painted => {
        const [ink, share] = deal(i, j).shade;
        const inner = share === 1 ? tintOf(palette, ink, 0.62) : inkOf(palette, ink);
        return [inner, moved(small, translation(...at))];
      });
    return coats(area, 0, () => [cells, insides]);
  },
});

const triangleRepeat = (side: number): Repeat => [
  [side, 0],
  [side / 2, (side * Math.sqrt(3)) / 2],
];

export const triangles = definePattern({
  id: 'triangles',
  summary: 'triangles in rows, like cut scraps of paper, in all inks and their tints',
  params: {
    side: { kind: 'length', default: 15, least: 4, most: 80, help: 'of a triangle' },
    gap: gapParam(10, 0.8),
    open: {
      kind: 'number',
      default: 0.22,
      least: 0,
      most: 0.9,
      help: 'share of the triangles left as ground',
    },
  },
  repeat: ({ side }) => dealtRepeat(triangleRepeat(side)),
  build({ side, gap, open }, area, palette, random) {
    checkGap(gap, (side / (2 * Math.sqrt(3))) * 2);
    const repeat = triangleRepeat(side);
    const start = startIn(repeat, random);
    const shades = palette
      .slice(1)
      .flatMap((_, ink) => [1, 1, 0.6, 0.3].map((share): Shade => [ink, share]));
    const draw = () => (random() < open ? undefined : pick(shades, random));
    const deal = dealt(2 * DEALT, DEALT, draw);
    // From the middle to a corner, less what the gap takes at every side.
    const radius = side / Math.sqrt(3) - gap;
    const up = shapeOf(polygon([90, 210, 330].map(deg => polar(radius, radians(deg)))));
    const down = shapeOf(polygon([270, 30, 150].map(deg => polar(radius, radians(deg)))));
    const third = (side * Math.sqrt(3)) / 6;
    const painted = latticeOver(area, repeat, start, within(1.2 * side)).flatMap(({ at, i, j }) => {
      const places: [number, typeof up, Point][] = [
        [2 * i, up, [at[0], at[1] + third]],
        [2 * i + 1, down, [at[0] + side / 2, at[1] + 2 * third]],
      ];
      return places.flatMap(([n, shape, [x, y]]): Painted[] => {
        const shade = deal(n, j);
        return shade
          ? [[tintOf(palette, shade[0], shade[1]), moved(shape, translation(x, y))]]
          : [];
      });
    });
    return coats(area, 0, () => [painted]);
  },
});

/** Blocks `n` times as long as wide, on a lattice one block wide: those that lie begin where
 *  x − y is a multiple of 2 n, those that stand one before. */
const blockRepeat = (width: number, n: number): Repeat => [
  [width, width],
  [2 * n * width, 0],
];

export const herringbone = definePattern({
  id: 'herringbone',
  summary: 'blocks laid like a parquet floor, in the tints of one ink or in all inks',
  params: {
    width: { kind: 'length', default: 6, least: 1.5, most: 40, help: 'of a block' },
    times: { kind: 'count', default: 3, least: 2, most: 6, help: 'how often as long as wide' },
    gap: gapParam(10, 0.7),
    inks: {
      kind: 'choice',
      default: 'all',
      choices: ['all', 'tints'],
      help: 'all inks, or the first ink and its tints',
    },
    angle: {
      kind: 'angleDeg',
      default: 45,
      least: -90,
      most: 90,
      help: 'turn of the blocks; at 45 the rows run level',
    },
  },
  repeat: ({ width, times, angle }) =>
    turnedRepeat(dealtRepeat(blockRepeat(width, times)), radians(angle)),
  build({ width, times, gap, inks, angle }, area, palette, random) {
    checkGap(gap, width);
    const repeat = blockRepeat(width, times);
    const start = startIn(repeat, random);
    const all = palette.slice(1).flatMap((_, ink): Shade[] => [
      [ink, 1],
      [ink, 0.62],
    ]);
    const tints = [1, 0.8, 0.6, 0.42, 0.26].map((share): Shade => [0, share]);
    const deal = dealt(2 * DEALT, DEALT, () => pick(inks === 'all' ? all : tints, random));
    const [w, l] = [width, width * times];
    const lying = shapeOf(rectangle(gap / 2, gap / 2, l - gap, w - gap));
    const standing = shapeOf(rectangle(gap / 2 - w, gap / 2, w - gap, l - gap));
    const reach = { minX: -w, minY: 0, maxX: l, maxY: l };
    return coats(area, radians(angle), turned => [
      latticeOver(turned, repeat, start, reach).flatMap(({ at, i, j }): Painted[] =>
        [lying, standing].map((shape, k): Painted => {
          const [ink, share] = deal(2 * i + k, j);
          return [tintOf(palette, ink, share), moved(shape, translation(...at))];
        }),
      ),
    ]);
  },
});
