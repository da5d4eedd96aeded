/** Folds: tabs that hang on folds of many dashes and gaps, and one that is scored. */
import { line, openPath, rectangle } from '../geom/index.js';
import type { Stroke } from '../model.js';
import { border, type CardAsk, cutOf, defineCard, mm, type OwnLines, words } from './card.js';

const DASHES = [1, 2, 3];
const GAPS = [0.5, 1, 1.5, 2];
const HEAD_MM = 20;
const SLOT_MM = 3;

export const fold = defineCard({
  id: 'fold',
  summary: 'folds: tabs on folds of many dashes and gaps, beside a scored one',
  params: {
    tab: { kind: 'length', default: 11, least: 6, most: 30, help: 'width of each tab' },
    length: { kind: 'length', default: 22, least: 10, most: 60, help: 'length of each tab' },
  },
  build({ tab, length }, ask: CardAsk) {
    const edge = border(ask);
    const low = edge + SLOT_MM;
    const hinge = low + length;
    const kinds = [undefined, ...GAPS.flatMap(gap => DASHES.map(dash => ({ dash, gap })))];
    const strokes: Stroke[] = [];
    const own: OwnLines[] = [];
    const whole = kinds.length * tab + (kinds.length + 1) * SLOT_MM;
    strokes.push(cutOf(rectangle(edge, low - SLOT_MM, whole, length + SLOT_MM + HEAD_MM)));
    for (const [i, kind] of kinds.entries()) {
      const x = edge + SLOT_MM + i * (tab + SLOT_MM);
      // Cut round three sides; the fourth is the fold.
      const sides = openPath(
        [x, hinge],
        [line([x, low]), line([x + tab, low]), line([x + tab, hinge])],
      );
      strokes.push(cutOf(sides));
      const across = openPath([x, hinge], [line([x + tab, hinge])]);
      const middle = x + tab / 2;
      if (kind) {
        own.push({ operation: 'perforate', paths: [across], dashes: kind });
        strokes.push(
          ...words(ask, mm(kind.dash), [middle, hinge + 9.5]),
          ...words(ask, mm(kind.gap), [middle, hinge + 4]),
        );
      } else {
        strokes.push({ operation: 'score', path: across });
        strokes.push(...words(ask, 'score', [middle, hinge + 6.5], 2.2));
      }
    }
    strokes.push(...words(ask, 'dash over gap, mm', [edge + whole / 2, hinge + 14.5], 2.6));
    return {
      width: whole + 2 * edge,
      height: length + HEAD_MM + 2 * edge + SLOT_MM,
      strokes,
      own,
      read: [
        'Cut it from the card that you fold most, once along its grain and once across.',
        'The tab at the left is on your cutter’s own fold. On the others the upper number is the length cut through and the lower one the paper left between, in mm.',
        'Fold each tab to and fro a few times. Take the one that folds straight where the line is, stands where you leave it, and does not begin to tear.',
        `Write it into a cutter of your own: \`foldwright cutter new mine --like ${ask.cutter.id} --folds perforation --dash 2mm --gap 1.5mm\``,
        'A fold that is seen or carries weight wants more paper left; thick card wants more cut.',
      ],
    };
  },
});
