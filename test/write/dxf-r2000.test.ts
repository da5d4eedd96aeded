/** What R2000 wants and R12 does not: handles, owners, splines. */
import { describe, expect, it } from 'vitest';
import { circle, closedPath, cubic, line, openPath, rectangle } from '../../src/geom/index.js';
import { type DxfKind, type Path, PLAIN_IMPORT } from '../../src/model.js';
import { dxf } from '../../src/write/dxf.js';
import { readDxf } from '../../src/write/index.js';
import { CONVENTION, drawing, SPECIMEN } from '../support/drawings.js';

const write = (d = SPECIMEN, kind: DxfKind = 'r2000') =>
  dxf.write(d, CONVENTION, { ...PLAIN_IMPORT, dxf: kind });
/** Every object of the file: its tags, from one group 0 to the next. */
function objects(text: string): [number, string][][] {
  const lines = text.split('\n');
  expect(lines.pop()).toBe('');
  const found: [number, string][][] = [];
  for (let i = 0; i < lines.length; i += 2) {
    const tag: [number, string] = [Number(lines[i]), lines[i + 1]!];
    if (tag[0] === 0) found.push([tag]);
    else found.at(-1)!.push(tag);
  }
  return found;
}
const values = (object: readonly [number, string][], code: number) =>
  object.filter(t => t[0] === code).map(t => t[1]);
const handleOf = (object: readonly [number, string][]) =>
  values(object, object[0]![1] === 'DIMSTYLE' ? 105 : 5)[0];
const of = (text: string, kind: string) => objects(text).filter(o => o[0]![1] === kind);

describe.each(['r2000', 'r2000-splines'] as const)('%s', kind => {
  const text = write(SPECIMEN, kind);
  const all = objects(text).filter(o => !['SECTION', 'ENDSEC', 'ENDTAB', 'EOF'].includes(o[0]![1]));

  it('gives every object a handle of its own, below the seed of the next', () => {
    const handles = all.map(o => Number.parseInt(handleOf(o)!, 16));
    expect(handles).not.toContain(Number.NaN);
    expect(new Set(handles).size).toBe(handles.length);
    const seed = /\$HANDSEED\n5\n(\w+)\n/.exec(text)![1]!;
    expect(Number.parseInt(seed, 16)).toBeGreaterThan(Math.max(...handles));
  });

  it('points only at handles that are there', () => {
    const handles = new Set(['0', ...all.map(o => handleOf(o)!)]);
    for (const object of all) {
      for (const code of [330, 340, 350, 390]) {
        for (const handle of values(object, code)) expect(handles).toContain(handle);
      }
    }
  });

  it('gives the same bytes for the same drawing', () => {
    expect(write(structuredClone(SPECIMEN), kind)).toBe(text);
  });
});

describe('entities', () => {
  const kinds = (path: Path, kind: DxfKind) =>
    ['LINE', 'ARC', 'CIRCLE', 'LWPOLYLINE', 'SPLINE'].filter(
      k => of(write(drawing({ cut: [path] }), kind), k).length > 0,
    );
  const heart = closedPath([140, 40], [cubic([180, 20], [180, 100], [140, 80]), line([140, 40])]);

  it('are one for each path: a polyline with bulges, or a spline where a cubic is kept', () => {
    expect(kinds(rectangle(10, 20, 60, 40), 'r2000-splines')).toEqual(['LWPOLYLINE']);
    expect(kinds(circle([50, 50], 10), 'r2000-splines')).toEqual(['CIRCLE']);
    expect(kinds(heart, 'r2000')).toEqual(['LWPOLYLINE']);
    expect(kinds(heart, 'r2000-splines')).toEqual(['SPLINE']);
  });

  it('count their vertices, and close by the flag without repeating the first', () => {
    const [found] = of(write(drawing({ cut: [rectangle(10, 20, 60, 40)] })), 'LWPOLYLINE');
    expect(values(found!, 90)).toEqual(['4']);
    expect(values(found!, 70)).toEqual(['1']);
    expect(values(found!, 10)).toEqual(['10', '70', '70', '10']);
  });

  // Knots = control points + degree + 1, the ends four times: a clamped B-spline (from memory).
  it('have clamped knots and the cubic itself as control points', async () => {
    const one = openPath([30, 200], [cubic([40, 215], [55, 215], [60, 200])]);
    const text = write(drawing({ draw: [one] }), 'r2000-splines');
    const [found] = of(text, 'SPLINE');
    expect(values(found!, 71)).toEqual(['3']);
    expect(values(found!, 72)).toEqual(['8']);
    expect(values(found!, 73)).toEqual(['4']);
    expect(values(found!, 40)).toEqual(['0', '0', '0', '0', '1', '1', '1', '1']);
    expect(values(found!, 10)).toEqual(['30', '40', '55', '60']);
    const { drawing: back } = await readDxf(text);
    expect(back.layers[0]!.paths).toEqual([one]);
  });
});
