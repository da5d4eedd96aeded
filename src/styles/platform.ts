import { defineStyle } from '../contracts.js';
import { circle, distance } from '../geom/index.js';
import type { Path, Point } from '../model.js';
import { atLeast, atMost, auto, checkedSize } from './bounds.js';
import { newNet } from './build.js';
import { deepestFlap, flap, rect } from './shapes.js';

/** Paper left between two holes and beside them, mm: a smaller web tears when the round is lifted. */
const WEB = 1.5;
/** Places are about this large where the person does not say how many, mm. */
const USUAL_PLACE = 50;
/** Where the sides of the feet lean in so that two feet do not meet in a corner. */
const MITRE = Math.PI / 4;

/**
 * A table that stands in a box: its inside is below. The rise is from the floor of the box to the
 * top face, so a leg is a thickness shorter, crease to crease, and half of one more without a foot.
 */
export const platform = defineStyle({
  id: 'platform',
  summary: 'Insert with holes for rounds, raised on folded legs; sized by its box',
  tags: ['insert', 'fitment', 'raised platform', 'FEFCO group 09?', 'ECMA group X?'],
  example: { length: 150, width: 100, height: 60 },
  params: {
    columns: {
      kind: 'count',
      default: 0,
      least: 0,
      most: 12,
      help: 'Holes along the length; 0 chooses about 50 mm for each.',
    },
    rows: {
      kind: 'count',
      default: 0,
      least: 0,
      most: 12,
      help: 'Rows of holes across the width; 0 chooses about 50 mm for each.',
    },
    stagger: {
      kind: 'flag',
      default: false,
      help: 'Every second row is moved by half a place and has a hole less.',
    },
    hole: {
      kind: 'length',
      default: 'auto',
      least: 2,
      most: 300,
      help: 'Diameter of a hole; auto leaves a fifth of a place as paper. A round rests in a hole smaller than itself.',
    },
    rise: {
      kind: 'length',
      default: 'auto',
      least: 4,
      most: 500,
      help: "Height of the platform's top face over the floor; auto is a third of the box's height.",
    },
    foot: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 60,
      help: 'Depth of the feet turned in under the legs; auto is 8 mm where it fits, 0 is none.',
    },
    ease: {
      kind: 'length',
      default: 0.5,
      least: 0,
      most: 3,
      help: 'Room between the platform and the box on each side.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const { stagger, ease } = values;
    // Crease to crease: the legs' outer faces are the ease off the walls.
    const long = length - 2 * ease - t;
    const deep = width - 2 * ease - t;
    const usual = (whole: number) => Math.min(12, Math.max(1, Math.round(whole / USUAL_PLACE)));
    const columns = values.columns || usual(long);
    const rows = values.rows || usual(deep);
    const least = 2 * WEB + platform.params.hole.least;
    atLeast('length', long, least, 'or there is no room for a hole', 'choose a larger box');
    atLeast('width', deep, least, 'or there is no room for a hole', 'choose a larger box');
    // Feet lie a thickness and more under the top.
    const riseLeast = 2 * t + 1;
    const rise = auto(values.rise, Math.max(height / 3, platform.params.rise.least, riseLeast));
    atMost('rise', rise, height, 'the height of the box', 'make the legs shorter');
    const footMost = Math.max(0, deepestFlap(Math.min(long, deep) - 2 * t, MITRE, 1));
    const foot = auto(values.foot, 8, Math.min(footMost, rise));
    if (foot > 0) {
      atLeast('rise', rise, riseLeast, 'or the feet touch the top', 'make the legs longer');
    }
    atMost('foot', foot, footMost, 'or the feet meet', 'make the feet smaller');
    const leg = rise - (foot > 0 ? t : t / 2);

    const net = newNet('platform', 'Platform', t);
    const top = net.root('top', 'insert', { ...rect(long, deep), holes: holes() });
    const sides = ['foot', 'right', 'head', 'left'] as const;
    const names = { foot: 'front', right: 'right', head: 'back', left: 'left' };
    const legs = sides.map(side => {
      // Half a thickness clear of the corner: two legs stand there.
      const made = net.fold(top.side(side), names[side], 'wall', w => rect(w, leg), {
        inset: t / 2,
      });
      if (foot > 0) {
        net.rest(
          net.fold(
            made.side('head'),
            `${names[side]}-foot`,
            'flap',
            w => flap(w, foot, { mitre: MITRE }),
            { inset: t / 2 },
          ),
        );
      }
      return made;
    });
    legs.forEach((a, i) => {
      net.meet(a.side('left'), legs[(i + 1) % 4]!.side('right'), t / Math.SQRT2);
    });
    return [net.done([0, 0, -1])];

    function holes(): Path[] {
      const place = Math.min(long / columns, deep / rows);
      const found = centres();
      const between = found.flatMap((p, i) => found.slice(0, i).map(q => distance(p, q)));
      const edge = Math.min(...found.map(([x, y]) => Math.min(x, long - x, y, deep - y)));
      const most = Math.min(2 * (edge - WEB), ...between.map(d => d - WEB));
      atLeast(
        stagger ? 'stagger' : rows > columns ? 'rows' : 'columns',
        most,
        platform.params.hole.least,
        'what would be left for a hole',
        'ask for fewer holes or a larger box',
      );
      const hole = auto(values.hole, 0.8 * place, most);
      atMost(
        'hole',
        hole,
        most,
        `or less than ${WEB} mm of paper is left`,
        'make the holes smaller or fewer',
      );
      return found.map(p => circle(p, hole / 2));
    }

    function centres(): Point[] {
      return Array.from({ length: rows }, (_, j) => {
        const n = stagger && j % 2 === 1 ? columns - 1 : columns;
        const from = (columns - n + 1) / 2;
        return Array.from(
          { length: n },
          (_, i): Point => [(long * (i + from)) / columns, (deep * (j + 0.5)) / rows],
        );
      }).flat();
    }
  },
});
