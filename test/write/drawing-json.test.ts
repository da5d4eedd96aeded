import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Drawing, Path } from '../../src/model.js';
import { readDrawingJson, writeDrawingJson } from '../../src/write/drawing-json.js';
import { ReadError } from '../../src/write/read-error.js';
import { anyDrawing, SPECIMEN } from '../support/drawings.js';

const numbers = (path: Path): number[] => [
  ...path.start,
  ...path.segments.flatMap(s => [
    ...s.to,
    ...(s.kind === 'arc' ? [s.bulge] : s.kind === 'cubic' ? [...s.c1, ...s.c2] : []),
  ]),
];
const shape = (d: Drawing) =>
  d.layers.map(l => [l.operation, l.paths.map(p => [p.closed, p.segments.map(s => s.kind)])]);

describe('the drawing as JSON', () => {
  it('is read back as it was, to a millionth of a millimetre', () => {
    fc.assert(
      fc.property(anyDrawing(), d => {
        const back = readDrawingJson(writeDrawingJson(d));
        expect(shape(back)).toEqual(shape(d));
        const all = (x: Drawing) => x.layers.flatMap(l => l.paths.flatMap(numbers));
        const [a, b] = [all(d), all(back)];
        for (let i = 0; i < a.length; i++) {
          expect(Math.abs(a[i]! - b[i]!)).toBeLessThanOrEqual(0.5e-6 + 1e-9);
        }
        // Once on the grid it stays.
        expect(writeDrawingJson(back)).toBe(writeDrawingJson(d));
      }),
      { seed: 51, numRuns: 50 },
    );
  });

  it('has one path a line', () => {
    expect(writeDrawingJson(SPECIMEN)).toMatch(
      /\{"operation":"score","paths":\[\n\[0,\[20,40\],\[120,40\]\],\n\[0,\[20,90\],\[120,90\]\]\]\}/,
    );
  });

  it('throws on NaN', () => {
    const bad = (x: number): Drawing => ({
      ...SPECIMEN,
      layers: [
        {
          operation: 'cut',
          paths: [{ start: [0, 0], segments: [{ kind: 'line', to: [x, 1] }], closed: false }],
        },
      ],
    });
    expect(() => writeDrawingJson(bad(Number.NaN))).toThrow();
    expect(() => writeDrawingJson({ ...SPECIMEN, width: Number.NaN })).toThrow();
  });

  it.each([
    ['', 'no JSON'],
    ['{}', 'format: missing'],
    ['[]', 'not an object'],
    [
      '{"format":"foldwright drawing 1","name":"x","width":1,"height":1,"layers":[],"more":1}',
      'unknown field "more"',
    ],
    ['{"format":"foldwright drawing 1","name":"x","width":-1,"height":1,"layers":[]}', 'width: -1'],
    [layer('[0,[0,0]]'), 'layers[0].paths[0]: not a path'],
    [layer('[1,[0,0],[5,5]]'), 'does not end on its start'],
    [layer('[0,[0,0],[5,5,1,1]]'), 'a segment of 4 numbers'],
    [layer('[0,[0,0],[5,null]]'), 'layers[0].paths[0][2][1]: null'],
    [layer('[0,[0,0],[5,1e400]]'), 'null is not a number'],
    [layer('[2,[0,0],[5,1]]'), 'not a path'],
  ])('refuses %s', (text, words) => {
    const read = () => readDrawingJson(text);
    expect(read).toThrow(ReadError);
    expect(read).toThrow(words);
  });
});

function layer(path: string): string {
  return `{"format":"foldwright drawing 1","name":"x","width":9,"height":9,"layers":[{"operation":"cut","paths":[${path}]}]}`;
}
