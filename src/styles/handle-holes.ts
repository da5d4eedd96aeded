/** Holes for a handle, in the upper part of two walls that face each other. */
import { arcTo, circle, closedPath, line } from '../geom/index.js';
import type { Path, Point } from '../model.js';
import { ParamError, type ParamTable, type Values } from '../params.js';
import { atMost, auto } from './bounds.js';

/** Paper left beside a hole, mm. */
const WEB = 2;
/** A hole smaller than this takes no ribbon, mm. */
const LEAST_HOLE = 2;

export const HANDLE_PARAMS = {
  handle: {
    kind: 'choice',
    default: 'ribbon',
    choices: ['ribbon', 'hand', 'none'],
    help: 'Two holes for a ribbon, or one to put fingers through, in front and back.',
  },
  hole: {
    kind: 'length',
    default: 'auto',
    least: LEAST_HOLE,
    most: 60,
    help: 'Diameter of a ribbon hole (auto 5 mm), or height of a hand hole (auto 18 mm).',
  },
  spread: {
    kind: 'length',
    default: 'auto',
    least: 1,
    most: 500,
    help: 'From hole to hole, or the length of a hand hole; auto is two fifths of the length, 80 mm at most.',
  },
} as const satisfies ParamTable;

export interface HandleRoom {
  /** Clear length of the wall, and how far down from the rim a hole may reach, mm. */
  readonly length: number;
  readonly band: number;
  /** Where the middle of the handle is along the wall, and how far down from the rim; as near to the
   *  rim as it may be if not said. */
  readonly middle: number;
  readonly down?: number;
}

/** The holes of one wall, by `own`, which takes a place along the wall and down from the rim to the
 *  panel's frame. */
export function handleHoles(
  values: Values<typeof HANDLE_PARAMS>,
  room: HandleRoom,
): (own: (x: number, down: number) => Point) => Path[] {
  const { handle } = values;
  const { length, band, middle } = room;
  const across = handle === 'ribbon' ? (length - 3 * WEB) / 2 : length / 3;
  const most = Math.max(0, Math.min(band - 2 * WEB, across));
  // A wall too small for a handle has none, unless a hole is asked for.
  if (handle === 'none' || (values.hole === 'auto' && most < LEAST_HOLE)) return () => [];
  const hole = auto(values.hole, handle === 'ribbon' ? 5 : 18, most);
  atMost(
    'hole',
    hole,
    most,
    `or less than ${WEB} mm of paper is left around it`,
    'make the hole smaller or the cuff deeper',
  );
  const spreadMost = length - 2 * WEB - (handle === 'ribbon' ? hole : 0);
  const spreadLeast = hole + (handle === 'ribbon' ? WEB : 0);
  const chosen = Math.max(Math.min(0.4 * length, 80), spreadLeast);
  const spread = auto(values.spread, chosen, spreadMost);
  atMost('spread', spread, spreadMost, 'within the wall', 'bring the holes nearer together');
  if (!(spread >= spreadLeast)) {
    throw new ParamError(
      'spread',
      spread,
      `at least ${Number(spreadLeast.toFixed(2))} mm, the hole's own height and what parts two`,
      'put the holes further apart or make them smaller',
    );
  }
  const down = room.down ?? hole / 2 + WEB;
  return own => {
    const [a, b] = [own(middle - spread / 2, down), own(middle + spread / 2, down)];
    return handle === 'ribbon' ? [circle(a, hole / 2), circle(b, hole / 2)] : [stadium(a, b, hole)];
  };
}

/** Two half circles and the lines between, from the middle of its left end to its right. */
function stadium(a: Point, b: Point, height: number): Path {
  const d: Point = [b[0] - a[0], b[1] - a[1]];
  const whole = Math.hypot(d[0], d[1]);
  const u: Point = [d[0] / whole, d[1] / whole];
  const r = height / 2;
  const at = (along: number, aside: number): Point => [
    a[0] + u[0] * along - u[1] * aside,
    a[1] + u[1] * along + u[0] * aside,
  ];
  const straight = whole - height;
  const round = Math.PI;
  return closedPath(at(r, -r), [
    ...(straight > 0 ? [line(at(whole - r, -r))] : []),
    arcTo(at(whole - r, r), round),
    ...(straight > 0 ? [line(at(r, r))] : []),
    arcTo(at(r, -r), round),
  ]);
}
