import { defineStyle } from '../contracts.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import { atLeast, atMost, auto, checkedSize, radians } from './bounds.js';
import { newNet } from './build.js';
import { climb } from './climb.js';
import { type Corner, flipped, mirrored, polygonShape, type Shape } from './shapes.js';
import { MITRE, sideAt, TUBE_PARAMS, tube, WEB } from './tube.js';
import { TUCK_PARAMS, tuckEnd, tuckMeasures } from './tuck-end.js';

/** Room on each side of the tongue (check-values 2.3: a slot is 0.5 to 1 mm longer than its tab). */
const PLAY = 0.5;
/** The tongue climbs three papers over this many thicknesses: a slope that paper takes unscored. */
const CLIMB = 20;
const STEEPEST_CLIMB = 8;
/** Free sides of the bottom flaps lean in by this, tangent. */
const LEAN = Math.tan(radians(5));

/**
 * The 1-2-3 bottom: first the flap with the recess on the front, then the two at the sides, then the
 * one on the back, whose tongue is pressed in through the recess and lies over the first. From
 * outside to inside the layers are back flap, side flaps, recessed flap, tip of the tongue.
 */
export const snapBottom = defineStyle({
  id: 'snap-bottom',
  summary: 'Carton with a tuck top and a 1-2-3 bottom that snaps together without glue',
  tags: ['tube', 'tuck end', 'snap lock', '1-2-3 bottom', 'folding carton', 'ECMA group A?'],
  example: { length: 60, width: 45, height: 80 },
  room: { lies: true },
  params: {
    ...TUBE_PARAMS,
    ...TUCK_PARAMS,
    tongue: {
      kind: 'length',
      default: 'auto',
      least: 2,
      most: 300,
      help: 'Width of the tongue that locks the bottom; auto is half of the length.',
    },
    grip: {
      kind: 'length',
      default: 'auto',
      least: 1,
      most: 60,
      help: 'How far the tongue lies over the first flap; auto is a fifth of the width, 12 mm at most.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const m = tuckMeasures(spec, values);
    const deep = width + 2 * t;
    const { shoulder, run, recess, tongue, grip } = measures();

    const net = newNet('box', 'Snap-bottom carton', t);
    // A dust flap and the closure above; three flaps and the tip of the tongue below.
    const walls = tube(net, {
      inside: spec.inside,
      t,
      tall: height + 5 * t,
      deep,
      glue: values.glue,
      frontFoot: t,
      notch: m.notch,
    });
    tuckEnd(walls, 'top', 'back', m);

    // Clear of the glue flap in the back corner, and in the middle of the box all the same.
    const first = net.fold(
      walls.front.side(sideAt('bottom')),
      'bottom-first',
      'flap',
      w => recessed(w, { deep: 0.75 * deep, recess, wide: tongue + 2 * PLAY }),
      { inset: [2 * t, t] },
    );
    for (const wall of [walls.right, walls.left]) {
      const isLeft = wall === walls.left;
      net.fold(
        wall.side(sideAt('bottom')),
        `bottom-${wall.id}`,
        'flap',
        w =>
          stepped(w, {
            back: Math.min((length - 1) / 2, 0.6 * deep),
            front: (length + t - tongue) / 2 - PLAY,
            // The left wall begins one thickness before the back.
            step: shoulder - PLAY - (isLeft ? 2 * t : t),
            frontFirst: !isLeft,
          }),
        { inset: t },
      );
    }
    const last = net.fold(walls.back.side('foot'), 'bottom-last', 'flap', w => ({
      ...tongued(w, { shoulder, reach: shoulder + run + PLAY + grip, wide: tongue }),
      ...(t > 0 && { bend: climb(shoulder, run, 3 * t) }),
    }));
    net.hook(last.side('tip'), first);
    return [net.done([0, 1, 0])];

    function measures() {
      const run = Math.min(CLIMB * t, deep / 3);
      atLeast(
        'width',
        width,
        (3 * STEEPEST_CLIMB - 2) * t,
        `or the tongue must bend sharply over three papers of ${t} mm`,
        'make the box wider or take thinner paper',
      );
      const shoulder = (deep - run) / 2;
      const mostTongue = length - t - 2 * PLAY - 2 * WEB;
      const tongue = auto(values.tongue, length / 2, mostTongue);
      atLeast(
        'length',
        mostTongue,
        snapBottom.params.tongue.least,
        'what the recess leaves of the flap for a tongue',
        'make the box longer',
      );
      atMost(
        'tongue',
        tongue,
        mostTongue,
        'or the flap with the recess has no legs left',
        'make the tongue narrower or the box longer',
      );
      const mostGrip = deep / 2 - run / 2 - PLAY - LEAST_WIDTH_MM;
      const grip = auto(values.grip, Math.min(width / 5, 12), mostGrip);
      atLeast(
        'width',
        mostGrip,
        snapBottom.params.grip.least,
        'what is left behind the recess for the tongue to lie on',
        'make the box wider',
      );
      atMost(
        'grip',
        grip,
        mostGrip,
        'or the tongue strikes the front',
        'make the grip smaller or the box wider',
      );
      return { run, shoulder, recess: deep - shoulder - run - PLAY, tongue, grip };
    }
  },
});

/** The last flap: a shoulder, and the tongue. */
function tongued(
  width: number,
  { shoulder, reach, wide }: Record<'shoulder' | 'reach' | 'wide', number>,
): Shape {
  const left = (width - wide) / 2;
  const lean = Math.min(shoulder * LEAN, left / 3);
  const taper = Math.min((reach - shoulder) * LEAN, wide / 6);
  const round = Math.min(3, (reach - shoulder) / 3, wide / 4);
  return mirrored(
    width,
    [
      { at: [0, 0] },
      { at: [lean, shoulder], round: Math.min(3, left / 3, shoulder / 3) },
      { at: [left, shoulder] },
      { at: [left + taper, reach], round },
    ],
    'tip',
  );
}

/** The first flap: two legs and the recess between them, as wide as `wide`. */
function recessed(
  width: number,
  { deep, recess, wide }: Record<'deep' | 'recess' | 'wide', number>,
): Shape {
  const left = (width - wide) / 2;
  const lean = Math.min(deep * LEAN, left / 3);
  const round = Math.min(3, (left - lean) / 3, (deep - recess) / 3);
  return mirrored(
    width,
    [
      { at: [0, 0] },
      { at: [lean, deep], round },
      { at: [left, deep], round },
      { at: [left, recess], round: Math.min(1, round) },
    ],
    'recess',
  );
}

interface Step {
  /** How far the flap reaches in beside the back, and beside the front. */
  readonly back: number;
  readonly front: number;
  /** How far from the back it steps from the one to the other. */
  readonly step: number;
  readonly frontFirst: boolean;
}

/** A side flap: deep beside the back, and no deeper than the tongue allows beside the front. */
function stepped(width: number, { back, front, step, frontFirst }: Step): Shape {
  const low = Math.min(back, front);
  const high = back > low + WEB ? back : low;
  const lean = Math.min(high * Math.tan(MITRE), step / 3);
  const slant = Math.min(low, (width - step) / 2);
  const room = [step - lean, low, width - step - slant, high > low ? high - low : low];
  const round = Math.min(3, Math.min(...room) / 3);
  const corners: Corner[] = [
    { at: [0, 0], side: 'foot' },
    { at: [width, 0] },
    { at: [width - slant, low], round },
    ...(high > low ? [{ at: [step, low] as const }, { at: [step, high] as const, round }] : []),
    { at: [lean, high], round },
  ];
  return polygonShape(frontFirst ? flipped(width, corners) : corners);
}
