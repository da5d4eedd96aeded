import { defineStyle } from '../contracts.js';
import type { Net } from '../model.js';
import { atMost, auto, checkedSize } from './bounds.js';
import { type Face, newNet } from './build.js';
import { rect } from './shapes.js';
import { TRAY_PARAMS, tray } from './tray.js';

/**
 * Crosses of a base and four walls, glued base on base; only the lid holds them shut. The innermost
 * has the clear size asked for. Each one further out stands a thickness and the ease around it, and a
 * thickness lower on the table: all walls end level under the lid.
 */
export const fourWallBurst = defineStyle({
  id: 'four-wall-burst',
  summary: 'Box whose walls fall open when the lid lifts, with layers inside',
  tags: ['two piece', 'lift-off lid', 'loose walls', 'ECMA group C?'],
  example: { length: 44, width: 44, height: 44 },
  room: { lies: false },
  params: {
    layers: {
      kind: 'count',
      default: 3,
      least: 1,
      most: 6,
      help: 'How many boxes stand in one another, the outer one counted.',
    },
    between: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 20,
      help: 'Room between two layers on each side; auto is 0.5 mm, none without thickness.',
    },
    corner: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 100,
      help: 'Radius of the free corners of the walls; auto is 3 mm where it fits.',
    },
    lidHeight: {
      kind: 'length',
      default: 'auto',
      least: 5,
      most: 2000,
      help: 'How far the lid reaches down; auto is a quarter of the height, 12 mm at least.',
    },
    ease: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 3,
      help: 'Room between lid and walls on each side; auto is 0.4 mm, none without thickness.',
    },
    ...TRAY_PARAMS,
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const { layers } = values;
    const between = auto(values.between, t > 0 ? 0.5 : 0);
    const ease = auto(values.ease, t > 0 ? 0.4 : 0);
    const lidHeight = auto(values.lidHeight, Math.max(height / 4, 12), height);
    atMost('lidHeight', lidHeight, height, 'the height of the walls', 'make the lid lower');
    const cornerMost = Math.min(height, length / 2, width / 2) - 1;
    const corner = auto(values.corner, 3, cornerMost / 2);
    atMost('corner', corner, cornerMost, 'or the wall has no edge left', 'make the radius smaller');

    const nets: Net[] = [];
    for (let i = layers - 1; i >= 0; i--) {
      const step = 2 * i * (t + between);
      const from = layers - i;
      const net = newNet(`layer-${from}`, from === 1 ? 'Outer box' : `Inner box ${from - 1}`, t);
      const base = net.root('base', 'base', rect(length + step + t, width + step + t));
      const rise = height + t / 2 + i * t;
      const wall = (side: string, id: string): Face =>
        net.fold(base.side(side), id, 'wall', w => rect(w, rise, corner), { inset: t / 2 });
      const walls = [
        wall('foot', 'front'),
        wall('right', 'right'),
        wall('head', 'back'),
        wall('left', 'left'),
      ];
      walls.forEach((a, k) => {
        net.meet(a.side('left'), walls[(k + 1) % 4]!.side('right'), t / Math.SQRT2);
      });
      if (from > 1) net.seat(base, `layer-${from - 1}`, 'base');
      nets.push(net.done(undefined, { height: (from - 1) * t }));
    }

    const out = 2 * (layers - 1) * (t + between) + 2 * t + 2 * ease;
    const over = { length: length + out, width: width + out, height: lidHeight };
    const rise = lidHeight + t / 2;
    const lid = newNet('lid', 'Lid', t);
    tray(lid, {
      inside: over,
      t,
      frontRise: rise,
      backRise: rise,
      endRise: rise,
      tab: values.tab,
      mitreDeg: values.mitreDeg,
    });
    // Its top lies on the rims of the walls.
    const rim = (layers - 0.5) * t + height - lidHeight;
    return [...nets, lid.done([0, 0, -1], { height: rim })];
  },
});
