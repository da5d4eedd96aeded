import { defineStyle } from '../contracts.js';
import { atLeast, atMost, auto, checkedSize, radians } from './bounds.js';
import { newNet } from './build.js';
import { deepestFlap, flap, rect } from './shapes.js';
import { HALF_INCH, TRAY_PARAMS, tray } from './tray.js';

/** Room for a closure dot from the free edge of the lid, and for the next one, in diameters. */
const SEAT = 1.8;
const PITCH = 1.4;

/**
 * A tray with a lid flap on each long wall; the back one closes over the front one. Dust flaps on
 * the end walls lie under both. Each layer of the lid is one thickness above the one below.
 */
export const flipLid = defineStyle({
  id: 'flip-lid',
  summary: 'One-piece tray with two lid flaps that close over each other',
  tags: ['tray', 'one piece', 'hinged lid', 'ECMA group B?'],
  example: { length: 152.4, width: 50.8, height: 25.4 },
  room: { lies: false },
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
      default: 'auto',
      least: 2,
      most: 30,
      help: 'Diameter of a closure dot; auto is 10 mm, less on a small lid.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const { mitreDeg, dots } = values;
    const mitre = radians(mitreDeg);
    const lid = auto(values.lid, width);
    atMost(
      'lid',
      lid,
      width,
      'the inside width',
      'make the lid less deep or the box wider: a deeper lid strikes the other wall',
    );
    const dust = dustDepth();
    const dot = dotSize();
    const corner = cornerRadius();
    const layers = dust > 0 ? ([1, 2, 3] as const) : ([1, 1, 2] as const);
    const [endRise, frontRise, backRise] = layers.map(n => height + n * t) as [
      number,
      number,
      number,
    ];

    const net = newNet('box', 'Flip-lid box', t);
    const box = tray(net, { inside: spec.inside, t, frontRise, backRise, endRise, ...values });
    const under = net.fold(box.front.side('head'), 'lid-under', 'lid', w => rect(w, lid, corner));
    const over = net.fold(box.back.side('head'), 'lid', 'lid', w => rect(w, lid, corner));
    for (const end of dust > 0 ? [box.left, box.right] : []) {
      net.fold(
        end.side('head'),
        `${end.id}-dust`,
        'dust-flap',
        w => flap(w, dust, { mitre, soft: 3 }),
        { inset: t },
      );
    }
    for (let i = 0; i < dots; i++) {
      const x = ((length + t) * (i + 0.5)) / dots;
      net.dot(over, under, [x, lid - (SEAT * dot) / 2], dot);
    }
    return [net.done()];

    /** Where both flaps overlap by a seat, and the dots stand side by side. */
    function dotSize(): number {
      if (dots === 0) return 0;
      const overlap = 2 * lid - width - 2 * t;
      const most = Math.min(overlap / SEAT, length / (PITCH * dots));
      const dot = auto(values.dot, 10, most);
      atLeast(
        'lid',
        overlap,
        SEAT * flipLid.params.dot.least,
        'how far the flaps must overlap for a closure dot',
        'make the lid deeper, or set dots to 0',
      );
      return atMost(
        'dot',
        dot,
        most,
        'which the overlap of the flaps has room for',
        'make the dots smaller or fewer, or the lid deeper',
      );
    }

    function cornerRadius(): number {
      const most = Math.min(lid, length / 2);
      const corner = auto(values.corner, 6, Math.min(lid / 10, most / 2));
      atMost('corner', corner, most, 'or the lid has no edge left', 'make the radius smaller');
      if (dots === 0) return corner;
      // A circle in the corner's round: its middle no further from the round's than the radii differ.
      const [x, y] = [length / 2 / dots - dot / 2, ((SEAT - 1) * dot) / 2];
      return atMost(
        'corner',
        corner,
        0.98 * (x + y + dot / 2 + Math.sqrt(2 * x * y)),
        'or a closure dot lies over it',
        'make the radius or the dots smaller, or the dots fewer',
      );
    }

    function dustDepth(): number {
      const foot = width - t;
      const most = Math.min((length - 1) / 2, deepestFlap(foot, mitre, foot / 3));
      const depth = auto(values.dust, HALF_INCH, most);
      return atMost('dust', depth, most, 'or the dust flaps meet', 'make the dust flaps smaller');
    }
  },
});
