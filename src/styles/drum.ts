import { defineStyle } from '../contracts.js';
import { circle } from '../geom/index.js';
import type { Net } from '../model.js';
import { atMost, auto } from './bounds.js';
import { newNet } from './build.js';
import { lap, strip, TEETH_PARAMS, teethFor, toothed } from './curled-wall.js';
import { slideEase } from './ease.js';
import { checkedRound } from './ngon.js';

/** How much smaller than the clear round its lining is, on each side, mm: to lay it in. */
const LAID_IN = 0.25;

/**
 * Two round trays of a strip and a disc, the lid over the base. The strip's end lies inside its
 * beginning, so the strip closes a thickness inside where it began: half a circle of the outer radius,
 * then half a circle of a radius half a thickness smaller. Teeth are folded in and lie on the disc.
 */
export const drum = defineStyle({
  id: 'drum',
  summary: 'Round box: toothed strips round two discs, the lid over the base',
  tags: ['two piece', 'round', 'curled wall', 'ECMA group D?'],
  example: { length: 70, width: 70, height: 40 },
  plan: 'round',
  room: { lies: false },
  params: {
    lidHeight: {
      kind: 'length',
      default: 'auto',
      least: 5,
      most: 2000,
      help: 'How far the lid reaches down; auto is a third of the height, 12 mm at least.',
    },
    ease: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 3,
      help: 'Room between lid and base on each side; auto is one paper thickness, 0.25 to 0.5 mm.',
    },
    ...TEETH_PARAMS,
    lap: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 60,
      help: 'How far the ends of a strip lie over each other; auto is 12 mm, less on a small box.',
    },
    lining: {
      kind: 'flag',
      default: true,
      help: 'A second disc inside base and lid, over the teeth.',
    },
  },
  build(spec, values) {
    const { diameter, height, t } = checkedRound(spec);
    const { lining } = values;
    const ease = slideEase(values.ease, t);
    const lidHeight = auto(values.lidHeight, Math.max(height / 3, 12), height);
    atMost('lidHeight', lidHeight, height, 'the height of the base', 'make the lid lower');
    // From the teeth's middle to the face of what lies on them.
    const floor = lining ? 1.5 * t : t / 2;

    const base = tray('base', 'Base', diameter, height, 0);
    const over = diameter + 4 * t + 2 * ease;
    // The lid's teeth, or their lining, lie on the rim of the base.
    const rim = t + floor + height;
    return [...base, ...tray('lid', 'Lid', over, lidHeight, rim)];

    /** Disc, wall and lining; a lid's wall ends at the height said, less what it reaches down. */
    function tray(
      id: 'base' | 'lid',
      title: string,
      inner: number,
      tall: number,
      rim: number,
    ): Net[] {
      const isLid = id === 'lid';
      const outer = inner / 2 + t;
      const inward = outer - t / 2;
      const halves = [outer, inward].map(r => ({ length: Math.PI * r, turn: Math.PI }));
      const girth = Math.PI * (outer + inward);
      const teeth = teethFor(girth, inward, values);
      // Under the corners of the teeth, which stand out a little from the round, and the wall.
      const disc = Math.max(Math.hypot(outer, teeth.width / 2), outer + t / 2);
      const up = isLid ? -1 : 1;
      /** The height at which a layer stands, so many thicknesses from the disc toward the inside. */
      const level = (n: number) => (isLid ? rim + floor + t - n * t : n * t);

      const flat = newNet(id, title, t);
      const shape = circle([0, 0], disc);
      flat.root('disc', isLid ? 'lid' : 'base', { outline: shape, sides: {} });
      const stands = isLid ? { height: level(0) } : {};

      const wall = newNet(`${id}-wall`, `${title}: wall`, t);
      const around = wall.root('wall', 'wall', strip(tall + floor, halves));
      const foot = around.side('foot');
      toothed(wall, foot, 0, teeth, { net: id, panel: 'disc' });
      const lapMost = Math.min(girth / 4, Math.PI * outer - 1);
      const deep = atMost(
        'lap',
        auto(values.lap, 12, lapMost),
        lapMost,
        'a quarter of the strip',
        'make the lap shorter',
      );
      // Clear of the teeth below.
      const end = wall.fold(
        around.side('right'),
        'lap',
        'glue-flap',
        w => lap(w, deep, outer - t),
        { angle: 0, soft: true, inset: [0, t] },
      );
      wall.glue(end, around);
      wall.meet(around.side('left'), around.side('right'), t);
      const nets = [
        flat.done([0, 0, up], stands),
        wall.done([0, up, 0], { height: isLid ? rim - tall : level(1) }),
      ];
      if (lining) {
        const inside = newNet(`${id}-lining`, `${title}: lining`, t);
        const shape = circle([0, 0], inner / 2 - (t > 0 ? LAID_IN : 0));
        const panel = inside.root('lining', 'insert', { outline: shape, sides: {} });
        inside.seat(panel, id, 'disc', 2 * t);
        nets.push(inside.done([0, 0, up], { height: level(2) }));
      }
      return nets;
    }
  },
});
