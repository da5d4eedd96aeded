/** Whether one drawing is another, number for number. */
import { expect } from 'vitest';
import { distance, steps } from '../../src/geom/index.js';
import type { Drawing, Path } from '../../src/model.js';

const numbers = (path: Path): number[] => [
  ...path.start,
  ...path.segments.flatMap(s => [...(s.kind === 'cubic' ? [...s.c1, ...s.c2] : []), ...s.to]),
];
/** How high each segment stands over its chord, to the left, mm. */
const heights = (path: Path): number[] =>
  [...steps(path)].map(({ from, segment: s }) =>
    s.kind === 'arc' ? (-s.bulge * distance(from, s.to)) / 2 : 0,
  );
/** Files tell bulges to a hundredth of their step. */
const HEIGHT_MM = 1e-5;
const shape = (d: Drawing) =>
  d.layers.map(l => [l.operation, l.paths.map(p => [p.closed, p.segments.map(s => s.kind)])]);

/** Same size, operations, paths and segments in the same order; coordinates within `tolerance` mm,
 *  arcs as high over their chords within 1e-5 mm beside it. */
export function expectSameDrawing(found: Drawing, wanted: Drawing, tolerance: number): void {
  expect(shape(found)).toEqual(shape(wanted));
  expect(Math.abs(found.width - wanted.width)).toBeLessThanOrEqual(tolerance);
  expect(Math.abs(found.height - wanted.height)).toBeLessThanOrEqual(tolerance);
  for (const [i, { paths }] of wanted.layers.entries()) {
    for (const [j, path] of paths.entries()) {
      const got = found.layers[i]!.paths[j]!;
      const [a, b] = [numbers(got), numbers(path)];
      const off = Math.max(...a.map((v, k) => Math.abs(v - b[k]!)));
      expect(off, `${wanted.layers[i]!.operation} path ${j}`).toBeLessThanOrEqual(tolerance);
      const bent = Math.max(...heights(got).map((v, k) => Math.abs(v - heights(path)[k]!)));
      expect(bent, `arcs of path ${j}`).toBeLessThanOrEqual(tolerance + HEIGHT_MM);
    }
  }
}
