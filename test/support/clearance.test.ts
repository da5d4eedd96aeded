import { describe, expect, it } from 'vitest';
import { circle, rectangle } from '../../src/geom/index.js';
import { clearance, contains, linesApart, sampled } from './clearance.js';

describe('clearance', () => {
  it('is the gap between two squares, and between a square and a round', () => {
    expect(clearance(rectangle(0, 0, 10, 10), rectangle(13, 0, 10, 10))).toBeCloseTo(3, 12);
    expect(clearance(rectangle(0, 0, 10, 10), circle([20, 5], 5))).toBeCloseTo(5, 12);
  });
  it('is measured on the shapes: rounds in each other’s corners keep their distance', () => {
    // Centres 12 apart both ways: √288 − 2·8; the boxes overlap.
    expect(clearance(circle([0, 0], 8), circle([12, 12], 8))).toBeCloseTo(Math.sqrt(288) - 16, 1);
  });
  it('fails on outlines that cross, that cover each other, or that are the same', () => {
    const square = rectangle(0, 0, 10, 10);
    expect(clearance(square, rectangle(9, 9, 10, 10))).toBe(-1);
    expect(clearance(square, rectangle(4, 4, 1, 1))).toBe(-1);
    expect(clearance(rectangle(4, 4, 1, 1), square)).toBe(-1);
    expect(clearance(square, circle([5.3, 10.4], 2))).toBe(-1);
    expect(clearance(square, square)).toBeLessThanOrEqual(0);
    // A plus of two bars: no corner of one lies in the other.
    expect(clearance(rectangle(-10, -1, 20, 2), rectangle(-1, -10, 2, 20))).toBe(-1);
  });
  it('stops counting at `enough`', () => {
    expect(clearance(rectangle(0, 0, 1, 1), rectangle(50, 0, 1, 1), 3)).toBe(3);
  });
  it('of lines alone counts within as without, and fails where they cross', () => {
    expect(linesApart(rectangle(0, 0, 10, 10), rectangle(3, 4, 5, 5))).toBeCloseTo(1, 12);
    expect(linesApart(rectangle(0, 0, 10, 10), circle([20, 5], 5))).toBeCloseTo(5, 12);
    expect(linesApart(rectangle(0, 0, 10, 10), rectangle(9, 9, 10, 10))).toBe(-1);
  });
  it('knows inside from outside', () => {
    const round = sampled(circle([0, 0], 5));
    expect(contains(round, [4.9, 0])).toBe(true);
    expect(contains(round, [4, 4])).toBe(false);
  });
});
