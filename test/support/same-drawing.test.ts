import { describe, expect, it } from 'vitest';
import { circle, line, openPath, reverse } from '../../src/geom/index.js';
import { drawing } from './drawings.js';
import { expectSameDrawing } from './same-drawing.js';

const one = drawing({ cut: [openPath([0, 0], [line([10, 0]), line([10, 5])])] });

describe('expectSameDrawing', () => {
  it('accepts the same within the tolerance', () => {
    expectSameDrawing(one, one, 0);
    const near = drawing({ cut: [openPath([0, 0.0004], [line([10, 0]), line([10, 5])])] });
    expectSameDrawing(near, one, 0.0005);
  });

  it.each([
    ['a point moved', drawing({ cut: [openPath([0, 0], [line([10, 0]), line([10, 5.001])])] })],
    ['a segment less', drawing({ cut: [openPath([0, 0], [line([10, 0])])] })],
    ['a path more', drawing({ cut: [...one.layers[0]!.paths, circle([3, 3], 1)] })],
    ['another operation', drawing({ score: one.layers[0]!.paths })],
    ['another sheet', drawing({ cut: one.layers[0]!.paths }, 211)],
    ['the other direction', drawing({ cut: one.layers[0]!.paths.map(reverse) })],
    ['NaN', drawing({ cut: [openPath([0, Number.NaN], [line([10, 0]), line([10, 5])])] })],
  ])('fails for %s', (_name, other) => {
    expect(() => expectSameDrawing(other, one, 0.0005)).toThrow();
  });

  it('fails for an arc that turns the other way', () => {
    const arc = (bulge: number) =>
      drawing({ cut: [openPath([0, 0], [{ kind: 'arc', to: [1, 0], bulge }])] });
    expect(() => expectSameDrawing(arc(0.5), arc(-0.5), 0.0005)).toThrow();
    expect(() => expectSameDrawing(arc(0.5), arc(0.50004), 0)).toThrow();
    expectSameDrawing(arc(0.5), arc(0.50001), 0);
  });
});
