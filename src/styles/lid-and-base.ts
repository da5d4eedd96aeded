import { defineStyle } from '../contracts.js';
import { atMost, auto, checkedSize } from './bounds.js';
import { newNet } from './build.js';
import { slideEase } from './ease.js';
import { TRAY_PARAMS, tray, trayOutside } from './tray.js';

/** Two trays; the lid goes over the base with a little room on each side. */
export const lidAndBase = defineStyle({
  id: 'lid-and-base',
  summary: 'Two trays, one the lid of the other',
  tags: ['tray', 'two piece', 'telescope', 'FEFCO group 03?', 'ECMA group C?'],
  example: { length: 90, width: 70, height: 35 },
  room: { lies: false },
  params: {
    lidHeight: {
      kind: 'length',
      default: 'auto',
      least: 5,
      most: 2000,
      help: 'How far the lid reaches down; auto is two fifths of the height, 12 mm at least.',
    },
    ease: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 3,
      help: 'Room between lid and base on each side; auto is one paper thickness, 0.25 to 0.5 mm.',
    },
    ...TRAY_PARAMS,
    notch: {
      kind: 'length',
      default: 0,
      least: 0,
      most: 40,
      help: 'Radius of a thumb notch in the long walls of the lid; 0 is none.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const { tab, mitreDeg, notch } = values;
    const ease = slideEase(values.ease, t);
    const lidHeight = auto(values.lidHeight, Math.max(0.4 * height, 12), height);
    atMost(
      'lidHeight',
      lidHeight,
      height,
      'the height of the base',
      'make the lid lower, or it stands on the table',
    );
    const rise = (clear: number) => ({ frontRise: clear, backRise: clear, endRise: clear });

    const base = newNet('base', 'Base', t);
    // The rim is half a thickness above the clear space's measure from the base's middle.
    tray(base, { inside: { length, width, height }, t, ...rise(height + t / 2), tab, mitreDeg });

    const outside = trayOutside({ length, width }, t);
    const over = {
      length: outside.length + 2 * ease,
      width: outside.width + 2 * ease,
      height: lidHeight,
    };
    const lid = newNet('lid', 'Lid', t);
    tray(lid, { inside: over, t, ...rise(lidHeight + t / 2), tab, mitreDeg, notch });
    // Over the base, its top on the rims.
    return [base.done(undefined, {}), lid.done([0, 0, -1], { height: height - lidHeight + t / 2 })];
  },
});
