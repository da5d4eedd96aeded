/** Print, then cut: printed scales, and squares cut in their middles. */
import { line, openPath } from '../geom/index.js';
import type { Path, Point, Stroke } from '../model.js';
import { type CardAsk, cutOf, defineCard, squareAt } from './card.js';

/** Half of the side of the squares that are cut, and how far the printed scale reaches from there. */
const HALF_MM = 6;
const REACH_MM = 2;
const STEP_MM = 0.5;

export const registration = defineCard({
  id: 'registration',
  summary: 'print, then cut: printed scales that tell how far a cut misses, and where',
  params: {
    across: { kind: 'count', default: 3, least: 2, most: 5, help: 'targets across the sheet' },
    up: { kind: 'count', default: 3, least: 2, most: 6, help: 'targets up the sheet' },
  },
  build({ across, up }, ask: CardAsk) {
    const { width, height } = ask.stock;
    const lines: Path[] = [];
    const strokes: Stroke[] = [];
    // Clear of the marks at the border and the captions between them.
    const inset = Math.max(ask.cutter.margin, 8) + 24;
    for (let i = 0; i < across; i++) {
      for (let k = 0; k < up; k++) {
        const at: Point = [
          inset + (i * (width - 2 * inset)) / (across - 1),
          inset + (k * (height - 2 * inset)) / (up - 1),
        ];
        strokes.push(cutOf(squareAt(at, 2 * HALF_MM)));
        lines.push(...target(at));
      }
    }
    return {
      width,
      height,
      strokes,
      own: [],
      printed: { lines, width: 0.15 },
      read: [
        'Print the PDF at actual size, measure its bar, and lay the print on the mat as you always do. Then cut the file of the same name.',
        'Round each square stand four printed scales, a line every half millimetre; the long line in the middle is where the cut should run. Count the lines between: that is the miss, on that side.',
        'The same miss the same way in all squares: the sheet lay off. It grows from one side to the other: the print is a little large or small, or lay askew. `foldwright align` puts all of that right in the next file.',
        'If it misses in no order at all, the sheet moved while it was cut: a fresh mat, or tape at its corners.',
      ],
    };
  },
});

/** Scales across the four sides of a square, longer at the side itself. */
function target([x, y]: Point): Path[] {
  const found: Path[] = [];
  const steps = Math.round(REACH_MM / STEP_MM);
  for (const [ux, uy] of [
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
  ] as const) {
    for (let s = -steps; s <= steps; s++) {
      const far = HALF_MM + s * STEP_MM;
      const half = s === 0 ? 3 : s % 2 === 0 ? 1.6 : 1;
      const middle: Point = [x + ux * far, y + uy * far];
      found.push(
        openPath(
          [middle[0] - uy * half, middle[1] + ux * half],
          [line([middle[0] + uy * half, middle[1] - ux * half])],
        ),
      );
    }
  }
  return found;
}
