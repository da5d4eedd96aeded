import { defineStyle } from '../contracts.js';
import { atLeast, atMost, auto, checkedSize, radians } from './bounds.js';
import { type Face, newNet } from './build.js';
import { deepestFlap, flap, notched, polygonShape, rect, type Shape } from './shapes.js';
import { TUCK_PARAMS } from './tuck-end.js';

/** Tabs and ears lean in by this (common practice, no source). */
const MITRE = radians(15);
/** Ears lean away from the tuck flap by this, so that it can be bent in while the lid closes. */
const EAR = radians(35);
/** Paper left beside and between cuts, mm. */
const WEB = 2;
/** An inner wall turns in over the base: a higher one strikes the wall across, bend it as you may. */
const MOST_HEIGHT = 1.2;
/** Room round a foot of the inner walls: beside its paper and along it, mm (check-values 2.3). */
const BESIDE = 0.2;
const ALONG = 0.5;

/**
 * The side walls roll over: outer wall, corner tabs of front and back, inner wall stand a thickness
 * apart. The inner walls stand with a foot at either end in the corners of the base, so that nothing
 * is glued. The lid hangs on the back; its ears go inside the inner walls, its tuck flap inside the
 * front.
 */
export const tuckTray = defineStyle({
  id: 'tuck-tray',
  summary: 'One-piece tray with double side walls and a lid that tucks in, no glue',
  tags: ['tray', 'one piece', 'hinged lid', 'roll-over walls', 'FEFCO 0426?', 'FEFCO 0427?'],
  example: { length: 90, width: 65, height: 25 },
  room: { lies: false },
  params: {
    tuck: {
      kind: 'length',
      default: 'auto',
      least: 4,
      most: 100,
      help: 'Depth of the tuck flap; auto is two thirds of the height, from 8 to 20 mm.',
    },
    ears: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 100,
      help: 'Depth of the side ears of the lid; auto is as the tuck flap, 0 is none.',
    },
    tab: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 200,
      help: 'Depth of the corner tabs between the side walls; auto is 25 mm where they do not meet.',
    },
    foot: {
      kind: 'length',
      default: 1,
      least: 0,
      most: 10,
      help: 'How far the feet of the inner walls reach through the base; 0 ends level with it.',
    },
    corner: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 50,
      help: 'Radius of the corners of the tuck flap; auto is half its depth, 8 mm at most.',
    },
    ease: TUCK_PARAMS.ease,
    notch: TUCK_PARAMS.notch,
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const m = measures();
    // Crease to crease. Between them at each side: corner tab, inner wall and ear; the tuck flap.
    const long = length + (m.ears > 0 ? 7 : 5) * t;
    const wide = width + 2 * t;
    // The lid lies between its ears, or on the side walls.
    const rise = height + t;
    const sideRise = m.ears > 0 ? rise : height;

    const net = newNet('box', 'Tuck tray', t);
    const gap = 2.5 * t + BESIDE;
    const run = t + m.footWidth + ALONG;
    const base = net.root('base', 'base', cornered(long, wide, gap, run));
    const front = net.fold(
      base.side('foot'),
      'front',
      'wall',
      w => (m.notch > 0 ? notched(rect(w, rise), 'head', m.notch) : rect(w, rise)),
      { inset: t - gap },
    );
    const back = net.fold(base.side('head'), 'back', 'wall', w => rect(w, rise), {
      inset: t - gap,
    });
    const inner = (side: 'left' | 'right') => {
      const outer = net.fold(base.side(side), side, 'wall', w => rect(w, sideRise), {
        inset: -run,
      });
      const made = net.fold(
        outer.side('head'),
        `${side}-inner`,
        'wall',
        w => footed(w, sideRise - t, 1.5 * t + values.foot, m.footWidth),
        { angle: Math.PI, lift: 2 * t, inset: t },
      );
      return { outer, inner: made };
    };
    const [left, right] = [inner('left'), inner('right')];
    const tab = (wall: Face, side: 'left' | 'right', onto: Face) => {
      // Clear of the base below and of the roll above.
      const [low, high] = [t, rise - sideRise + 2 * t];
      const made = net.fold(
        wall.side(side),
        `${wall.id}-${onto.id}-tab`,
        'gusset',
        w => flap(w, m.tab, { mitre: MITRE }),
        { inset: side === 'left' ? [low, high] : [high, low] },
      );
      net.tuck(made, onto);
    };
    // A wall is seen with the base below it: the front's left is at the box's right.
    tab(front, 'left', right.outer);
    tab(front, 'right', left.outer);
    tab(back, 'left', left.outer);
    tab(back, 'right', right.outer);

    // Between the inner walls with its ears, or as wide as the back.
    const lid = net.fold(back.side('head'), 'lid', 'lid', w => rect(w, wide - t), {
      inset: m.ears > 0 ? 2 * t : 0,
    });
    const tuck = net.fold(
      lid.side('head'),
      'tuck',
      'tuck-flap',
      w => flap(w, m.tuck, { round: m.corner }),
      { inset: m.ease + (m.ears > 0 ? 0 : 2 * t) },
    );
    net.tuck(tuck, front);
    if (m.ears > 0) {
      const ear = (side: 'left' | 'right', beside: Face) => {
        const made = net.fold(
          lid.side(side),
          `${side}-ear`,
          'dust-flap',
          w => flap(w, m.ears, { mitre: side === 'left' ? [MITRE, EAR] : [EAR, MITRE], soft: 3 }),
          { inset: 2 * t },
        );
        net.tuck(made, beside);
      };
      // The lid is seen with the back below it: its left is the box's left, the tuck flap above.
      ear('left', left.inner);
      ear('right', right.inner);
    }
    return [net.done()];

    function measures() {
      atLeast('height', height, 6 * t + 3, 'or the side walls cannot roll over', 'make it higher');
      atMost(
        'height',
        height,
        MOST_HEIGHT * length,
        `${MOST_HEIGHT} times the length, or the side walls cannot roll over between each other`,
        'make the box longer or less high',
      );
      // What reaches through the base makes the wall that turns in no lower.
      atMost(
        'foot',
        values.foot,
        Math.max(1, MOST_HEIGHT * length - height),
        'or the inner walls strike the wall across',
        'make the feet shorter or the box longer',
      );
      const mostTuck = height - 1;
      const tuckDepth = auto(values.tuck, Math.min(Math.max((2 * height) / 3, 8), 20), mostTuck);
      atMost('tuck', tuckDepth, mostTuck, 'or it strikes the base', 'make the tuck flap smaller');
      const mostEars = Math.min(
        height - 1,
        (width - 3 * t - WEB) / (Math.tan(MITRE) + Math.tan(EAR)),
      );
      const ears = auto(values.ears, tuckDepth, mostEars);
      atMost(
        'ears',
        ears,
        mostEars,
        'or they strike the base or run to a point',
        'make the ears smaller or the box higher',
      );
      const tabFoot = height - 3 * t;
      const mostTab = Math.min((width - 1) / 2, deepestFlap(tabFoot, MITRE, WEB));
      const tabDepth = auto(values.tab, 25, mostTab);
      atMost(
        'tab',
        tabDepth,
        mostTab,
        'or the tabs meet or run to a point',
        'make the tabs smaller, or the box wider or higher',
      );
      atMost(
        'ease',
        values.ease,
        (length - WEB) / 2 - t,
        'or no tuck flap is left',
        'make the ease smaller or the box longer',
      );
      const ease = values.ease + t / 2;
      const span = length - t - 2 * ease;
      const corner = auto(values.corner, 8, Math.min(tuckDepth / 2, span / 4));
      const mostCorner = Math.min(tuckDepth, span / 2) * 0.95;
      atMost(
        'corner',
        corner,
        mostCorner,
        'or the tuck flap has no edge left',
        'make the radius smaller',
      );
      const mostNotch = Math.min(tuckDepth - WEB, length / 2 - WEB);
      const notch = auto(values.notch, 10, Math.min(mostNotch, length / 5));
      atMost(
        'notch',
        notch,
        mostNotch,
        'or it shows an opening behind the tuck flap',
        'make the notch smaller or the tuck flap deeper',
      );
      const footWidth = Math.min(10, width / 5);
      return { tuck: tuckDepth, ears, tab: tabDepth, ease, corner, notch, footWidth };
    }
  },
});

/** A base with its corners cut out by `x` and `y`, for the feet that stand in them. */
function cornered(long: number, wide: number, x: number, y: number): Shape {
  return polygonShape([
    { at: [x, 0], side: 'foot' },
    { at: [long - x, 0] },
    { at: [long - x, y] },
    { at: [long, y], side: 'right' },
    { at: [long, wide - y] },
    { at: [long - x, wide - y] },
    { at: [long - x, wide], side: 'head' },
    { at: [x, wide] },
    { at: [x, wide - y] },
    { at: [0, wide - y], side: 'left' },
    { at: [0, y] },
    { at: [x, y] },
  ]);
}

/** An inner wall, upside down as it hangs on the outer one, with a foot at either end. */
function footed(width: number, rise: number, foot: number, wide: number): Shape {
  const tip = rise + foot;
  const round = Math.min(1, foot / 3, wide / 4);
  if (!(foot > 0)) return rect(width, rise);
  return polygonShape([
    { at: [0, 0], side: 'foot' },
    { at: [width, 0] },
    { at: [width, tip], round },
    { at: [width - wide, tip], round },
    { at: [width - wide, rise] },
    { at: [wide, rise] },
    { at: [wide, tip], round },
    { at: [0, tip], round },
  ]);
}
