/** Treats for the tests of this room. */
import fc from 'fast-check';
import { LIES, type Treat, type TreatShape } from '../../src/model.js';

export const treat = (shape: TreatShape, count = 1, more: Partial<Treat> = {}): Treat => ({
  id: 'test',
  summary: 'a treat of the tests',
  shape,
  count,
  clearance: 0,
  apart: 0,
  stack: 500,
  lie: 'any',
  ...more,
});

const length = fc.integer({ min: 40, max: 2000 }).map(n => n / 20);
const squash = fc.constantFrom(0, 0.1, 0.25, 0.5);

const anyShape: fc.Arbitrary<TreatShape> = fc.oneof(
  fc.record({ kind: fc.constant('block' as const), length, width: length, height: length }),
  fc.record({ kind: fc.constant('round' as const), diameter: length, height: length }),
  fc.record({ kind: fc.constant('ball' as const), diameter: length }),
  fc.record({ kind: fc.constant('pouch' as const), length, width: length, height: length, squash }),
  fc.record({ kind: fc.constant('stick' as const), length, diameter: length }),
);

export const anyTreat: fc.Arbitrary<Treat> = fc
  .record({
    shape: anyShape,
    count: fc.integer({ min: 1, max: 30 }),
    clearance: fc.constantFrom(0, 0.5, 1, 3),
    apart: fc.constantFrom(0, 2, 15),
    stack: fc.constantFrom(1, 2, 3, 500),
    lie: fc.constantFrom(...LIES),
  })
  .map(({ shape, count, ...more }) => treat(shape, count, more));
