import { defineStyle } from '../contracts.js';
import { atMost, auto, checkedSize, radians } from './bounds.js';
import { newNet } from './build.js';
import { GABLED_PARAMS, gabled } from './gabled.js';
import { HANDLE_PARAMS, handleHoles } from './handle-holes.js';
import type { Solid } from './solid.js';

/** The handle leans in by this at its ends (common practice, no source). */
const LEAN = radians(12);
/** What is left of a handle's upper edge between its round corners, mm. */
const LEFT = 2;

/**
 * Two handles stand on the roof panels, face to face; the gussets fold in under the ridge and end a
 * little below it, where the roof panels leave room for them. The roof runs along the longer side.
 */
export const gable = defineStyle({
  id: 'gable',
  summary: 'Box with a gable roof and a handle to carry it by',
  tags: ['gable box', 'carrying handle', 'gusset', 'ECMA group D?'],
  example: { length: 85, width: 50, height: 50 },
  room: { lies: false },
  params: {
    grip: {
      kind: 'length',
      default: 'auto',
      least: 8,
      most: 120,
      help: 'Height of the handle; auto is 32 mm, less on a small box.',
    },
    handle: {
      kind: 'choice',
      default: 'hand',
      choices: ['hand', 'ribbon', 'none'],
      help: 'A hole to put fingers through, two holes for a ribbon, or none, in both halves.',
    },
    hole: HANDLE_PARAMS.hole,
    spread: HANDLE_PARAMS.spread,
    ...GABLED_PARAMS,
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const wide = Math.max(length, width) + t;
    const most = (wide - LEFT) / (2 * Math.tan(LEAN));
    const grip = auto(values.grip, Math.min(32, 0.4 * wide), most);
    atMost(
      'grip',
      grip,
      most,
      'or the handle runs to a point',
      'make the handle lower or the box longer',
    );
    const round = Math.min(12, grip / 3, (wide - 2 * grip * Math.tan(LEAN)) / 3);
    const top = wide - 2 * grip * Math.tan(LEAN);
    const holes = handleHoles(values, {
      length: top,
      band: grip,
      middle: wide / 2,
      down: grip / 2,
    })((x, down) => [x, grip - down]);

    const net = newNet('box', 'Gable box', t);
    const trim = (2 * t) / Math.cos(radians(values.pitchDeg));
    const box = gabled(net, { ...values, length, width, height, t, layers: 0, trim });
    const { space, roofs, from, to, frontTop, backTop } = box;
    const ridge = box.top;
    const aside = grip * Math.tan(LEAN);
    /** Upright on the ridge, from a to b as seen from the inside. */
    const handle = (on: Solid, id: string, a: number, b: number, y: number) => {
      const inset = Math.sign(b - a) * aside;
      return space.fold(
        on,
        'high',
        id,
        'handle',
        [
          { at: [a, y, ridge], side: 'low' },
          { at: [b, y, ridge] },
          { at: [b - inset, y, ridge + grip], round, side: 'high' },
          { at: [a + inset, y, ridge + grip], round },
        ],
        'low',
        shape => ({ ...shape, holes }),
      );
    };
    const front = handle(roofs.front, 'front-handle', to, from, frontTop);
    const back = handle(roofs.back, 'back-handle', from, to, backTop);
    net.tuck(front.face, back.face, backTop - frontTop);
    return [net.done(space.up())];
  },
});
