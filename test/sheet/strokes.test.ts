import { describe, expect, it } from 'vitest';
import { bounds, circle, line, openPath, pathLength, rectangle } from '../../src/geom/index.js';
import type { Sheet } from '../../src/model.js';
import { arrange, sheetArts, sheetInk, sheetStrokes } from '../../src/sheet/index.js';
import { cutter, piece, printedPiece, RING, stock } from './shapes.js';

const holed = piece('tag', rectangle(0, 0, 40, 20), {
  count: 3,
  holes: [circle([5, 10], 2)],
  strokes: [{ operation: 'score', path: openPath([20, 0], [line([20, 20])]) }],
});
const s = stock(100, 100);

describe('sheetStrokes', () => {
  const { sheets } = arrange([holed], s, { cutter: cutter(100, 100) });
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
    print: { margin: 5, bleed: 3, marks: RING },
  });
  it('has its marks as register strokes, three paths each', () => {
    const register = sheetStrokes(sheets![0]!).filter(x => x.operation === 'register');
    expect(register).toHaveLength(15);
  });
  it('gives the art of printed pieces only, where they lie', () => {
    const arts = sheets!.flatMap(x => sheetArts(x, 3));
    const placed = sheets!.flatMap(x => x.placements).filter(p => p.piece.art);
    expect(arts.map(({ art, at }) => ({ art, at }))).toEqual(
      placed.map(p => ({ art: p.piece.art, at: p.at })),
    );
    expect(arts).toHaveLength(2);
  });
  it('ends art half of a bleed before its neighbours, and nowhere else', () => {
    const rounds = printedPiece('round', circle([0, 0], 15), 3, 4);
    const cutting = { cutter: cutter(100, 100), print: { margin: 5, bleed: 3, marks: RING } };
    const [sheet] = arrange([rounds], s, cutting).sheets!;
    const arts = sheetArts(sheet!, 3);
    expect(arts).toHaveLength(4);
    for (const { at, clear = [] } of arts) {
      const others = sheet!.placements.filter(p => p.at !== at);
      const near = others.filter(p => {
        const apart = Math.max(Math.abs(p.at[4] - at[4]), Math.abs(p.at[5] - at[5]));
        return apart < 15 + 3 + 15 + 1.5;
      });
      expect(near.length).toBeGreaterThan(0);
      const middles = clear.map(path => {
        const b = bounds(path);
        expect(b.maxX - b.minX).toBeCloseTo(2 * 16.5, 9);
        return [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2].map(v => v.toFixed(6));
      });
      expect(middles).toEqual(near.map(p => [p.at[4], p.at[5]].map(v => v.toFixed(6))));
    }
  });
  it('has the wedge and every mark as ink', () => {
    expect(sheetInk(sheets![0]!)).toHaveLength(6);
  });
});
