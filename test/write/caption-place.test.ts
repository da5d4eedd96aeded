import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bounds, rectangle } from '../../src/geom/index.js';
import type { Bounds, PrintPage } from '../../src/model.js';
import { type Place, placeCaptions } from '../../src/write/caption-place.js';
import { drawing } from '../support/drawings.js';

const block = { width: 60, height: 8, what: 'words' };
const page = (cut: readonly Bounds[], width = 100, height = 150): PrintPage => ({
  drawing: drawing(
    { cut: cut.map(b => rectangle(b.minX, b.minY, b.maxX - b.minX, b.maxY - b.minY)) },
    width,
    height,
  ),
  arts: [],
  ink: [],
  captions: [],
});
const occupied = ({ x, y, turned, block: { width, height } }: Place<unknown>): Bounds =>
  turned
    ? { minX: x - height, minY: y, maxX: x, maxY: y + width }
    : { minX: x, minY: y, maxX: x + width, maxY: y + height };

describe('the place of the captions', () => {
  it('is the top of an empty sheet, in its middle, inside the border', () => {
    const place = placeCaptions(page([]), [block])!;
    expect(place.turned).toBe(false);
    const { minX, minY } = occupied(place);
    expect(minX).toBeCloseTo(20, 9);
    expect(minY).toBeCloseTo(150 - 6.35 - 8, 9);
  });

  it('is beside the pieces where the sheet has no room above them', () => {
    const place = placeCaptions(page([{ minX: 20, minY: 0, maxX: 100, maxY: 150 }]), [block])!;
    expect(place.turned).toBe(true);
    expect(occupied(place).maxX).toBeLessThanOrEqual(19);
  });

  it('is nowhere on a full sheet', () => {
    expect(placeCaptions(page([{ minX: 5, minY: 5, maxX: 95, maxY: 145 }]), [block])).toBe(
      undefined,
    );
  });

  it('takes the next block when the first does not fit', () => {
    const small = { width: 20, height: 5, what: 'short' };
    const place = placeCaptions(page([{ minX: 5, minY: 12.9, maxX: 95, maxY: 150 }], 100, 150), [
      block,
      small,
    ])!;
    expect(place.block.what).toBe('short');
  });

  it('never lies on anything or off the sheet, and is found where the top is free', () => {
    const box = fc
      .tuple(
        fc.integer({ min: 0, max: 90 }),
        fc.integer({ min: 0, max: 110 }),
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 20 }),
      )
      .map(([x, y, w, h]) => ({ minX: x, minY: y, maxX: x + w, maxY: y + h }));
    fc.assert(
      fc.property(fc.array(box, { maxLength: 12 }), boxes => {
        const at = occupied(placeCaptions(page(boxes), [block])!);
        expect(at.minX).toBeGreaterThanOrEqual(6.35 - 1e-9);
        expect(at.maxY).toBeLessThanOrEqual(150 - 6.35 + 1e-9);
        for (const path of page(boxes).drawing.layers[0]!.paths) {
          const b = bounds(path);
          const apart = Math.max(
            b.minX - at.maxX,
            at.minX - b.maxX,
            b.minY - at.maxY,
            at.minY - b.maxY,
          );
          expect(apart).toBeGreaterThanOrEqual(1 - 1e-9);
        }
      }),
      { seed: 41, numRuns: 200 },
    );
  });
});
