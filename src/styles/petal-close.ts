import { defineStyle } from '../contracts.js';
import { newNet } from './build.js';
import { checkedRound, GLUE_PARAM, glueWidth, ring } from './ngon.js';
import { FLOOR_LAYERS, FLOOR_PARAM, flapDepth, floor, sideAt } from './ngon-floor.js';
import { checkPetals, PETAL_LAYERS, PETAL_PARAMS, petals } from './petals.js';

const WALLS = ['back', 'left', 'front', 'right'];

/** A square tube with a glued floor; its top closes with petals, each under the next. */
export const petalClose = defineStyle({
  id: 'petal-close',
  summary: 'Square box closed by four curved petals that hold each other down',
  tags: ['tube', 'interlocking flaps', 'ECMA group A?'],
  example: { length: 60, width: 60, height: 60 },
  plan: 'round',
  room: { lies: false },
  params: { ...PETAL_PARAMS, ...GLUE_PARAM, ...FLOOR_PARAM },
  build(spec, values) {
    const { diameter, height, t } = checkedRound(spec);
    const sides = WALLS.length;
    checkPetals(sides, diameter, t, values.swirl);
    const radius = (diameter + t) / 2;
    const [low, high] = [-FLOOR_LAYERS * t, height + PETAL_LAYERS * t];
    const flapHeights = { low: t / 2, high: height };
    const width = glueWidth(values.glue, sideAt(sides, radius - t), height - t / 2);
    const depth = flapDepth(values.flap, sides, sideAt(sides, radius - t) - 2 * t, radius);

    const net = newNet('box', 'Petal box', t);
    const walls = ring(net, {
      sides,
      t,
      radius: k => radius + (k === 0 ? t : 0),
      lean: 0,
      foot: k => (k === 0 ? low : low + t),
      head: () => high,
      flap: { ...flapHeights, width },
      name: k => WALLS[k]!,
    });
    floor(net, walls, depth);
    petals(net, walls, 'top', values.swirl);
    return [net.done(walls.space.up())];
  },
});
