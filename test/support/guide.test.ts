/** The helpers notice what they are for. */
import { expect, it } from 'vitest';
import { outside, overlapping, type TextBox } from './guide.js';

const box = (text: string, x0: number, y0: number, page = 1): TextBox => ({
  text,
  page,
  x0,
  y0,
  x1: x0 + 20,
  y1: y0 + 5,
});

it('texts that lie on each other are found, and those that only touch or stand elsewhere are not', () => {
  expect(overlapping([box('a', 0, 0), box('b', 19, 4)])).toEqual([['a', 'b']]);
  expect(overlapping([box('a', 0, 0), box('b', 20, 0), box('c', 0, 5), box('d', 1, 1, 2)])).toEqual(
    [],
  );
});

it('texts past the edge of the page are found, and so is one that is nowhere', () => {
  expect(outside([box('a', 81, 0), box('b', 0, -1), box('c', 5, 5)], 100, 100)).toEqual(['a', 'b']);
  expect(outside([{ ...box('a', 0, 0), x0: Number.NaN }], 100, 100)).toEqual(['a']);
});
