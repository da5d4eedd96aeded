/**
 * Boxes on a polygon of equal sides: the polygon of their mid-surfaces, and the ring of walls that
 * tubes and cups are made of. Wall 0 is at the back; the others follow counter-clockwise as seen
 * from above. `q` and radii are measured level, from the middle to the middle of a side.
 */
import type { BoxSpec, Point } from '../model.js';
import { ParamError, type ParamTable } from '../params.js';
import { FILE_STEP_MM } from '../units/tolerances.js';
import { atLeast, atMost, auto, checkedSize, radians } from './bounds.js';
import type { NetBuilder } from './build.js';
import {
  along,
  apart,
  type Change,
  type Corner3,
  inSpace,
  type Point3,
  type Solid,
  type SpaceBuilder,
  stretch,
  toward,
} from './solid.js';

export const SIDES_PARAM = {
  kind: 'count',
  default: 6,
  least: 3,
  most: 12,
  help: 'Number of sides.',
} as const;

/** Size of a box whose length and width are one measure. */
export function checkedRound(spec: BoxSpec): {
  readonly diameter: number;
  readonly height: number;
  readonly t: number;
} {
  const { length, width, height, t } = checkedSize(spec);
  if (!(Math.abs(length - width) <= FILE_STEP_MM)) {
    throw new ParamError(
      'width',
      width,
      `${Number(length.toFixed(3))} mm, as the length: both are the diameter of the round it holds`,
      'give length and width alike',
    );
  }
  return { diameter: length, height, t };
}

/** From one wall to the next, radians. */
export const turnOf = (sides: number): number => (2 * Math.PI) / sides;
/** The direction in which wall k faces, seen from above. */
export const facing = (sides: number, k: number): number => Math.PI / 2 + k * turnOf(sides);

/** Where two sides meet that face `a` and `b`, `ra` and `rb` from the middle. */
export function meetingOf(a: number, ra: number, b: number, rb: number): Point {
  const det = Math.sin(b - a);
  return [(ra * Math.sin(b) - rb * Math.sin(a)) / det, (rb * Math.cos(a) - ra * Math.cos(b)) / det];
}

/** A polygon level at height z whose side k is `radius(k)` from the middle: corner k begins side k. */
export function polygonAt(sides: number, radius: (k: number) => number, z: number): Point3[] {
  return Array.from({ length: sides }, (_, k) => {
    const before = (k + sides - 1) % sides;
    const p = meetingOf(facing(sides, before), radius(before), facing(sides, k), radius(k));
    return [...p, z] as Point3;
  });
}

export interface RingPlan {
  readonly sides: number;
  readonly t: number;
  /** Of wall k's mid-surface at z = 0, mm. */
  radius(k: number): number;
  /** How far the walls lean outward, radians. */
  readonly lean: number;
  /** Heights at which wall k begins and ends. */
  foot(k: number): number;
  head(k: number): number;
  /** Heights that the glue flap keeps to. Its width may differ there: low and high. */
  readonly flap: {
    readonly low: number;
    readonly high: number;
    readonly width: number | readonly [low: number, high: number];
  };
  /** Wall 0 ends where wall 1's surface, moved out by so many thicknesses, cuts its own; half of one,
   *  at its outer face, if not said. */
  readonly over?: number;
  /** Not scored from wall to wall: the paper is rolled. */
  readonly soft?: boolean;
  name(k: number): string;
  /** Something done to wall k in the flat. */
  change?(k: number): Change;
}

export interface Ring {
  readonly plan: RingPlan;
  readonly space: SpaceBuilder;
  /** Sides: low, right, high, left, as seen from the inside. */
  readonly walls: readonly Solid[];
  /** The middle of wall k's mid-surface at a height. */
  radiusAt(k: number, z: number): number;
}

/** Glue flaps lean in by this (common practice, no source). */
const MITRE = radians(15);
/** What is left of a flap's head at the least, mm. */
const HEAD = 2;
/** A narrower glue flap holds nothing, mm. */
const LEAST_GLUE = 1;

/**
 * Walls in a row, each folded to the one before, and a glue flap that lies inside wall 0: so wall 0
 * stands one thickness further out and reaches to wall 1's outer face, and wall 1 ends where the
 * flap's surface cuts its own.
 */
