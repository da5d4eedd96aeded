/** The end of a tube that tucks in: a closure with a tuck flap over two dust flaps. */
import type { BoxSpec, EdgeRef } from '../model.js';
import type { ParamTable, Values } from '../params.js';
import { atLeast, atMost, auto } from './bounds.js';
import { type Face, part } from './build.js';
import { flap, polygonShape, rect, type Shape } from './shapes.js';
import { type End, MITRE, sideAt, type Tube, WEB } from './tube.js';

/** A shorter slit grips nothing, mm. */
const LEAST_LOCK = 1.5;

export const TUCK_PARAMS = {
  tuck: {
    kind: 'length',
    default: 'auto',
    least: 5,
    most: 100,
    help: 'Depth of the tuck flaps; auto is half the width, from 10 to 20 mm.',
  },
  dust: {
    kind: 'length',
    default: 'auto',
    least: 5,
    most: 300,
    help: 'Depth of the dust flaps; auto is three fifths of the width where they do not meet.',
  },
  lock: {
    kind: 'length',
    default: 'auto',
    least: 0,
    most: 40,
    help: 'Slit at each end of the tuck crease, which grips the dust flap; 0 is none.',
  },
  corner: {
    kind: 'length',
    default: 'auto',
    least: 0,
    most: 50,
    help: 'Radius of the corners of the tuck flaps; auto is half their depth, 8 mm at most.',
  },
  ease: {
    kind: 'length',
    default: 0.75,
    least: 0,
    most: 3,
    help: 'How much narrower the tuck flap is than the opening, on each side.',
  },
  notch: {
    kind: 'length',
    default: 'auto',
    least: 0,
    most: 60,
    help: 'Radius of the thumb notch in the front; auto is 10 mm where it fits, 0 is none.',
  },
} as const satisfies ParamTable;

export interface TuckMeasures {
  readonly tuck: number;
  readonly ease: number;
  readonly corner: number;
  readonly lock: number;
  /** How far the dust flap stands upright beside the tuck crease, mm. */
  readonly shoulder: number;
  readonly dust: number;
  readonly notch: number;
}

/** How deep a tuck flap may be, and why. */
export interface TuckRoom {
  readonly most: number;
  readonly why: string;
}

/** The measures of tuck ends on a tube of this size. Throws `ParamError` for those that cannot be. */
export function tuckMeasures(
  { inside, thickness: t }: BoxSpec,
  values: Values<typeof TUCK_PARAMS>,
  room: TuckRoom = { most: inside.height - WEB, why: 'or the tuck flap strikes the other end' },
): TuckMeasures {
  const { length, width } = inside;
  const tuck = auto(values.tuck, Math.min(Math.max(width / 2, 10), 20), room.most);
  atMost('tuck', tuck, room.most, room.why, 'make the tuck flaps smaller or the box higher');
  atMost(
    'ease',
    values.ease,
    (length - WEB) / 2,
    'or no tuck flap is left',
    'make the ease smaller or the box longer',
  );
  const ease = values.ease + t / 2;
  const span = length + t - 2 * ease;
  const corner = auto(values.corner, 8, Math.min(tuck / 2, span / 4));
  atMost(
    'corner',
    corner,
    Math.min(tuck, span / 2) * 0.95,
    'or the tuck flap has no edge left',
    'make the radius smaller',
  );
  atLeast(
    'width',
    width,
    2 * t + 2 * WEB,
    'or the dust flaps have no paper between the walls',
    'make the box wider or take thinner paper',
  );
  const foot = width - 2 * t;
  const mostDust = Math.min((length - 1) / 2, (foot - WEB) / (2 * Math.tan(MITRE)));
  const dust = auto(values.dust, 0.6 * width, mostDust);
  atMost(
    'dust',
    dust,
    mostDust,
    'or the dust flaps meet or run to a point',
    'make the dust flaps shorter',
  );
  // Where a slit lies on the dust flap: past the play of the tuck flap and the wall's offset.
  const start = ease + t;
  const mostLock = Math.min(length / 4, dust - start - 2 * WEB);
  const chosen = Math.min(6, length / 8, mostLock);
  const lock = auto(values.lock, chosen < LEAST_LOCK ? 0 : chosen);
  if (lock > 0) {
    atMost(
      'lock',
      lock,
      mostLock,
      'which the dust flaps can be gripped by',
      'make the slits shorter or the dust flaps longer',
    );
  }
  const shoulder = lock > 0 ? start + lock + WEB / 2 : 0;
  const mostNotch = Math.min(tuck - WEB, length / 2 - WEB);
  const notch = auto(values.notch, 10, Math.max(0, Math.min(mostNotch, length / 5)));
  if (notch > 0) {
    atMost(
      'notch',
      notch,
      mostNotch,
      'or it shows an opening behind the tuck flap',
      'make the notch smaller or the tuck flap deeper',
    );
  }
  return { tuck, ease, corner, lock, shoulder, dust, notch };
}

