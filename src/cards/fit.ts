/** Slots of rising width, and a tongue of the same card to try in them. */
import { polygon, rectangle } from '../geom/index.js';
import type { Point, Stroke } from '../model.js';
import { border, type CardAsk, cutOf, defineCard, mm, words } from './card.js';

const COUNT = 10;
const DEEP_MM = 14;
const PITCH_MM = 12;

export const fit = defineCard({
  id: 'fit',
  summary: 'slots: a comb of rising widths, and a tongue to try in them',
  params: {
    thickness: {
      kind: 'length',
      default: 'auto',
      least: 0.05,
      most: 3,
      help: 'of the paper; auto is that of the stock',
    },
    step: { kind: 'length', default: 0.1, least: 0.02, most: 0.5, help: 'from slot to slot' },
  },
  build({ thickness, step }, ask: CardAsk) {
    const t = thickness === 'auto' ? ask.stock.caliper : thickness;
    const edge = border(ask);
    const widths = Array.from({ length: COUNT }, (_, k) => t + k * step);
    const wide = PITCH_MM * COUNT + 4;
    const low = edge;
    const high = low + DEEP_MM + 14;
    // One outline, open slots from below.
    const bottom: Point[] = widths.flatMap((w, k): Point[] => {
      const x = edge + 8 + k * PITCH_MM;
      return [
        [x - w / 2, low],
        [x - w / 2, low + DEEP_MM],
        [x + w / 2, low + DEEP_MM],
        [x + w / 2, low],
      ];
    });
    const comb = polygon([
      [edge, low],
      ...bottom,
      [edge + wide, low],
      [edge + wide, high],
      [edge, high],
    ]);
    const strokes: Stroke[] = [cutOf(comb)];
    for (const [k, w] of widths.entries()) {
      strokes.push(...words(ask, mm(w - t), [edge + 8 + k * PITCH_MM, low + DEEP_MM + 4]));
    }
    strokes.push(
      ...words(ask, `slot wider than ${mm(t)} mm by, mm`, [edge + wide / 2, high - 4.5], 2.6),
    );
    const from = high + 5;
    strokes.push(cutOf(rectangle(edge, from, 2.2 * DEEP_MM, 2 * DEEP_MM)));
    strokes.push(...words(ask, 'tongue', [edge + 1.1 * DEEP_MM, from + DEEP_MM - 1.3], 2.6));
    return {
      width: wide + 2 * edge,
      height: from + 2 * DEEP_MM + edge,
      strokes,
      own: [],
      read: [
        'Cut both pieces from one sheet. Try an edge of the tongue in each slot, the narrowest first: it is at the left.',
        'The first slot that takes it without bending the card, and still holds it when you turn the comb over, is your clearance: the number over it.',
        'Give it to dividers and sleeves, as `params: { clearance: 0.2mm }` where a style has one (`foldwright show style divider`).',
        'If even the widest is tight, the paper is thicker than its preset says: measure ten sheets together, divide by ten, and write `caliper:` into a stock of your own.',
      ],
    };
  },
});
