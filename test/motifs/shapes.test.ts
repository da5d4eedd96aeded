import { describe, expect, it } from 'vitest';
import {
  bounds,
  circle,
  contains,
  distanceToPath,
  pathLength,
  rectangle,
  signedArea,
} from '../../src/geom/index.js';
import type { Point } from '../../src/model.js';
import { asleep, eye, figure, inked, pairOf, penOf, shared } from '../../src/motifs/figure.js';
import { layer } from '../../src/motifs/layers.js';
import {
  ellipse,
  flipped,
  gable,
  leafBlade,
  pill,
  puffs,
  shape,
  stalk,
  star,
  within,
} from '../../src/motifs/shapes.js';

describe('outlines drawn by eye', () => {
  it('an ellipse has the area and the length of one, within its promise', () => {
    // Perimeter of the 40 by 15 ellipse: check-values section 8, exact 181.834313916.
    const path = ellipse([3, 4], 40, 15, 0.3);
    expect(signedArea(path) / (Math.PI * 600)).toBeCloseTo(1, 3);
    expect(pathLength(path) / 181.834313916).toBeCloseTo(1, 3);
    const round = ellipse([0, 0], 10, 10);
    const far = Math.max(
      ...[0.1, 0.4, 0.7].map(a => distanceToPath([10 * Math.cos(a), 10 * Math.sin(a)], round)),
    );
    expect(far).toBeLessThan(2.8e-4 * 10);
  });

  it('a mirror image lies on the other side, and runs the same way round', () => {
    const path = puffs(ellipse([14, 2], 9, 4), [
      [10, 5, 5],
      [19, 4, 3],
    ]);
    const image = flipped(path);
    expect(signedArea(image)).toBeCloseTo(signedArea(path), 9);
    const [b, c] = [bounds(path), bounds(image)];
    expect([c.minX, c.maxX, c.minY, c.maxY]).toEqual(
      [-b.maxX, -b.minX, b.minY, b.maxY].map(v => expect.closeTo(v, 9)),
    );
    expect(flipped(image)).toEqual(path);
  });

  it('a straight stalk is a bar with half-round ends', () => {
    const bar = stalk([
      [0, 0, 4],
      [10, 0, 4],
      [20, 0, 4],
    ]);
    expect(signedArea(bar)).toBeCloseTo(80 + 4 * Math.PI, 9);
    expect(signedArea(pill(-12, 12, -2, 2))).toBeCloseTo(80 + 4 * Math.PI, 9);
  });

  it('a bent stalk is as wide as asked where it was asked', () => {
    const along: [number, number, number][] = [
      [0, 0, 4],
      [6, 9, 3],
      [20, 12, 6],
    ];
    const path = stalk(along);
    expect(signedArea(path)).toBeGreaterThan(0);
    for (const [x, y, width] of along) {
      const off = distanceToPath([x, y], path);
      expect(off).toBeLessThan(width / 2 + 1e-9);
      expect(off).toBeGreaterThan(0.9 * (width / 2));
    }
  });

  it('a leaf ends in its base and its tip, and its rib lies in it', () => {
    const [base, tip]: Point[] = [
      [1, 2],
      [21, 12],
    ];
    const { outline, rib } = leafBlade(base!, tip!, 0.5, 0.1);
    expect(signedArea(outline)).toBeGreaterThan(0);
    expect(contains(outline, base!)).toBe('on');
    expect(contains(outline, tip!)).toBe('on');
    for (const p of [rib.start, ...rib.segments.map(s => s.to)]) {
      expect(contains(outline, p)).toBe('in');
    }
  });

  it('a star has its points on their circle but for the rounding; a gable its scallops', () => {
    const b = bounds(star([0, 0], 10, 5, 0));
    // A corner of half angle h rounded by r stands back by r (1 / sin h − 1).
    const h = Math.atan2(5.2 * Math.sin(Math.PI / 5), 10 - 5.2 * Math.cos(Math.PI / 5));
    expect(b.maxY).toBeCloseTo(10 - 1.4 * (1 / Math.sin(h) - 1), 9);
    const roof = gable(55, 3, 57, 7);
    expect(roof.segments.filter(s => s.kind === 'arc')).toHaveLength(7);
    expect(bounds(roof).maxY).toBeCloseTo(57, 9);
    expect(signedArea(roof)).toBeGreaterThan(0);
  });

  it('knots that run clockwise still give a counter-clockwise shape; smaller about the axis', () => {
    const path = shape([
      [0, 10],
      [10, 0],
      [0, -10],
      [-10, 0],
    ]);
    expect(signedArea(path)).toBeGreaterThan(0);
    expect(signedArea(within(path, 3, 0.5, 0.8))).toBeCloseTo(0.4 * signedArea(path), 9);
  });
});

