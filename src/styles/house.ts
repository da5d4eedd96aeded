import { defineStyle } from '../contracts.js';
import { atMost, auto, checkedSize, radians } from './bounds.js';
import { type Face, newNet, SQUARE } from './build.js';
import { flap, polygonShape, rect } from './shapes.js';
import { TRAY_PARAMS, tray } from './tray.js';

/** What is left of a tuck flap's opening, and between the flaps of two gables, mm. */
const WEB = 2;
const MITRE = radians(15);
/** Beside the ridge the gables' flaps hardly lean. */
const AT_RIDGE = radians(3);

/**
 * A tray whose end walls are gables. The roof is the lid: it hangs on the back, lies on flaps of the
 * gables and tucks in behind the front. Over the clear space, which ends at the eaves, lie the
 * gables' flaps and the roof; in front of it the tuck flap and the front.
 */
export const house = defineStyle({
  id: 'house',
  summary: 'House whose roof opens and tucks in; measured up to the eaves',
  tags: ['tray', 'one piece', 'hinged lid', 'gable', 'ECMA group D?'],
  example: { length: 75, width: 50, height: 45 },
  room: { lies: false },
  params: {
    pitchDeg: {
      kind: 'angleDeg',
      default: 42,
      least: 20,
      most: 65,
      help: 'How steep the roof is.',
    },
    eaves: {
      kind: 'length',
      default: 3,
      least: 0,
      most: 30,
      help: 'How far the roof stands out over each gable.',
    },
    tuck: {
      kind: 'length',
      default: 'auto',
      least: 4,
      most: 100,
      help: 'Depth of the tuck flap; auto is 14 mm, less where the front is low.',
    },
    ease: {
      kind: 'length',
      default: 0.75,
      least: 0,
      most: 3,
      help: 'How much narrower the tuck flap is than the front inside, at each end.',
    },
    flap: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 100,
      help: 'Depth of the gables’ flaps under the roof; auto is 10 mm, less on a small house; 0 is none.',
    },
    ...TRAY_PARAMS,
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const pitch = radians(values.pitchDeg);
    const [cos, tan] = [Math.cos(pitch), Math.tan(pitch)];
    // From the ridge to the middle of the back; the tuck flap lies between front and clear space.
    const half = width / 2 + t;
    // The gables' flaps begin so far in from the back, where they are above the clear space.
    const fromEaves = Math.max(3, 1 / 2 + 1 / Math.sin(pitch)) * t;
    const flapDepth = flaps();
    // Heights over the floor's middle: of the roof where it meets the back, of the gable below it. The
    // roof's inner face ends the clear space at the back wall's.
    const eave = height + t / 2 + t / 2 / cos - (t / 2) * tan;
    const shoulder = flapDepth > 0 ? eave - t / cos : eave;
    const { tuck, ease } = tuckFlap();
    // In the flat, the flaps of the gables lean over toward the roof.
    if (flapDepth * Math.sin(pitch) + WEB > eave) {
      atMost(
        'eaves',
        values.eaves,
        shoulder - 1.5 * t - WEB,
        'or in the flat the roof runs into a flap of the gables',
        'make the eaves or the flap smaller, or the house higher',
      );
    }

    const net = newNet('box', 'House box', t);
    const body = tray(net, {
      inside: { length, width: width + t, height },
      t,
      frontRise: eave + t * tan,
      backRise: eave,
      endRise: shoulder,
      endShape: w =>
        polygonShape([
          { at: [0, 0], side: 'foot' },
          { at: [w, 0], side: 'right' },
          { at: [w, shoulder], side: 'slope-right' },
          { at: [w / 2, shoulder + (w / 2) * tan], side: 'slope-left' },
          { at: [0, shoulder], side: 'left' },
        ]),
      tab: values.tab,
      ...(flapDepth > 0 && {
        tabRoom: { most: shoulder, why: 'or in the flat it runs into a flap of the gables' },
      }),
      mitreDeg: values.mitreDeg,
    });
    const over = -(1.5 * t + values.eaves);
    const rear = net.fold(body.back.side('head'), 'back-roof', 'roof', w => rect(w, half / cos), {
      angle: SQUARE - pitch,
      inset: over,
    });
    const fore = net.fold(rear.side('head'), 'front-roof', 'roof', w => rect(w, (half - t) / cos), {
      angle: 2 * pitch,
    });
    const inset = ease - over + t / 2;
    const tucked = net.fold(
      fore.side('head'),
      'tuck',
      'tuck-flap',
      w => flap(w, tuck, { soft: 6 }),
      { angle: SQUARE - pitch, inset },
    );
    net.tuck(tucked, body.front);
    if (flapDepth > 0) for (const end of [body.left, body.right]) gableFlaps(end);
    return [net.done()];

    /** Seen with a slope below, the ridge is at the left of the right one. */
    function gableFlaps(end: Face): void {
      const low = fromEaves / cos;
      for (const side of ['left', 'right'] as const) {
        const ridgeFirst = side === 'right';
        const mitre = ridgeFirst ? ([AT_RIDGE, MITRE] as const) : ([MITRE, AT_RIDGE] as const);
        const made = net.fold(
          end.side(`slope-${side}`),
          `${end.id}-${side}-flap`,
          'dust-flap',
          w => flap(w, flapDepth, { mitre, soft: 3 }),
          { inset: ridgeFirst ? [t, low] : [low, t] },
        );
        net.hook(made.side('head'), (end === body.left) === (side === 'left') ? fore : rear);
      }
    }

    function flaps(): number {
      const slope = half / cos - t - fromEaves / cos;
      const fromMitre = (slope - WEB) / (Math.tan(MITRE) + Math.tan(AT_RIDGE));
      const most = Math.max(0, Math.min((length - WEB) / 2, fromMitre));
      return atMost(
        'flap',
        auto(values.flap, 10, most),
        most,
        'or the flaps of the gables meet or run to a point',
        'make the flaps less deep or the house larger',
      );
    }

    function tuckFlap() {
      const mostEase = (length - WEB) / 2 - t / 2;
      atMost('ease', values.ease, mostEase, 'or no tuck flap is left', 'make the ease smaller');
      const most = height - WEB;
      const tuck = auto(values.tuck, 14, most);
      atMost('tuck', tuck, most, 'or it strikes the floor', 'make the tuck flap less deep');
      return { tuck, ease: values.ease };
    }
  },
});
