/** Leaves: one, a sprig of pairs. Drawn on a sheet about 100 wide. */
import { defineMotif } from '../contracts.js';
import {
  arcTo,
  corner,
  cubic,
  heading,
  line,
  openPath,
  openSpline,
  pathLength,
  pointAlong,
} from '../geom/index.js';
import type { Path, Point, Segment } from '../model.js';
import { drawn, figure, scored } from './figure.js';
import { layer, mirrored, sizeParam } from './layers.js';
import { leafFrom } from './leaf-edge.js';
import { EAST, flipped, NORTH } from './shapes.js';

/** The half of a leaf's edge to the right of its rib, from the foot to the tip. */
const LEAF_EDGE = openSpline([
  corner([1.9, 0], 'free', [1, 0.25]),
  [18, 9],
  heading([30, 36], NORTH),
  [18.5, 72],
  corner([0, 106], [-0.3, 1]),
]);

/** Teeth that lean toward the tip, along an edge with the leaf on its left. */
function toothed(edge: Path, teeth: number): Segment[] {
  const whole = pathLength(edge);
  return Array.from({ length: teeth }, (_, i): Segment[] => {
    const from = (whole * i) / teeth;
    const to = (whole * (i + 1)) / teeth;
    if (i === teeth - 1) return [line(edge.segments.at(-1)!.to)];
    const { point, tangent } = pointAlong(edge, to);
    const out = 0.2 * (to - from);
    const tooth: Point = [point[0] + tangent[1] * out, point[1] - tangent[0] * out];
    return [arcTo(tooth, 0.35), line(point)];
  }).flat();
}

export const leaf = defineMotif({
  id: 'leaf',
  family: 'greenery',
  summary: 'a leaf on its stalk, creased along the rib, smooth or toothed',
  params: {
    size: { ...sizeParam(26), least: 18 },
    edge: {
      kind: 'choice',
      default: 'smooth',
      choices: ['smooth', 'toothed'],
      help: 'edge of the leaf',
    },
    teeth: { kind: 'count', default: 11, least: 6, most: 16, help: 'teeth on each side' },
    veins: { kind: 'count', default: 5, least: 0, most: 7, help: 'veins on each side' },
  },
  build({ size, edge, teeth, veins }) {
    const foot = openSpline([
      heading([0, -25], EAST),
      heading([2.7, -22.2], NORTH),
      heading([1.9, 0], NORTH),
    ]);
    const side = edge === 'toothed' ? toothed(LEAF_EDGE, teeth) : LEAF_EDGE.segments;
    const outline = mirrored({ ...foot, segments: [...foot.segments, ...side] });
    const rib = openPath([0, -18], [line([0, 92])]);
    const whole = pathLength(LEAF_EDGE);
    // Veins leave the rib steeply, those of one side between those of the other, and bend up along
    // the edge before they reach it.
    const lines = Array.from({ length: veins }, (_, i) =>
      [-1, 1].map(side => {
        const k = i + (side === 1 ? 0.5 : 0);
        const y = 2 + (k * 66) / veins;
        const [x, v] = pointAlong(LEAF_EDGE, whole * (0.36 + (0.5 * k) / veins)).point;
        const up = v - y;
        const vein = cubic(
          [side * 0.36 * x, y + 0.18 * up],
          [side * 0.76 * x, y + 0.42 * up],
          [side * 0.84 * x, y + 0.86 * up],
        );
        return openPath([0, y], [vein]);
      }),
    ).flat();
    return figure(
      [
        layer('front', outline, {
          strokes: [scored(rib), ...lines.map(drawn)],
        }),
      ],
      size,
    );
  },
});

export const leafParam = {
  kind: 'choice',
  default: 'slim',
  choices: ['slim', 'round'],
  help: 'slim pointed leaves, or round ones',
} as const;

/** Half the width of a sprig's stem at a height, of one whose top leaf begins at `top`. */
const stemHalf = (y: number, top: number): number => 3.1 - (1.2 * y) / top;

export const sprig = defineMotif({
  id: 'sprig',
  family: 'greenery',
  summary: 'a sprig of paired leaves that grow smaller toward the tip',
  params: {
    size: { ...sizeParam(30), least: 22 },
    pairs: { kind: 'count', default: 5, least: 3, most: 8, help: 'pairs of leaves' },
    leaf: leafParam,
  },
  build({ size, pairs, leaf: form }) {
    const round = form === 'round';
    const pitch = round ? 29 : 23;
    const top = pitch * (pairs - 0.25);
    const tip = round ? 'round' : 'pointed';
    const segments: Segment[] = [arcTo([stemHalf(-24, top), -24], Math.PI / 2)];
    const ribs: Path[] = [];
    for (let i = 0; i < pairs; i++) {
      const t = i / (pairs - 1);
      const long = (round ? 33 : 50) * Math.sin(Math.PI * (0.34 + 0.5 * t));
      const up = (round ? 0.38 : 0.62) + 0.3 * t;
      const foot = 4.6 / Math.cos(up);
      const [from, to] = [i * pitch - foot / 2, i * pitch + foot / 2];
      const [a, b]: Point[] = [
        [stemHalf(from, top), from],
        [stemHalf(to, top), to],
      ];
      const wide = (round ? 0.78 : 0.31) * long;
      const grown = leafFrom(a!, b!, up, { long, wide, tip });
      segments.push(line(a!), ...grown.segments);
      ribs.push(grown.rib, flipped(grown.rib));
    }
    const end = stemHalf(top, top);
    const long = round ? 24 : 33;
    const last = leafFrom([end, top], [-end, top], Math.PI / 2, {
      long,
      wide: (round ? 0.8 : 0.32) * long,
      tip,
    });
    segments.push(line([end, top]), ...last.segments.slice(0, last.segments.length / 2));
    const half = openPath([0, -24 - stemHalf(-24, top)], segments);
    // The leaf's tip lies on the axis but for rounding.
    const outline = mirrored(endingAt(half, [0, half.segments.at(-1)!.to[1]]));
    return figure([layer('front', outline, { strokes: [...ribs, last.rib].map(scored) })], size);
  },
});

const endingAt = (path: Path, to: Point): Path => ({
  ...path,
  segments: [...path.segments.slice(0, -1), { ...path.segments.at(-1)!, to }],
});
