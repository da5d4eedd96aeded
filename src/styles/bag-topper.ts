import { defineStyle } from '../contracts.js';
import { arcTo, closedPath, line, rotation } from '../geom/index.js';
import type { Path, Point } from '../model.js';
import { atLeast, atMost, auto, checkedSize } from './bounds.js';
import { newNet } from './build.js';
import { arcHead, arcRise, arcSweep } from './curves.js';
import { moveShape, rect, type Shape } from './shapes.js';

/** A bag's top of this thickness or more lies under a strip between two folds, mm: nearer scores tear
 *  (common practice, no source). */
const STRIP_FROM = 2;
/** Paper left round a hole and beside rounded corners, mm. */
const WEB = 3;
/** A scallop turns by this. */
const SCALLOP = (2 * Math.PI) / 3;

/** A card folded over the closed top of a bag and stapled through it, with a hole to hang it by. */
export const bagTopper = defineStyle({
  id: 'bag-topper',
  summary: 'Header card folded over a bag; inside is the width of the bag and its top',
  tags: ['header card', 'bag topper', 'one piece', 'ECMA group X?'],
  example: { length: 90, width: 1, height: 45 },
  params: {
    over: {
      kind: 'length',
      default: 2,
      least: 0,
      most: 100,
      help: 'How far the card reaches past the bag on each side.',
    },
    edge: {
      kind: 'choice',
      default: 'scalloped',
      choices: ['straight', 'scalloped', 'arched'],
      help: 'Its lower edge, alike on both sides.',
    },
    scallop: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 200,
      help: 'Width of a scallop, or a little less so that they come out even; auto is 13 mm.',
    },
    corner: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 50,
      help: 'Radius of the lower corners of a straight edge; auto is 4 mm where it fits.',
    },
    hole: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 50,
      help: 'Diameter of the hole to hang it by, through both sides; auto is 6 mm, 0 is none.',
    },
    slot: {
      kind: 'length',
      default: 'auto',
      least: 2,
      most: 100,
      help: 'Length of the hole across the card, for a slot; auto is as its diameter, round.',
    },
  },
  build(spec, values) {
    // The bag's top is a few films thick: a width of nothing is one that lies flat.
    const { length, width, height, t } = checkedSize(spec, { width: 0 });
    const wide = length + 2 * values.over;
    const strip = width >= STRIP_FROM;
    // The two sides' middles; of a fold right over, the arc between them has its middle at the fold.
    const apart = width + t;
    const tall = height + (strip ? t / 2 : (Math.PI / 4) * apart - width / 2);
    const half = { ...edged(wide), holes: hanging() };

    const net = newNet('topper', 'Bag topper', t);
    const front = net.root('front', 'wall', upsideDown(half, wide, tall));
    const over = strip ? net.fold(front.side('head'), 'top', 'lid', w => rect(w, apart)) : front;
    const fold = strip ? {} : { angle: Math.PI, lift: apart };
    const back = net.fold(over.side('head'), 'back', 'wall', half, fold);
    net.meet(front.side('foot'), back.side('head'), apart);
    return [net.done([0, 1, 0])];

    /** One side, hanging upward from its fold. */
    function edged(w: number): Shape {
      if (values.edge === 'straight') {
        const most = Math.min(w / 2, tall) - WEB;
        const corner = auto(values.corner, 4, most / 2);
        atMost('corner', corner, most, 'or the card has no edge left', 'make the radius smaller');
        return rect(w, tall, corner);
      }
      if (values.edge === 'arched') {
        const rise = Math.min(tall / 4, w / 6);
        return arcHead(w, tall - rise, 1, arcSweep(w, rise));
      }
      // A scallop may be half as high as the card.
      const most = Math.min(w, tall / (2 * arcRise(1, SCALLOP)));
      const scallop = auto(values.scallop, 13, most);
      atMost(
        'scallop',
        scallop,
        most,
        'or the scallops are higher than half of the card',
        'make the scallops narrower or the card higher',
      );
      const count = Math.ceil(w / scallop);
      const rise = arcRise(w / count, SCALLOP);
      return arcHead(w, tall - rise, count, SCALLOP);
    }

    function hanging(): Path[] {
      const most = Math.min(tall / 3, wide - 2 * WEB);
      const hole = auto(values.hole, 6, most);
      if (hole === 0) return [];
      atMost(
        'hole',
        hole,
        most,
        'a third of the height, and inside the card',
        'make the hole smaller or the card larger',
      );
      const long = auto(values.slot, hole);
      atLeast('slot', long, hole, 'the diameter of the hole', 'make the slot longer');
      atMost('slot', long, wide - 2 * WEB, 'inside the card', 'make the slot shorter');
      return [obround([wide / 2, Math.max(hole / 2 + WEB, tall / 5)], long, hole)];
    }
  },
});

/** A slot with round ends; a circle where it is no longer than high. */
function obround([x, y]: Point, long: number, high: number): Path {
  const [r, d] = [high / 2, (long - high) / 2];
  const round = (to: Point) => arcTo(to, Math.PI);
  return closedPath(
    [x - d, y - r],
    [
      ...(d > 0 ? [line([x + d, y - r])] : []),
      round([x + d, y + r]),
      ...(d > 0 ? [line([x - d, y + r])] : []),
      round([x - d, y - r]),
    ],
  );
}

/** With its fold on top. */
function upsideDown(shape: Shape, width: number, height: number): Shape {
  const turned = moveShape(shape, rotation(Math.PI));
  const { foot, head, left, right } = turned.sides as Record<
    'foot' | 'head' | 'left' | 'right',
    Path
  >;
  const sides = { foot: head, head: foot, left: right, right: left };
  return moveShape({ ...turned, sides }, [1, 0, 0, 1, width, height]);
}
