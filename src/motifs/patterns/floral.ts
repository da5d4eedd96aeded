/** A floral repeat: vines that wind upward with a flower in every bend, each vine a quarter
 *  drop from the next. */
import { definePattern } from '../../contracts.js';
import {
  add,
  circle,
  closedPath,
  compose,
  cubic,
  heading,
  line,
  openSpline,
  polar,
  rotation,
  scale,
  scaling,
  sub,
  transform,
  translation,
  unit,
} from '../../geom/index.js';
import type { Affine, Path, Point } from '../../model.js';
import { between } from '../random.js';
import { coats } from './fills.js';
import { inkOf, tintOf } from './inks.js';
import { type Painted, type Repeat, shapeOf, startIn, tiled } from './repeats.js';

/** A vine's bends and its distance from the next, as shares of its height. */
const SWAY = 0.12;
const ACROSS = 0.5;
const DROP = 0.25;

const vineRepeat = (size: number): Repeat => [
  [ACROSS * size, DROP * size],
  [0, size],
];

/** A petal from the origin upward, one long, with a little notch at its tip. */
function petal(wide: number): Path {
  // One curve from the widest place over the lobe to the notch: a sheet holds hundreds of petals.
  const lobe = (side: 1 | -1): Point[] => [
    [side * wide * 1.02, 0.98],
    [side * wide * 0.42, 1.1],
  ];
  const [up, over] = lobe(1);
  const [back, down] = lobe(-1);
  return closedPath(
    [0, 0.08],
    [
      cubic([0.62 * wide, 0.2], [wide, 0.42], [wide, 0.7]),
      cubic(up!, over!, [0, 0.91]),
      cubic(down!, back!, [-wide, 0.7]),
      cubic([-wide, 0.42], [-0.62 * wide, 0.2], [0, 0.08]),
    ],
  );
}

/** A leaf from the origin upward, one long. */
const LEAF = closedPath(
  [0, 0],
  [cubic([0.36, 0.1], [0.4, 0.62], [0, 1]), cubic([-0.4, 0.62], [-0.36, 0.1], [0, 0])],
);
/** A fine line from the origin upward, thickest in the middle. */
const hair = (from: number, to: number, width: number): Path => {
  const bow = (x: number): [Point, Point] => [
    [x, from + (to - from) / 3],
    [x, to - (to - from) / 3],
  ];
  const [low, high] = bow((2 / 3) * width);
  const [up, down] = bow((-2 / 3) * width);
  return closedPath([0, from], [cubic(low, high, [0, to]), cubic(down, up, [0, from])]);
};
/** A stem from one point to another by way of a third, tapering; both of its ends lie under something. */
function twig(from: Point, over: Point, to: Point, thick: number, thin: number): Path {
  const square = (a: Point, b: Point, by: number): Point => {
    const [x, y] = unit(sub(b, a));
    return [-y * by, x * by];
  };
  const [out, in_] = [square(from, over, thick / 2), square(over, to, thin / 2)];
  const mid = scale(add(out, in_), 0.5);
  const bow = (end: Point) => add(end, scale(sub(over, end), 2 / 3));
  const [low, high] = [bow(from), bow(to)];
  return closedPath(sub(from, out), [
    cubic(sub(low, mid), sub(high, mid), sub(to, in_)),
    line(add(to, in_)),
    cubic(add(high, mid), add(low, mid), add(from, out)),
  ]);
}
const RIB = hair(0.1, 0.84, 0.05);
const VEIN = hair(0.3, 0.72, 0.06);

const placed = (at: Point, turn: number, size: number): Affine =>
  compose(translation(...at), compose(rotation(turn), scaling(size)));

interface Bed {
  readonly stems: Path[];
  readonly leaves: Path[];
  readonly ribs: Path[];
  readonly petals: Path[];
  readonly inner: Path[];
  readonly eyes: Path[];
  readonly seeds: Path[];
  readonly buds: Path[];
  readonly blossoms: Path[];
  readonly middles: Path[];
}

const emptyBed = (): Bed => ({
  stems: [],
  leaves: [],
  ribs: [],
  petals: [],
  inner: [],
  eyes: [],
  seeds: [],
  buds: [],
  blossoms: [],
  middles: [],
});

function addFlower(bed: Bed, at: Point, radius: number, count: number, turn: number): void {
  const wide = Math.min(0.42, 1.05 * Math.tan(Math.PI / count) * 0.62);
  for (let i = 0; i < count; i++) {
    const angle = turn + (2 * Math.PI * i) / count;
    bed.petals.push(transform(petal(wide), placed(at, angle, radius)));
    bed.inner.push(transform(VEIN, placed(at, angle, radius)));
  }
  bed.eyes.push(circle(at, radius * 0.25));
  const seeds = count;
  for (let i = 0; i < seeds; i++) {
    const [x, y] = polar(radius * 0.14, turn + (2 * Math.PI * i) / seeds);
    bed.seeds.push(circle([at[0] + x, at[1] + y], radius * 0.035));
  }
}

function addLeaf(bed: Bed, at: Point, turn: number, long: number): void {
  const map = placed(at, turn, long);
  bed.leaves.push(transform(LEAF, map));
  bed.ribs.push(transform(RIB, map));
}

