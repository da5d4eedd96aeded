import { describe, expect, it } from 'vitest';
import { drawNet } from '../../src/fold/outline.js';
import { bounds, endOf } from '../../src/geom/index.js';
import { fillParams } from '../../src/params.js';
import { flipLid } from '../../src/styles/flip-lid.js';

const INCH = 25.4;

/** The places of all scores across one side of the blank, in inches from its edge. */
function marks(drawing: ReturnType<typeof drawNet>, axis: 0 | 1): number[] {
  const b = bounds(drawing.outline);
  const edge = axis === 0 ? b.minX : b.minY;
  const found = drawing.scores
    .filter(s => Math.abs(s.path.start[axis] - endOf(s.path)[axis]) < 1e-9)
    .map(s => Math.round(((s.path.start[axis] - edge) / INCH) * 1e6) / 1e6);
  return [...new Set(found)].sort((a, b) => a - b);
}

describe('flip-lid', () => {
  it('is scored from a 9 × 8 in blank as box makers do it (common practice, no source)', () => {
    const inside = { length: 6 * INCH, width: 2 * INCH, height: INCH };
    const values = fillParams(flipLid.params, { tab: INCH / 2, lid: 2 * INCH });
    const drawing = drawNet(flipLid.build({ inside, thickness: 0 }, values)[0]!);
    const b = bounds(drawing.outline);
    expect((b.maxX - b.minX) / INCH).toBeCloseTo(9, 9);
    expect((b.maxY - b.minY) / INCH).toBeCloseTo(8, 9);
    expect(marks(drawing, 0)).toEqual([0.5, 1.5, 7.5, 8.5]);
    expect(marks(drawing, 1)).toEqual([2, 3, 5, 6]);
    expect(drawing.slits).toEqual([]);
    expect(drawing.holes).toEqual([]);
  });
});
