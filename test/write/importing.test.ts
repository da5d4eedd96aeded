/** Cut files for software that reads numbers its own way: the same sheet, whatever is asked. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DXF_KINDS, type Importing, PLAIN_IMPORT } from '../../src/model.js';
import { dxf } from '../../src/write/dxf.js';
import { readDxf, readSvg } from '../../src/write/index.js';
import { svg } from '../../src/write/svg.js';
import { deviation } from '../support/deviation.js';
import { CONVENTION, SPECIMEN } from '../support/drawings.js';
import { expectSameDrawing } from '../support/same-drawing.js';

const how = fc.record({
  svgUnits: fc.constantFrom(undefined, 72, 90, 96),
  origin: fc.constantFrom('lower-left', 'upper-left', 'middle'),
  y: fc.constantFrom('up', 'down'),
  dxf: fc.constantFrom('r12', 'r2000'),
  files: fc.constant('together'),
  scaleSquare: fc.constant(0),
}) as fc.Arbitrary<Importing>;

describe('whatever the importing software asks', () => {
  it('a file read back is the drawing, in true size', () =>
    fc.assert(
      fc.asyncProperty(how, async importing => {
        for (const [writer, read] of [
          [svg, readSvg],
          [dxf, readDxf],
        ] as const) {
          const named = { name: SPECIMEN.name };
          const plain = await read(writer.write(SPECIMEN, CONVENTION), named);
          const { drawing } = await read(writer.write(SPECIMEN, CONVENTION, importing), named);
          expectSameDrawing(drawing, plain.drawing, 0.002);
        }
      }),
      { seed: 5, numRuns: 30 },
    ));
  it('a DXF with splines read back has the curves of the drawing', () =>
    fc.assert(
      fc.asyncProperty(how, async importing => {
        const asked: Importing = { ...importing, dxf: 'r2000-splines' };
        const named = { name: SPECIMEN.name };
        const { drawing } = await readDxf(dxf.write(SPECIMEN, CONVENTION, asked), named);
        const [a, b] = [drawing, SPECIMEN].map(d => d.layers.flatMap(l => l.paths));
        expect(a!.map(p => p.closed)).toEqual(b!.map(p => p.closed));
        a!.forEach((path, i) => {
          expect(deviation(path, b![i]!, 1e-3)).toBeLessThan(0.002);
        });
      }),
      { seed: 6, numRuns: 10 },
    ));
  it('nothing asked is the plain file, to the byte', () => {
    for (const writer of [svg, dxf]) {
      expect(writer.write(SPECIMEN, CONVENTION, PLAIN_IMPORT)).toBe(
        writer.write(SPECIMEN, CONVENTION),
      );
    }
  });
});

describe('SVG in units of a length', () => {
  it.each([72, 90, 96] as const)('of %i to the inch has its size in mm beside them', svgUnits => {
    const text = svg.write(SPECIMEN, CONVENTION, { ...PLAIN_IMPORT, svgUnits });
    const k = svgUnits / 25.4;
    const [, w, h] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(text)!.map(Number);
    expect(w).toBeCloseTo(k * SPECIMEN.width, 2);
    expect(h).toBeCloseTo(k * SPECIMEN.height, 2);
    expect(text).toContain(`width="${SPECIMEN.width}mm"`);
  });
});

describe.each(DXF_KINDS)('DXF %s about another origin', kind => {
  const corners = (importing: Partial<Importing>) => {
    const asked = { ...PLAIN_IMPORT, dxf: kind, ...importing };
    const text = dxf.write(SPECIMEN, CONVENTION, asked);
    // A header variable, its name, then its x and y by group codes 10 and 20.
    const of = (name: string, code: number) => {
      const after = text.slice(text.indexOf(name));
      return Number(new RegExp(`\\n *${code}\\n(\\S+)`).exec(after)![1]);
    };
    return ['$LIMMIN', '$LIMMAX'].flatMap(name => [of(name, 10), of(name, 20)]);
  };
  const { width: w, height: h } = SPECIMEN;
  it.each([
    [{}, [0, 0, w, h]],
    [{ origin: 'upper-left' }, [0, -h, w, 0]],
    [{ origin: 'upper-left', y: 'down' }, [0, h, w, 0]],
    [{ origin: 'middle' }, [-w / 2, -h / 2, w / 2, h / 2]],
    [{ y: 'down' }, [0, 0, w, -h]],
  ] as const)('%j has the sheet at %j', (importing, sheet) => {
    corners(importing).forEach((v, i) => {
      expect(v).toBeCloseTo(sheet[i]!, 3);
    });
  });
});