/**
 * A closure hung on the back or on the front, its tuck flap behind the other one. From outside to
 * inside the layers are closure, dust flaps; and wall, tuck flap.
 */
export function tuckEnd(tube: Tube, end: End, on: 'back' | 'front', m: TuckMeasures): void {
  const { net, t, length } = tube;
  const back = on === 'back';
  const hinge = back
    ? tube.back.side(end === 'top' ? 'head' : 'foot')
    : tube.front.side(sideAt(end));
  // The front reaches one thickness past the back, over the left wall: the closure does not.
  const leftFirst = back === (end === 'top');
  const overreach = back ? 0 : t;
  const lid = net.fold(
    hinge,
    end,
    end === 'top' ? 'lid' : 'base',
    // From the wall it hangs on to the tuck flap, a thickness before the other wall.
    w => rect(w, tube.deep - t),
    { inset: leftFirst ? [overreach, 0] : [0, overreach] },
  );
  const tuck = net.fold(
    lid.side('head'),
    `${end}-tuck`,
    'tuck-flap',
    w => flap(w, m.tuck, { round: m.corner }),
    { inset: m.ease, slit: m.lock },
  );
  net.tuck(tuck, back ? tube.front : tube.back);
  for (const wall of [tube.right, tube.left]) {
    const made = dustFlap(tube, end, wall, on, m);
    if (m.lock > 0) lockFlap(made, wall === tube.left);
  }

  /** The slit at the end of the tuck crease beside the wall grips the shoulder of its dust flap. */
  function lockFlap({ face, tuckFirst }: DustFlap, isLeft: boolean) {
    // The left wall stands one thickness further out than the closure's edge.
    const from = m.ease + (isLeft ? t : 0);
    const shoulder = face.side('shoulder');
    const grip: EdgeRef = tuckFirst
      ? part(shoulder, m.shoulder - from - m.lock, m.shoulder - from)
      : part(shoulder, from, from + m.lock);
    const crease = lid.side('head');
    const far = length + t - m.ease;
    // The crease runs from the closure's right to its left.
    const atStart = isLeft !== leftFirst;
    const slit = atStart ? part(crease, m.ease, m.ease + m.lock) : part(crease, far - m.lock, far);
    net.lock(grip, slit, Math.SQRT2 * t);
  }
}

interface DustFlap {
  readonly face: Face;
  /** Whether the tuck flap is on its left. */
  readonly tuckFirst: boolean;
}

/** A dust flap on a side wall, under a closure that hangs on the back or on the front. */
export function dustFlap(
  tube: Tube,
  end: End,
  wall: Face,
  on: 'back' | 'front',
  m: Pick<TuckMeasures, 'dust' | 'shoulder'>,
): DustFlap {
  const { t } = tube;
  const frontFirst = (end === 'top') === (wall === tube.left);
  const tuckFirst = frontFirst === (on === 'back');
  // Clear of the closure's wall by one thickness, of the tuck flap too; the left wall itself ends
  // one thickness before the back.
  const beside = wall === tube.left && on === 'front' ? t : 2 * t;
  const face = tube.net.fold(
    wall.side(sideAt(end)),
    `${end}-${wall.id}-dust`,
    'dust-flap',
    w => dustShape(w, m.dust, m.shoulder, tuckFirst),
    { inset: tuckFirst ? [beside, t] : [t, beside] },
  );
  return { face, tuckFirst };
}

/** Square at the tuck flap as far as the slit reaches, then leaning in; leaning in behind. */
function dustShape(width: number, depth: number, shoulder: number, tuckFirst: boolean): Shape {
  const lean = (up: number) => up * Math.tan(MITRE);
  const behind = lean(depth);
  const beside = lean(depth - shoulder);
  const round = Math.min(3, depth / 4, (width - behind - beside) / 2);
  return tuckFirst
    ? polygonShape([
        { at: [0, 0], side: 'foot' },
        { at: [width, 0], side: 'back' },
        { at: [width - behind, depth], round, side: 'head' },
        { at: [beside, depth], round },
        { at: [0, shoulder], side: 'shoulder' },
      ])
    : polygonShape([
        { at: [0, 0], side: 'foot' },
        { at: [width, 0], side: 'shoulder' },
        { at: [width, shoulder] },
        { at: [width - beside, depth], round, side: 'head' },
        { at: [behind, depth], round, side: 'back' },
      ]);
}
