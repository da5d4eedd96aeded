import { defineStyle } from '../contracts.js';
import type { EdgeRef } from '../model.js';
import { atMost, auto, checkedSize, radians } from './bounds.js';
import { type Face, newNet, part } from './build.js';
import { deepestFlap, flap, polygonShape, rect, type Shape } from './shapes.js';

/** Seams lean in by this (common practice, no source). */
const MITRE = radians(15);
/** What is left at the head of a flap, and below a closure, mm. */
const WEB = 2;

/**
 * The front with a seam on either side, the back turned up over the seams, and the closure turned
 * down over the back: a paper thickness from layer to layer. With gussets each of these hangs on a
 * wall as deep as the width; without, what is that thick makes the face bulge, so the face is larger
 * by the width each way.
 */
export const envelope = defineStyle({
  id: 'envelope',
  summary: 'Envelope for a flat treat; length × height is its face, width how thick',
  tags: ['envelope', 'side seam', 'gusset', 'ECMA group E?'],
  example: { length: 100, width: 5, height: 70 },
  params: {
    gusset: {
      kind: 'flag',
      default: false,
      help: 'Walls round the contents, as deep as the width; without them the envelope is flat.',
    },
    shape: {
      kind: 'choice',
      default: 'point',
      choices: ['point', 'straight'],
      help: 'Closure that runs to a point, or with a straight edge.',
    },
    closure: {
      kind: 'length',
      default: 'auto',
      least: 5,
      most: 500,
      help: 'Depth of the closure; auto is half of the back.',
    },
    seam: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 100,
      help: 'Width of the two seams that the back is glued to; auto is 15 mm where they do not meet.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const { gusset } = values;
    const bulge = gusset ? 0 : width;
    const deep = gusset ? width : 0;
    // Crease to crease.
    const wide = length + bulge + t;
    const tall = height + bulge + t;
    // Middle to middle: from the front to seams, back and closure.
    const [seamAt, backAt, closureAt] = [deep + t, deep + 2 * t, deep + 3 * t];

    const seamFoot = tall - 2 * t;
    const seamMost = Math.min((wide - t - WEB) / 2, deepestFlap(seamFoot, MITRE, WEB));
    const seam = auto(values.seam, 15, seamMost);
    atMost('seam', seam, seamMost, 'or the seams meet', 'make the seams narrower');
    const backTall = tall - t;
    const lid = closureShape(wide - 2 * t, backTall);

    const net = newNet('envelope', 'Envelope', t);
    const front = net.root('front', 'wall', rect(wide, tall));
    /** A panel turned over the front at a height: on a wall, or folded right over. */
    const over = (
      on: EdgeRef,
      wall: string,
      inset: number,
      at: number,
      id: string,
      role: 'glue-flap' | 'wall' | 'lid',
      shape: (w: number) => Shape,
      clear = 0,
    ): { readonly face: Face; readonly wall?: Face } => {
      if (!gusset) {
        const options = { angle: Math.PI, lift: at, inset: inset + clear };
        return { face: net.fold(on, id, role, shape, options) };
      }
      const up = net.fold(on, wall, 'wall', w => rect(w, at), { inset });
      return { wall: up, face: net.fold(up.side('head'), id, role, shape, { inset: clear }) };
    };
    const seams = (['left', 'right'] as const).map(side =>
      over(front.side(side), side, t, seamAt, `${side}-seam`, 'glue-flap', w =>
        flap(w, seam, { mitre: MITRE }),
      ),
    );
    const up = (w: number) => rect(w, backTall);
    const back = over(front.side('foot'), 'bottom', 0, backAt, 'back', 'wall', up, t);
    for (const s of seams) net.glue(s.face, back.face);
    const top = over(front.side('head'), 'top', 0, closureAt, 'closure', 'lid', lid, t);
    net.glue(top.face, back.face);
    // The side walls stand a thickness inside the bottom's and the top's, which are higher.
    const low = (wall: Face, side: 'left' | 'right', rise: number) =>
      side === 'right'
        ? part(wall.side(side), 0, seamAt)
        : part(wall.side(side), rise - seamAt, rise);
    const [left, right] = seams.map(s => s.wall);
    if (left && right && back.wall && top.wall) {
      net.meet(left.side('left'), low(back.wall, 'right', backAt), t);
      net.meet(right.side('right'), low(back.wall, 'left', backAt), t);
      net.meet(left.side('right'), low(top.wall, 'left', closureAt), t);
      net.meet(right.side('left'), low(top.wall, 'right', closureAt), t);
    }
    return [net.done()];

    function closureShape(foot: number, most: number): (w: number) => Shape {
      const deepest =
        values.shape === 'point' ? most - WEB : Math.min(most - WEB, deepestFlap(foot, MITRE, WEB));
      const depth = auto(values.closure, most / 2, deepest);
      atMost(
        'closure',
        depth,
        deepest,
        values.shape === 'point' ? 'or it reaches past the back' : 'where its sides do not meet',
        'make the closure less deep',
      );
      return w =>
        values.shape === 'point' ? pointed(w, depth) : flap(w, depth, { mitre: MITRE, soft: 6 });
    }
  },
});

/** A triangle with a round tip. */
function pointed(width: number, depth: number): Shape {
  const slant = Math.hypot(width / 2, depth);
  // A rounded corner takes radius · tan(turn / 2) of its sides, and the tip turns by 2 atan(2 d / w).
  const round = Math.min(8, (0.3 * slant * width) / (2 * depth));
  // The radius takes the tip down; it is set so much higher.
  const lost = round * (slant / (width / 2) - 1);
  const tip = depth + lost;
  return polygonShape([
    { at: [0, 0], side: 'foot' },
    { at: [width, 0], side: 'right' },
    { at: [width / 2, tip], round, side: 'left' },
  ]);
}
