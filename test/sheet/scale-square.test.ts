/** The square to measure an import by: in reach, in the waste, or told that there is no room. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { bounds, transform } from '../../src/geom/index.js';
import { arrange, cutterReach, scaleSquare } from '../../src/sheet/index.js';
import { markPaths } from '../../src/sheet/marks.js';
import { block, cutter, disc, printedPiece, RING, stock } from './shapes.js';

const paper = stock(210, 297);
const machine = cutter(210, 297, 6);

it('lies clear of pieces, bleed and marks, in the reach', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 20, max: 180 }),
      fc.integer({ min: 1, max: 12 }),
      fc.boolean(),
      fc.constantFrom(10, 20, 50),
      (size, count, printed, side) => {
        const piece = printed
          ? printedPiece('p', disc('', size).outline, 3, count)
          : block('p', size, size / 2, count);
        const print = printed ? { print: { margin: 5, bleed: 3, marks: RING } } : {};
        const { sheets } = arrange([piece], paper, { cutter: machine, ...print });
        for (const sheet of sheets ?? []) {
          const { strokes, warnings } = scaleSquare(sheet, machine, side);
          expect(strokes.length + warnings.length).toBe(1);
          if (strokes.length === 0) continue;
          expect(strokes[0]!.operation).toBe('draw');
          const b = bounds(strokes[0]!.path);
          expect(b.maxX - b.minX).toBeCloseTo(side, 9);
          expect(b.maxY - b.minY).toBeCloseTo(side, 9);
          const reach = cutterReach(paper, machine);
          expect(Math.min(b.minX - reach.minX, b.minY - reach.minY)).toBeGreaterThanOrEqual(-1e-9);
          expect(Math.min(reach.maxX - b.maxX, reach.maxY - b.maxY)).toBeGreaterThanOrEqual(-1e-9);
          const others = [
            ...sheet.placements.map(p =>
              bounds(transform(p.piece.art?.bleed ?? p.piece.outline, p.at)),
            ),
            ...sheet.marks.flatMap(markPaths).map(p => bounds(p)),
          ];
          for (const o of others) {
            const apart = Math.max(
              o.minX - b.maxX,
              b.minX - o.maxX,
              o.minY - b.maxY,
              b.minY - o.maxY,
            );
            expect(apart).toBeGreaterThanOrEqual(1 - 1e-9);
          }
        }
      },
    ),
    { seed: 4, numRuns: 60 },
  );
});

it('is told where a full sheet has no room for it, and is nothing where none is asked', () => {
  const { sheets } = arrange([block('p', 190, 280)], paper, { cutter: machine });
  expect(scaleSquare(sheets![0]!, machine, 20).warnings[0]).toContain('no room');
  expect(scaleSquare(sheets![0]!, machine, 0)).toEqual({ strokes: [], warnings: [] });
});
