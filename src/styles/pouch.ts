import { defineStyle } from '../contracts.js';
import { atLeast, atMost, auto, checkedSize, radians } from './bounds.js';
import { type Face, newNet } from './build.js';
import { type Corner, deepestFlap, flap, polygonShape, rect, type Shape } from './shapes.js';

/** Flaps lean in by this (common practice, no source). */
const MITRE = radians(15);
/** What is left at the head of a flap, and between two gussets, mm. */
const WEB = 2;
/** Width of a tooth of a pinked edge, mm: about (common practice, no source). */
const TOOTH = 5;

/**
 * Shown as it is glued, pressed flat: front, gussets and back a paper thickness from layer to layer,
 * the bottom turned up over the back. Filled, a flat pouch grows as deep as its faces are too wide,
 * and the bottom of any pouch takes up half of the depth.
 */
export const pouch = defineStyle({
  id: 'pouch',
  summary: 'Flat bag from one strip, with or without gussets; the size when filled',
  tags: ['bag', 'flat pouch', 'pinch bottom', 'side gusset', 'ECMA group D?'],
  example: { length: 60, width: 20, height: 90 },
  params: {
    gusset: {
      kind: 'flag',
      default: false,
      help: 'Gussets in both sides, which open to the width; without them the faces are wider.',
    },
    top: {
      kind: 'choice',
      default: 'pinked',
      choices: ['pinked', 'straight', 'flap'],
      help: 'Open with a zigzag or a straight edge, or a flap that closes over the back.',
    },
    flap: {
      kind: 'length',
      default: 'auto',
      least: 5,
      most: 300,
      help: 'Depth of the closing flap; auto is a third of the height.',
    },
    bottom: {
      kind: 'length',
      default: 'auto',
      least: 4,
      most: 100,
      help: 'Depth of the bottom flap; auto is 15 mm, less on a low pouch.',
    },
    seam: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 60,
      help: 'Width of the seam; auto is 12 mm where it fits.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const { gusset, top } = values;
    if (gusset) {
      atMost('width', width, length - WEB, 'or the gussets meet', 'make the pouch longer');
    }
    // Round what is filled in the paper's middle is a thickness longer each way.
    const wide = gusset ? length + t : length + width + 2 * t;
    const tall = height + width / 2 + t;
    // From the front: the seam, the gussets' two halves on either side, the back, the bottom.
    const [inner, outer] = gusset ? [2 * t, 3 * t] : [t, t];
    const backAt = outer + t;
    const overAt = backAt + t;
    // Inside a rolled fold the other layers end where its bend begins.
    const clear = 0.3 * overAt + t;

    // The seam ends that much inside what is folded already.
    const leastTall = 4 * clear + WEB + 1;
    const filled = width / 2 + t;
    atLeast('height', height, leastTall - filled, 'or the seam has no room', 'make it higher');

    const pinked = top === 'pinked';
    const lidMost = Math.min(tall - clear - WEB, deepestFlap(wide - 2 * t, MITRE, WEB));
    const lid = auto(values.flap, height / 3, lidMost);
    atMost('flap', lid, lidMost, 'or it has no edge left on the back', 'make the flap less deep');
    const bottomMost = Math.min(
      (tall - clear) / 2 - (top === 'flap' ? lid / 2 : 0),
      deepestFlap(wide - 2 * t, MITRE, WEB),
    );
    const bottom = auto(values.bottom, 15, bottomMost);
    atMost('bottom', bottom, bottomMost, 'half of the back', 'make the bottom flap less deep');
    const gore = gusset ? (width + t) / 2 : 0;
    const seamMost = Math.min(
      wide - gore - WEB,
      deepestFlap(tall - 4 * clear, MITRE, WEB),
      wide / 2,
    );
    const seam = auto(values.seam, 12, seamMost);
    atMost('seam', seam, seamMost, 'or it has no place on the front', 'make the seam narrower');

    const net = newNet('pouch', 'Pouch', t);
    const front = net.root('front', 'wall', face(wide, tall, pinked ? 'head' : undefined));
    const over = { angle: Math.PI } as const;
    const under = { angle: -Math.PI } as const;
    const inset = [top === 'flap' ? clear : 0, clear] as const;
    /** Half of a gusset, standing on its side: the mouth at its left. */
    const half = (w: number) => rect(w, gore);
    let on = front.side('right');
    if (gusset) {
      const a = net.fold(on, 'right-a', 'gusset', half, { ...over, lift: inner, inset });
      const b = net.fold(a.side('head'), 'right-b', 'gusset', half, { ...under, lift: t });
      on = b.side('head');
    }
    const back = net.fold(
      on,
      'back',
      'wall',
      w => face(w, wide, pinked ? 'left' : undefined),
      gusset ? { ...over, lift: t } : { ...over, lift: backAt, inset },
    );
    const glueAt = (
      to: Face,
      side: string,
      lift: number,
      onto: Face,
      ends: readonly [number, number],
    ) => {
      const made = net.fold(
        to.side(side),
        'seam',
        'glue-flap',
        w => flap(w, seam, { mitre: MITRE }),
        {
          ...over,
          lift,
          inset: ends,
        },
      );
      net.glue(made, onto);
    };
    if (gusset) {
      const b = net.fold(back.side('head'), 'left-b', 'gusset', half, { ...over, lift: t });
      const a = net.fold(b.side('head'), 'left-a', 'gusset', half, { ...under, lift: t });
      glueAt(a, 'head', t, front, [clear, clear]);
    } else {
      glueAt(front, 'left', t, back, [clear, clear]);
    }
    const turnedUp = net.fold(
      front.side('foot'),
      'bottom',
      'flap',
      w => flap(w, bottom, { mitre: MITRE, soft: 3 }),
      { ...over, lift: overAt, inset: t },
    );
    net.glue(turnedUp, back);
    if (top === 'flap') {
      const closing = net.fold(
        front.side('head'),
        'flap',
        'lid',
        w => flap(w, lid, { mitre: MITRE, soft: 6 }),
        { ...over, lift: overAt, inset: t },
      );
      net.glue(closing, back);
    }
    return [net.done()];
  },
});

/** A face with a pinked edge: an even zigzag beyond its head or its left side. */
function face(width: number, height: number, edge: 'head' | 'left' | undefined): Shape {
  if (!edge) return rect(width, height);
  const along = edge === 'head' ? width : height;
  const n = Math.max(1, Math.round(along / TOOTH));
  const step = along / n;
  const teeth = Array.from({ length: 2 * n - 1 }, (_, i): Corner => {
    const [run, out] = [((i + 1) * step) / 2, i % 2 === 0 ? step / 2 : 0];
    return { at: edge === 'head' ? [width - run, height + out] : [-out, height - run] };
  });
  return polygonShape([
    { at: [0, 0], side: 'foot' },
    { at: [width, 0], side: 'right' },
    { at: [width, height], ...(edge === 'left' && { side: 'head' }) },
    ...(edge === 'head' ? teeth : []),
    { at: [0, height], ...(edge === 'head' && { side: 'left' }) },
    ...(edge === 'left' ? teeth : []),
  ]);
}
