import { defineStyle } from '../contracts.js';
import { atLeast, atMost, auto, checkedSize, radians } from './bounds.js';
import { newNet } from './build.js';
import { deepestFlap, flap, rect } from './shapes.js';
import { HALF_INCH, TRAY_PARAMS, tray } from './tray.js';

/** From the edge of a closure dot to the free edge of the lid it is on, mm. */
const DOT_INSET = 4;

/**
 * A tray with a lid flap on each long wall; the back one closes over the front one. Dust flaps on
 * the end walls lie under both. Each layer of the lid is one thickness above the one below.
 */
export const flipLid = defineStyle({
  id: 'flip-lid',
  summary: 'One-piece tray with two lid flaps that close over each other',
  tags: ['tray', 'one piece', 'hinged lid', 'ECMA group B?'],
  example: { length: 152.4, width: 50.8, height: 25.4 },
  params: {
    lid: {
      kind: 'length',
      default: 'auto',
      least: 5,
      most: 2000,
      help: 'Depth of each lid flap; auto is the inside width.',
    },
    ...TRAY_PARAMS,
    dust: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 300,
      help: 'Depth of the dust flaps at the ends; auto is half an inch where it fits, 0 is none.',
    },
    corner: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 50,
      help: 'Radius of the free corners of the lid; auto is a tenth of its depth, 6 mm at most.',
    },
    dots: {
      kind: 'count',
      default: 1,
      least: 0,
      most: 3,
      help: 'Closure dots between the two lid flaps: hook and loop, stickers or magnets.',
    },
    dot: {
      kind: 'length',
      default: 10,
      least: 2,
      most: 30,
      help: 'Diameter of a closure dot.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const { mitreDeg, dots, dot } = values;
    const mitre = radians(mitreDeg);
    const lid = auto(values.lid, width);
    const dust = dustDepth();
    const corner = auto(values.corner, 6, lid / 10);
    const layers = dust > 0 ? [1, 2, 3] : [1, 1, 2];
    const [endRise, frontRise, backRise] = layers.map(n => height + n * t) as [
      number,
      number,
      number,
    ];

    atMost('lid', lid, width, 'the inside width', 'a deeper lid strikes the other wall');
    atMost(
      'corner',
      corner,
      Math.min(lid, length / 2),
      'or the lid has no edge left',
      'less is rounder',
    );
    const seat = dot + 2 * DOT_INSET;
    if (dots > 0) {
      atLeast(
        'lid',
        lid,
        (width + seat) / 2 + t,
        'or the flaps do not overlap where the closure dots are',
        'make the lid deeper, the dots smaller, or set dots to 0',
      );
      atMost(
        'dot',
        dot,
        length / dots - DOT_INSET,
        'or the dots touch',
        'use fewer or smaller dots',
      );
    }

    const net = newNet('box', 'Flip-lid box', t);
    const box = tray(net, { inside: spec.inside, t, frontRise, backRise, endRise, ...values });
    const under = net.fold(box.front.side('head'), 'lid-under', 'lid', w => rect(w, lid, corner));
    const over = net.fold(box.back.side('head'), 'lid', 'lid', w => rect(w, lid, corner));
    for (const end of dust > 0 ? [box.left, box.right] : []) {
      net.fold(
        end.side('head'),
        `${end.id}-dust`,
        'dust-flap',
        w => flap(w, dust, { mitre, round: Math.min(3, dust / 4) }),
        { inset: t },
      );
    }
    for (let i = 0; i < dots; i++) {
      const x = ((length + t) * (i + 0.5)) / dots;
      net.dot(over, under, [x, lid - seat / 2], dot);
    }
    return [net.done()];

    function dustDepth(): number {
      const foot = width - t;
      const most = Math.min((length - 1) / 2, deepestFlap(foot, mitre, foot / 3));
      const depth = auto(values.dust, HALF_INCH, most);
      return atMost('dust', depth, most, 'or the dust flaps meet', 'make the dust flaps smaller');
    }
  },
});
