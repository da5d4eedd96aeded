/** The tube of every folding carton: four walls in a row and a glue flap. */
import type { BoxSpec } from '../model.js';
import type { ParamTable } from '../params.js';
import { atMost, auto, radians } from './bounds.js';
import type { Face, NetBuilder } from './build.js';
import { deepestFlap, flap, notched, rect } from './shapes.js';

/** Tabs and dust flaps lean in by this (common practice, no source). */
export const MITRE = radians(15);
/** Paper left beside, below and between cuts, mm. */
export const WEB = 2;

export const TUBE_PARAMS = {
  glue: {
    kind: 'length',
    default: 'auto',
    least: 4,
    most: 60,
    help: 'Width of the glue flap; auto is 12 mm, and never more than half of the side.',
  },
} as const satisfies ParamTable;

export interface TubePlan {
  readonly inside: BoxSpec['inside'];
  readonly t: number;
  /** Height of the back, crease to crease. */
  readonly tall: number;
  /** From the middle of the back to the middle of the front. */
  readonly deep: number;
  readonly glue: number | 'auto';
  /** How much higher than the sides' the front's lower crease is; one thickness lower, as the
   *  back's is, if not said. */
  readonly frontFoot?: number;
  /** Radius of the thumb notch in the upper edge of the front. */
  readonly notch: number;
  /** Glued, it is pressed flat with folds at the right of the back and at the left of the front. */
  readonly packed?: boolean;
}

export interface Tube {
  readonly net: NetBuilder;
  readonly t: number;
  readonly length: number;
  readonly deep: number;
  readonly back: Face;
  readonly right: Face;
  readonly front: Face;
  readonly left: Face;
}

export type End = 'top' | 'bottom';

/**
 * The back lies in the middle of the net's frame; the others follow to its right. The sides are
 * one thickness shorter than the back at either end, so that what is folded to them lies inside
 * what is folded to the back. The glue flap is inside the left wall, which stands one thickness
 * further out than the back's edge.
 */
export function tube(net: NetBuilder, plan: TubePlan): Tube {
  const { t, tall, deep, notch, frontFoot = -t } = plan;
  const packed = plan.packed ? Math.PI : 0;
  const { length } = plan.inside;
  const depth = glueWidth(plan);
  const back = net.root('back', 'wall', rect(length + t, tall));
  const glue = net.fold(
    back.side('left'),
    'glue-flap',
    'glue-flap',
    w => flap(w, depth, { mitre: MITRE }),
    { inset: 2 * t },
  );
  const right = net.fold(back.side('right'), 'right', 'wall', w => rect(w, deep), {
    inset: t,
    packed,
  });
  const wide = length + 2 * t;
  const front = net.fold(
    right.side('head'),
    'front',
    'wall',
    w => (notch > 0 ? notched(rect(w, wide), 'left', notch) : rect(w, wide)),
    { inset: [-t, frontFoot] },
  );
  // Glued over the flap, and one thickness short so that the tube squares.
  const left = net.fold(front.side('head'), 'left', 'wall', w => rect(w, deep - t), {
    inset: [t, -frontFoot],
    packed,
  });
  net.glue(glue, left);
  return { net, t, length, deep, back, right, front, left };
}

/** Seen from the back, the top is on the left of every other wall of the tube. */
export const sideAt = (end: End) => (end === 'top' ? 'left' : 'right');

function glueWidth({ inside, t, tall, glue }: TubePlan): number {
  const most = Math.min(inside.width / 2, deepestFlap(tall - 4 * t, MITRE, WEB));
  return atMost(
    'glue',
    auto(glue, 12, most),
    most,
    'half of the side it is glued to, and where its mitres do not meet',
    'make the glue flap smaller, or the box wider or higher',
  );
}
