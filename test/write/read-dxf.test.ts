import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bounds, fitArcs, flatten, pathLength } from '../../src/geom/index.js';
import type { Drawing, Path } from '../../src/model.js';
import { dxf } from '../../src/write/dxf.js';
import { readDxf } from '../../src/write/read-dxf.js';
import { ReadError } from '../../src/write/read-error.js';
import { deviation } from '../support/deviation.js';
import { anyDrawing, anyPath, CONVENTION, SPECIMEN, straightOrArc } from '../support/drawings.js';
import { expectSameDrawing } from '../support/same-drawing.js';

const fitted = (d: Drawing): Drawing => ({
  ...d,
  layers: d.layers.map(l => ({ ...l, paths: l.paths.map(p => fitArcs(p)) })),
});

/** A file from entities as "code value code value …", in units of `$INSUNITS`. */
const file = (entities: string, units: number | '' = 4, header = '', tables = '') => {
  const tags = (text: string) => text.trim().split(/\s+/).filter(Boolean).join('\n');
  const insunits = units === '' ? '' : `9 $INSUNITS 70 ${units}`;
  return `${tags(
    `0 SECTION 2 HEADER 9 $ACADVER 1 AC1015 ${insunits} ${header} 0 ENDSEC 0 SECTION 2 TABLES ${tables} 0 ENDSEC 0 SECTION 2 ENTITIES ${entities} 0 ENDSEC 0 EOF`,
  )}\n`;
};
const LIMITS = '9 $LIMMIN 10 0 20 0 9 $LIMMAX 10 1000 20 1000';
async function one(entity: string): Promise<Path> {
  const { drawing } = await readDxf(file(entity, 4, LIMITS));
  expect(drawing.layers.flatMap(l => l.paths)).toHaveLength(1);
  return drawing.layers[0]!.paths[0]!;
}

describe('a DXF of ours', () => {
  it('is read back as the drawing it was written from, cubics as the arcs fitted to them', async () => {
    const { drawing, notes } = await readDxf(dxf.write(SPECIMEN, CONVENTION), { name: 'test' });
    expectSameDrawing(drawing, fitted(SPECIMEN), 0.0005 + 1e-9);
    expect(notes).toEqual([]);
  });

  it('is read back whatever the drawing, and once read stays as it is', async () => {
    await fc.assert(
      fc.asyncProperty(
        anyDrawing(straightOrArc).filter(d => d.layers.length > 0),
        async d => {
          const text = dxf.write(d, CONVENTION);
          const { drawing } = await readDxf(text, { name: d.name });
          expectSameDrawing(drawing, d, 0.0005 + 1e-9);
          const again = await readDxf(dxf.write(drawing, CONVENTION), { name: d.name });
          expectSameDrawing(again.drawing, drawing, 1e-6);
        },
      ),
      { seed: 81, numRuns: 60 },
    );
  });

  it('stays within 0.01 mm of every curve, and does not shatter it', async () => {
    await fc.assert(
      fc.asyncProperty(anyPath(), async path => {
        const text = dxf.write(
          { ...SPECIMEN, layers: [{ operation: 'cut', paths: [path] }] },
          CONVENTION,
        );
        const { drawing } = await readDxf(text);
        const back = drawing.layers[0]!.paths[0]!;
        expect(deviation(path, back, 1e-3)).toBeLessThan(0.01);
        // Chords within the same 0.01 mm would be more.
        expect(back.segments.length).toBeLessThanOrEqual(flatten(path, 0.01).length);
      }),
      { seed: 84, numRuns: 25 },
    );
  });

  it('keeps its sheet when the pivot of the blade leaves it', async () => {
    const out: Drawing = {
      ...SPECIMEN,
      layers: [
        {
          operation: 'cut',
          paths: [{ start: [-0.25, 5], segments: [{ kind: 'line', to: [9, 5] }], closed: false }],
        },
      ],
    };
    const { drawing } = await readDxf(dxf.write(out, CONVENTION), { name: 'test' });
    expectSameDrawing(drawing, out, 0.0005);
  });
});

