/** The open tray under several styles: a base, four walls, and tabs that glue its corners. */
import type { BoxSpec } from '../model.js';
import type { ParamTable } from '../params.js';
import { atLeast, atMost, auto, radians } from './bounds.js';
import { type Face, type NetBuilder, part } from './build.js';
import { deepestFlap, flap, notched, polygonShape, rect, type Shape } from './shapes.js';

export const HALF_INCH = 12.7;

/** What every tray asks. */
export const TRAY_PARAMS = {
  tab: {
    kind: 'length',
    default: 'auto',
    least: 3,
    most: 60,
    help: 'Depth of the corner glue tabs; auto is half an inch, less where the wall is small.',
  },
  mitreDeg: {
    kind: 'angleDeg',
    default: 15,
    least: 0,
    most: 45,
    help: 'Angle by which the sides of tabs and flaps lean in.',
  },
} as const satisfies ParamTable;

export interface TrayPlan {
  readonly inside: BoxSpec['inside'];
  readonly t: number;
  /** Clear heights are `inside.height`; walls can rise above it. */
  readonly frontRise: number;
  readonly backRise: number;
  /** Of the end walls; they slope where they are not as high at the front as at the back. */
  readonly endRise: number | { readonly front: number; readonly back: number };
  readonly tab: number | 'auto';
  readonly mitreDeg: number;
  /** The deepest tab that something beside the end walls leaves room for in the flat, and why. */
  readonly tabRoom?: { readonly most: number; readonly why: string };
  /** Radius of a thumb notch in the rim of the long walls; none if not said. */
  readonly notch?: number;
  /** Walls that are no rectangle. Their sides stand upright as far as they rise. */
  readonly frontShape?: (width: number) => Shape;
  readonly backShape?: (width: number) => Shape;
  readonly endShape?: (width: number) => Shape;
}

export interface Tray {
  readonly base: Face;
  readonly front: Face;
  readonly back: Face;
  readonly left: Face;
  readonly right: Face;
}

/** The narrowest head of a tab that still takes glue, mm. */
const TAB_HEAD = 2;
/** What is left of a wall below and beside a notch, mm. */
const NOTCH_BELOW = 3;
/** What is left free between two tabs on one wall, mm. */
const TAB_APART = 1;

/**
 * The tabs stand on the ends of the long walls and are glued inside the end walls, where they do
 * not show. So they are the ends of the clear space: the long walls are one thickness longer than
 * it, crease to crease, and the end walls stand one thickness further out.
 */
export function tray(net: NetBuilder, plan: TrayPlan): Tray {
  const { t, notch = 0 } = plan;
  const { length, width, height } = plan.inside;
  const mitre = radians(plan.mitreDeg);
  const tab = tabDepth(plan);

  const base = net.root('base', 'base', rect(length + 3 * t, width + t));
  const long = (rise: number) => (w: number) =>
    notch > 0 ? notched(rect(w, rise), 'head', notchFor(w, rise)) : rect(w, rise);
  const [frontShape, backShape] = [
    plan.frontShape ?? long(plan.frontRise),
    plan.backShape ?? long(plan.backRise),
  ];
  const front = net.fold(base.side('foot'), 'front', 'wall', frontShape, { inset: t });
  const back = net.fold(base.side('head'), 'back', 'wall', backShape, { inset: t });
  const ends =
    typeof plan.endRise === 'number' ? { front: plan.endRise, back: plan.endRise } : plan.endRise;
  // Seen with the base below them, the right wall has the back on its left, the left one the front.
  const endShape = (side: 'left' | 'right') => (w: number) =>
    side === 'right' ? sloped(w, ends.back, ends.front) : sloped(w, ends.front, ends.back);
  const end = (side: 'left' | 'right') =>
    net.fold(base.side(side), side, 'wall', plan.endShape ?? endShape(side));
  const [left, right] = [end('left'), end('right')];

  const corner = (wall: Face, rise: number, side: 'left' | 'right', onto: Face) => {
    // Clear of the base below, and no higher than the clear space.
    const [low, high] = [t, rise - height];
    const glued = net.fold(
      wall.side(side),
      `${wall.id}-${onto.id}-tab`,
      'glue-flap',
      w => flap(w, tab, { mitre }),
      { inset: side === 'left' ? [low, high] : [high, low] },
    );
    net.glue(glued, onto);
    // As high as both, the walls' edges stand beside each other, the tab between them.
    const end = wall === front ? ends.front : ends.back;
    const shared = Math.min(rise, end);
    const upright = (face: Face, of: 'left' | 'right', whole: number) =>
      of === 'right' ? part(face.side(of), 0, shared) : part(face.side(of), whole - shared, whole);
    const other = side === 'left' ? 'right' : 'left';
    net.meet(upright(wall, side, rise), upright(onto, other, end), t);
  };
  // A wall is seen with the base below it: the front's left is at the box's right.
  corner(front, plan.frontRise, 'left', right);
  corner(front, plan.frontRise, 'right', left);
  corner(back, plan.backRise, 'left', left);
  corner(back, plan.backRise, 'right', right);
  return { base, front, back, left, right };

  function notchFor(w: number, rise: number): number {
    const most = Math.min(rise - NOTCH_BELOW, w / 2 - NOTCH_BELOW);
    return atMost('notch', notch, most, 'or the wall falls apart', 'make the notch smaller');
  }
}

/** From wall to wall outside: a wall and its tab at each end, a wall on each long side. */
export const trayOutside = (
  { length, width }: { readonly length: number; readonly width: number },
  t: number,
) => ({ length: length + 4 * t, width: width + 2 * t });

/** A wall with upright sides, `left` and `right` mm high. */
const sloped = (width: number, left: number, right: number): Shape =>
  polygonShape([
    { at: [0, 0], side: 'foot' },
    { at: [width, 0], side: 'right' },
    { at: [width, right], side: 'head' },
    { at: [0, left], side: 'left' },
  ]);

function tabDepth({ inside, t, tab, mitreDeg, tabRoom }: TrayPlan): number {
  const foot = inside.height - t;
  atLeast(
    'height',
    inside.height,
    TAB_HEAD + 1 + t,
    'or the corner tabs have nothing to hold on',
    'make the box higher',
  );
  const fromMitre = deepestFlap(foot, radians(mitreDeg), TAB_HEAD);
  const fromWall = (inside.width - TAB_APART) / 2;
  const room = tabRoom?.most ?? Number.POSITIVE_INFINITY;
  const depth = auto(tab, HALF_INCH, Math.min(fromMitre, fromWall, room));
  if (tabRoom) atMost('tab', depth, room, tabRoom.why, 'make the tab smaller or the box higher');
  atMost('tab', depth, fromWall, 'half of the end wall', 'make the tab smaller or the box wider');
  return atMost(
    'tab',
    depth,
    fromMitre,
    `where its ${mitreDeg}° mitres leave it ${TAB_HEAD} mm wide`,
    'make the tab or mitreDeg smaller, or the box higher',
  );
}
