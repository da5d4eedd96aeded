import { describe, expect, it } from 'vitest';
import { between, pick, seeded, xorshift128 } from '../../src/motifs/random.js';

describe('chance', () => {
  it("gives the first numbers of Marsaglia's generator from his own seeds", () => {
    // G. Marsaglia, "Xorshift RNGs", J. Stat. Softw. 8(14), 2003: the seeds of function xor128;
    // the numbers from memory of other implementations' test tables.
    const next = xorshift128(123456789, 362436069, 521288629, 88675123);
    expect([next(), next(), next(), next()]).toEqual([
      3701687786, 458299110, 2500872618, 3633119408,
    ]);
  });

  it('refuses the state it could never leave', () => {
    expect(() => xorshift128(0, 0, 0, 0)).toThrow(RangeError);
    expect(() => seeded(Number.NaN)).toThrow(RangeError);
  });

  it('repeats for a seed and differs between neighbouring seeds and streams', () => {
    const ten = (seed: number, stream?: number) => {
      const random = seeded(seed, stream);
      return Array.from({ length: 10 }, random);
    };
    expect(ten(7)).toEqual(ten(7));
    expect(ten(7)).not.toEqual(ten(8));
    expect(ten(7, 1)).not.toEqual(ten(7, 2));
  });

  it('is even: chi-squared over 64 bins stays under the 99.9 % point for any of 20 seeds', () => {
    // 103.442 is chi-squared's 0.999 quantile for 63 degrees of freedom (standard tables).
    const worst = Math.max(
      ...Array.from({ length: 20 }, (_, seed) => {
        const random = seeded(seed);
        const bins = new Array<number>(64).fill(0);
        const draws = 64_000;
        for (let i = 0; i < draws; i++) bins[Math.floor(random() * 64)]!++;
        return bins.reduce((sum, n) => sum + (n - 1000) ** 2 / 1000, 0);
      }),
    );
    expect(worst).toBeLessThan(103.442);
  });

  it('first draws of neighbouring seeds are spread, not in step', () => {
    const firsts = Array.from({ length: 256 }, (_, seed) => seeded(seed)());
    const mean = firsts.reduce((a, b) => a + b) / firsts.length;
    // Six standard errors of the mean of 256 even numbers: 6 / √(12 · 256).
    expect(Math.abs(mean - 0.5)).toBeLessThan(6 / Math.sqrt(12 * 256));
  });

  it('picks from the whole list and nothing else', () => {
    const random = seeded(3);
    const seen = new Set(Array.from({ length: 200 }, () => pick(['a', 'b', 'c'], random)));
    expect([...seen].sort()).toEqual(['a', 'b', 'c']);
    expect(() => pick([], random)).toThrow(RangeError);
    const x = between(2, 3, random);
    expect(x >= 2 && x < 3).toBe(true);
  });
});
