/**
 * The carton under a gable roof: four walls, a glued floor, two roof panels that lean together over
 * the long walls, and over each short wall a gusset between them that folds inward. The seam is in the
 * back: a strip on the left wall, as high as wall and roof together, lies inside the back.
 */
import type { ParamTable } from '../params.js';
import { atLeast, atMost, auto, radians } from './bounds.js';
import { type Face, type NetBuilder, SQUARE } from './build.js';
import { type Gusset, gusset, type Ridge } from './gusset.js';
import { deepestFlap, flap } from './shapes.js';
import { type Corner3, inSpace, type Point3, type Solid, type SpaceBuilder } from './solid.js';

export const GABLED_PARAMS = {
  pitchDeg: {
    kind: 'angleDeg',
    default: 48,
    least: 30,
    most: 65,
    help: 'How steep the roof is.',
  },
  glue: {
    kind: 'length',
    default: 'auto',
    least: 3,
    most: 60,
    help: 'Width of the glue strip at the back; auto is 12 mm, less on a small box.',
  },
  flap: {
    kind: 'length',
    default: 'auto',
    least: 3,
    most: 60,
    help: 'Depth of the flaps that the floor is glued to; auto is 12 mm, less on a narrow wall.',
  },
} as const satisfies ParamTable;

const MITRE = radians(15);
/** Flaps of the floor lean a little more than half of their corner. */
const FLAP_LEAN = radians(47);
/** What is left of a flap's head, mm. */
const HEAD = 2;
/** A narrower roof panel cannot be folded, mm. */
const LEAST_REST = 3;
/** Nor one that so many papers are as thick as. */
const LEAST_PAPERS = 6;
/** Nor is paper that goes so often into the depth stiff enough (common practice, no source). */
const MOST_PAPERS = 2000;
/** From the clear space down to the floor's middle: half of the floor, and the flaps on it. */
const FLOOR_LAYERS = 1.5;

export interface GabledPlan {
  readonly length: number;
  readonly width: number;
  readonly height: number;
  readonly t: number;
  readonly pitchDeg: number;
  readonly glue: number | 'auto';
  readonly flap: number | 'auto';
  /** From the middle of the ridge to the middle of the roof panels' edges there, in thicknesses. */
  readonly layers: number;
  /** How far below the ridge the gussets end, mm along the roof. */
  readonly trim: number;
}

type Span = readonly [number, number];

export interface Gabled {
  readonly space: SpaceBuilder;
  readonly walls: { readonly front: Solid; readonly back: Solid; readonly strip: Solid };
  readonly roofs: { readonly front: Solid; readonly back: Solid; readonly strip: Solid };
  readonly left: Gusset;
  readonly right: Gusset;
  readonly ridge: Ridge;
  /** The ends of the front; the back begins at `over`. */
  readonly from: number;
  readonly to: number;
  readonly over: number;
  /** How high the ridge is over the floor's upper face. */
  readonly top: number;
  /** The planes of front and back at the ridge. */
  readonly frontTop: number;
  readonly backTop: number;
}

/** Measures of the closed box; `length` is the longer side. Throws `ParamError`. */
function measures(plan: GabledPlan) {
  const { t } = plan;
  const [long, short] = [Math.max(plan.length, plan.width), Math.min(plan.length, plan.width)];
  const [deep, wide] = [short + t, long + t];
  if (t > 0) {
    atLeast(
      'thickness',
      t,
      short / MOST_PAPERS,
      'or a roof so wide does not carry itself',
      'take thicker paper or make the box narrower',
    );
  }
  const half = plan.layers * t;
  // A gusset closes under a roof that is longer than half of the depth: at any pitch.
  const rest = deep / 2 - half;
  atLeast(
    'width',
    rest,
    Math.max(LEAST_REST, LEAST_PAPERS * t),
    'half of the roof, less the paper between at its ridge',
    'make the box wider or take thinner paper',
  );
  // The gusset's point stands as high as the wall where what is left of the roof is cos² of it.
  const pitch = radians(plan.pitchDeg);
  atLeast(
    'width',
    rest,
    (plan.trim * Math.cos(pitch)) / Math.sin(pitch) ** 2,
    'half of the roof, or its gussets fold down into the box',
    'make the box wider, its roof steeper or take thinner paper',
  );
  const [slant, rise] = [rest / Math.cos(pitch), rest * Math.tan(pitch)];
  // At the wall's inner face the roof's inner face ends the clear space.
  const eave = plan.height + (t / 2) * (1 / Math.cos(pitch) - Math.tan(pitch));
  // Layers glued together lie a thickness apart on the roof, and so a little more on the walls.
  const lap = (t * slant) / rise;
  const mostGlue = wide / 3;
  const glue = atMost(
    'glue',
    auto(plan.glue, 12, mostGlue),
    mostGlue,
    'which the back has room for',
    'make the glue strip narrower or the box longer',
  );
  const foot = deep - 2 * t;
  const mostFlap = Math.min(deepestFlap(foot, FLAP_LEAN, Math.min(HEAD, foot / 3)), 0.45 * deep);
  const depth = atMost(
    'flap',
    auto(plan.flap, 12, mostFlap),
    mostFlap,
    'or the flaps of the floor run to a point or meet',
    'make the flaps less deep or the box wider',
  );
  return { deep, wide, eave, half, slant, rise, lap, glue, depth };
}

