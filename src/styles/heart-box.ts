import { defineStyle } from '../contracts.js';
import type { Inside } from '../model.js';
import { ParamError } from '../params.js';
import { atLeast, atMost, auto, checkedSize, radians } from './bounds.js';
import { type Face, type NetBuilder, part } from './build.js';
import {
  CURLED_PARAMS,
  curledTray,
  floorOf,
  LAID_IN_MM,
  LEAN,
  teethFor,
  toothed,
} from './curled-wall.js';
import { slideEase } from './ease.js';
import { grown, type Heart, heartParts, heartPath } from './heart-outline.js';
import { flap, rect, type Shape } from './shapes.js';

/** Half of the angle at the tip: sharper it cannot be glued, blunter it is no heart. */
const SHARPEST = radians(15);
const BLUNTEST = radians(65);

const LOBES = 0.72;
/** A shorter tab holds nothing, mm. */
const LEAST_TAB = 2;

/**
 * Two heart-shaped trays, the lid over the base. A wall goes up one side from the tip, curls round the
 * lobe, folds back in the cleft and comes down the other side, where its end lies inside its beginning.
 * Round the lobes it has teeth, along the straight sides a tab. The clear space lies within its lap.
 */
export const heartBox = defineStyle({
  id: 'heart-box',
  summary: 'Heart-shaped box with a curled wall; length across, width from tip to top',
  tags: ['two piece', 'heart', 'curled wall', 'ECMA group D?'],
  example: { length: 80, width: 74, height: 35 },
  room: { lies: false, insideFor: aroundBlock },
  params: {
    ...CURLED_PARAMS,
    lobes: {
      kind: 'number',
      default: LOBES,
      least: 0.5,
      most: 0.9,
      help: 'How far the lobes are apart, as a share of their diameter: more gives a deeper cleft.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const ease = slideEase(values.ease, t);
    const lidHeight = auto(values.lidHeight, Math.max(height / 3, 12), height);
    atMost('lidHeight', lidHeight, height, 'the height of the base', 'make the lid lower');
    const clear = heartOf();
    // The lobes' middles are one above the other in all parts.
    const middleOf = ({ radius, tip }: Heart) => (radius - tip) / 2;
    const flatPiece = (heart: Heart) => ({
      outline: heartPath(heart),
      at: [0, middleOf(heart)] as const,
    });
    return [
      ...tray('base', 'Base', clear, height),
      // Round the base's outside.
      ...tray('lid', 'Lid', grown(clear, 2 * t + ease), lidHeight),
    ];

    function heartOf(): Heart {
      const radius = length / (2 * (1 + values.lobes));
      // The lining's lobes still meet.
      const lobesMost = 1 - (2 * LAID_IN_MM) / radius;
      if (!(values.lobes <= lobesMost)) {
        throw new ParamError(
          'lobes',
          values.lobes,
          `at most ${Number(lobesMost.toFixed(2))}, or so small a heart has two loose lobes`,
          'bring the lobes nearer together, or make the heart larger',
        );
      }
      const heart = { radius, apart: values.lobes * radius, tip: width - radius };
      // The lines that touch a lobe at that angle meet so far below its middle.
      const tipAt = (half: number) => (radius + heart.apart * Math.cos(half)) / Math.sin(half);
      atLeast(
        'width',
        width,
        radius + tipAt(BLUNTEST),
        'or the tip is too blunt for a heart',
        'make it wider from tip to top, or less long across',
      );
      return {
        ...heart,
        tip:
          atMost(
            'width',
            width,
            radius + tipAt(SHARPEST),
            'or the tip is too sharp to glue',
            'make it less wide from tip to top, or longer across',
          ) - radius,
      };
    }

    function tray(id: 'base' | 'lid', title: string, inner: Heart, tall: number) {
      const middle = grown(inner, 1.5 * t);
      const { half, straight, sweep, cleft } = heartParts(middle);
      const curl = { length: middle.radius * sweep, turn: sweep };
      // Clear of the teeth on the other side of the cleft.
      const teethOver = Math.max(0.9 * curl.length, curl.length - 1.5);
      const teeth = teethFor(teethOver, middle.radius, values);
      const reach = Math.hypot(middle.radius, teeth.width / 2) - middle.radius;
      const flat = grown(middle, Math.max(reach, t / 2));
      const onto = { net: id, panel: 'heart' };
      // Where the wall's end meets the lap's plane, a thickness inside the other side.
      const short = t / Math.sin(2 * half);
      const lapMost = 0.7 * straight;
      const deep = auto(values.lap, 12, lapMost);
      atMost('lap', deep, lapMost, 'what the straight side holds', 'make the lap shorter');
      const tipInset = short + Math.max(1, 2 * t);
      atMost(
        'thickness',
        t,
        (straight - LEAST_TAB - 1) / (1 / Math.sin(2 * half) + 2),
        'or the straight sides have no room for a tab',
        'use thinner paper, or make the heart larger',
      );

      const wall = (net: NetBuilder, high: number) => {
        const [first, second] = id === 'base' ? ['left', 'right'] : ['right', 'left'];
        const up = net.root(first!, 'wall', {
          ...rect(straight + curl.length, high),
          bend: { from: [straight, 0], across: [1, 0], stretches: [curl] },
        });
        toothed(net, up.side('foot'), straight, teeth, onto, `${first}-tooth`);
        const down = net.fold(
          up.side('right'),
          second!,
          'wall',
          (w): Shape => ({
            ...rect(w, curl.length + straight - short),
            bend: { from: [0, 0], across: [0, 1], stretches: [curl] },
          }),
          { angle: cleft },
        );
        toothed(net, down.side('right'), curl.length - teethOver, teeth, onto, `${second}-tooth`);
        tab(net, up, 'foot', tipInset, straight, 'start');
        tab(net, down, 'right', curl.length, curl.length + straight - tipInset, 'end');
        const end = net.fold(
          down.side('head'),
          'lap',
          'glue-flap',
          w => rect(w, deep, Math.min(2, deep / 4, w / 4)),
          // Clear of the tab below.
          { angle: Math.PI - 2 * half, inset: [0, t] },
        );
        net.glue(end, up);
        net.meet(up.side('left'), down.side('head'), short);
        return standing();
      };

      /** The first half of the wall stands to the left of the tip in a base, to the right in a lid. */
      function standing() {
        const side = id === 'base' ? 1 : -1;
        const along = (straight + curl.length) / 2;
        const turned = Math.max(0, along - straight) / middle.radius;
        return {
          at: [(-side * (middle.apart + middle.radius)) / 2, middleOf(middle)] as const,
          turn: Math.PI / 2 + side * (half - turned),
        };
      }

      /** A tab along a straight side; at the tip it leans away from the other one. */
      function tab(
        net: NetBuilder,
        on: Face,
        side: string,
        from: number,
        to: number,
        tipAt: 'start' | 'end',
      ) {
        const atTip = Math.PI / 2 - half + radians(3);
        const most = (to - from - 1) / (Math.tan(atTip) + Math.tan(LEAN));
        const depth = Math.min(teeth.depth, most);
        const mitre = tipAt === 'start' ? ([LEAN, atTip] as const) : ([atTip, LEAN] as const);
        const made = net.fold(part(on.side(side), from, to), `${on.id}-tab`, 'glue-flap', w =>
          flap(w, depth, { mitre }),
        );
        net.seat(made, onto.net, onto.panel);
      }

      return curledTray({
        id,
        title,
        t,
        tall,
        top: floorOf(values.lining, t) + height,
        flat: flatPiece(flat),
        ...(values.lining && { lining: flatPiece(grown(inner, t > 0 ? -LAID_IN_MM : 0)) }),
        panel: 'heart',
        wall,
      });
    }
  },
});

/** Width over length of a heart that pleases. */
const PROPORTION = 0.925;

/** The heart in whose middle an upright block goes in: in a round that clears cleft and sides. */
function aroundBlock({ length, width, height }: Inside): Inside {
  const radius = 1 / (2 * (1 + LOBES));
  const heart = { radius, apart: LOBES * radius, tip: PROPORTION - radius };
  const middle = radius - PROPORTION / 2;
  const cleft = Math.sqrt(heart.radius ** 2 - heart.apart ** 2);
  const clear = Math.min(cleft - middle, (middle + heart.tip) * Math.sin(heartParts(heart).half));
  const across = Math.hypot(length, width) / (2 * clear);
  return { length: across, width: PROPORTION * across, height };
}