export function ring(net: NetBuilder, plan: RingPlan): Ring {
  const { sides, lean, t, over = 1 / 2, soft = false } = plan;
  const [slope, level] = [Math.tan(lean), t / Math.cos(lean)];
  const radiusAt = (k: number, z: number) => plan.radius(k) + z * slope;
  /** Where wall b's surface is cut by another that lies `da` outside wall a's. */
  const at = (a: number, da: number, b: number, z: number): Point3 => {
    const wall = (k: number) => ((k % sides) + sides) % sides;
    const ra = radiusAt(wall(a), z) + da;
    return [...meetingOf(facing(sides, a), ra, facing(sides, b), radiusAt(wall(b), z)), z];
  };
  /** The right and the left edge of wall k at a height. */
  const right = (k: number, z: number) => at(k - 1, k === 1 ? -level : 0, k, z);
  const left = (k: number, z: number) => at(k + 1, k === 0 ? over * level : 0, k, z);
  const wall = (k: number): readonly Corner3[] => {
    const [low, high] = [plan.foot(k), plan.head(k)];
    return [
      { at: left(k, low), side: 'low' },
      { at: right(k, low), side: 'right' },
      { at: right(k, high), side: 'high' },
      { at: left(k, high), side: 'left' },
    ];
  };
  const space = inSpace(net);
  const walls: Solid[] = [];
  walls[0] = space.root(plan.name(0), 'wall', wall(0), 'low', plan.change?.(0));
  for (let k = sides - 1, before = 0; k > 0; before = k--) {
    walls[k] = space.fold(
      walls[before]!,
      'right',
      plan.name(k),
      'wall',
      wall(k),
      'left',
      plan.change?.(k),
      { soft },
    );
  }
  const last = walls[1]!;
  const corners = glueFlap();
  const flap = space.fold(last, 'right', 'glue-flap', 'glue-flap', corners, 'hinge', undefined, {
    soft,
  });
  net.glue(flap.face, walls[0]!.face);
  const [from, to] = [Math.max(plan.foot(0), plan.foot(1)), Math.min(plan.head(0), plan.head(1))];
  const mine = stretch(walls[0]!, 'left', left(0, from), left(0, to));
  const theirs = stretch(last, 'right', right(1, from), right(1, to));
  net.meet(mine, theirs, apart(left(0, from), right(1, from)));
  return { plan, space, walls, radiusAt };

  function glueFlap(): Corner3[] {
    const { low, high, width } = plan.flap;
    const [a, b] = [right(1, low), right(1, high)];
    const up = toward(a, b);
    const across: Point3 = [
      Math.cos(facing(sides, 0) - Math.PI / 2),
      Math.sin(facing(sides, 0) - Math.PI / 2),
      0,
    ];
    const rise = across[0] * up[0] + across[1] * up[1];
    const widths = typeof width === 'number' ? ([width, width] as const) : width;
    // Level, a head corner is this far from the hinge's end; then its mitre goes up or down.
    const head = (from: Point3, wide: number, way: 1 | -1): Point3 =>
      along(
        along(from, across, wide / Math.sqrt(1 - rise * rise)),
        up,
        way * wide * Math.tan(MITRE),
      );
    return [
      { at: a, side: 'low' },
      { at: head(a, widths[0], 1), side: 'head' },
      { at: head(b, widths[1], -1), side: 'high' },
      { at: b, side: 'hinge' },
    ];
  }
}

export const GLUE_PARAM = {
  glue: {
    kind: 'length',
    default: 'auto',
    least: 4,
    most: 60,
    help: 'Width of the glue flap; auto is 12 mm, and never more than half of a side.',
  },
} as const satisfies ParamTable;

/** Width of a glue flap on an edge `tall` mm long, for sides of `side` mm where they are least. */
export function glueWidth(glue: number | 'auto', side: number, tall: number): number {
  const most = Math.min(side / 2, (tall - HEAD) / (2 * Math.tan(MITRE)));
  const width = auto(glue, 12, most);
  atLeast('glue', width, LEAST_GLUE, 'or it holds nothing', 'make the sides wider or fewer');
  return atMost(
    'glue',
    width,
    most,
    'half of a side, and where its mitres do not meet',
    'make the glue flap smaller, or the box wider or higher',
  );
}
