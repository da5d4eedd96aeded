/**
 * Register marks. Four stand near the corners; the fifth stands on the lower edge away from its middle,
 * so that a sheet turned or laid face down shows it in a place where none should be, and the wedge beside
 * it tells a person which edge is up. A sixth and a seventh, on the sides, let a tilt be told from a
 * mark that was misread.
 */
import {
  apply,
  bounds,
  circle,
  line,
  openPath,
  polygon,
  rectangle,
  transform,
} from '../geom/index.js';
import type {
  Affine,
  Bounds,
  Cutter,
  Ink,
  MarkStyle,
  Path,
  Point,
  RegisterMark,
  Stock,
} from '../model.js';
import { cutterReach, grow, overlap, printable } from './reach.js';

/** White left round a mark and the captions, so that a lens finds the mark alone. */
const MARK_QUIET_MM = 1;
/** Where the others stand between the corner marks: far from the middle (a mirrored sheet) and from
 *  both ends, and no simple fractions that another drawing might hit. */
const FIFTH_AT = 0.31;
const SIXTH_AT = 0.57;
const SEVENTH_AT = 0.38;
/** The ring's radius, of the whole mark: a circle 5 mm across under lines of 8 mm is the usual look
 *  (common practice, no source). */
const RING_SHARE = 5 / 16;
/** The lines that a pen draws over a disc or a corner come out of it by this much, to be seen. */
const BEYOND_MM = 2;
const WEDGE_MM = 4;
/** Height of the strip for the captions and the scale bar. */
const CAPTIONS_MM = 8;

export interface PrintLayout {
  readonly marks: readonly RegisterMark[];
  readonly wedge: Path;
  /** Where the scale bar and the captions go: between the upper marks. */
  readonly captions: Bounds;
  /** What pieces and their bleed keep clear of: the marks and the wedge with their quiet zones, and the
   *  captions. */
  readonly reserve: readonly Bounds[];
}

/**
 * Marks and captions of a sheet that is printed, then cut: inside what the printer prints and the
 * cutter reaches. `undefined` where the sheet is too small to hold the marks apart.
 */
export function printLayout(
  stock: Stock,
  cutter: Cutter,
  printMargin: number,
  style: MarkStyle,
): PrintLayout | undefined {
  const whole = overlap(cutterReach(stock, cutter), printable(stock, printMargin));
  const room = grow(whole, -style.inset);
  if (!(room.maxX - room.minX > 0 && room.maxY - room.minY > 0)) return undefined;
  const { shape, size, stroke } = style;
  const mark = (name: string, quarters: RegisterMark['quarters'], ...at: Point) =>
    ({ name, at, style: { shape, size, stroke }, quarters }) as const;
  // Each corner's mark stands in its corner of the room, whatever its shape.
  const [left, low] = inside(mark('', 0, 0, 0), room, [0, 0]);
  const [right, high] = inside(mark('', 2, 0, 0), room, [1, 1]);
  const along = (share: number, from: number, to: number) => from + share * (to - from);
  const marks = [
    mark('lower-left', 0, left, low),
    mark('lower-right', 1, right, low),
    mark('upper-right', 2, right, high),
    mark('upper-left', 3, left, high),
    mark('fifth', 0, along(FIFTH_AT, left, right), low),
    mark('sixth', 0, left, along(SIXTH_AT, low, high)),
    mark('seventh', 1, right, along(SEVENTH_AT, low, high)),
  ].slice(0, style.count);
  const zones = marks.map(m => grow(markBounds(m), MARK_QUIET_MM));
  const wedge = wedgeBeside(marks[4]!);
  const clear = [...zones, grow(bounds(wedge), MARK_QUIET_MM)];
  const [, , upperRight, upperLeft] = zones as [Bounds, Bounds, Bounds, Bounds];
  const captions = {
    minX: upperLeft.maxX,
    minY: Math.min(upperLeft.minY + MARK_QUIET_MM, room.maxY - CAPTIONS_MM),
    maxX: upperRight.minX,
    maxY: room.maxY,
  };
  const strip = { ...captions, minY: captions.minY - MARK_QUIET_MM };
  const pairs = zones.flatMap((a, i) => zones.slice(i + 1).map(b => [a, b] as const));
  const apart = (a: Bounds, b: Bounds) =>
    a.maxX <= b.minX || b.maxX <= a.minX || a.maxY <= b.minY || b.maxY <= a.minY;
  const held =
    pairs.every(([a, b]) => apart(a, b)) &&
    zones.slice(0, 4).every(z => apart(z, clear.at(-1)!)) &&
    zones.slice(4).every(z => apart(z, strip)) &&
    captions.maxX > captions.minX &&
    captions.minY >= room.minY;
  return held ? { marks, wedge, captions, reserve: [...clear, strip] } : undefined;
}

