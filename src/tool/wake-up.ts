/** A short straight cut in waste that turns a blade of unknown heading into a known one. */
import {
  type Bounds,
  bounds,
  distance,
  endOf,
  type Path,
  type Point,
  polyline,
} from '../geom/index.js';
import { SAME_POINT_MM } from '../units/tolerances.js';

/**
 * Along a line tan(α/2) falls by e for every d of travel: after 20 d a blade that pointed up to
 * 179.999° away is within 0.03° of the line (the one heading dead against it never turns).
 */
const OFFSETS = 20;
/** Away from every other stroke by this, mm (common practice, no source: paper that holds). */
const CLEAR_MM = 2;
/** Beside so many of the boxes nearest to the work a place is looked for, before the border. */
const NEAREST = 16;

export interface WakeUpAsk {
  /** Everything that lies on the sheet. */
  readonly strokes: readonly Path[];
  readonly sheet: { readonly width: number; readonly height: number };
  /** What the tools cannot reach, mm. */
  readonly margin: number;
  readonly offset: number;
  /** Where the tool is, and where the work begins. */
  readonly from: Point;
  readonly to: Point;
}

/**
 * A wake-up cut level or upright in the waste beside the work, or else along the border of the sheet: near
 * where the work begins, on the way there, inside the tools' reach, clear of the box round every stroke, and
 * so of every piece. `undefined` where there is no such place.
 */
export function wakeUpCut(ask: WakeUpAsk): Path | undefined {
  const { strokes, sheet, margin, offset, from, to } = ask;
  const length = Math.max(OFFSETS * offset, 1);
  const taken = strokes.map(path => bounds(path));
  const low = margin + CLEAR_MM;
  const right = sheet.width - low;
  const top = sheet.height - low;
  const near = [...taken].sort((a, b) => apart(a, to) - apart(b, to)).slice(0, NEAREST);
  const axis = (at: number, most: number, sides: readonly (readonly [number, number])[]): Axis => {
    const before = sides.map(([least]) => least - CLEAR_MM);
    const after = sides.map(([, greatest]) => greatest + CLEAR_MM);
    const steps = Math.max(0, Math.floor((most - low) / length));
    return {
      across: [at, low, most, ...before, ...after],
      along: [
        at,
        at - length / 2,
        at - length,
        ...after,
        ...[...before, most].map(v => v - length),
      ],
      border: [low, most],
      alongBorder: Array.from({ length: steps }, (_, i) => low + i * length),
    };
  };
  const xs = axis(
    to[0],
    right,
    near.map(b => [b.minX, b.maxX]),
  );
  const ys = axis(
    to[1],
    top,
    near.map(b => [b.minY, b.maxY]),
  );
  const ways = [
    ...placesOf(xs, ys).map(([x, y]): [Point, Point] => [
      [x, y],
      [x + length, y],
    ]),
    ...placesOf(ys, xs).map(([y, x]): [Point, Point] => [
      [x, y],
      [x, y + length],
    ]),
  ].flatMap(([a, b]) => [polyline([a, b]), polyline([b, a])]);
  const free = (cut: Path) => {
    const box = bounds(cut);
    return (
      box.minX >= low &&
      box.minY >= low &&
      box.maxX <= right &&
      box.maxY <= top &&
      taken.every(t => !meets(box, t))
    );
  };
  // All places on the straight way to the work cost the same travel: the one nearest to the work is wanted.
  const cost = (cut: Path) => distance(from, cut.start) + 2 * distance(endOf(cut), to);
  return ways
    .map(cut => ({ cut, cost: cost(cut) }))
    .sort((a, b) => a.cost - b.cost)
    .find(({ cut }) => free(cut))?.cut;
}

/** One coordinate of cuts, mm. */
interface Axis {
  /** Where a cut across this axis may lie, and where one along it may begin. */
  readonly across: readonly number[];
  readonly along: readonly number[];
  /** The same at the sheet's border. */
  readonly border: readonly number[];
  readonly alongBorder: readonly number[];
}

/** Where cuts along the first axis may begin: beside boxes, and anywhere along the border. */
const placesOf = (along: Axis, across: Axis): Point[] => [
  ...along.along.flatMap(u => across.across.map((v): Point => [u, v])),
  ...along.alongBorder.flatMap(u => across.border.map((v): Point => [u, v])),
];

/** Nearer to each other than `CLEAR_MM`. */
function meets(a: Bounds, b: Bounds): boolean {
  const least = CLEAR_MM - SAME_POINT_MM;
  return (
    b.minX < a.maxX + least &&
    b.maxX > a.minX - least &&
    b.minY < a.maxY + least &&
    b.maxY > a.minY - least
  );
}

const apart = (b: Bounds, [x, y]: Point) =>
  Math.hypot(Math.max(b.minX - x, x - b.maxX, 0), Math.max(b.minY - y, y - b.maxY, 0));