/** One repeat of a vine of height `size` about x = 0, from y = 0 up. */
function vine(size: number, petals: number, random: () => number): Bed {
  const bed = emptyBed();
  const sway = SWAY * size;
  const thick = 0.019 * size;
  const x = (t: number) => sway * Math.sin(2 * Math.PI * t);
  const lean = (t: number) => 2 * Math.PI * SWAY * Math.cos(2 * Math.PI * t);
  const on = (t: number): Point => [x(t), t * size];
  // The direction in which the vine grows, from straight up.
  const way = (t: number) => -Math.atan(lean(t));
  const quarters = Array.from({ length: 7 }, (_, i) => i / 6);
  const right = openSpline(
    quarters.map(t => heading(aside(on(t), way(t), thick / 2), [lean(t), 1])),
  );
  const back = [...quarters].reverse();
  const left = openSpline(back.map(t => heading(aside(on(t), way(t), -thick / 2), [-lean(t), -1])));
  bed.stems.push(closedPath(right.start, [...right.segments, line(left.start), ...left.segments]));
  for (const side of [1, -1]) {
    const mid = side === 1 ? 0.25 : 0.75;
    // In the hollow of the bend, on a stalk that leaves the vine a little below.
    const [fx, fy] = on(mid - 0.19);
    const flower: Point = [-side * sway * 0.5, (mid + 0.01) * size];
    const radius = (side === 1 ? 0.15 : 0.122) * size;
    bed.stems.push(
      twig(
        [fx, fy],
        [0.3 * fx + 0.7 * flower[0], 0.5 * (fy + flower[1]) - 0.04 * size],
        flower,
        thick,
        0.7 * thick,
      ),
    );
    addFlower(bed, flower, radius, petals, between(0, 2 * Math.PI, random));
    // Outside the bend leaves, and a spray of small blossoms and buds.
    addLeaf(bed, on(mid - 0.1), way(mid - 0.1) - side * 1.1, 0.15 * size);
    addLeaf(bed, on(mid - 0.06), way(mid) + side * 0.75, 0.1 * size);
    addLeaf(bed, on(mid + 0.13), way(mid + 0.13) - side * 0.9, 0.135 * size);
    addLeaf(bed, on(mid + 0.2), way(mid + 0.2) + side * 1, 0.095 * size);
    const spray = (t: number, x1: number, y1: number): Point => {
      const [x0, y0] = on(mid + t);
      const end: Point = [x0 + side * x1 * size, y0 + y1 * size];
      const bent: Point = [x0 + side * 0.2 * x1 * size, y0 + 0.9 * y1 * size];
      bed.stems.push(twig([x0, y0], bent, end, 0.7 * thick, 0.5 * thick));
      return end;
    };
    addBlossom(bed, spray(-0.02, 0.1, 0.055), 0.05 * size, random);
    bed.buds.push(circle(spray(0.02, 0.055, 0.07), 0.016 * size));
    bed.buds.push(circle(spray(-0.05, 0.115, -0.005), 0.014 * size));
  }
  return bed;
}

/** Five round petals round an eye, too small for more. */
function addBlossom(bed: Bed, at: Point, radius: number, random: () => number): void {
  const turn = 2 * Math.PI * random();
  for (let i = 0; i < 5; i++) {
    const [x, y] = polar(0.6 * radius, turn + (2 * Math.PI * i) / 5);
    bed.blossoms.push(circle([at[0] + x, at[1] + y], 0.44 * radius));
  }
  bed.middles.push(circle(at, 0.3 * radius));
}

const aside = ([x, y]: Point, way: number, by: number): Point => [
  x + by * Math.cos(way),
  y + by * Math.sin(way),
];

export const floral = definePattern({
  id: 'floral',
  summary: 'flowering vines, a flower in every bend, each a quarter drop from the next',
  params: {
    size: { kind: 'length', default: 62, least: 20, most: 250, help: 'height of one repeat' },
    petals: { kind: 'count', default: 5, least: 4, most: 9, help: 'petals of a flower' },
  },
  repeat: ({ size }) => vineRepeat(size),
  build({ size, petals }, area, palette, random) {
    const repeat = vineRepeat(size);
    const start = startIn(repeat, random);
    const bed = vine(size, petals, random);
    const lay = (paths: readonly Path[], colour: string) =>
      tiled(
        paths.map((p): Painted => [colour, shapeOf(p)]),
        repeat,
        start,
        area,
      );
    const green = inkOf(palette, 2);
    return coats(area, 0, () => [
      lay(bed.stems, green),
      lay(bed.leaves, green),
      lay(bed.ribs, tintOf(palette, 2, 0.45)),
      lay(bed.petals, inkOf(palette, 0)),
      lay(bed.inner, tintOf(palette, 0, 0.5)),
      lay(bed.buds, inkOf(palette, 0)),
      lay(bed.blossoms, tintOf(palette, 0, 0.5)),
      lay(bed.middles, inkOf(palette, 1)),
      lay(bed.eyes, inkOf(palette, 1)),
      lay(bed.seeds, palette[0]!),
    ]);
  },
});
