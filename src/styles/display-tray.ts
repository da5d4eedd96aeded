import { defineStyle } from '../contracts.js';
import { roundedPolygon } from '../geom/index.js';
import { atLeast, atMost, auto, checkedSize } from './bounds.js';
import { newNet } from './build.js';
import { arcHead, arcSweep } from './curves.js';
import { rect, type Shape } from './shapes.js';
import { TRAY_PARAMS, tray } from './tray.js';

/** A smaller window shows nothing, mm. */
const LEAST_WINDOW = 3;

/** A tray as high as asked at its front, where a window shows what is in it; the ends slope up to a
 *  high back, the header. */
export const displayTray = defineStyle({
  id: 'display-tray',
  summary: 'Open tray with a window in its front and a high back for a title',
  tags: ['tray', 'one piece', 'counter display', 'window', 'ECMA group B?'],
  example: { length: 100, width: 60, height: 40 },
  room: { lies: false },
  params: {
    back: {
      kind: 'length',
      default: 'auto',
      least: 5,
      most: 2000,
      help: 'Height of the back at its sides, from the table; auto is twice the inside height.',
    },
    ends: {
      kind: 'length',
      default: 'auto',
      least: 5,
      most: 2000,
      help: 'Height of the ends where they meet the back; auto is between front and back.',
    },
    arch: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 500,
      help: 'How much higher the back is in its middle; auto is an eighth of the length, 0 is flat.',
    },
    frame: {
      kind: 'length',
      default: 'auto',
      least: 2,
      most: 200,
      help: 'Paper left round the window; auto is a fifth of the height, 6 mm at least.',
    },
    corner: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 200,
      help: 'Radius of the corners of the window; auto is 4 mm where it fits.',
    },
    ...TRAY_PARAMS,
  },
  build(spec, values) {
    const { length, height, t } = checkedSize(spec);
    const { tab, mitreDeg } = values;
    // The rim is half a thickness above the clear space's measure from the base's middle.
    const rise = height + t / 2;
    const back = atLeast(
      'back',
      auto(values.back, 2 * height),
      height + t,
      'as high as the front',
      'make the back higher',
    );
    const ends = auto(values.ends, (height + back) / 2, back - t);
    atLeast('ends', ends, height, 'as high as the front', 'make the ends higher');
    atMost(
      'ends',
      ends,
      back - t,
      'the height of the back',
      'make the ends lower or the back higher',
    );
    const arch = auto(values.arch, length / 8);
    atMost('arch', arch, length / 2, 'a half circle', 'make the arch lower');
    const { frame, corner } = window();

    const net = newNet('box', 'Display tray', t);
    tray(net, {
      inside: spec.inside,
      t,
      frontRise: rise,
      backRise: back - t / 2,
      endRise: { front: rise, back: ends + t / 2 },
      frontShape: w => ({ ...rect(w, rise), holes: [windowIn(w, rise, frame, corner)] }),
      backShape: w => arched(w, back - t / 2, arch),
      tab,
      mitreDeg,
    });
    return [net.done()];

    function window() {
      const most = (Math.min(rise, length) - LEAST_WINDOW) / 2;
      const frame = auto(values.frame, Math.max(6, height / 5), most);
      atMost(
        'frame',
        frame,
        most,
        'or there is no window left',
        'make the frame narrower or the front higher',
      );
      const mostCorner = Math.min(rise, length) / 2 - frame;
      const corner = auto(values.corner, 4, mostCorner / 2);
      atMost(
        'corner',
        corner,
        0.95 * mostCorner,
        'or the window has no straight side left',
        'make the radius smaller',
      );
      return { frame, corner };
    }
  },
});

const windowIn = (width: number, height: number, frame: number, corner: number) =>
  roundedPolygon(
    [
      [frame, frame],
      [width - frame, frame],
      [width - frame, height - frame],
      [frame, height - frame],
    ],
    corner,
  );

/** A wall whose head rises by `arch` mm in a circular arc. */
const arched = (width: number, height: number, arch: number): Shape =>
  arch > 0 ? arcHead(width, height, 1, arcSweep(width, arch)) : rect(width, height);
