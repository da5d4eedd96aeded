/**
 * Petals that close a ring of walls: each has its leading edge over the petal on one side and its
 * trailing edge under the petal on the other, all round. Both edges are arcs from the wall's corners
 * to the middle. So that they can lie over each other, each petal's trailing part is bent down by one
 * thickness along the line from its corner to the middle.
 */
import { arcTo, closedPath, endOf, line, openPath, pathLength, sub, unit } from '../geom/index.js';
import type { Bend, Point } from '../model.js';
import { ParamError, type ParamTable } from '../params.js';
import { atLeast } from './bounds.js';
import { type NetBuilder, part, SQUARE } from './build.js';
import { type Ring, turnOf } from './ngon.js';
import { type Shape, sideOf } from './shapes.js';
import type { Point3 } from './solid.js';

export const PETAL_PARAMS = {
  swirl: {
    kind: 'number',
    default: 0.45,
    least: 0,
    most: 0.7,
    help: 'How far the petals’ edges curve: at 0 they meet in straight lines, at more as a wheel.',
  },
} as const satisfies ParamTable;

/** From the clear space up to the petals' middle: half of a petal, and the one under it. */
export const PETAL_LAYERS = 1.5;
/** The step down under the next petal turns by this and back, radians. */
const STEP_TURN = 0.25;
/** How much of the widest curve a trailing edge takes. */
const TRAILING = 0.85;
/** The stretch of a trailing edge that lies under the next petal wherever the arcs lead. */
const HELD = [0.25, 0.9] as const;

/** The angle between chord and arc that keeps a petal off the next wall, and off the petal after. */
const widest = (sides: number) => Math.min(turnOf(sides), (Math.PI - turnOf(sides)) / 2);

/** A round of less, in thicknesses of the paper, has petals too small to pass under each other. */
const LEAST_ROUND = 30;
/** How far a trailing edge reaches past the leading edge over it, in thicknesses across the corner. */
const LEAST_HOLD = 2.5;

export function checkPetals(sides: number, diameter: number, t: number, swirl: number): void {
  atLeast(
    'length',
    diameter,
    LEAST_ROUND * t,
    `${LEAST_ROUND} thicknesses of the paper, or its petals do not pass under each other`,
    'make the box wider or take thinner paper',
  );
  // The arcs are furthest apart halfway from the corner to the middle.
  const half = diameter / 4 / Math.cos(turnOf(sides) / 2);
  const trailing = TRAILING * widest(sides);
  const rise = Math.tan(trailing / 2) - (LEAST_HOLD * t) / (half * Math.sin(turnOf(sides)));
  const most = (2 * Math.atan(rise)) / trailing;
  if (swirl <= most) return;
  throw new ParamError(
    'swirl',
    swirl,
    `at most ${Math.max(0, most).toFixed(2)}, or the petals do not reach under each other`,
    'make the swirl smaller, the box wider or the paper thinner',
  );
}

/** A petal on each wall at the one end or the other, called `<end>-<wall>`. */
export function petals(net: NetBuilder, ring: Ring, end: 'top' | 'bottom', swirl: number): void {
  const { plan, walls } = ring;
  const { sides, t } = plan;
  const edge = end === 'top' ? 'high' : 'low';
  const trailing = TRAILING * widest(sides);
  // The wall with the glue flap reaches past its corner.
  const past = t / 2 / Math.sin(turnOf(sides));
  const made = walls.map((wall, k) => {
    const hinge = sideOf(wall.shape, edge);
    const inset = [2 * t, k === 0 && end === 'bottom' ? past : 0] as const;
    // The middle as the petal's own frame has it, whose x runs back along the wall's edge.
    const middle = seenFrom(wall.place(endOf(hinge)), wall.place(hinge.start), inset[0]);
    return net.fold(
      wall.face.side(edge),
      `${end}-${plan.name(k)}`,
      'flap',
      w => petal(w, middle, swirl * trailing, trailing, t),
      { inset, angle: SQUARE },
    );
  });
  made.forEach((own, k) => {
    const trail = own.side('trailing');
    const whole = pathLength(trail.along);
    // Seen from inside, the next one round at the top is the one before it at the bottom.
    const next = made[(k + (end === 'top' ? sides - 1 : 1)) % sides]!;
    net.hook(part(trail, HELD[0] * whole, HELD[1] * whole), next);
  });
}

/** The upright axis, from `inset` mm right of `left`, x toward `right` and y square to it inward. */
function seenFrom(left: Point3, right: Point3, inset: number): Point {
  const ex = unit([right[0] - left[0], right[1] - left[1]]);
  const d: Point = [-left[0], -left[1]];
  return [d[0] * ex[0] + d[1] * ex[1] - inset, Math.abs(d[0] * ex[1] - d[1] * ex[0])];
}

function petal(w: number, middle: Point, leading: number, trailing: number, t: number): Shape {
  const [start, end]: Point[] = [
    [0, 0],
    [w, 0],
  ];
  const back = leading > 0 ? arcTo(start!, -2 * leading) : line(start!);
  const out = arcTo(middle, 2 * trailing);
  return {
    outline: closedPath(start!, [line(end!), out, back]),
    sides: {
      foot: openPath(start!, [line(end!)]),
      trailing: openPath(end!, [out]),
      leading: openPath(middle, [back]),
    },
    ...(t > 0 && { bend: stepDown(end!, middle, t) }),
  };
}

/** One thickness toward the inside, beyond the line from the corner to the middle. */
function stepDown(corner: Point, middle: Point, t: number): Bend {
  const u = unit(sub(middle, corner));
  // Two arcs of radius r that turn by the angle and back go down by 2 r (1 − cos).
  const length = (STEP_TURN * t) / (2 * (1 - Math.cos(STEP_TURN)));
  return {
    from: corner,
    across: [u[1], -u[0]],
    stretches: [
      { length, turn: STEP_TURN },
      { length, turn: -STEP_TURN },
    ],
  };
}
