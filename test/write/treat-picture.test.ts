/** Pictures of treats in their box. */
import { describe, expect, it } from 'vitest';
import { arrangementsFor } from '../../src/fit/index.js';
import { rectangle } from '../../src/geom/index.js';
import type { Arrangement, Place, Point, Triple } from '../../src/model.js';
import { treatPicture } from '../../src/write/treat-picture.js';
import { EYE, paintingOrder, project, solidsOf } from '../../src/write/treat-solids.js';
import { treat } from '../fit/treats.js';
import { expectGolden } from '../support/golden.js';

const letter = (text: string, height: number) => [
  { outer: rectangle(0, 0, text.length * height * 0.6, height), holes: [] },
];
const drawn = (arrangement: Arrangement, title = 'caramels') =>
  treatPicture(
    { arrangement, paper: '#B98F62', title, note: 'flip-lid', mm: n => `${n.toFixed(1)} mm` },
    letter,
  );
const clear = { clearance: 1, apart: 1 };
const caramels = treat({ kind: 'block', length: 32, width: 20, height: 17 }, 7, clear);
const balls = treat({ kind: 'ball', diameter: 24 }, 14, clear);
const discs = treat({ kind: 'round', diameter: 40, height: 20 }, 7, clear);
const sticks = treat({ kind: 'stick', length: 90, diameter: 12 }, 7, clear);
const bags = treat({ kind: 'pouch', length: 90, width: 60, height: 20, squash: 0.2 }, 4, clear);

describe('a picture of treats', () => {
  it('is the same every time, and only of numbers', async () => {
    for (const t of [caramels, balls, discs, sticks, bags]) {
      const [a] = arrangementsFor(t);
      const svg = await drawn(a!);
      expect(svg).toBe(await drawn(a!));
      expect(svg).not.toMatch(/NaN|Infinity|undefined/);
    }
  });
  it('shows every piece: in space, from above and from the front', async () => {
    const nested = arrangementsFor(balls).find(a => a.pattern === 'nested')!;
    const svg = await drawn(nested);
    // A ball is a circle (an ellipse of svg.js) in each of three views.
    expect(svg.match(/<(?:circle|ellipse)\b/g)?.length).toBe(3 * 14);
    expect(solidsOf(nested).length).toBe(14);
  });
  it('keeps within its page, a long title too', async () => {
    const svg = await drawn(arrangementsFor(caramels)[0]!, 'a long title '.repeat(12));
    const numbers = [...svg.matchAll(/[ML]([-\d.]+) ([-\d.]+)/g)].map(m => [+m[1]!, +m[2]!]);
    expect(numbers.length).toBeGreaterThan(100);
    for (const [x, y] of numbers) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(1000);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThanOrEqual(600);
    }
  });
  it('of a mixed layer, as it looks', async () => {
    const mixed = arrangementsFor(caramels).find(a => a.pattern === 'mixed')!;
    expectGolden('write/treats.svg', await drawn(mixed));
  });
});

/** How far along the ray from the eye through a point of the picture the solid begins, if it is hit. */
function entry({ at, size }: Place, isBall: boolean, [u, v]: Point): number | undefined {
  // The points of space with this image: one of them, found from the images of the axes.
  const [ex, ey] = [project([1, 0, 0]), project([0, 1, 0])];
  const det = ex[0] * ey[1] - ex[1] * ey[0];
  const from: Triple = [(u * ey[1] - v * ey[0]) / det, (v * ex[0] - u * ex[1]) / det, 0];
  // Along −EYE, away from the eye: larger is farther.
  const away = EYE.map(k => -k) as unknown as Triple;
  if (isBall) {
    const d = from.map((p, k) => p - at[k]!);
    const b = d.reduce((s, p, k) => s + p * away[k]!, 0);
    const c = d.reduce((s, p) => s + p * p, 0) - (size[0] / 2) ** 2;
    return b * b > c ? -b - Math.sqrt(b * b - c) : undefined;
  }
  const spans = [0, 1, 2].map(k => {
    const ends = [-1, 1].map(s => (at[k]! + (s * size[k]!) / 2 - from[k]!) / away[k]!);
    return [Math.min(...ends), Math.max(...ends)] as const;
  });
  const [begin, end] = [Math.max(...spans.map(s => s[0])), Math.min(...spans.map(s => s[1]))];
  return begin < end ? begin : undefined;
}

const RASTER = 32;

/** Rays, of a raster of them, on which something is painted over what is nearer to the eye. */
function wrongPairs(order: readonly Place[], isBall: boolean): number {
  const images = order.map(p => project(p.at));
  const [us, vs] = [images.map(p => p[0]), images.map(p => p[1])];
  const span = (values: number[]) => [Math.min(...values) - 20, Math.max(...values) + 20] as const;
  const [[u0, u1], [v0, v1]] = [span(us), span(vs)];
  let wrong = 0;
  for (let i = 0; i < RASTER; i++) {
    for (let j = 0; j < RASTER; j++) {
      const ray: Point = [
        u0 + ((u1 - u0) * (i + 0.5)) / RASTER,
        v0 + ((v1 - v0) * (j + 0.5)) / RASTER,
      ];
      const hits = order.flatMap(p => entry(p, isBall, ray) ?? []);
      if (hits.some((t, k) => k > 0 && t > hits[k - 1]! + 1e-6)) wrong++;
    }
  }
  return wrong;
}

describe('the painting order', () => {
  it.each([
    ['caramels', caramels],
    ['balls', balls],
  ])('of %s: what is nearer to the eye is painted later', (_, t) => {
    const isBall = t.shape.kind === 'ball';
    for (const a of arrangementsFor(t)) {
      expect(wrongPairs(paintingOrder(a.places), isBall), `${a.pattern} ${a.lie}`).toBe(0);
    }
  });
  it('the look through rays finds an order that is wrong', () => {
    const a = arrangementsFor(caramels).find(o => o.layers > 1)!;
    expect(wrongPairs([...paintingOrder(a.places)].reverse(), false)).toBeGreaterThan(10);
  });
});
