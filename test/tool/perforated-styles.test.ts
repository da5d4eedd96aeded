/** Perforated folds of every style: what is cut through must not meet a cut, or the box falls apart. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { netPiece } from '../../src/fold/index.js';
import {
  distanceToPath,
  endOf,
  intersections,
  type Path,
  pathLength,
} from '../../src/geom/index.js';
import { BY_TOOL } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { cleanPaths } from '../../src/tool/clean.js';
import { workedFolds } from '../../src/tool/folds.js';
import { stock } from '../sheet/shapes.js';
import { sampled } from '../support/clearance.js';

/** Shorter dashes are not cut, as `dashesOf` has it. */
const LEAST_DASH_MM = 0.3;
/** Paper that is left at an end or a crossing, at the least, mm. */
const LEAST_PAPER_MM = 0.04;

describe.each(STYLES.map(s => [s.id, s] as const))('%s', (_, style) => {
  const nets = style.build({ inside: style.example, thickness: 0.3 }, fillParams(style.params, {}));
  const parts = nets.map(net => {
    const piece = netPiece(net, stock(1000, 1000), 1);
    const of = (operation: string) =>
      piece.strokes.filter(s => s.operation === operation).map(s => s.path);
    const cuts = [...of('cut'), ...piece.holes, piece.outline];
    return { folds: cleanPaths(of('score')).paths, cuts };
  });
  it('begins and ends every fold on paper, never on a cut, and keeps crossings whole', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 5, noNaN: true }),
        fc.double({ min: 0.5, max: 5, noNaN: true }),
        (dash, gap) => {
          for (const { folds, cuts } of parts) {
            const worked = (all: readonly Path[]) =>
              workedFolds(all, cuts, { ...BY_TOOL, by: 'perforation', dash, gap });
            const dashes = worked(folds);
            expect(dashes.length > 0).toBe(folds.length > 0);
            const ends = folds.flatMap(f => (f.closed ? [] : [f.start, endOf(f)]));
            const crossings = folds.flatMap((a, i) =>
              folds.slice(i + 1).flatMap(b => intersections(a, b)),
            );
            for (const cut of dashes) {
              expect(pathLength(cut)).toBeGreaterThan(LEAST_DASH_MM - 1e-6);
              for (const p of [...ends, ...crossings]) {
                expect(distanceToPath(p, cut)).toBeGreaterThan(LEAST_PAPER_MM);
              }
              for (const p of sampled(cut)) {
                for (const c of cuts) expect(distanceToPath(p, c)).toBeGreaterThan(LEAST_PAPER_MM);
              }
            }
          }
        },
      ),
      { seed: 30, numRuns: 3 },
    );
  });
});

it('would notice a dash on a cut: folds that are cut from end to end', () => {
  const style = STYLES[0]!;
  const [net] = style.build(
    { inside: style.example, thickness: 0.3 },
    fillParams(style.params, {}),
  );
  const { outline, strokes } = netPiece(net!, stock(1000, 1000), 1);
  const folds = strokes.filter(s => s.operation === 'score').map(s => s.path);
  const near = Math.min(...folds.flatMap(sampled).map(p => distanceToPath(p, outline)));
  expect(near).toBeLessThan(LEAST_PAPER_MM);
});
