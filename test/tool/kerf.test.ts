/** What a beam leaves, by areas of Minkowski sums: Steiner's formula (check-values.md section 8). */
import { describe, expect, it } from 'vitest';
import { circle, line, openPath, pathLength, rectangle, signedArea } from '../../src/geom/index.js';
import { kerfPaths } from '../../src/tool/kerf.js';

const KERF = 0.3;

describe('the paths of a beam', () => {
  it('run outside an outline and inside its cut-outs, and so on inward', () => {
    const outer = rectangle(0, 0, 100, 60);
    const hole = rectangle(10, 10, 40, 40);
    const island = rectangle(20, 20, 10, 10);
    const { driven, lost } = kerfPaths([outer, hole, island], KERF);
    expect(lost).toBe(0);
    const [around, within, again] = driven.map(p => Math.abs(signedArea(p)));
    const r = KERF / 2;
    // A + L r + π r² outside; a rectangle inside is smaller by r on each side.
    expect(around).toBeCloseTo(6000 + 320 * r + Math.PI * r * r, 6);
    expect(within).toBeCloseTo((40 - KERF) ** 2, 6);
    expect(again).toBeCloseTo(100 + 40 * r + Math.PI * r * r, 6);
  });
  it('keep the size of a disc and of a hole', () => {
    const { driven } = kerfPaths([circle([0, 0], 20), circle([0, 0], 5)], KERF);
    expect(pathLength(driven[0]!)).toBeCloseTo(2 * Math.PI * (20 + KERF / 2), 6);
    expect(pathLength(driven[1]!)).toBeCloseTo(2 * Math.PI * (5 - KERF / 2), 6);
  });
  it('follow open lines as they are, and everything where there is no kerf', () => {
    const slit = openPath([0, 0], [line([10, 0])]);
    expect(kerfPaths([slit], KERF).driven).toEqual([slit]);
    const all = [circle([0, 0], 5), slit];
    expect(kerfPaths(all, 0).driven).toBe(all);
  });
  it('tell of cut-outs that the beam cannot enter', () => {
    const { driven, lost } = kerfPaths([rectangle(0, 0, 50, 50), rectangle(10, 10, 0.2, 20)], KERF);
    expect(driven).toHaveLength(1);
    expect(lost).toBe(1);
  });
  it.each([Number.NaN, -1])('refuse a kerf of %d', kerf => {
    expect(() => kerfPaths([], kerf)).toThrow('kerf');
  });
});
