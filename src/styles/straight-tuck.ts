import { defineStyle } from '../contracts.js';
import type { EdgeRef } from '../model.js';
import { atMost, auto, checkedSize, radians } from './bounds.js';
import { type Face, newNet, part } from './build.js';
import { deepestFlap, flap, notched, polygonShape, rect, type Shape } from './shapes.js';

/** Tabs and dust flaps lean in by this (common practice, no source). */
const MITRE = radians(15);
/** A shorter slit grips nothing, mm. */
const LEAST_LOCK = 1.5;
/** Paper left beside, below and between cuts, mm. */
const WEB = 2;

/**
 * A tube with a glue flap; the closures at both ends hang on the back. From outside to inside the
 * layers at the top are closure, dust flaps; at the front they are front, tuck flap. The clear
 * space lies within all of them.
 */
export const straightTuck = defineStyle({
  id: 'straight-tuck',
  summary: 'Carton that tucks in at both ends, both closures hinged on the back',
  tags: ['tube', 'tuck end', 'straight tuck', 'folding carton', 'ECMA group A?'],
  example: { length: 60, width: 40, height: 90 },
  params: {
    glue: {
      kind: 'length',
      default: 'auto',
      least: 4,
      most: 60,
      help: 'Width of the glue flap; auto is 12 mm, and never more than half of the side.',
    },
    tuck: {
      kind: 'length',
      default: 'auto',
      least: 5,
      most: 100,
      help: 'Depth of the tuck flaps; auto is half the width, from 10 to 20 mm.',
    },
    dust: {
      kind: 'length',
      default: 'auto',
      least: 5,
      most: 300,
      help: 'Depth of the dust flaps; auto is three fifths of the width where they do not meet.',
    },
    lock: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 40,
      help: 'Slit at each end of the tuck crease, which grips the dust flap; 0 is none.',
    },
    corner: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 50,
      help: 'Radius of the corners of the tuck flaps; auto is half their depth, 8 mm at most.',
    },
    ease: {
      kind: 'length',
      default: 0.75,
      least: 0,
      most: 3,
      help: 'How much narrower the tuck flap is than the opening, on each side.',
    },
    notch: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 60,
      help: 'Radius of the thumb notch in the front; auto is 10 mm where it fits, 0 is none.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const m = measures();
    // Crease to crease: a dust flap and a closure at each end; a tuck flap before the front.
    const tall = height + 3 * t;
    const deep = width + 2 * t;

    const net = newNet('box', 'Straight-tuck carton', t);
    const back = net.root('back', 'wall', rect(length + t, tall));
    const glue = net.fold(
      back.side('left'),
      'glue-flap',
      'glue-flap',
      w => flap(w, m.glue, { mitre: MITRE }),
      { inset: 2 * t },
    );
    const right = net.fold(back.side('right'), 'right', 'wall', w => rect(w, deep), { inset: t });
    // The front is as high as the back, so it overreaches the sides by one thickness each way.
    const front = net.fold(
      right.side('head'),
      'front',
      'wall',
      w =>
        m.notch > 0 ? notched(rect(w, length + 2 * t), 'left', m.notch) : rect(w, length + 2 * t),
      { inset: -t },
    );
    // Glued over the flap, and one thickness short so that the tube squares.
    const left = net.fold(front.side('head'), 'left', 'wall', w => rect(w, deep - t), { inset: t });
    net.glue(glue, left);

    const close = (end: 'top' | 'bottom') => {
      const hinge = back.side(end === 'top' ? 'head' : 'foot');
      const lid = net.fold(hinge, end, end === 'top' ? 'lid' : 'base', w => rect(w, width + t));
      const tuck = net.fold(
        lid.side('head'),
        `${end}-tuck`,
        'tuck-flap',
        w => flap(w, m.tuck, { round: m.corner }),
        { inset: m.ease, slit: m.lock },
      );
      net.tuck(tuck, front);
      for (const side of [right, left]) dust(end, side, lid);
    };
    // Seen from the back panel, tops are on the left of every wall of the tube.
    const dust = (end: 'top' | 'bottom', wall: Face, lid: Face) => {
      const frontFirst = (end === 'top') === (wall === left);
      // Clear of the back by one thickness, of the tuck flap by half of one.
      const inset = frontFirst ? ([2 * t, t] as const) : ([t, 2 * t] as const);
      const made = net.fold(
        wall.side(end === 'top' ? 'left' : 'right'),
        `${end}-${wall.id}-dust`,
        'dust-flap',
        w => dustFlap(w, m.dust, m.shoulder, frontFirst),
        { inset },
      );
      if (m.lock === 0) return;
      // The left wall stands one thickness further out than the closure's edge.
      const from = m.ease + (wall === left ? t : 0);
      const shoulder = made.side('shoulder');
      const grip: EdgeRef = frontFirst
        ? part(shoulder, m.shoulder - from - m.lock, m.shoulder - from)
        : part(shoulder, from, from + m.lock);
      const crease = lid.side('head');
      const far = length + t - m.ease;
      const atStart = (end === 'top') === (wall === right);
      const slit = atStart
        ? part(crease, m.ease, m.ease + m.lock)
        : part(crease, far - m.lock, far);
      net.lock(grip, slit, Math.SQRT2 * t);
    };
    close('top');
    close('bottom');
    // Folded it lies on its back; on the table it stands on its bottom.
    return [net.done([0, 1, 0])];

    function measures() {
      const tuck = auto(values.tuck, Math.min(Math.max(width / 2, 10), 20), height / 2 - WEB);
      atMost(
        'tuck',
        tuck,
        height / 2 - WEB,
        'or the two tuck flaps meet',
        'make the tuck flaps smaller or the box higher',
      );
      const ease = values.ease + t / 2;
      const span = length + t - 2 * ease;
      const corner = auto(values.corner, 8, Math.min(tuck / 2, span / 4));
      atMost(
        'corner',
        corner,
        Math.min(tuck, span / 2) * 0.95,
        'or the tuck flap has no edge left',
        'make the radius smaller',
      );
      const glueMost = Math.min(width / 2, deepestFlap(height - t, MITRE, WEB));
      const glue = atMost(
        'glue',
        auto(values.glue, 12, glueMost),
        glueMost,
        'half of the side it is glued to, and where its mitres do not meet',
        'make the glue flap smaller, or the box wider or higher',
      );
      const foot = width - 2 * t;
      const mostDust = Math.min((length - 1) / 2, (foot - WEB) / (2 * Math.tan(MITRE)));
      const dust = auto(values.dust, 0.6 * width, mostDust);
      atMost(
        'dust',
        dust,
        mostDust,
        'or the dust flaps meet or run to a point',
        'make the dust flaps shorter',
      );
      // Where a slit lies on the dust flap: past the play of the tuck flap and the wall's offset.
      const start = ease + t;
      const mostLock = Math.min(length / 4, dust - start - 2 * WEB);
      const chosen = Math.min(6, length / 8, mostLock);
      const lock = auto(values.lock, chosen < LEAST_LOCK ? 0 : chosen);
      if (lock > 0) {
        atMost(
          'lock',
          lock,
          mostLock,
          'which the dust flaps can be gripped by',
          'make the slits shorter or the dust flaps longer',
        );
      }
      const shoulder = lock > 0 ? start + lock + WEB / 2 : 0;
      const mostNotch = Math.min(tuck - WEB, length / 2 - WEB);
      const notch = auto(values.notch, 10, Math.min(mostNotch, length / 5));
      atMost(
        'notch',
        notch,
        mostNotch,
        'or it shows an opening behind the tuck flap',
        'make the notch smaller or the tuck flap deeper',
      );
      return { tuck, ease, corner, glue, lock, shoulder, dust, notch };
    }
  },
});

/** Square at the front as far as the slit reaches, then leaning in; leaning in at the back. */
function dustFlap(width: number, depth: number, shoulder: number, frontFirst: boolean): Shape {
  const lean = (up: number) => up * Math.tan(MITRE);
  const back = { foot: 0, head: lean(depth) };
  const front = lean(depth - shoulder);
  const round = Math.min(3, depth / 4, (width - back.head - front) / 2);
  return frontFirst
    ? polygonShape([
        { at: [0, 0], side: 'foot' },
        { at: [width, 0], side: 'back' },
        { at: [width - back.head, depth], round, side: 'head' },
        { at: [front, depth], round },
        { at: [0, shoulder], side: 'shoulder' },
      ])
    : polygonShape([
        { at: [0, 0], side: 'foot' },
        { at: [width, 0], side: 'shoulder' },
        { at: [width, shoulder] },
        { at: [width - front, depth], round, side: 'head' },
        { at: [back.head, depth], round, side: 'back' },
      ]);
}
