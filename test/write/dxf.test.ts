import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circle, closedPath, line, openPath, rectangle, reverse } from '../../src/geom/index.js';
import type { Drawing, Path } from '../../src/model.js';
import { dxf, layerName } from '../../src/write/dxf.js';
import { anyDrawing, CONVENTION, drawing, SPECIMEN } from '../support/drawings.js';

const write = (d: Drawing) => dxf.write(d, CONVENTION);

/** Group code and value pairs, the way the format is defined. */
function tags(text: string): [number, string][] {
  const lines = text.split('\n');
  expect(lines.pop()).toBe('');
  expect(lines.length % 2).toBe(0);
  const pairs: [number, string][] = [];
  for (let i = 0; i < lines.length; i += 2) {
    expect(lines[i]).toMatch(/^ {0,2}\d+$/);
    pairs.push([Number(lines[i]), lines[i + 1]!]);
  }
  return pairs;
}
/** The entities as lists of tags, each beginning with its type. */
function entities(text: string): [number, string][][] {
  const all = tags(text);
  const begin = all.findIndex(([c, v]) => c === 2 && v === 'ENTITIES');
  const found: [number, string][][] = [];
  for (const tag of all.slice(begin + 1)) {
    if (tag[0] === 0) found.push([tag]);
    else found.at(-1)!.push(tag);
  }
  return found.filter(e => !['ENDSEC', 'EOF'].includes(e[0]![1]));
}
const values = (e: [number, string][], code: number) => e.filter(t => t[0] === code).map(t => t[1]);
const types = (text: string) => entities(text).map(e => e[0]![1]);
const cut = (...paths: Path[]) => write(drawing({ cut: paths }));
const variable = (text: string, name: string) => {
  const all = tags(text);
  const i = all.findIndex(([c, v]) => c === 9 && v === name);
  const rest = all.slice(i + 1);
  return rest.slice(
    0,
    rest.findIndex(([c]) => c === 9 || c === 0),
  );
};

