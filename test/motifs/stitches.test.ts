import { describe, expect, it } from 'vitest';
import {
  circle,
  distance,
  endOf,
  pathLength,
  rectangle,
  roundedPolygon,
  scaling,
  transform,
} from '../../src/geom/index.js';
import type { Path } from '../../src/model.js';
import { dashes, stitched } from '../../src/motifs/stitches.js';

const gaps = (all: readonly Path[]) =>
  all.map((d, i) => distance(endOf(d), all[(i + 1) % all.length]!.start));

describe('stitches', () => {
  it('close evenly round a circle: every dash and every gap alike', () => {
    const all = dashes(circle([0, 0], 20), 2.2, 1.4);
    // 2π · 20 / 3.6 = 34.9 pitches, the nearest multiple of four is 36.
    expect(all).toHaveLength(36);
    const pitch = (40 * Math.PI) / 36;
    for (const d of all) expect(pathLength(d)).toBeCloseTo((pitch * 2.2) / 3.6, 9);
    const chord = 40 * Math.sin((pitch * 1.4) / 3.6 / 40);
    for (const g of gaps(all)) expect(g).toBeCloseTo(chord, 9);
  });

  it('on a rectangle fit each side by itself, with half a gap at either corner', () => {
    const all = dashes(rectangle(0, 0, 40, 22), 2, 1);
    expect(all).toHaveLength(2 * (13 + 7));
    const first = all[0]!;
    const pitch = 40 / 13;
    expect(first.start).toEqual([expect.closeTo(pitch / 6, 9), 0]);
    expect(pathLength(first)).toBeCloseTo((pitch * 2) / 3, 9);
    // No stitch bends about a corner.
    expect(all.every(d => d.segments.length === 1)).toBe(true);
  });

  it('run through rounded corners, and mirror where the outline does', () => {
    const card = roundedPolygon(
      [
        [-30, -10],
        [30, -10],
        [30, 10],
        [-30, 10],
      ],
      4,
    );
    const all = dashes(card, 2, 1.2);
    expect(all.length % 4).toBe(0);
    const lengths = all.map(pathLength);
    expect(Math.max(...lengths) - Math.min(...lengths)).toBeLessThan(1e-9);
  });

  it('a circle of stitches is its own mirror image', () => {
    const all = dashes(circle([0, 0], 15), 2, 1.2);
    const flipped = all.map(d => transform(d, scaling(-1, 1)));
    for (const d of flipped) {
      const near = all.some(
        o => distance(o.start, endOf(d)) < 1e-9 && distance(endOf(o), d.start) < 1e-9,
      );
      expect(near).toBe(true);
    }
  });

  it('a short outline still gets its stitches', () => {
    expect(dashes(circle([0, 0], 0.5), 10, 5)).toHaveLength(4);
    expect(dashes(rectangle(0, 0, 1, 1), 10, 5)).toHaveLength(4);
  });

  it('are drawn, pricked, or left out', () => {
    const operations = (stitch: string) =>
      new Set(stitched(circle([0, 0], 9), { stitch, stitchLength: 2 }).map(s => s.operation));
    expect(operations('draw')).toEqual(new Set(['draw']));
    expect(operations('perforate')).toEqual(new Set(['perforate']));
    expect(operations('none')).toEqual(new Set());
  });
});
