/** Whether one drawing is another, number for number. */
import { expect } from 'vitest';
import type { Drawing, Path } from '../../src/model.js';

const numbers = (path: Path): number[] => [
  ...path.start,
  ...path.segments.flatMap(s => [...(s.kind === 'cubic' ? [...s.c1, ...s.c2] : []), ...s.to]),
];
const bulges = (path: Path): number[] => path.segments.map(s => (s.kind === 'arc' ? s.bulge : 0));
const shape = (d: Drawing) =>
  d.layers.map(l => [l.operation, l.paths.map(p => [p.closed, p.segments.map(s => s.kind)])]);

/** Same size, operations, paths and segments in the same order; coordinates within `tolerance` mm,
 *  bulges within 1e-9. */
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
      const turn = Math.max(...bulges(got).map((v, k) => Math.abs(v - bulges(path)[k]!)));
      expect(turn, `bulge of path ${j}`).toBeLessThanOrEqual(1e-9);
    }
  }
}
