import { defineStyle } from '../contracts.js';
import { atLeast, atMost, auto, radians } from './bounds.js';
import { newNet } from './build.js';
import { checkedRound, GLUE_PARAM, glueWidth, ring, SIDES_PARAM } from './ngon.js';
import { FLOOR_LAYERS, FLOOR_PARAM, flapDepth, floor, sideAt } from './ngon-floor.js';
import { arched } from './shapes.js';

/** A cup that widens more does not stand (common practice, no source). */
const MOST_LEAN = radians(35);
/** What a scoop leaves between its curve and the wall's edge, radians. */
const CORNER = radians(8);
/** What a scoop leaves of its wall, mm. */
const LEFT = 4;

/** Walls lean outward from a glued floor; the rim sinks in front and rises at the back. */
export const cup = defineStyle({
  id: 'cup',
  summary: 'Tapered cup of 3 to 12 sides with a scooped front; measured at its mouth',
  tags: ['cup', 'tapered', 'scoop', 'ECMA group D?'],
  example: { length: 70, width: 70, height: 80 },
  plan: 'round',
  params: {
    sides: SIDES_PARAM,
    floor: {
      kind: 'length',
      default: 'auto',
      least: 5,
      most: 400,
      help: 'Diameter of the round that fits the floor; auto is seven tenths of the mouth.',
    },
    scoop: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 100,
      help: 'How deep the rim sinks in front; auto is a third of that wall’s width, 0 is level.',
    },
    back: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 100,
      help: 'How far the rim rises at the back; auto is half of the scoop, 0 is level.',
    },
    ...GLUE_PARAM,
    ...FLOOR_PARAM,
  },
  build(spec, values) {
    const { diameter, height, t } = checkedRound(spec);
    const { sides } = values;
    const wide = auto(
      values.floor,
      Math.max(0.7 * diameter, diameter - 2 * height * Math.tan(MOST_LEAN)),
    );
    const lean = Math.atan((diameter - wide) / 2 / height);
    checkFloor();
    const level = t / Math.cos(lean);
    const radius = (wide + level) / 2;
    const slope = Math.tan(lean);
    const foot = sideAt(sides, radius - FLOOR_LAYERS * t * slope);
    const mouth = sideAt(sides, radius + height * slope);
    const slant = height / Math.cos(lean);
    const { scoop, rise } = rim();

    const net = newNet('box', 'Cup', t);
    const front = (k: number) => k > 0 && Math.abs(2 * k - sides) <= 1;
    const walls = ring(net, {
      sides,
      t,
      lean,
      radius: k => radius + (k === 0 ? level : 0),
      foot: k => (k === 0 ? -FLOOR_LAYERS : 1 - FLOOR_LAYERS) * t,
      head: () => height,
      flap: { low: t / 2, high: height, width: glueWidth(values.glue, foot, slant - t) },
      name: k => (k === 0 ? 'back' : `wall-${k + 1}`),
      change: k => shape => arched(shape, 'high', k === 0 ? rise : front(k) ? -scoop : 0),
    });
    floor(net, walls, flapDepth(values.flap, sides, foot - 2 * t, radius, lean));
    return [net.done(walls.space.up())];

    function checkFloor(): void {
      atMost('floor', wide, diameter, 'the mouth', 'make the floor smaller or the mouth wider');
      const least = diameter - 2 * height * Math.tan(MOST_LEAN);
      atLeast(
        'floor',
        wide,
        least,
        'or the walls lean out by more than 35°',
        'make the floor wider or the cup higher',
      );
    }

    function rim() {
      // The curve leaves the rim's corner at twice the angle of its rise over half the wall.
      const corner = Math.PI / 2 - Math.atan((mouth - foot) / 2 / slant) - CORNER;
      const most = Math.min((mouth / 2) * Math.tan(corner / 2), height - LEFT);
      const scoop = auto(values.scoop, mouth / 3, most);
      atMost('scoop', scoop, most, 'or the front wall comes to points', 'make the scoop less deep');
      const mostRise = mouth / 2 - LEFT / 2;
      const rise = auto(values.back, scoop / 2, Math.max(0, mostRise));
      atMost('back', rise, mostRise, 'a half round over the wall', 'let the back rise less');
      return { scoop, rise };
    }
  },
});
