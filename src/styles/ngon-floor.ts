/** The floor of a ring of walls: a polygon on the back wall, glued under flaps of the others. */
import { cross, distance, dot, startTangent } from '../geom/index.js';
import type { Point } from '../model.js';
import type { ParamTable } from '../params.js';
import { atLeast, atMost, auto, radians } from './bounds.js';
import { type NetBuilder, SQUARE } from './build.js';
import { facing, meetingOf, polygonAt, type Ring, turnOf } from './ngon.js';
import { deepestFlap, flap, sideOf } from './shapes.js';
import type { Solid } from './solid.js';

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
/** What is left of a flap's head at the least, mm: less on a foot that is narrow itself. */
const headOf = (foot: number) => Math.min(2, foot / 3);

const lean = (sides: number) => turnOf(sides) / 2 + APART;

/** How far a flap reaches toward the middle at most. In the flat a floor of many sides lies out over
 *  the flaps of the walls beside it. */
const reachOf = (sides: number) => (sides > 8 ? 0.35 : sides > 4 ? 0.5 : 0.8);
/** Depths of flaps that are tried, to the floor's radius, and what they stay clear of the floor by, mm. */
const FINELY = 40;
const FLOOR_CLEAR = 0.5;
/** A flap that is less deep holds no glue, mm. */
const LEAST_FLAP = 1;

/** Depth of the flaps on feet of `foot` mm, `radius` from the middle. */
export function flapDepth(
  value: number | 'auto',
  sides: number,
  foot: number,
  radius: number,
  leaning = 0,
): number {
  const most = Math.min(
    deepestFlap(foot, lean(sides), headOf(foot)),
    reachOf(sides) * radius,
    clearOfFloor(sides, radius, leaning),
  );
  const depth = auto(value, 12, most);
  atLeast('flap', depth, LEAST_FLAP, 'or it takes no glue', 'make the floor wider');
  return atMost(
    'flap',
    depth,
    most,
    'or the flaps run to a point or meet in the middle',
    'make the flaps less deep or the box wider',
  );
}

/** How deep flaps may be whose walls lean out: in the flat those walls lie in a bow round the floor.
 *  Tried from walls 2 and on; what the neighbour of the floor keeps to is its own mitre. */
function clearOfFloor(sides: number, radius: number, leaning: number): number {
  if (!(leaning > 0)) return Number.POSITIVE_INFINITY;
  const half = Math.tan(turnOf(sides) / 2);
  // Half of the turn from wall to wall in the flat, and the bow's middle over the floor's.
  const step = Math.atan(half * Math.sin(leaning));
  const bow = radius / Math.sin(leaning);
  const [rise, round] = [bow - radius, radius * Math.hypot(1, half)];
  let most = Number.POSITIVE_INFINITY;
  for (let k = 2; k < sides; k++) {
    // The flap's head, seen as square to the line from the bow's middle to its wall's.
    for (let depth = Math.min(most, bow, radius); depth > 0; depth -= radius / FINELY) {
      const aside = radius * half - depth * Math.tan(lean(sides));
      const at = (x: number): Point => {
        const [c, s] = [Math.cos(2 * k * step), Math.sin(2 * k * step)];
        return [x * c + (bow - depth) * s, (bow - depth) * c - x * s];
      };
      most = depth;
      if ([-aside, 0, aside].every(x => distance(at(x), [0, rise]) > round + FLOOR_CLEAR)) break;
      most = 0;
    }
  }
  return most;
}

/** In the flat the corner beside the floor has room for two walls, the floor and a flap that leans
 *  away from it by at least this. `fan` is the turn from one wall to the next in the flat. */
const besideLean = (sides: number, fan: number) =>
  Math.max(lean(sides), Math.PI / 2 + fan - turnOf(sides) + APART);

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
    const beside = k === sides - 1 ? besideLean(sides, fanOf(wall)) : lean(sides);
    const made = net.fold(
      wall.face.side('low'),
      `${plan.name(k)}-flap`,
      'glue-flap',
      w => {
        const mitre = [lean(sides), beside] as const;
        const room = (w - headOf(w)) / (Math.tan(mitre[0]) + Math.tan(mitre[1]));
        return flap(w, Math.min(depth, room), { mitre });
      },
      { inset: t, angle: SQUARE - plan.lean },
    );
    net.glue(made, base.face);
  }
}

/** The angle between a wall's two side edges. */
function fanOf({ shape }: Solid): number {
  const [a, b] = ['right', 'left'].map(name => startTangent(sideOf(shape, name)));
  return Math.atan2(Math.abs(cross(a!, b!)), -dot(a!, b!));
}

/** Length of a wall's foot, `radius` from the middle of an even polygon. */
export const sideAt = (sides: number, radius: number): number =>
  2 * Math.abs(meetingOf(facing(sides, 0), radius, facing(sides, 1), radius)[0]);
