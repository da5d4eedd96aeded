/** Areas and lengths of curves whose values are known in closed form (check-values section 8: formulas
 *  from memory, values computed apart). */
import { describe, expect, it } from 'vitest';
import {
  bounds,
  closedSpline,
  corner,
  heading,
  type Knot,
  pathLength,
  scaling,
  signedArea,
  transform,
} from '../../src/geom/index.js';
import type { Point } from '../../src/model.js';
import { starOutline, starWaist } from '../../src/motifs/stars.js';
import { makeMotifTools } from '../../src/motifs/tools.js';
import { gem, superellipse } from '../../src/motifs/trinkets.js';
import { fillParams } from '../../src/params.js';

const apart = (a: number, b: number) => Math.abs(a / b - 1);

describe('stars and regular polygons', () => {
  it('the pentagram has its waist at (3 − √5) / 2 and an area of 1.122569941 R²', () => {
    expect(starWaist(5, 'straight')).toBeCloseTo(0.381966011, 9);
    expect(signedArea(starOutline(5, starWaist(5, 'straight')))).toBeCloseTo(1.122569941, 9);
  });
  // A star whose corners reach as far as its points is a regular polygon: (n/2) R² sin(2π/n).
  it.each([
    [6, 2.598076211],
    [8, 2.828427125],
    [10, 2.938926261],
    [12, 3],
  ])('a regular polygon of %d sides has an area of %f R² and sides of 2 R sin(π/n)', (n, area) => {
    const outline = starOutline(n / 2, 1);
    expect(signedArea(outline)).toBeCloseTo(area, 9);
    expect(pathLength(outline)).toBeCloseTo(2 * n * Math.sin(Math.PI / n), 9);
  });
  it('the gem is a regular hexagon unless told: 2.598076211 of its side squared', () => {
    const size = 10 * Math.sqrt(3);
    const tools = makeMotifTools({ fonts: new Map() });
    const [girdle] = gem.build(fillParams(gem.params, { size }), tools);
    expect(signedArea(girdle!.outline)).toBeCloseTo(259.8076211, 6);
    expect(pathLength(girdle!.outline)).toBeCloseTo(60, 9);
  });
});

describe('the superellipse of the pebble', () => {
  // 4ab Γ(1 + 1/n)² / Γ(1 + 2/n).
  it.each([
    [2, Math.PI],
    [2.5, 3.380935363],
    [3, 3.533277501],
    [4, 3.708149355],
    [5, 3.800600556],
  ])('of exponent %f has an area of %f ab', (n, area) => {
    expect(apart(signedArea(superellipse(1, 1, n)), area)).toBeLessThan(2e-3);
    expect(apart(signedArea(superellipse(30, 12, n)) / 360, area)).toBeLessThan(2e-3);
    // The fitted cubics may swell by a tenth of a percent where a high exponent is nearly straight.
    const b = bounds(superellipse(30, 12, n));
    expect(apart(b.maxX - b.minX, 60)).toBeLessThan(2e-3);
    expect(apart(b.maxY - b.minY, 24)).toBeLessThan(2e-3);
  });
});

/** A curve through its own points with its own directions; a corner where it stands still. */
function traced(
  at: (t: number) => Point,
  way: (t: number) => Point,
  from: number,
  to: number,
  n: number,
) {
  const knots = Array.from({ length: n }, (_, i): Knot => {
    const t = from + ((to - from) * i) / n;
    const [dx, dy] = way(t);
    // Where it stands still or comes back to its start, it may turn.
    return i === 0 || Math.hypot(dx, dy) < 1e-9 ? corner(at(t)) : heading(at(t), [dx, dy]);
  });
  return closedSpline(knots);
}

describe('the heart curve x = 16 sin³ t, y = 13 cos t − 5 cos 2t − 2 cos 3t − cos 4t', () => {
  const heart = traced(
    t => [
      16 * Math.sin(t) ** 3,
      13 * Math.cos(t) - 5 * Math.cos(2 * t) - 2 * Math.cos(3 * t) - Math.cos(4 * t),
    ],
    t => [
      48 * Math.sin(t) ** 2 * Math.cos(t),
      -13 * Math.sin(t) + 10 * Math.sin(2 * t) + 6 * Math.sin(3 * t) + 4 * Math.sin(4 * t),
    ],
    0,
    2 * Math.PI,
    240,
  );
  it('has an area of 180 π and a length of 102.167552', () => {
    expect(apart(Math.abs(signedArea(heart)), 180 * Math.PI)).toBeLessThan(1e-5);
    expect(apart(pathLength(heart), 102.167552)).toBeLessThan(1e-4);
    expect(bounds(heart).maxX).toBeCloseTo(16, 4);
    expect(bounds(heart).minY).toBeCloseTo(-17, 4);
  });
  it('scaled by k its area grows by k² and its length by k', () => {
    const larger = transform(heart, scaling(2.5));
    expect(signedArea(larger)).toBeCloseTo(6.25 * signedArea(heart), 6);
    expect(pathLength(larger)).toBeCloseTo(2.5 * pathLength(heart), 6);
  });
});

describe('the rose r = cos kθ', () => {
  // π/4 for odd k (k petals), π/2 for even k (2k petals).
  it.each([
    [2, 4, Math.PI / 2, 9.688448221],
    [3, 3, Math.PI / 4, 6.68244661],
    [4, 8, Math.PI / 2, 17.15684355],
    [5, 5, Math.PI / 4, 10.50502227],
  ])('of k = %d has %d petals, an area of %f and a length of %f', (k, petals, area, length) => {
    const half = Math.PI / (2 * k);
    const petal = traced(
      t => [Math.cos(k * t) * Math.cos(t), Math.cos(k * t) * Math.sin(t)],
      t => [
        -k * Math.sin(k * t) * Math.cos(t) - Math.cos(k * t) * Math.sin(t),
        -k * Math.sin(k * t) * Math.sin(t) + Math.cos(k * t) * Math.cos(t),
      ],
      -half,
      half,
      240,
    );
    expect(apart(petals * signedArea(petal), area)).toBeLessThan(1e-4);
    expect(apart(petals * pathLength(petal), length)).toBeLessThan(1e-3);
  });
});
