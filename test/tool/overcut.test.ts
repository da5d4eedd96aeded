/** Compensated outlines told from lines that are open. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  circle,
  type Path,
  type Point,
  pathLength,
  polygon,
  polyline,
  signedArea,
} from '../../src/geom/index.js';
import { compensatePaths } from '../../src/tool/compensate.js';
import { withoutOvercut } from '../../src/tool/overcut.js';

const driven = (path: Path, offset: number, overcut: number, heading: number): Path =>
  compensatePaths([path], { offset, overcut }, heading).driven[0]!;

describe('an outline with its overcut', () => {
  it('is closed, and as long as its pivot runs once round', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 8 }),
        fc.double({ min: 6, max: 40, noNaN: true }),
        fc.double({ min: 0.05, max: 0.9, noNaN: true }),
        fc.double({ min: 0.2, max: 1.5, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (sides, radius, offset, overcut, heading) => {
          const corners = Array.from({ length: sides }, (_, k): Point => {
            const a = (2 * Math.PI * (k + 0.3)) / sides;
            return [radius * Math.cos(a), radius * Math.sin(a)];
          });
          const shape = polygon(corners);
          const ring = withoutOvercut(driven(shape, offset, overcut, heading));
          expect(ring.closed).toBe(true);
          expect(ring.segments.at(-1)!.to).toEqual(ring.start);
          // Check values, section 5: on a convex polygon the pivot runs perimeter + 2πd.
          const once = pathLength(shape) + 2 * Math.PI * offset;
          expect(Math.abs(pathLength(ring) - once)).toBeLessThan(0.03);
        },
      ),
      { seed: 21, numRuns: 100 },
    );
  });
  it('is a circle again where it was one', () => {
    const ring = withoutOvercut(driven(circle([0, 0], 10), 0.25, 0.5, 1));
    expect(ring.closed).toBe(true);
    expect(Math.sqrt(Math.abs(signedArea(ring)) / Math.PI)).toBeCloseTo(Math.hypot(10, 0.25), 3);
  });
});

describe('a line that is open', () => {
  const square: Point[] = [
    [0, 0],
    [20, 0],
    [20, 20],
    [0, 20],
  ];
  it.each([
    ['a slit', polyline([square[0]!, square[1]!])],
    ['three sides', polyline(square)],
    ['an outline that misses its start', polyline([...square, [0, 0.3]])],
    ['one that crosses its start', polyline([...square, [3, 20], [3, -5]])],
    ['one that ends on its start, against it', polyline([...square, [5, 5], [2, 0], [1, 0]])],
  ])('stays so: %s', (_, path) => {
    expect(withoutOvercut(path)).toBe(path);
  });
  it('and a closed one stays closed', () => {
    const closed = polygon(square);
    expect(withoutOvercut(closed)).toBe(closed);
  });
});
