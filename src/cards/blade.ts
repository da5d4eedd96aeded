/** The blade: shapes cut with a row of offsets, squares with a row of overcuts. */
import { circle, polygon } from '../geom/index.js';
import type { Path, Point, Stroke } from '../model.js';
import { ParamError } from '../params.js';
import {
  border,
  type CardAsk,
  defineCard,
  inSteps,
  mm,
  type OwnLines,
  squareAt,
  words,
} from './card.js';

const MOST_STEPS = 21;
const COLUMNS = 3;
const LABEL_MM = 9;
const SPACE_MM = 3;
/** Overcuts that are tried at the cutter's own offset. */
const OVERCUTS = [0.1, 0.3, 0.5, 0.75, 1];

/** Five points as sharp as a star's on a card are. */
function star([x, y]: Point, radius: number): Path {
  return polygon(
    Array.from({ length: 10 }, (_, k): Point => {
      const r = k % 2 === 0 ? radius : radius * 0.42;
      const a = Math.PI / 2 + (k * Math.PI) / 5;
      return [x + r * Math.cos(a), y + r * Math.sin(a)];
    }),
  );
}

export const blade = defineCard({
  id: 'blade',
  summary: "the blade's offset and overcut: squares, circles and stars cut with a row of each",
  params: {
    from: { kind: 'length', default: 0, least: 0, most: 2, help: 'the least offset' },
    to: { kind: 'length', default: 1, least: 0, most: 2, help: 'the largest offset' },
    step: { kind: 'length', default: 0.1, least: 0.01, most: 1, help: 'from one to the next' },
    size: { kind: 'length', default: 8, least: 5, most: 20, help: 'of each shape' },
  },
  build({ from, to, step, size }, ask: CardAsk) {
    const count = Math.round((to - from) / step) + 1;
    if (!(to >= from && count <= MOST_STEPS)) {
      throw new ParamError(
        'step',
        step,
        `at most ${MOST_STEPS} offsets, from the least to the largest: these are ${Math.max(0, count)}`,
        'take a larger step, or "to" above "from"',
      );
    }
    const offsets = inSteps(from, to, step);
    const edge = border(ask);
    const cell = LABEL_MM + 3 * (size + SPACE_MM) + SPACE_MM;
    const row = size + SPACE_MM;
    const rows = Math.ceil(offsets.length / COLUMNS);
    const nested = 1.6 * size;
    const width = 2 * edge + COLUMNS * cell;
    const height = 2 * edge + rows * row + nested + 20;
    const top = height - edge;
    const drawn: Stroke[] = words(ask, 'offset, mm', [edge, top - 3], 3, 'left');
    const own: OwnLines[] = offsets.map((offset, i) => {
      const x = edge + (i % COLUMNS) * cell + LABEL_MM;
      const y = top - 6 - row * Math.floor(i / COLUMNS) - row / 2;
      drawn.push(...words(ask, mm(offset), [x - 2, y - 1.3], 2.6, 'right'));
      const at = (k: number): Point => [x + size / 2 + k * (size + SPACE_MM), y];
      return {
        operation: 'cut',
        paths: [squareAt(at(0), size), circle(at(1), size / 2), star(at(2), size / 2)],
        blade: { offset, overcut: ask.cutter.blade.overcut },
      };
    });
    const low = edge + nested / 2 + 4;
    const { offset } = ask.cutter.blade;
    drawn.push(
      ...words(ask, `overcut, mm, at ${mm(offset)}`, [edge, low + nested / 2 + 2.5], 3, 'left'),
    );
    const gap = (width - 2 * edge - OVERCUTS.length * nested) / (OVERCUTS.length - 1);
    for (const [i, overcut] of OVERCUTS.entries()) {
      const at: Point = [edge + nested / 2 + i * (nested + gap), low];
      drawn.push(...words(ask, mm(overcut), [at[0], low - nested / 2 - 4], 2.6));
      const paths = [squareAt(at, nested / 2), squareAt(at, nested)];
      own.push({ operation: 'cut', paths, blade: { offset, overcut } });
    }
    return {
      width,
      height,
      strokes: drawn,
      own,
      read: [
        'Set the blade offset in your cutting software to 0: here the file allows for it, in steps.',
        'Cut it from the paper that you use most, and push the shapes out. Look at the corners of the squares and the tips of the stars. Too small an offset rounds them; too large a one leaves little ears that stick out.',
        `The offset whose corners are sharp and clean is your blade’s. Write it into a cutter of your own: \`foldwright cutter new mine --like ${ask.cutter.id} --offset 0.25mm\``,
        'The row of squares below is cut with your present offset and runs on past its start by the number under each. The first small square that lifts out with no fibre left tells your overcut: `--overcut 0.5mm` in the same command.',
        'If nothing lifts out, the blade stands out too little, is blunt or is pressed too lightly: put that right first, then cut the card again.',
      ],
    };
  },
});