describe('a DXF of others', () => {
  it('brings its unit to millimetres, and says when it has none', async () => {
    const line = '0 LINE 8 0 10 1 20 1 11 2 21 1';
    for (const [units, mm] of [
      [1, 25.4],
      [2, 304.8],
      [4, 1],
      [5, 10],
      [6, 1000],
    ] as const) {
      const { drawing } = await readDxf(file(line, units, LIMITS));
      expect(pathLength(drawing.layers[0]!.paths[0]!)).toBeCloseTo(mm, 9);
    }
    const said = await readDxf(file(line, 1, LIMITS));
    expect(said.sizes.map(s => [s.as, s.width, Number(s.scale.toFixed(9))])).toEqual([
      ['size', said.drawing.width, 1],
      ['mm', expect.closeTo(said.drawing.width / 25.4, 9), Number((1 / 25.4).toFixed(9))],
      ['in', expect.closeTo(said.drawing.width, 9), 1],
    ]);
    const unsaid = await readDxf(file(line, '', LIMITS));
    expect([unsaid.readAs, ...unsaid.sizes.map(s => s.scale)]).toEqual(['mm', 1, 25.4]);
    await expect(readDxf(file(line, 3))).rejects.toThrow(/\$INSUNITS 3/);
  });

  it('moves a drawing whose sheet is unknown to the corner', async () => {
    const { drawing, notes } = await readDxf(file('0 LINE 8 cut 10 -5 20 100 11 25 21 110'));
    expect([drawing.width, drawing.height]).toEqual([30, 10]);
    expect(drawing.layers[0]!.paths[0]!.start).toEqual([0, 0]);
    expect(notes[0]).toMatch(/moved to the corner/);
  });

  it('tells the operation by the layer, else by colour, else cuts and says so', async () => {
    const { drawing, notes } = await readDxf(
      file(
        '0 LINE 8 Score 10 0 20 0 11 1 21 0 0 LINE 8 x 62 6 10 0 20 1 11 1 21 1 0 LINE 8 pens 10 0 20 2 11 1 21 2 0 LINE 8 y 10 0 20 3 11 1 21 3',
        4,
        LIMITS,
        '0 TABLE 2 LAYER 70 1 0 LAYER 2 pens 70 0 62 5 6 CONTINUOUS 0 ENDTAB',
      ),
      { convention: CONVENTION },
    );
    const ys = Object.fromEntries(drawing.layers.map(l => [l.operation, l.paths[0]!.start[1]]));
    expect(ys).toEqual({ draw: 2, score: 0, perforate: 1, cut: 3 });
    expect(notes).toEqual(['a path on layer y was taken as cut']);
  });

  it('reads LWPOLYLINE with bulges, its codes in any order', async () => {
    // Area and radius as in check-values.md section 4: bulge 0.5 on a chord of 10 has radius 6.25.
    const path = await one(
      '0 LWPOLYLINE 5 2F 8 cut 100 AcDbEntity 100 AcDbPolyline 43 0 90 3 70 1 10 10 20 10 42 0.5 91 7 10 20 20 10 10 20 20 30',
    );
    expect(path.closed).toBe(true);
    expect(path.segments).toEqual([
      { kind: 'arc', to: [20, 10], bulge: 0.5 },
      { kind: 'line', to: [20, 30] },
      { kind: 'line', to: [10, 10] },
    ]);
    expect(bounds(path).minY).toBeCloseTo(10 - 2.5, 9);
  });

  it('reads an ARC across 0°, and one seen from below', async () => {
    const above = await one('0 ARC 8 cut 10 50 20 50 40 10 50 350 51 10');
    expect(pathLength(above)).toBeCloseTo((20 * Math.PI) / 18, 6);
    expect(bounds(above).maxX).toBeCloseTo(60, 5);
    const below = await one('0 ARC 8 cut 10 -50 20 50 40 10 50 350 51 10 210 0 220 0 230 -1');
    expect(bounds(below).minX).toBeCloseTo(40, 5);
  });

  it('reads an ELLIPSE', async () => {
    // Perimeter of the 10 × 5 ellipse: 48.442241 (check-values.md section 8).
    const path = await one(
      '0 ELLIPSE 8 cut 10 50 20 50 11 0 21 10 40 0.5 41 0 42 6.283185307179586',
    );
    expect(path.closed).toBe(true);
    expect(Math.abs(pathLength(path) / 48.442241103 - 1)).toBeLessThan(1e-5);
    const b = bounds(path);
    expect([b.minX, b.maxY]).toEqual([expect.closeTo(45, 3), expect.closeTo(60, 3)]);
    const quarter = await one(
      '0 ELLIPSE 8 cut 10 50 20 50 11 10 21 0 40 1 41 0 42 1.5707963267948966',
    );
    expect(quarter.segments.map(s => s.kind)).toEqual(['arc']);
    expect(quarter.segments[0]!.to).toEqual([50, 60]);
  });

  it('reads a SPLINE of one span as the cubic it is, and of two as the curve through its knots', async () => {
    const cubic = await one(
      '0 SPLINE 8 cut 70 8 71 3 72 8 73 4 40 0 40 0 40 0 40 0 40 1 40 1 40 1 40 1 10 0 20 0 30 0 10 0 20 100 30 0 10 100 20 100 30 0 10 100 20 0 30 0',
    );
    // Length exactly 200 (check-values.md section 3.2).
    expect(pathLength(cubic)).toBeCloseTo(200, 6);
    const two = await one(
      '0 SPLINE 8 cut 70 8 71 3 72 9 73 5 40 0 40 0 40 0 40 0 40 1 40 2 40 2 40 2 40 2 10 0 20 0 10 0 20 8 10 8 20 8 10 16 20 8 10 16 20 0',
    );
    // By hand (knot 1 inserted three times): the curve passes (8, 8) there, going right.
    expect(two.segments).toEqual([
      { kind: 'cubic', c1: [0, 8], c2: [4, 8], to: [8, 8] },
      { kind: 'cubic', c1: [12, 8], c2: [16, 8], to: [16, 0] },
    ]);
  });

  it('leaves out what it cannot cut, and says so', async () => {
    const { notes } = await readDxf(
      file(
        '0 TEXT 8 0 1 Pears 0 INSERT 8 0 2 B 0 INSERT 8 0 2 B 0 SPLINE 8 0 70 4 71 3 40 0 40 1 10 0 20 0 0 POLYLINE 8 0 70 16 0 VERTEX 8 0 10 0 20 0 0 SEQEND 0 POINT 8 0 10 0 20 0 0 LINE 8 cut 10 0 20 0 11 1 21 1',
      ),
    );
    expect(notes.map(n => n.replace(/ was left out: draw it as lines and arcs/, ''))).toEqual([
      'TEXT',
      'INSERT (2 times)',
      'POINT',
      'a rational spline',
      'a mesh',
      expect.stringContaining('corner'),
    ]);
  });

  it.each([
    ['nothing', '', /line 1: it breaks off/],
    ['prose', 'a letter\nto the miller\n', /"a letter" is no group code/],
    ['a binary file', 'AutoCAD Binary DXF\r\n\u001a\u0000', /binary/],
    [
      'a file that breaks off',
      dxf.write(SPECIMEN, CONVENTION).slice(0, 2000),
      /breaks off|no group/,
    ],
    ['50 MB', ' '.repeat(50e6), /50\.0 MB, at most 16\.0 MB/],
    [
      'a million segments',
      file(`0 LWPOLYLINE 8 0 90 9 70 0 ${'10 1 20 2 10 3 20 4 '.repeat(3e5)}`),
      /more than 250000/,
    ],
    [
      'a billion vertices promised',
      file('0 LWPOLYLINE 8 0 90 1000000000 70 0'),
      /without group 10/,
    ],
    ['NaN', file('0 LINE 8 0 10 NaN 20 0 11 1 21 1'), /"NaN" is no number/],
    ['infinity', file('0 LINE 8 0 10 1e400 20 0 11 1 21 1'), /no group|no number/],
    ['a place kilometres away', file('0 LINE 8 0 10 1e9 20 0 11 1 21 1'), /kilometres/],
    ['a line without an end', file('0 LINE 8 0 10 1 20 2'), /LINE without group 11/],
    ['no entities', file(''), /nothing to cut/],
  ])('refuses %s', async (_name, text, words) => {
    const error = await readDxf(text).then(
      () => undefined,
      (e: unknown) => e,
    );
    expect(error).toBeInstanceOf(ReadError);
    expect((error as ReadError).message).toMatch(words);
  });

  it('does not run for ever on a POLYLINE without vertices, as the parser alone would', async () => {
    const { drawing } = await readDxf(
      file('0 POLYLINE 8 cut 66 1 70 0 0 LINE 8 cut 10 0 20 0 11 1 21 1', 4, LIMITS),
    );
    expect(drawing.layers[0]!.paths).toHaveLength(1);
  });

  it('survives any damage: a drawing or an error of ours', async () => {
    const text = dxf.write(SPECIMEN, CONVENTION);
    await fc.assert(
      fc.asyncProperty(
        fc.nat(text.length - 1),
        fc.nat(60),
        fc.string({ maxLength: 4 }),
        async (at, n, s) => {
          try {
            await readDxf(text.slice(0, at) + s + text.slice(at + n));
          } catch (error) {
            expect(error).toBeInstanceOf(ReadError);
          }
        },
      ),
      { seed: 82, numRuns: 400 },
    );
  });

  it('survives lines dropped and doubled', async () => {
    const lines = dxf.write(SPECIMEN, CONVENTION).split('\n');
    await fc.assert(
      fc.asyncProperty(
        fc.nat(Math.floor(lines.length / 2)),
        fc.nat(Math.floor(lines.length / 2)),
        async (from, to) => {
          const moved = [...lines.slice(0, 2 * from), ...lines.slice(2 * to)].join('\n');
          try {
            await readDxf(moved);
          } catch (error) {
            expect(error).toBeInstanceOf(ReadError);
          }
        },
      ),
      { seed: 83, numRuns: 200 },
    );
  });
});
