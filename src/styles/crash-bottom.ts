import { defineStyle } from '../contracts.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import { atLeast, atMost, auto, checkedSize, radians } from './bounds.js';
import { newNet } from './build.js';
import { climb } from './climb.js';
import { polygonShape, type Shape } from './shapes.js';
import { sideAt, TUBE_PARAMS, tube } from './tube.js';
import { TUCK_PARAMS, tuckEnd, tuckMeasures } from './tuck-end.js';

/** Room beside a hook on each side (check-values 2.3: a slot is 0.5 to 1 mm longer than its tab). */
const PLAY = 0.5;
/** A hook climbs one paper over this many thicknesses. */
const CLIMB = 8;
/** Free sides of the bottom flaps lean in by this. */
const LEAN = radians(5);
const DIAGONAL = radians(45);

/**
 * The bottom is glued before the carton is filled, and the carton ships flat. Each side flap has a
 * fold at 45° from its corner; what lies beyond it is glued on the flap of the back or of the front.
 * Pressed flat, the carton folds over at the two glued corners; opened, the diagonal folds draw the
 * bottom down, and each of the two long flaps hooks in over the other.
 */
export const crashBottom = defineStyle({
  id: 'crash-bottom',
  summary: 'Carton with a pre-glued bottom: lies flat, and locks when it is squared up',
  tags: ['tube', 'tuck end', 'crash lock', 'automatic bottom', 'FEFCO 0713?', 'ECMA group A?'],
  example: { length: 60, width: 45, height: 80 },
  room: { lies: true },
  params: {
    ...TUBE_PARAMS,
    ...TUCK_PARAMS,
    side: {
      kind: 'length',
      default: 'auto',
      least: 2,
      most: 200,
      help: 'Depth of the side flaps of the bottom, which hold its glue; auto is as it fits.',
    },
    grip: {
      kind: 'length',
      default: 'auto',
      least: 1,
      most: 60,
      help: 'How far each long flap hooks in over the other; auto is a sixth of the width, 8 mm at most.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const m = tuckMeasures(spec, values);
    const deep = width + 2 * t;
    const { run, reach, side, grip } = measures();

    const net = newNet('box', 'Crash-bottom carton', t);
    // A dust flap and a closure above; two flaps below.
    const walls = tube(net, {
      inside: spec.inside,
      t,
      tall: height + 3 * t,
      deep,
      glue: values.glue,
      notch: m.notch,
      packed: true,
    });
    const { back, right, front, left } = walls;
    tuckEnd(walls, 'top', 'back', m);

    const hooked = (w: number) => ({
      ...hookFlap(w, { reach, run, side, grip }),
      ...(t > 0 && { bend: climb(reach, run, t) }),
    });
    const flat = { packed: Math.PI };
    const backFlap = net.fold(back.side('foot'), 'bottom-back', 'flap', hooked, flat);
    // As wide as the back's: the front reaches one thickness further, over the left wall.
    const frontFlap = net.fold(front.side(sideAt('bottom')), 'bottom-front', 'flap', hooked, {
      ...flat,
      inset: [t, 0],
    });
    net.hook(backFlap.side('tip'), frontFlap);
    net.hook(frontFlap.side('tip'), backFlap);
    for (const [wall, onto] of [
      [right, backFlap],
      [left, frontFlap],
    ] as const) {
      const id = `bottom-${wall.id}`;
      const minor = net.fold(wall.side(sideAt('bottom')), id, 'dust-flap', w => sideFlap(w, side), {
        ...flat,
        // Before the back the left wall ends one thickness early.
        inset: wall === left ? [0, t] : t,
      });
      const glue = net.fold(minor.side('crease'), `${id}-glue`, 'glue-flap', glueFlap, {
        angle: 0,
        packed: -Math.PI,
      });
      net.glue(glue, onto);
    }
    return [net.done([0, 1, 0])];

    function measures() {
      const run = Math.min(CLIMB * t, deep / 4);
      const reach = (deep - run) / 2;
      // The glued corner stays on the long flap, and between the side flaps there is room to hook.
      const mostSide = Math.min(reach - t - LEAST_WIDTH_MM, length / 2 - 2 * PLAY - LEAST_WIDTH_MM);
      const side = auto(values.side, Math.min(0.28 * length, 0.45 * deep), mostSide);
      atLeast(
        'width',
        mostSide,
        crashBottom.params.side.least,
        'what the side flaps of the bottom need to be glued by',
        'make the box wider and longer',
      );
      atMost(
        'side',
        side,
        mostSide,
        'or the long flaps have no room to be glued and to hook in',
        'make the side flaps smaller or the box larger',
      );
      const mostGrip = reach - LEAST_WIDTH_MM;
      const grip = auto(values.grip, Math.min(width / 6, 8), mostGrip);
      atMost(
        'grip',
        grip,
        mostGrip,
        'or the hooks strike the walls',
        'make the grip smaller or the box wider',
      );
      return { run, reach, side, grip };
    }
  },
});

interface Hook {
  /** To the bend of the hook, along it, and from there to the tip. */
  readonly reach: number;
  readonly run: number;
  readonly grip: number;
  /** Depth of the side flaps at either end. */
  readonly side: number;
}

/** A long flap: glued at its left, with a hook to the right of its middle. */
function hookFlap(width: number, { reach, run, grip, side }: Hook): Shape {
  const [from, to] = [width / 2 + PLAY, width - side - PLAY];
  const tip = reach + run + grip;
  const taper = Math.min((to - from) / 4, (tip - reach) / 2);
  const lean = Math.min(reach * Math.tan(LEAN), side / 2);
  const round = Math.min(3, (to - from) / 5, (tip - reach) / 3);
  return polygonShape([
    { at: [0, 0], side: 'foot' },
    { at: [width, 0] },
    { at: [width - lean, reach], round: Math.min(3, side / 3, reach / 3) },
    { at: [to, reach] },
    { at: [to - taper, tip], round, side: 'tip' },
    { at: [from, tip], round },
    { at: [from, reach] },
    { at: [0, reach] },
  ]);
}

/** A side flap as far as its diagonal fold, which begins at its right. */
function sideFlap(width: number, depth: number): Shape {
  const slant = Math.min(depth, (width - depth) / 2);
  return polygonShape([
    { at: [0, 0], side: 'foot' },
    { at: [width, 0], side: 'crease' },
    { at: [width - depth, depth] },
    { at: [slant, depth], round: Math.min(3, depth / 3, (width - depth - slant) / 2) },
  ]);
}

/** Beyond the fold: the corner of the side flap, its free edge leaning away from the wall. */
function glueFlap(crease: number): Shape {
  const [left, right] = [Math.tan(DIAGONAL), Math.tan(DIAGONAL - LEAN)];
  const x = (crease * right) / (left + right);
  return polygonShape([
    { at: [0, 0], side: 'foot' },
    { at: [crease, 0] },
    { at: [x, x * left], round: Math.min(2, crease / 8) },
  ]);
}
