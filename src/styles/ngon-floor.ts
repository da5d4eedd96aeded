/** The floor of a ring of walls: a polygon on the back wall, glued under flaps of the others. */
import type { ParamTable } from '../params.js';
import { atMost, auto, radians } from './bounds.js';
import { type NetBuilder, SQUARE } from './build.js';
import { facing, meetingOf, polygonAt, type Ring, turnOf } from './ngon.js';
import { deepestFlap, flap } from './shapes.js';

export const FLOOR_PARAM = {
  flap: {
    kind: 'length',
    default: 'auto',
    least: 3,
    most: 60,
    help: 'Depth of the flaps that the floor is glued to; auto is 12 mm, less on a narrow wall.',
  },
} as const satisfies ParamTable;

/** From the clear space down to the floor's middle: half of the floor, and the flaps on it. */
export const FLOOR_LAYERS = 1.5;
/** Flaps side by side lean away from each other by this beyond half their turn. */
const APART = radians(2);
/** What is left of a flap's head at the least, mm. */
const HEAD = 2;

const lean = (sides: number) => turnOf(sides) / 2 + APART;

/** Depth of the flaps on feet of `foot` mm, `radius` from the middle. */
export function flapDepth(
  value: number | 'auto',
  sides: number,
  foot: number,
  radius: number,
): number {
  const most = Math.min(deepestFlap(foot, lean(sides), HEAD), 0.8 * radius);
  return atMost(
    'flap',
    auto(value, 12, most),
    most,
    'or the flaps run to a point or meet in the middle',
    'make the flaps less deep or the box wider',
  );
}

/** Walls 1 and on begin one thickness above wall 0, whose foot is the floor's middle. */
export function floor(
  net: NetBuilder,
  { plan, space, walls, radiusAt }: Ring,
  depth: number,
): void {
  const { sides, t } = plan;
  const z = plan.foot(0);
  const corners = polygonAt(sides, k => radiusAt(k, z), z);
  // The back wall ends where the wall beside it does, whose foot is a thickness higher.
  const base = space.fold(
    walls[0]!,
    'low',
    'floor',
    'base',
    corners.map((at, k) => ({ at, ...(k === 0 && { side: 'back' }) })),
    'back',
  );
  for (let k = 1; k < sides; k++) {
    const wall = walls[k]!;
    const made = net.fold(
      wall.face.side('low'),
      `${plan.name(k)}-flap`,
      'glue-flap',
      w => flap(w, depth, { mitre: lean(sides) }),
      { inset: t, angle: SQUARE - plan.lean },
    );
    net.glue(made, base.face);
  }
}

/** Length of a wall's foot, `radius` from the middle of an even polygon. */
export const sideAt = (sides: number, radius: number): number =>
  2 * Math.abs(meetingOf(facing(sides, 0), radius, facing(sides, 1), radius)[0]);
