import { describe, expect, it } from 'vitest';
import { circle, line, openPath, pathLength, rectangle } from '../../src/geom/index.js';
import type { Sheet } from '../../src/model.js';
import { arrange, sheetArts, sheetStrokes } from '../../src/sheet/index.js';
import { cutter, piece, printedPiece, stock } from './shapes.js';

const holed = piece('tag', rectangle(0, 0, 40, 20), {
  count: 3,
  holes: [circle([5, 10], 2)],
  strokes: [{ operation: 'score', path: openPath([20, 0], [line([20, 20])]) }],
});
const s = stock(100, 100);

describe('sheetStrokes', () => {
  const { sheets } = arrange([holed], s, {
    cutter: cutter(100, 100),
    printed: false,
    printMargin: 0,
    bleed: 0,
  });
  const strokes = sheetStrokes(sheets![0]!);
  it('has every outline and hole as a cut and every other stroke as it was', () => {
    const count = (o: string) => strokes.filter(x => x.operation === o).length;
    expect([count('cut'), count('score'), count('register')]).toEqual([6, 3, 0]);
  });
  it('moves lines without changing their lengths', () => {
    const cut = strokes.filter(x => x.operation === 'cut');
    const length = cut.reduce((l, x) => l + pathLength(x.path), 0);
    expect(length).toBeCloseTo(3 * (120 + 4 * Math.PI), 9);
  });
  it('writes quarter turns exactly', () => {
    const turned: Sheet = {
      ...sheets![0]!,
      placements: [{ piece: holed, at: [0, 1, -1, 0, 50, 10] }],
    };
    expect(sheetStrokes(turned)[0]!.path).toEqual(openPath([50, 30], [line([30, 30])]));
  });
});

describe('a printed sheet', () => {
  const round = printedPiece('round', circle([0, 0], 15), 3, 2);
  const { sheets } = arrange([round, holed], s, {
    cutter: cutter(100, 100),
    printed: true,
    printMargin: 5,
    bleed: 3,
  });
  it('has its marks as register strokes, three paths each', () => {
    const register = sheetStrokes(sheets![0]!).filter(x => x.operation === 'register');
    expect(register).toHaveLength(15);
  });
  it('gives the art of printed pieces only, where they lie', () => {
    const arts = sheets!.flatMap(sheetArts);
    const placed = sheets!.flatMap(x => x.placements).filter(p => p.piece.art);
    expect(arts).toEqual(placed.map(p => ({ art: p.piece.art, at: p.at })));
    expect(arts).toHaveLength(2);
  });
});