describe('dxf', () => {
  it('is R12 in metric millimetres with its extents and the sheet as limits', () => {
    const text = write(drawing({ cut: [rectangle(10, 20, 60, 40)] }, 215.9, 279.4));
    expect(variable(text, '$ACADVER')).toEqual([[1, 'AC1009']]);
    expect(variable(text, '$INSUNITS')).toEqual([[70, '4']]);
    expect(variable(text, '$MEASUREMENT')).toEqual([[70, '1']]);
    expect(variable(text, '$EXTMIN')).toEqual([
      [10, '10'],
      [20, '20'],
      [30, '0'],
    ]);
    expect(variable(text, '$EXTMAX').slice(0, 2)).toEqual([
      [10, '70'],
      [20, '60'],
    ]);
    expect(variable(text, '$LIMMAX')).toEqual([
      [10, '215.9'],
      [20, '279.4'],
    ]);
    expect(tags(text).at(-1)).toEqual([0, 'EOF']);
  });

  it('has a layer an operation with the colour of the convention, in working order', () => {
    const all = tags(write(SPECIMEN));
    const layers = all.flatMap(([c, v], i) =>
      c === 0 && v === 'LAYER' ? [[all[i + 1]![1], all[i + 3]![1]]] : [],
    );
    expect(layers).toEqual([
      ['0', '7'],
      ['DRAW', '5'],
      ['SCORE', '1'],
      ['PERFORATE', '6'],
      ['CUT', '7'],
      ['REGISTER', '3'],
    ]);
    const used = entities(write(SPECIMEN)).flatMap(e => values(e, 8));
    expect([...new Set(used)]).toEqual(['DRAW', 'SCORE', 'PERFORATE', 'CUT', 'REGISTER']);
  });

  // Bulges: the table of check-values.md section 4 (ezdxf math/bulge.py and its tests).
  it.each([
    [30, 0.1316524976],
    [45, 0.1989123674],
    [60, 0.2679491924],
    [90, 0.4142135624],
    [120, 0.5773502692],
    [180, 1],
    [270, 2.4142135624],
  ])('writes an arc of %d° with bulge %f', (angleDeg, bulge) => {
    const b = Math.tan((angleDeg * Math.PI) / 180 / 4);
    const text = cut(openPath([0, 0], [{ kind: 'arc', to: [10, 0], bulge: -b }, line([10, 50])]));
    const vertices = entities(text).filter(e => e[0]![1] === 'VERTEX');
    // To a hundredth of the file's step of height over its chord of 10 mm.
    const off = Number(values(vertices[0]!, 42)[0]) + bulge;
    expect((Math.abs(off) * 10) / 2).toBeLessThanOrEqual(1e-5);
    expect(values(vertices[1]!, 42)).toEqual([]);
  });

  // (0,0)-(10,0), bulge 0.5: radius 6.25, centre (5, 3.75), 106.260205° (ezdxf test_601_bulge.py).
  it('writes a lone counter-clockwise arc as ARC, in degrees', () => {
    const [arc] = entities(cut(openPath([0, 0], [{ kind: 'arc', to: [10, 0], bulge: 0.5 }])));
    expect(arc![0]).toEqual([0, 'ARC']);
    expect(values(arc!, 10)).toEqual(['5']);
    expect(values(arc!, 20)).toEqual(['3.75']);
    expect(values(arc!, 40)).toEqual(['6.25']);
    const [a, b] = [Number(values(arc!, 50)[0]), Number(values(arc!, 51)[0])];
    expect((b - a + 360) % 360).toBeCloseTo(106.260205, 6);
  });

  it('keeps the direction of a clockwise arc and of a clockwise circle by a POLYLINE', () => {
    expect(types(cut(openPath([0, 0], [{ kind: 'arc', to: [10, 0], bulge: -0.5 }])))).toEqual([
      'POLYLINE',
      'VERTEX',
      'VERTEX',
      'SEQEND',
    ]);
    expect(types(cut(circle([20, 20], 5)))).toEqual(['CIRCLE']);
    expect(types(cut(reverse(circle([20, 20], 5))))[0]).toBe('POLYLINE');
  });

  it('closes by the flag, without repeating the first vertex', () => {
    const found = entities(cut(rectangle(10, 20, 60, 40)));
    expect(found.map(e => e[0]![1])).toEqual(['POLYLINE', ...Array(4).fill('VERTEX'), 'SEQEND']);
    expect(values(found[0]!, 70)).toEqual(['1']);
    expect(values(found[0]!, 66)).toEqual(['1']);
  });

  it('keeps a nearly full circle, whose ends round to one point', () => {
    // Counter-clockwise from (0, 0), rightwards by 0.0001 mm: a circle of 10 mm below the chord.
    const b = Math.tan((2 * Math.PI - 1e-5) / 4);
    const path = openPath([0, 0], [{ kind: 'arc', to: [0.0001, 0], bulge: b }]);
    const found = entities(cut(path)).filter(e => e[0]![1] === 'VERTEX');
    expect(found).toHaveLength(3);
    expect(Number(values(found[1]!, 20)[0])).toBeLessThan(-15);
  });

  it('drops what rounds to nothing', () => {
    expect(types(cut(openPath([1, 1], [line([1.0001, 1])])))).toEqual([]);
    expect(types(cut(openPath([0, 0], [line([0.0001, 0]), line([5, 0])])))).toEqual(['LINE']);
  });

  it('gives the same bytes for the same drawing, and only tags, whatever the drawing', () => {
    fc.assert(
      fc.property(anyDrawing(), d => {
        const text = write(d);
        expect(write(structuredClone(d))).toBe(text);
        for (const [code, value] of tags(text)) {
          if (code >= 10 && code < 60) expect(value).toMatch(/^-?\d+(\.\d{1,12})?$/);
          expect(value).not.toMatch(/^-0(\.0*)?$/);
        }
      }),
      { seed: 31, numRuns: 30 },
    );
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY])('throws on %f anywhere', bad => {
    const paths = [
      openPath([bad, 0], [line([1, 1])]),
      openPath([0, 0], [line([1, bad])]),
      openPath([0, 0], [{ kind: 'arc', to: [1, 1], bulge: bad }]),
      openPath([0, 0], [{ kind: 'cubic', c1: [bad, 0], c2: [1, 0], to: [1, 1] }]),
      closedPath([0, 0], [{ kind: 'arc', to: [bad, 1], bulge: 0.3 }]),
    ];
    for (const p of paths) expect(() => cut(p)).toThrow();
    expect(() => write(drawing({}, bad, 10))).toThrow();
  });

  it('has layer names that cannot smuggle a tag in', () => {
    expect(layerName('half-cut_2')).toBe('HALF-CUT_2');
    for (const bad of ['', 'a\n0\nEOF', 'a b', 'schön', 'x'.repeat(32)]) {
      expect(() => layerName(bad)).toThrow(/layer name/);
    }
  });

  it('refuses a colour index that AutoCAD does not have', () => {
    for (const aci of [0, 256, 1.5, Number.NaN]) {
      const bad = { ...CONVENTION.operations.cut, aci };
      const convention = { ...CONVENTION, operations: { ...CONVENTION.operations, cut: bad } };
      expect(() => dxf.write(SPECIMEN, convention)).toThrow(/colour index of cut/);
    }
  });
});
