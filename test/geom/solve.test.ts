import { describe, expect, it } from 'vitest';
import { solve } from '../../src/geom/index.js';

describe('a system of equations', () => {
  it('is solved, its first pivot zero', () => {
    expect(
      solve(
        [
          [0, 2],
          [3, 1],
        ],
        [4, 5],
      ),
    ).toEqual([1, 2]);
  });
  it('has no answer where it does not determine one', () => {
    expect(
      solve(
        [
          [1, 2],
          [2, 4],
        ],
        [1, 2],
      ),
    ).toBeUndefined();
    expect(solve([[Number.NaN]], [1])).toBeUndefined();
  });
});
