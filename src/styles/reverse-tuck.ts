import { defineStyle } from '../contracts.js';
import { checkedSize } from './bounds.js';
import { newNet } from './build.js';
import { TUBE_PARAMS, tube } from './tube.js';
import { TUCK_PARAMS, tuckEnd, tuckMeasures } from './tuck-end.js';

/** A tube whose upper closure hangs on the back and whose lower one hangs on the front: it takes
 *  less paper side by side than straight-tuck, and its front has no raw edge at the bottom. */
export const reverseTuck = defineStyle({
  id: 'reverse-tuck',
  summary: 'Carton that tucks in at both ends, toward the front above and the back below',
  tags: ['tube', 'tuck end', 'reverse tuck', 'folding carton', 'ECMA group A?'],
  example: { length: 60, width: 40, height: 90 },
  room: { lies: true },
  params: { ...TUBE_PARAMS, ...TUCK_PARAMS },
  build(spec, values) {
    const { width, height, t } = checkedSize(spec);
    const m = tuckMeasures(spec, values);
    const net = newNet('box', 'Reverse-tuck carton', t);
    // Crease to crease: a dust flap and a closure at each end; a tuck flap before either wall.
    const walls = tube(net, {
      inside: spec.inside,
      t,
      tall: height + 3 * t,
      deep: width + 3 * t,
      glue: values.glue,
      notch: m.notch,
    });
    tuckEnd(walls, 'top', 'back', m);
    tuckEnd(walls, 'bottom', 'front', m);
    return [net.done([0, 1, 0])];
  },
});
