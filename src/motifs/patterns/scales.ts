/** Fish-scale paper: rows of half-covered discs, ringed. */
import { definePattern } from '../../contracts.js';
import {
  angleOf,
  arcTo,
  circle,
  closedPath,
  sub,
  translation,
  wrapAngle,
} from '../../geom/index.js';
import type { Path, Point, Segment } from '../../model.js';
import { coats } from './fills.js';
import { inkOf, tintOf } from './inks.js';
import {
  dealt,
  latticeOver,
  moved,
  type Painted,
  type Repeat,
  shapeOf,
  startIn,
  within,
} from './repeats.js';

const scaleRepeat = (size: number): Repeat => [
  [size, 0],
  [size / 2, size / 2],
];

/** A short way round a circle about `centre`. */
function along(from: Point, to: Point, centre: Point): Segment {
  const turn = wrapAngle(angleOf(sub(to, centre)) - angleOf(sub(from, centre)));
  return arcTo(to, turn);
}

/**
 * What is seen of a disc of radius `r` about the origin, whose lower part lies under the next row's two
 * scales of radius `scale`. The circles meet where x² + y² = r² and y = x − (r² + scale²) / 2 scale; a disc
 * of less than (√2 − 1) scale meets neither and is seen whole.
 */
export function seenDisc(r: number, scale: number): Path {
  const k = (r * r + scale * scale) / (2 * scale);
  const root = 2 * r * r - k * k;
  if (!(root > 0)) return circle([0, 0], r);
  const outer = (k + Math.sqrt(root)) / 2;
  const inner = (k - Math.sqrt(root)) / 2;
  const right: Point = [outer, outer - k];
  const low: Point = [inner, inner - k];
  const mirror = ([x, y]: Point): Point => [-x, y];
  const next: Point = [scale, -scale];
  // Over the top, a little more than half way round where the next row covers less than half.
  const over = 2 * (Math.PI / 2 - Math.atan2(right[1], right[0]));
  const segments = [
    arcTo(mirror(right), over),
    along(mirror(right), mirror(low), mirror(next)),
    ...(inner > 1e-9 * r ? [along(mirror(low), low, [0, 0])] : []),
    along(low, right, next),
  ];
  return closedPath(right, segments);
}

const DEALT = 12;

export const fishScale = definePattern({
  id: 'fish-scale',
  summary: 'rows of ringed scales, each half under the row before it',
  params: {
    size: { kind: 'length', default: 18, least: 4, most: 90, help: 'width of a scale' },
    rings: { kind: 'count', default: 3, least: 1, most: 5, help: 'coloured rings of a scale' },
    line: {
      kind: 'number',
      default: 0.45,
      least: 0.1,
      most: 0.9,
      help: 'share of a ring that shows the ground',
    },
    mix: { kind: 'flag', default: true, help: 'some scales by chance in other inks and tints' },
  },
  repeat: ({ size }) => scaleRepeat(size).map(([x, y]) => [x * DEALT, y * DEALT]) as never,
  build({ size, rings, line, mix }, area, palette, random) {
    const repeat = scaleRepeat(size);
    const start = startIn(repeat, random);
    const radius = size / 2;
    const at = latticeOver(area, repeat, start, within(radius));
    const deal = dealt(DEALT, DEALT, random);
    // Mostly the first ink, so that the odd scale is seen.
    const inksOf = (i: number, j: number): readonly string[] => {
      const chance = mix ? deal(i, j) : 0;
      const first = chance > 0.86 ? 1 : chance > 0.74 ? 2 : 0;
      return Array.from({ length: rings }, (_, ring) =>
        ring % 2 === 0 ? inkOf(palette, first) : tintOf(palette, first, 0.5),
      );
    };
    const step = radius / rings;
    const painted = Array.from({ length: rings }, (_, ring) => {
      const outer = seenDisc(radius - ring * step, radius);
      const inner = seenDisc(
        Math.max(radius - ring * step - step * (1 - line), radius * 0.04),
        radius,
      );
      const coat = (colour: (i: number, j: number) => string, path: Path) =>
        at.map(({ at, i, j }): Painted => [colour(i, j), moved(shapeOf(path), translation(...at))]);
      const isLast = ring === rings - 1;
      return [
        coat((i, j) => inksOf(i, j)[ring]!, outer),
        ...(isLast ? [] : [coat(() => palette[0]!, inner)]),
      ];
    }).flat();
    return coats(area, 0, () => painted);
  },
});
