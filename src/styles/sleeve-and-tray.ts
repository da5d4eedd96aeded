import { defineStyle } from '../contracts.js';
import { atMost, auto, checkedSize, radians } from './bounds.js';
import { type NetBuilder, newNet } from './build.js';
import { slideEase } from './ease.js';
import { deepestFlap, flap, notched, rect } from './shapes.js';
import { TRAY_PARAMS, tray, trayOutside } from './tray.js';

/** Paper left beside a notch, and of the glue flap between its mitres, mm. */
const WEB = 3;
const MITRE = radians(15);

/** A tray that slides out of its sleeve at either end. The sleeve is as long as the tray outside. */
export const sleeveAndTray = defineStyle({
  id: 'sleeve-and-tray',
  summary: 'Drawer: a tray that slides in a sleeve with thumb notches at both ends',
  tags: ['sleeve', 'tray', 'two piece', 'slide box', 'FEFCO group 05?', 'ECMA group C?'],
  example: { length: 90, width: 55, height: 25 },
  room: { lies: false },
  params: {
    ease: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 3,
      help: 'Room between tray and sleeve on each side; auto is one paper, 0.25 to 0.5 mm.',
    },
    notch: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 60,
      help: 'Radius of the notches in the top of the sleeve; auto is 10 mm where it fits, 0 is none.',
    },
    glue: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 60,
      help: 'Width of the glue flap of the sleeve; auto is 12 mm, at most the height of the side.',
    },
    ...TRAY_PARAMS,
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const { tab, mitreDeg } = values;
    const ease = slideEase(values.ease, t);
    const rise = height + t / 2;

    const drawer = newNet('tray', 'Tray', t);
    tray(drawer, {
      inside: spec.inside,
      t,
      frontRise: rise,
      backRise: rise,
      endRise: rise,
      tab,
      mitreDeg,
    });

    const outside = trayOutside({ length, width }, t);
    const over = {
      long: outside.length,
      across: outside.width + 2 * ease,
      up: height + t + 2 * ease,
    };
    const mostNotch = Math.min(over.across, over.long) / 2 - WEB;
    const notch = auto(values.notch, 10, Math.min(mostNotch, over.across / 4));
    if (notch > 0) {
      atMost('notch', notch, mostNotch, 'or the sleeve falls apart', 'make the notch smaller');
    }
    const mostGlue = Math.min(over.up - t, deepestFlap(over.long - 2 * t, MITRE, WEB));
    const glue = auto(values.glue, 12, mostGlue);
    atMost('glue', glue, mostGlue, 'the height of the side', 'make the glue flap smaller');
    const sleeve = newNet('sleeve', 'Sleeve', t);
    tubeOf(sleeve, { ...over, t, notch, glue });
    // Pushed in, the ease above the sleeve's bottom.
    return [drawer.done(undefined, { height: t + ease }), sleeve.done(undefined, {})];
  },
});

interface Sleeve {
  readonly long: number;
  /** Clear space. */
  readonly across: number;
  readonly up: number;
  readonly t: number;
  readonly notch: number;
  readonly glue: number;
}

/**
 * An open tube on its bottom. The glue flap stands inside the front, which is one thickness further
 * out and one shorter, so that the tube squares.
 */
function tubeOf(net: NetBuilder, { long, across, up, t, notch, glue }: Sleeve): void {
  const bottom = net.root('bottom', 'base', rect(long, across + t));
  const tab = net.fold(
    bottom.side('foot'),
    'glue-flap',
    'glue-flap',
    w => flap(w, glue, { mitre: MITRE }),
    { inset: t },
  );
  const back = net.fold(bottom.side('head'), 'back', 'wall', w => rect(w, up + t));
  const top = net.fold(back.side('head'), 'top', 'lid', w => {
    const plain = rect(w, across + 2 * t);
    return notch > 0 ? notched(notched(plain, 'left', notch), 'right', notch) : plain;
  });
  const front = net.fold(top.side('head'), 'front', 'wall', w => rect(w, up));
  net.glue(tab, front);
}
