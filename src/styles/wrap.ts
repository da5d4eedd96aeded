import { defineStyle } from '../contracts.js';
import { line, openPath } from '../geom/index.js';
import { atLeast, atMost, auto, checkedSize } from './bounds.js';
import { type Face, newNet } from './build.js';
import { climb, lostBy } from './climb.js';
import { slideEase } from './ease.js';
import { flap, rect, type Shape } from './shapes.js';

/** Each slit goes this far past the middle of the band, so that the ends slide home, mm. */
const PAST = 0.5;
/** An end climbs one paper over this many thicknesses. */
const CLIMB = 8;
/** A shorter end holds nothing, mm. */
const LEAST_END = 3;

/**
 * A band round a box, its seam under the bottom. Glued, the end on the front lies outside the whole
 * bottom. Locked, each end has a slit to the middle, from opposite edges: pushed into each other they
 * change places, and either end lies inside the other.
 */
export const wrap = defineStyle({
  id: 'wrap',
  summary: 'Belly band round a box, closed by glue or by two slits; inside is the box',
  tags: ['wrap', 'belly band', 'one piece', 'ECMA group E?'],
  example: { length: 110, width: 70, height: 30 },
  params: {
    band: {
      kind: 'length',
      default: 'auto',
      least: 5,
      most: 2000,
      help: 'Width of the band; auto is half of the side of the box that it lies across.',
    },
    around: {
      kind: 'choice',
      default: 'width',
      choices: ['width', 'length'],
      help: 'Which way it runs over the top: across the width of the box, or along its length.',
    },
    close: {
      kind: 'choice',
      default: 'glue',
      choices: ['glue', 'slits'],
      help: 'How it closes under the bottom: an end that is glued, or slits that hold each other.',
    },
    overlap: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 500,
      help: 'How far the ends lie over each other, past the slit; auto is 15 mm where it fits.',
    },
    ease: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 3,
      help: 'Room between box and band on each side; auto is one paper, 0.25 to 0.5 mm.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const byWidth = values.around === 'width';
    const [over, along] = byWidth ? [width, length] : [length, width];
    const band = auto(values.band, Math.max(along / 2, wrap.params.band.least));
    atMost('band', band, along, 'the side of the box', 'make the band narrower');
    const ease = slideEase(values.ease, t);
    const across = over + 2 * ease;
    // Crease to crease: the bottom is two papers thick.
    const drop = height + 2 * ease + 2 * t;
    const glued = values.close === 'glue';

    const net = newNet('wrap', 'Wrap', t);
    const top = net.root('top', 'lid', rect(band, across + t));
    const front = net.fold(top.side('foot'), 'front', 'wall', w => rect(w, drop));
    const back = net.fold(top.side('head'), 'back', 'wall', w => rect(w, glued ? drop - t : drop));
    if (glued) glueEnds();
    else lockEnds();
    // It lies on its top in the flat.
    return [net.done([0, 0, -1])];

    function glueEnds() {
      // From the back to a paper before the front.
      const bottom = net.fold(back.side('head'), 'bottom', 'base', w => rect(w, across));
      const most = across - LEAST_END;
      const overlap = auto(values.overlap, 15, most);
      atMost('overlap', overlap, most, 'the bottom', 'make the overlap smaller');
      const end = net.fold(front.side('head'), 'overlap', 'glue-flap', w => flap(w, overlap));
      net.glue(end, bottom);
    }

    function lockEnds() {
      const slit = (across + t) / 2;
      const run = CLIMB * t;
      // The ends of the band stay clear of the walls; they lie flat before and after the slit.
      const most = slit - t - 1;
      const overlap = auto(values.overlap, 15, most);
      atLeast(
        byWidth ? 'width' : 'length',
        most,
        Math.max(LEAST_END, run),
        'half of the bottom, or the slits cannot hold',
        'make the box larger, or glue the wrap',
      );
      atMost('overlap', overlap, most, 'or the ends strike the walls', 'make the overlap smaller');
      atLeast('overlap', overlap, run / 2, 'so far the slits bend it', 'make the overlap larger');
      const end = (wall: Face, id: string) =>
        net.fold(wall.side('head'), id, 'base', w => slitted(w, slit, run, overlap));
      const [a, b] = [end(front, 'bottom-front'), end(back, 'bottom-back')];
      net.hook(a.side('head'), b);
      net.hook(b.side('head'), a);
    }

    function slitted(w: number, slit: number, run: number, overlap: number): Shape {
      const round = Math.min(3, overlap / 3, w / 4);
      const bend = t > 0 ? climb(slit - run / 2, run, t) : undefined;
      // What the bend takes of its length is given back on both sides of the slit.
      const at = slit + (bend ? lostBy(bend) / 2 : 0);
      const cut = openPath([0, at], [line([w / 2 + PAST, at])]);
      return {
        ...rect(w, at + overlap, round),
        strokes: [{ operation: 'cut', path: cut }],
        ...(bend && { bend: { ...bend, from: [0, at - run / 2] } }),
      };
    }
  },
});