describe('figures of several papers', () => {
  it('come to their width all together, about the origin, with what is on them', () => {
    const smile = asleep([9, 4], 4);
    const layers = [
      layer('a', rectangle(0, -4, 10, 30)),
      layer('b', circle([12, 4], 8), { lift: 1, strokes: smile.strokes }),
      ...smile.cheeks,
    ];
    const whole = bounds(...layers.map(l => l.outline));
    const sized = figure(layers, 50);
    const b = bounds(...sized.map(l => l.outline));
    expect(b.maxX - b.minX).toBeCloseTo(50, 9);
    expect(b.minX + b.maxX).toBeCloseTo(0, 9);
    expect(b.minY + b.maxY).toBeCloseTo(0, 9);
    const k = 50 / (whole.maxX - whole.minX);
    expect(sized.map(l => signedArea(l.outline))).toEqual(
      layers.map(l => expect.closeTo(k * k * signedArea(l.outline), 6)),
    );
    expect(sized[1]!.lift).toBe(1);
    expect(sized[1]!.strokes.map(s => pathLength(s.path))).toEqual(
      smile.strokes.map(s => expect.closeTo(k * pathLength(s.path), 6)),
    );
  });

  it.each([20, 45, 300])('a pupil is filled by the pen, at %i mm as well', size => {
    const pen = penOf(100, size);
    const radii = inked([0, 0], 4, pen).map(s => bounds(s.path).maxX);
    // Edge to edge of the ink: the dot's own radius, no ring further from the next than the pen.
    expect(Math.max(...radii) + pen / 2).toBeCloseTo(4, 9);
    const rings = [...radii, 0].sort((a, b) => a - b);
    const gaps = rings.slice(1).map((r, i) => r - rings[i]!);
    expect(Math.max(...gaps)).toBeLessThanOrEqual(pen);
  });

  it('a dot that is smaller than the pen is one ring inside it', () => {
    const [only, ...more] = inked([0, 0], 0.2, 0.5);
    expect(more).toHaveLength(0);
    expect(bounds(only!.path).maxX).toBeLessThan(0.2);
  });

  it('an eye keeps its pupil on the white, wherever it looks', () => {
    const { outline, strokes } = eye('eye', [5, 5], 6, [0.3, -0.3], 1);
    for (const { path } of strokes) expect(contains(outline, path.start)).toBe('in');
  });

  it('what two shapes share is one part, or it is a fault', () => {
    expect(signedArea(shared(rectangle(0, 0, 4, 4), rectangle(2, 1, 9, 2)))).toBeCloseTo(4, 9);
    expect(() => shared(rectangle(0, 0, 1, 1), rectangle(2, 2, 1, 1))).toThrow(RangeError);
  });

  it('a pair is one on each side', () => {
    const [right, left] = pairOf('wing', circle([5, 0], 2), 'wing');
    expect(right!.id).toBe('wing-right');
    expect(bounds(left!.outline).maxX).toBeCloseTo(-3, 9);
  });
});