export function gabled(net: NetBuilder, plan: GabledPlan): Gabled {
  const { t } = plan;
  const { deep, wide, eave, half, slant, rise, lap, glue, depth } = measures(plan);
  const ridge: Ridge = { slant, rise, trim: plan.trim };
  const [from, to] = [-wide / 2, wide / 2];
  const front = -deep / 2;
  const strip = deep / 2;
  const back = strip + lap;
  const [frontTop, stripTop, backTop] = [-half, half, half + lap];
  const [low, bottom] = [(1 - FLOOR_LAYERS) * t, -FLOOR_LAYERS * t];
  const space = inSpace(net);

  /** Upright from z0 to z1, as seen from the inside from left to right. */
  const wall = (a: Span, b: Span, z0: number) => {
    const at = ([x, y]: Span, z: number): Point3 => [x, y, z];
    return [
      { at: at(a, z0), side: 'low' },
      { at: at(b, z0), side: 'right' },
      { at: at(b, eave), side: 'high' },
      { at: at(a, eave), side: 'left' },
    ] satisfies Corner3[];
  };
  // It reaches to the outer face of the left wall.
  const over = from - t / 2;
  const rear = space.root('back', 'wall', wall([over, back], [to, back], low), 'low');
  const next = (to: Solid, id: string, a: Span, b: Span, z: number) =>
    space.fold(to, 'right', id, 'wall', wall(a, b, z), 'left');
  const right = next(rear, 'right', [to, back], [to, front], low);
  const faced = next(right, 'front', [to, front], [from, front], bottom);
  const left = next(faced, 'left', [from, front], [from, strip], low);
  const strake = stripWall();

  /** A roof panel from its wall up to the ridge, or short of it at either end. */
  const roof = (on: Solid, id: string, [x0, x1]: Span, [y, top]: Span, short: Span = [0, 0]) => {
    const up = (x: number, by: number): Point3 => {
      const k = 1 - by / slant;
      return [x, y + (top - y) * k, eave + rise * k];
    };
    const role = on === strake ? 'glue-flap' : 'roof';
    return space.fold(
      on,
      'high',
      id,
      role,
      [
        { at: up(x0, slant), side: 'low' },
        { at: up(x1, slant), side: 'right' },
        { at: up(x1, short[1]), side: 'high' },
        { at: up(x0, short[0]), side: 'left' },
      ],
      'low',
    );
  };
  // Moved outward by the lap, the back's roof ends a little below the strip's.
  const below = (lap * Math.abs(strip - stripTop)) / slant + t;
  const slope = Math.min(glue * Math.tan(MITRE), slant / 3);
  const roofs = {
    front: roof(faced, 'front-roof', [to, from], [front, frontTop]),
    back: roof(rear, 'back-roof', [over, to], [back, backTop]),
    strip: roof(
      strake,
      'strip-roof',
      [from, from + glue],
      [strip, stripTop],
      [below, below + slope],
    ),
  };
  const leftGusset = gusset(space, left, 'left', ridge, {
    x: from,
    z: eave,
    inward: 1,
    ends: [front, strip],
    tops: [frontTop, stripTop],
  });
  space.ring(leftGusset.halves[0], 'edge', roofs.front, 'right');
  space.ring(leftGusset.halves[1], 'edge', roofs.strip, 'left');
  const rightGusset = gusset(space, right, 'right', ridge, {
    x: to,
    z: eave,
    inward: -1,
    ends: [back, front],
    tops: [backTop, frontTop],
  });
  space.ring(rightGusset.halves[0], 'edge', roofs.back, 'right');
  space.ring(rightGusset.halves[1], 'edge', roofs.front, 'left');
  net.glue(strake.face, rear.face, lap);
  net.glue(roofs.strip.face, roofs.back.face);
  floor();
  return {
    space,
    walls: { front: faced, back: rear, strip: strake },
    roofs,
    left: leftGusset,
    right: rightGusset,
    ridge,
    from,
    to,
    over,
    top: eave + rise,
    frontTop,
    backTop,
  };

  function stripWall(): Solid {
    const z = t / 2;
    const corners = wall([from, strip], [from + glue, strip], z);
    const slope = Math.min(glue * Math.tan(MITRE), eave / 3);
    return space.fold(
      left,
      'right',
      'strip',
      'glue-flap',
      corners.map((c, i) => (i === 1 ? { ...c, at: [c.at[0], c.at[1], z + slope] as const } : c)),
      'left',
    );
  }

  function floor(): void {
    const base = space.fold(
      faced,
      'low',
      'floor',
      'base',
      [
        { at: [from, front, bottom], side: 'front' },
        { at: [to, front, bottom] },
        { at: [to, back, bottom] },
        { at: [from, back, bottom] },
      ],
      'front',
    );
    for (const side of [left, rear, right]) {
      const name: Face = side.face;
      const made = net.fold(
        name.side('low'),
        `${name.id}-flap`,
        'glue-flap',
        w => flap(w, depth, { mitre: FLAP_LEAN }),
        { inset: t, angle: SQUARE },
      );
      net.glue(made, base.face);
    }
  }
}
