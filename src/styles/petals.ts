/**
 * Petals that close a ring of walls: each has its leading edge over the petal on one side and its
 * trailing edge under the petal on the other, all round. Both edges are arcs from the wall's corners
 * to the middle. So that they can lie over each other, each petal's trailing part is bent down by one
 * thickness along the line from its corner to the middle.
 */
import { arcTo, closedPath, line, openPath, pathLength, sub, unit } from '../geom/index.js';
import type { Bend, Point } from '../model.js';
import type { ParamTable } from '../params.js';
import { atLeast } from './bounds.js';
import { type NetBuilder, part, SQUARE } from './build.js';
import { type Ring, turnOf } from './ngon.js';
import { type Shape, sideOf } from './shapes.js';

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

/** A round of less, in thicknesses of the paper, has petals too small to pass under each other. */
const LEAST_ROUND = 30;
export function checkPetals(diameter: number, t: number): void {
  atLeast(
    'length',
    diameter,
    LEAST_ROUND * t,
    `${LEAST_ROUND} thicknesses of the paper, or its petals do not pass under each other`,
    'make the box wider or take thinner paper',
  );
}

/** The angle between chord and arc that keeps a petal off the next wall, and off the petal after. */
const widest = (sides: number) => Math.min(turnOf(sides), (Math.PI - turnOf(sides)) / 2);

/** A petal on the upper edge of each wall, called `<prefix>-<wall>`. */
export function petals(net: NetBuilder, ring: Ring, swirl: number, prefix = 'petal'): void {
  const { plan, walls, t } = { ...ring, t: ring.plan.t };
  const trailing = TRAILING * widest(plan.sides);
  const inset = [2 * t, 0] as const;
  const made = walls.map((wall, k) => {
    const [right, left] = [sideOf(wall.shape, 'high').start, sideOf(wall.shape, 'high')];
    // The middle as the petal's own frame has it, whose x runs from the wall's left to its right.
    const ends = [left.segments.at(-1)!.to, right].map(p => wall.place(p)) as [Point3, Point3];
    const middle = seenFrom(ends[0], ends[1], inset[0]);
    return net.fold(
      wall.face.side('high'),
      `${prefix}-${plan.name(k)}`,
      'flap',
      w => petal(w, middle, swirl * trailing, trailing, t),
      { inset, angle: SQUARE },
    );
  });
  made.forEach((own, k) => {
    const edge = own.side('trailing');
    const whole = pathLength(edge.along);
    const next = made[(k + plan.sides - 1) % plan.sides]!;
    net.hook(part(edge, HELD[0] * whole, HELD[1] * whole), next);
  });
}

type Point3 = readonly [number, number, number];

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