/** The wedge to the right of the fifth mark, whose point is up. */
export function wedgeBeside(fifth: RegisterMark): Path {
  const zone = grow(markBounds(fifth), MARK_QUIET_MM);
  const middle = (zone.minY + zone.maxY) / 2;
  return polygon([
    [zone.maxX, middle - WEDGE_MM / 2],
    [zone.maxX + WEDGE_MM * 0.8, middle - WEDGE_MM / 2],
    [zone.maxX + WEDGE_MM * 0.4, middle + WEDGE_MM / 2],
  ]);
}

/** Where `at` must be for a mark to touch the room's edges from inside: `side` 0 is left and low. */
function inside(mark: RegisterMark, room: Bounds, side: Point): Point {
  const b = markBounds(mark);
  return [
    side[0] === 0 ? room.minX - b.minX : room.maxX - b.maxX,
    side[1] === 0 ? room.minY - b.minY : room.maxY - b.maxY,
  ];
}

/** All of a mark, printed or drawn over it. */
const markBounds = (mark: RegisterMark): Bounds => {
  const { lines, solids, width } = markInk(mark);
  const printed = grow(bounds(...lines, ...solids), width / 2);
  const drawn = bounds(...markPaths(mark));
  const corner = (b: Bounds) => rectangle(b.minX, b.minY, b.maxX - b.minX, b.maxY - b.minY);
  return bounds(corner(printed), corner(drawn));
};

const placed = ({ at: [x, y], quarters }: RegisterMark): Affine => {
  const [c, s] = (
    [
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
    ] as const
  )[quarters];
  return [c, s, -s, c, x, y];
};
/** From one point to another in the mark's own frame. */
const stroke = (at: Affine, from: Point, to: Point): Path =>
  openPath(apply(at, from), [line(apply(at, to))]);

/** A mark as it is printed. The printed lines end where `size` says, their width included. */
export function markInk(mark: RegisterMark): Ink {
  const { shape, size, stroke: width } = mark.style;
  const at = placed(mark);
  switch (shape) {
    case 'ring-and-cross':
      return { lines: markPaths(mark), width, solids: [] };
    case 'corner': {
      // Solid, not stroked: how a line's corner is joined would be the printer's own affair.
      const half = width / 2;
      const arm = size - half;
      const vee = polygon([
        [-half, -half],
        [arm, -half],
        [arm, half],
        [half, half],
        [half, arm],
        [-half, arm],
      ]);
      return { lines: [], width, solids: [transform(vee, at)] };
    }
    case 'disc':
      return { lines: [], width, solids: [circle(mark.at, size / 2)] };
  }
}

/** A mark as it stands in the cut file, for a pen or a sensor: the printed mark's lines, and a cross of
 *  two lines through `at` that comes out of what is printed. */
export function markPaths(mark: RegisterMark): Path[] {
  const { shape, size } = mark.style;
  const at = placed(mark);
  const cross = (from: number, to: number) => [
    stroke(at, [from, 0], [to, 0]),
    stroke(at, [0, from], [0, to]),
  ];
  switch (shape) {
    case 'ring-and-cross':
      return [circle(mark.at, size * RING_SHARE), ...cross(-size / 2, size / 2)];
    case 'corner':
      return cross(-BEYOND_MM, size);
    case 'disc':
      return [circle(mark.at, size / 2), ...cross(-size / 2 - BEYOND_MM, size / 2 + BEYOND_MM)];
  }
}

/** The wedge as it is printed. */
export const wedgeInk = (wedge: Path): Ink => ({ lines: [], width: 0, solids: [wedge] });
