import { defineStyle } from '../contracts.js';
import { circle } from '../geom/index.js';
import { atMost, auto } from './bounds.js';
import type { NetBuilder } from './build.js';
import {
  CURLED_PARAMS,
  curledTray,
  floorOf,
  LAID_IN_MM,
  lap,
  strip,
  teethFor,
  toothed,
} from './curled-wall.js';
import { slideEase } from './ease.js';
import { checkedRound } from './ngon.js';

/**
 * Two round trays of a strip and a disc, the lid over the base. The strip's end lies inside its
 * beginning, so the strip closes a thickness inside where it began: half a circle of the outer radius,
 * then half a circle of a radius half a thickness smaller. Teeth are folded in and lie on the disc.
 */
export const drum = defineStyle({
  id: 'drum',
  summary: 'Round box: toothed strips round two discs, the lid over the base',
  tags: ['two piece', 'round', 'curled wall', 'ECMA group D?'],
  example: { length: 70, width: 70, height: 40 },
  plan: 'round',
  room: { lies: false },
  params: CURLED_PARAMS,
  build(spec, values) {
    const { diameter, height, t } = checkedRound(spec);
    const ease = slideEase(values.ease, t);
    const lidHeight = auto(values.lidHeight, Math.max(height / 3, 12), height);
    atMost('lidHeight', lidHeight, height, 'the height of the base', 'make the lid lower');
    const over = diameter + 4 * t + 2 * ease;
    return [...tray('base', 'Base', diameter, height), ...tray('lid', 'Lid', over, lidHeight)];

    function tray(id: 'base' | 'lid', title: string, inner: number, tall: number) {
      const outer = inner / 2 + t;
      const inward = outer - t / 2;
      const girth = Math.PI * (outer + inward);
      const teeth = teethFor(girth, inward, values);
      const lapMost = (Math.PI / 2) * (outer - t);
      const deep = auto(values.lap, 12, lapMost);
      atMost('lap', deep, lapMost, 'a quarter of the round', 'make the lap shorter');
      // Under the wall, and under the corners of the teeth, which stand out a little from the round.
      const radius = Math.max(Math.hypot(outer, teeth.width / 2), outer + t / 2);
      const lining = circle([0, 0], inner / 2 - (t > 0 ? LAID_IN_MM : 0));
      return curledTray({
        id,
        title,
        t,
        tall,
        // The lid's teeth, or their lining, lie on the rim of the base.
        top: floorOf(values.lining, t) + height,
        flat: { outline: circle([0, 0], radius) },
        ...(values.lining && { lining: { outline: lining } }),
        panel: 'disc',
        wall: (net: NetBuilder, high: number) => {
          const halves = [outer, inward].map(r => ({ length: Math.PI * r, turn: Math.PI }));
          const around = net.root('wall', 'wall', strip(high, halves));
          toothed(net, around.side('foot'), 0, teeth, { net: id, panel: 'disc' });
          const end = net.fold(
            around.side('right'),
            'lap',
            'glue-flap',
            w => lap(w, deep, outer - t),
            // Clear of the teeth below.
            { angle: 0, soft: true, inset: [0, t] },
          );
          net.glue(end, around);
          net.meet(around.side('left'), around.side('right'), t);
          return {};
        },
      });
    }
  },
});
