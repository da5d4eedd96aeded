import { defineStyle } from '../contracts.js';
import { checkedSize } from './bounds.js';
import { newNet } from './build.js';
import { TUBE_PARAMS, tube, WEB } from './tube.js';
import { TUCK_PARAMS, tuckEnd, tuckMeasures } from './tuck-end.js';

/** A tube whose closures at both ends hang on the back. The clear space lies within all layers. */
export const straightTuck = defineStyle({
  id: 'straight-tuck',
  summary: 'Carton that tucks in at both ends, both closures hinged on the back',
  tags: ['tube', 'tuck end', 'straight tuck', 'folding carton', 'ECMA group A?'],
  example: { length: 60, width: 40, height: 90 },
  room: { lies: true },
  params: { ...TUBE_PARAMS, ...TUCK_PARAMS },
  build(spec, values) {
    const { width, height, t } = checkedSize(spec);
    const m = tuckMeasures(spec, values, {
      most: height / 2 - WEB,
      why: 'or the two tuck flaps meet',
    });
    const net = newNet('box', 'Straight-tuck carton', t);
    // Crease to crease: a dust flap and a closure at each end; a tuck flap before the front.
    const walls = tube(net, {
      inside: spec.inside,
      t,
      tall: height + 3 * t,
      deep: width + 2 * t,
      glue: values.glue,
      notch: m.notch,
    });
    tuckEnd(walls, 'top', 'back', m);
    tuckEnd(walls, 'bottom', 'back', m);
    // Folded it lies on its back; on the table it stands on its bottom.
    return [net.done([0, 1, 0])];
  },
});
