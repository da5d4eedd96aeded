/**
 * Tuck ends of a ring of walls: a closure hinged on the back wall, tuck flaps on its sides that face
 * forward, dust flaps on the walls between. From outside to inside the layers are closure, dust flaps;
 * at the walls in front they are wall, tuck flap.
 */
import type { ParamTable } from '../params.js';
import { atMost, auto, radians } from './bounds.js';
import type { NetBuilder } from './build.js';
import { polygonAt, type Ring, turnOf } from './ngon.js';
import { deepestFlap, flap } from './shapes.js';
import type { Corner3 } from './solid.js';

export const TUCK_PARAMS = {
  tuck: {
    kind: 'length',
    default: 'auto',
    least: 4,
    most: 60,
    help: 'Depth of the tuck flaps of tuck ends; auto is a quarter of the box across, 8 to 15 mm.',
  },
  dust: {
    kind: 'length',
    default: 'auto',
    least: 0,
    most: 100,
    help: 'Depth of the dust flaps of tuck ends; auto is half of the way to the middle, 0 is none.',
  },
  ease: {
    kind: 'length',
    default: 0.75,
    least: 0,
    most: 3,
    help: 'How much narrower each tuck flap is than its side of the closure, at each end.',
  },
} as const satisfies ParamTable;

const MITRE = radians(15);
const APART = radians(2);
/** What is left of a flap's head, and between opposite flaps, mm. */
const LEFT = 2;

/** The walls that the closure is tucked behind: those that look away from the back. */
export const isTucked = (sides: number, k: number): boolean => Math.cos(k * turnOf(sides)) < -1e-9;
/** The walls between back and tucked ones have dust flaps. */
const isDust = (sides: number, k: number) => k > 0 && !isTucked(sides, k);

export interface TuckPlan {
  readonly tuck: number;
  readonly dust: number;
  /** With the room that thick paper needs beside a tuck flap. */
  readonly ease: number;
}

export function tuckPlan(
  values: { readonly tuck: number | 'auto'; readonly dust: number | 'auto'; readonly ease: number },
  size: {
    readonly sides: number;
    readonly side: number;
    readonly radius: number;
    readonly height: number;
    readonly t: number;
  },
): TuckPlan {
  const { sides, side, radius, height, t } = size;
  const play = tuckPlay(sides, t);
  atMost(
    'ease',
    values.ease,
    (side - LEFT) / 2 - play,
    'or the tuck flap has no edge left',
    'make the ease smaller or the box wider',
  );
  const mostTuck = Math.min(
    height / 2 - LEFT,
    deepestFlap(side - 2 * (values.ease + play), tuckMitre(sides), LEFT),
  );
  const tuck = auto(values.tuck, Math.min(Math.max(radius / 2, 8), 15), mostTuck);
  atMost(
    'tuck',
    tuck,
    mostTuck,
    'or the two tuck flaps meet, or run to a point',
    'make the tuck flaps smaller or the box higher',
  );
  const foot = side - footInset(sides, t) * 2;
  const mostDust = Math.min(
    deepestFlap(foot, dustLean(sides), LEFT),
    (sides > 6 ? 0.65 : 0.95) * radius,
  );
  const dust = auto(values.dust, radius / 2, mostDust);
  if (sides > 3 && dust > 0) {
    atMost(
      'dust',
      dust,
      mostDust,
      'or the dust flaps meet or run to a point',
      'make the dust flaps shorter',
    );
  }
  return { tuck, dust: sides > 3 ? Math.max(dust, 0) : 0, ease: values.ease + play };
}

/** The walls of a triangle come together under its closure: beside a square tuck flap its corner would
 *  stand past the next wall as it turns in. With 15° some found no way, with 25° all that were tried. */
const tuckMitre = (sides: number) => (sides === 3 ? radians(25) : 0);
/** Dust flaps side by side keep to their own part of the polygon. */
const dustLean = (sides: number) => (sides === 4 ? MITRE : Math.max(MITRE, turnOf(sides) / 2));
/** At the ends of a tuck flap: half a thickness, as far as the wall in front is narrower for standing
 *  further out, and a triangle's glue flap, which stands where its tuck flap would end. */
const tuckPlay = (sides: number, t: number) =>
  Math.max(t / 2, t / Math.tan(turnOf(sides))) + (sides === 3 ? 1.5 * t : 0);
/** In the flat the closure of many sides reaches out over the wall beside it: this far from the
 *  hinge's line, as an angle, is left for that wall's dust flap. */
const besideLean = (sides: number) =>
  Math.max(dustLean(sides), Math.PI / 2 - turnOf(sides) + APART);
/** Clear of a tuck flap inside the next wall. */
const footInset = (sides: number, t: number) => (2.5 * t) / Math.sin(turnOf(sides));

/** Heights of wall k's ends, whose clear space is from 0 to `height`: out to the middle of the closure
 *  over it, or of the dust flaps under that. */
export const tuckHeights = (
  plan: TuckPlan,
  sides: number,
  k: number,
  height: number,
  t: number,
) => {
  const under = plan.dust > 0;
  const out = under && !isDust(sides, k) ? 1.5 * t : 0.5 * t;
  return { foot: -out, head: height + out };
};

export function tuckEnd(net: NetBuilder, ring: Ring, end: 'top' | 'bottom', plan: TuckPlan): void {
  const { walls, space } = ring;
  const { sides, t, name } = ring.plan;
  const z = end === 'top' ? ring.plan.head(0) : ring.plan.foot(0);
  const edge = end === 'top' ? 'high' : 'low';
  const inward = (k: number) => ring.radiusAt(k, z) - (isTucked(sides, k) ? t : 0);
  const corners = polygonAt(sides, inward, z).map((at, k) => ({ at, side: String(k) }));
  // Seen from inside a top runs the other way round.
  const seen = end === 'top' ? reversed(corners) : corners;
  const role = end === 'top' ? 'lid' : 'base';
  const closure = space.fold(walls[0]!, edge, end, role, seen, '0');
  for (let k = 1; k < sides; k++) {
    if (isTucked(sides, k)) {
      const made = net.fold(
        closure.face.side(String(k)),
        `${end}-${name(k)}-tuck`,
        'tuck-flap',
        w => flap(w, plan.tuck, { soft: 6, mitre: tuckMitre(sides) }),
        { inset: plan.ease },
      );
      net.tuck(made, walls[k]!.face);
    } else if (plan.dust > 0) {
      const lean = dustLean(sides);
      // The neighbours of the back, which lies at the right of the one and at the left of the other.
      const beside = k === 1 || k === sides - 1 ? besideLean(sides) : lean;
      const backAtLeft = (k === 1) === (end === 'bottom');
      net.fold(
        walls[k]!.face.side(edge),
        `${end}-${name(k)}-dust`,
        'dust-flap',
        w => {
          const room = (w - LEFT) / (Math.tan(lean) + Math.tan(beside));
          const mitre = backAtLeft ? ([beside, lean] as const) : ([lean, beside] as const);
          return flap(w, Math.min(plan.dust, room), { mitre, soft: 3 });
        },
        { inset: footInset(sides, t) },
      );
    }
  }
}

/** The same polygon seen from its other side. */
function reversed(corners: readonly Corner3[]): Corner3[] {
  const n = corners.length;
  return corners.map((_, i) => {
    const before = corners[(2 * n - i - 2) % n]!;
    return { at: corners[n - 1 - i]!.at, ...(before.side !== undefined && { side: before.side }) };
  });
}
