/** The printed grid of a stamp page taken out of its scan: each line as it fell on the pixels. */
import { describe, expect, it } from 'vitest';
import { seeded } from '../../src/motifs/random.js';
import type { Darkness } from '../../src/scan/darkness.js';
import { withoutGrid } from '../../src/scan/grid.js';

const PER_MM = 6;
const PITCH = 10;
const [WIDTH, HEIGHT] = [60 * PER_MM, 80 * PER_MM];
const PAPER = 6;

/** A page in grain whose lines are `add` darker, each spread and moved its own way, and pixels of ink. */
function page(
  add: number,
  ink: (x: number, y: number) => number | undefined = () => undefined,
  seed = 5,
): Darkness {
  const random = seeded(seed);
  const grain = () => 3 * (random() + random() + random() - 1.5);
  const lines = (n: number) =>
    Array.from({ length: n }, () => ({ off: random() - 0.5, dark: add * (0.5 + random()) }));
  const [upright, level] = [lines(7), lines(9)];
  const from = (all: readonly { off: number; dark: number }[], px: number) => {
    const k = Math.round(px / (PITCH * PER_MM));
    const line = all[k]!;
    // A pixel and a half wide, and blurred.
    return line.dark * Math.exp(-(((px - k * PITCH * PER_MM - line.off) / 1.1) ** 2));
  };
  const data = new Uint8Array(WIDTH * HEIGHT);
  for (let j = 0; j < HEIGHT; j++) {
    for (let i = 0; i < WIDTH; i++) {
      const [x, y] = [i + 0.5, j + 0.5];
      const value = ink(x / PER_MM, y / PER_MM) ?? PAPER + from(upright, x) + from(level, y);
      data[j * WIDTH + i] = Math.max(0, Math.min(255, value + grain() + 0.5));
    }
  }
  return {
    width: WIDTH,
    height: HEIGHT,
    data,
    channels: 1,
    perMm: PER_MM,
    minX: 0,
    maxY: 80,
  };
}

/** Mean darkness of a column or a row of pixels, mm. */
function meanOf({ data, width }: Darkness, xs: [number, number], ys: [number, number]): number {
  let [sum, n] = [0, 0];
  const px = (v: number) => Math.round(v * PER_MM);
  for (let j = px(ys[0]); j < Math.max(px(ys[1]), px(ys[0]) + 1); j++) {
    for (let i = px(xs[0]); i < Math.max(px(xs[1]), px(xs[0]) + 1); i++) {
      sum += data[j * width + i]!;
      n++;
    }
  }
  return sum / n;
}

describe('a printed grid', () => {
  it('is taken out, each line by itself, crossings too', () => {
    const dark = page(24);
    const clean = withoutGrid(dark, PITCH);
    let [most, crossing] = [0, 0];
    for (const k of [1, 2, 3, 4, 5]) {
      for (const d of [-2, -1, 0, 1]) {
        const x = k * PITCH + (d + 0.5) / PER_MM;
        most = Math.max(most, Math.abs(meanOf(clean, [x, x], [1.5, 8.5]) - PAPER));
        most = Math.max(most, Math.abs(meanOf(clean, [1.5, 8.5], [x, x]) - PAPER));
        // Across the crossing, half a millimetre each way.
        crossing = Math.max(crossing, Math.abs(meanOf(clean, [x, x], [19.5, 20.5]) - PAPER));
      }
    }
    expect(most).toBeLessThan(1.5);
    // Of six pixels each.
    expect(crossing).toBeLessThan(3.5);
    expect(meanOf(dark, [30, 30], [1.5, 8.5]) - PAPER).toBeGreaterThan(6);
  });

  it('is learnt from the bare part of a line that ink covers for the most', () => {
    const over = (x: number, y: number) => (x > 6 && x < 56 && y > 6 && y < 66 ? 200 : undefined);
    const clean = withoutGrid(page(24, over), PITCH);
    expect(Math.abs(meanOf(clean, [29.5, 30.5], [68, 69]) - PAPER)).toBeLessThan(2.5);
    expect(Math.abs(meanOf(clean, [2, 4], [29.5, 30.5]) - PAPER)).toBeLessThan(2.5);
  });

  it('is taken out right beside pale ink that hides it', () => {
    const over = (x: number, y: number) => (x > 6 && x < 56 && y > 15 && y < 75 ? 50 : undefined);
    const clean = withoutGrid(page(24, over), PITCH);
    expect(Math.abs(meanOf(clean, [29.5, 30.5], [13, 14.5]) - PAPER)).toBeLessThan(2.5);
    expect(Math.abs(meanOf(clean, [4, 5.5], [39.5, 40.5]) - PAPER)).toBeLessThan(2.5);
    // Ink that covers the line is not lighter on it.
    expect(meanOf(clean, [29.9, 30.1], [21, 29])).toBeGreaterThan(47.5);
  });

  it.each([
    ['dark', 200],
    ['pale', 45],
  ])('leaves the edge of %s ink that runs along it where it is', (_, value) => {
    // Beside the line at 30 mm, over most of the page.
    const edge = 30.3;
    const ink = (x: number, y: number) => {
      if (y < 5 || y > 75 || x < edge - 0.2 || x > 38) return undefined;
      return x > edge + 0.2 ? value : PAPER + (value - PAPER) * ((x - edge + 0.2) / 0.4);
    };
    const [bare, ruled] = [page(0, ink), withoutGrid(page(20, ink), PITCH)];
    const crossing = (d: Darkness) => {
      const half = (value + PAPER) / 2;
      const row = Array.from({ length: 12 }, (_, k) => {
        const x = 29.5 + k / PER_MM;
        return meanOf(d, [x, x], [12, 18]);
      });
      const k = row.findIndex(v => v >= half);
      return 29.5 + (k - (row[k]! - half) / (row[k]! - row[k - 1]!)) / PER_MM;
    };
    expect(Math.abs(crossing(ruled) - crossing(bare))).toBeLessThan(0.05);
  });

  it('that is not there changes nothing but what is below the grain', () => {
    const dark = page(0);
    const clean = withoutGrid(dark, PITCH);
    const off = dark.data.reduce((m, v, i) => Math.max(m, Math.abs(v - clean.data[i]!)), 0);
    expect(off).toBeLessThanOrEqual(2);
  });
});
