import fc from 'fast-check';
import { expect, it } from 'vitest';
import { isFinitePath, isSimple, signedArea } from '../../src/geom/index.js';
import { anyShape } from './shapes.js';

it('the seeded shapes are simple, closed and counter-clockwise', () => {
  fc.assert(
    fc.property(anyShape, shape => {
      expect(shape.closed && isFinitePath(shape) && isSimple(shape)).toBe(true);
      expect(signedArea(shape)).toBeGreaterThan(1);
    }),
    { seed: 20270, numRuns: 300 },
  );
});
