/** Size: a square of a known length, with ticks. */
import { line, openPath, rectangle } from '../geom/index.js';
import type { Point, Stroke } from '../model.js';
import { border, type CardAsk, cutOf, defineCard, mm, words } from './card.js';

const INCH = 25.4;
/** Units to the inch that programs take a drawing's numbers for, where they do not read its own. */
const RESOLUTIONS = [72, 90, 96];

export const scale = defineCard({
  id: 'scale',
  summary: 'the size: a square of known length, to be measured on paper',
  params: {
    size: { kind: 'length', default: 100, least: 40, most: 250, help: 'side of the square' },
  },
  build({ size }, ask: CardAsk) {
    const edge = border(ask);
    const low = edge + 2;
    const left = edge + 2;
    const strokes: Stroke[] = [cutOf(rectangle(left, low, size, size))];
    const tick = (from: Point, to: Point) =>
      strokes.push({ operation: 'draw', path: openPath(from, [line(to)]) });
    for (let k = 10; k < size; k += 10) {
      const long = k % 50 === 0 ? 5 : 3;
      tick([left + k, low + 1], [left + k, low + 1 + long]);
      tick([left + 1, low + k], [left + 1 + long, low + k]);
    }
    for (let k = 1; k * INCH < size; k++) {
      tick([left + k * INCH, low + size - 1], [left + k * INCH, low + size - 5]);
      tick([left + size - 1, low + k * INCH], [left + size - 5, low + k * INCH]);
    }
    const middle = low + size / 2;
    strokes.push(
      ...words(ask, `${mm(size)} mm`, [left + size / 2, middle + 4], 5),
      ...words(ask, `${mm(size / INCH)} in`, [left + size / 2, middle - 8], 5),
      ...words(ask, 'every 10 mm', [left + size / 2, low + 8], 2.6),
      ...words(ask, 'every inch', [left + size / 2, low + size - 10], 2.6),
    );
    const told = (ratio: number) => `${mm(size * ratio)} mm`;
    const wrong = RESOLUTIONS.flatMap(a =>
      RESOLUTIONS.filter(b => b !== a).map(
        b => `${told(a / b)}: made for ${a} units an inch, read as ${b}`,
      ),
    );
    return {
      width: size + 2 * edge + 4,
      height: size + 2 * edge + 4,
      strokes,
      own: [],
      read: [
        `Cut it, lay a ruler along both ways of the square, and measure. It should be ${told(1)} each way, to half a millimetre.`,
        `Nearly right, but not quite (${told(0.995)}, say): the machine slips or stretches. Its own calibration is the place for that, never a scaled file.`,
        `Right one way and wrong the other: the sheet slipped on the mat, or the machine’s two axes differ.`,
        `Plainly wrong: your software read the drawing’s numbers in another unit. ${RESOLUTIONS.map(r => `${told(INCH / r)}: it takes a millimetre for a unit of ${r} to the inch`).join('; ')}; ${told(INCH)}: it takes a millimetre for an inch.`,
        `And by the unit that other drawings were made for: ${wrong.join('; ')}.`,
        'Set the import to millimetres, or to scale 1 : 1; if it has no such setting, import the DXF.',
      ],
    };
  },
});
