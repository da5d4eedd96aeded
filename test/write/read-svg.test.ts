import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arcsToCubics, bounds, pathLength } from '../../src/geom/index.js';
import type { Drawing, Path } from '../../src/model.js';
import { ReadError } from '../../src/write/read-error.js';
import { readSvg } from '../../src/write/read-svg.js';
import { svg } from '../../src/write/svg.js';
import { deviation } from '../support/deviation.js';
import {
  anyDrawing,
  anyPath,
  CONVENTION,
  SPECIMEN,
  straightOrArc,
  straightOrCubic,
} from '../support/drawings.js';
import { expectSameDrawing } from '../support/same-drawing.js';

const doc = (inside: string, root = 'width="100mm" height="100mm" viewBox="0 0 100 100"') =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${root}>${inside}</svg>`;
const read = (inside: string, root?: string) =>
  readSvg(doc(inside, root), { convention: CONVENTION });
async function paths(inside: string, root?: string): Promise<Path[]> {
  return (await read(inside, root)).drawing.layers.flatMap(l => l.paths);
}
const withCubics = (d: Drawing): Drawing => ({
  ...d,
  layers: d.layers.map(l => ({ ...l, paths: l.paths.map(arcsToCubics) })),
});

describe('an SVG of ours', () => {
  it('is read back as the drawing it was written from, arcs as their cubics', async () => {
    const { drawing, notes } = await readSvg(svg.write(SPECIMEN, CONVENTION), { name: 'test' });
    expectSameDrawing(drawing, withCubics(SPECIMEN), 0.0005 + 1e-9);
    expect(notes).toEqual([]);
  });

  it('is read back whatever the drawing, and written again to the same bytes', async () => {
    await fc.assert(
      fc.asyncProperty(anyDrawing(straightOrCubic), async d => {
        const text = svg.write(d, CONVENTION);
        const { drawing } = await readSvg(text, { name: d.name });
        expectSameDrawing(drawing, d, 0.0005 + 1e-9);
        expect(svg.write(drawing, CONVENTION)).toBe(text);
      }),
      { seed: 71, numRuns: 40 },
    );
  });

  it('stays within 0.01 mm of every arc', async () => {
    await fc.assert(
      fc.asyncProperty(anyPath(straightOrArc), async path => {
        const text = svg.write(
          { ...SPECIMEN, layers: [{ operation: 'cut', paths: [path] }] },
          CONVENTION,
        );
        const { drawing } = await readSvg(text);
        expect(deviation(path, drawing.layers[0]!.paths[0]!, 1e-3)).toBeLessThan(0.01);
      }),
      { seed: 73, numRuns: 25 },
    );
  });
});

describe('an SVG of others', () => {
  it('gives its size whatever the unit, and says when it has none', async () => {
    const size = async (root: string) => {
      const { drawing, readAs } = await read('', root);
      return [Number(drawing.width.toFixed(6)), Number(drawing.height.toFixed(6)), readAs];
    };
    // Unit table: check-values.md section 1.1 and 3.1 (CSS Values and Units).
    expect(await size('width="8.5in" height="11in" viewBox="0 0 816 1056"')).toEqual([
      215.9,
      279.4,
      'size',
    ]);
    expect(await size('width="612pt" height="792pt"')).toEqual([215.9, 279.4, 'size']);
    expect(await size('width="51pc" height="66pc"')).toEqual([215.9, 279.4, 'size']);
    expect(await size('width="21cm" height="1188Q"')).toEqual([210, 297, 'size']);
    expect(await size('width="816" height="1056"')).toEqual([215.9, 279.4, '96']);
    expect(await size('width="100%" height="100%" viewBox="0 0 816 1056"')).toEqual([
      215.9,
      279.4,
      '96',
    ]);
    expect(await size('viewBox="0 0 96 192"')).toEqual([25.4, 50.8, '96']);
  });

  it('tells the size that it has for software that counts units', async () => {
    const sizes = async (root: string) =>
      (await read('', root)).sizes.map(s => [
        s.as,
        Number(s.width.toFixed(4)),
        Number(s.height.toFixed(4)),
      ]);
    // Letter in points (72 to the inch) and in CSS pixels (96): check-values.md section 1.1 and 3.1.
    expect(await sizes('width="612" height="792"')).toEqual([
      ['96', 161.925, 209.55],
      ['90', 172.72, 223.52],
      ['72', 215.9, 279.4],
    ]);
    expect(await sizes('width="100%" height="100%" viewBox="0 0 816 1056"')).toEqual([
      ['96', 215.9, 279.4],
      ['90', 230.2933, 298.0267],
      ['72', 287.8667, 372.5333],
    ]);
    expect(await sizes('width="8.5in" height="11in" viewBox="0 0 816 1056"')).toEqual([
      ['size', 215.9, 279.4],
      ['96', 215.9, 279.4],
      ['90', 230.2933, 298.0267],
      ['72', 287.8667, 372.5333],
    ]);
    expect((await sizes('width="12in" height="12in" viewBox="0 0 304.8 304.8"'))[1]).toEqual([
      '96',
      80.645,
      80.645,
    ]);
    expect((await sizes('width="72pt" height="144px"'))[0]).toEqual(['96', 25.4, 38.1]);
  });

  it('takes shares of the viewport that a shape is in', async () => {
    // SVG 2, 8.9 "Units": of the width, of the height, of √((w² + h²) / 2).
    const found = await paths(
      '<rect x="25%" y="10%" width="50%" height="50%"/><circle cx="50%" cy="50%" r="10%"/>',
      'width="60mm" height="80mm" viewBox="0 0 6 8"',
    );
    expect(bounds(found[0]!)).toEqual({ minX: 15, minY: 32, maxX: 45, maxY: 72 });
    const radius = Math.sqrt((60 ** 2 + 80 ** 2) / 2) / 10;
    expect(bounds(found[1]!).maxX).toBeCloseTo(30 + radius, 6);
    expect(bounds(found[1]!).minY).toBeCloseTo(40 - radius, 6);
  });

  it('brings units, viewBox origin and transforms to the sheet', async () => {
    const [path] = await paths(
      '<g transform="translate(10,20) scale(2)"><path transform="rotate(90)" d="m1 2 h3 v-1 z"/></g>',
      'width="96mm" height="192mm" viewBox="-4 -8 48 96"',
    );
    // By hand: rotate(90): (x, y) → (−y, x); ×2 + (10, 20); + (4, 8); ×2 mm; y up from 192.
    expect(path!.start).toEqual([20, 132]);
    expect(path!.segments.map(s => s.to)).toEqual([
      [20, 120],
      [24, 120],
      [20, 132],
    ]);
    expect(path!.closed).toBe(true);
  });

  it('fits a viewBox of another shape as SVG says', async () => {
    const root = (fit: string) => `width="100mm" height="50mm" viewBox="0 0 10 10" ${fit}`;
    const at = async (fit: string) => (await paths('<path d="M0 0L10 10"/>', root(fit)))[0]!;
    expect((await at('')).start).toEqual([25, 50]);
    expect((await at('preserveAspectRatio="xMinYMin"')).segments[0]!.to).toEqual([50, 0]);
    expect((await at('preserveAspectRatio="none"')).segments[0]!.to).toEqual([100, 0]);
  });

  it('reads every command of path data', async () => {
    const found = await paths(
      '<path d="M10 10h10v10H10V10M30 30l5 5 5-5zm20 0c0 5 5 5 5 0s5-5 5 0M70 70q5 5 10 0t10 0L95 95"/>',
    );
    expect(found.map(p => p.segments.map(s => s.kind[0]).join(''))).toEqual([
      'llll',
      'lll',
      'cc',
      'ccl',
    ]);
    expect(found[1]!.closed).toBe(true);
    expect(found[2]!.start).toEqual([50, 70]);
    // Quadratic (0,0)(50,100)(100,0): length 147.894286 (check-values.md section 3.2).
    const [quadratic] = await paths('<path d="M0 0Q50 100 100 0"/>');
    expect(pathLength(quadratic!)).toBeCloseTo(147.894286, 6);
  });

  // W3C's example file arcs01.svg and the worked arcs of check-values.md section 3.2.
  it.each([
    ['A', '150,200 a150,150 0 1,0 150,-150', 706.858347, [150, 50, 450, 350]],
    ['B', '275,25 a150,150 0 0,0 -150,150', 235.619449, [125, 25, 275, 175]],
    ['C', '650,325 a25,25 -30 0,1 50,-25', 87.810184, [647.0492, 284.5492, 700, 325]],
    ['D', '750,275 a25,50 -30 0,1 50,-25', 135.217783, [738.0743, 212.1788, 800, 275]],
    ['E', '850,225 a25,75 -30 0,1 50,-25', 186.481818, [826.665, 138.6671, 900, 225]],
    ['F', '950,175 a25,100 -30 0,1 50,-25', 239.370358, [914.1851, 64.8368, 1000, 175]],
    ['G', '0,0 A10,5 30 0 1 10,10', 15.00222, [0, 0, 10.0355, 10]],
    ['H', '0,0 A10,5 30 1 1 10,10', 33.440021, [0, -2.534, 17.9923, 10.6948]],
    ['I', '0,0 A10,5 30 0 0 10,10', 15.00222, [-0.0355, 0, 10, 10]],
    ['J', '0,0 A1,2 0 0 1 10,0', 24.221121, [0, -10, 10, 0]],
  ])('reads the elliptical arc %s', async (_name, data, length, [minX, minY, maxX, maxY]) => {
    const [path] = await paths(
      `<path d="M${data}"/>`,
      'width="1000mm" height="1000mm" viewBox="0 0 1000 1000"',
    );
    // Cubics of 45° stand for ellipses within 4.2e-6 of the radius.
    expect(Math.abs(pathLength(path!) / length - 1)).toBeLessThan(1e-5);
    const b = bounds(path!);
    const near = (a: number, e: number) => expect(Math.abs(a - e)).toBeLessThan(1e-3);
    near(b.minX, minX!);
    near(b.maxX, maxX!);
    near(1000 - b.maxY, minY!);
    near(1000 - b.minY, maxY!);
  });

  it('keeps circular arcs as arcs under a similarity, and only then', async () => {
    const kinds = async (transform: string) =>
      (await paths(`<g transform="${transform}"><circle cx="5" cy="5" r="3"/></g>`))[0]!.segments;
    const mirrored = await kinds('matrix(-2 0 0 2 50 0)');
    expect(mirrored.map(s => s.kind)).toEqual(['arc', 'arc']);
    expect(new Set((await kinds('scale(2,3)')).map(s => s.kind))).toEqual(new Set(['cubic']));
    const [arc] = await paths('<path d="M10 50a10 10 0 0 1 20 0"/>');
    expect(arc!.segments).toEqual([{ kind: 'arc', to: [30, 50], bulge: expect.closeTo(-1, 12) }]);
  });

  it('reads the basic shapes', async () => {
    const found = await paths(
      '<rect x="1" y="2" width="30" height="20"/><rect x="1" y="2" width="30" height="20" rx="4"/>' +
        '<rect width="30" height="20" rx="4" ry="2"/><circle cx="50" cy="50" r="10"/>' +
        '<ellipse cx="50" cy="50" rx="10" ry="5"/><line x1="1" y1="1" x2="9" y2="1"/>' +
        '<polyline points="0,0 5,5 10 0"/><polygon points="0 0 5 5 10 0"/>',
    );
    const length = found.map(p => pathLength(p));
    expect(length[0]).toBeCloseTo(100, 9);
    expect(length[1]).toBeCloseTo(100 - 32 + 8 * Math.PI, 9);
    expect(length[3]).toBeCloseTo(20 * Math.PI, 9);
    // Perimeter of the 10 × 5 ellipse: 48.442241 (check-values.md section 8), in four cubics.
    expect(Math.abs(length[4]! / 48.442241103 - 1)).toBeLessThan(3e-4);
    expect(length[5]).toBeCloseTo(8, 9);
    expect(found.map(p => p.closed)).toEqual([true, true, true, true, true, false, false, true]);
    expect(bounds(found[2]!)).toEqual({ minX: 0, minY: 80, maxX: 30, maxY: 100 });
  });

  it('tells the operation by the group, else by the colour, else cuts and says so', async () => {
    const { drawing, notes } = await read(
      '<g id="Score"><g stroke="red"><path d="M0 0h1"/></g></g><path id="draw" d="M0 1h1"/>' +
        '<g stroke="#CC79A7"><path d="M0 2h1"/></g><path style="fill:none;stroke:rgb(0, 158, 115)" d="M0 3h1"/>' +
        '<path stroke="black" d="M0 4h1"/><path stroke="#123456" d="M0 5h1"/><path d="M0 6h1"/><path d="M0 7h1"/>',
    );
    const ys = Object.fromEntries(
      drawing.layers.map(l => [l.operation, l.paths.map(p => 100 - p.start[1])]),
    );
    expect(ys).toEqual({ draw: [1], score: [0], perforate: [2], cut: [4, 5, 6, 7], register: [3] });
    expect(notes).toHaveLength(2);
    expect(notes[0]).toContain('#123456');
    expect(notes[1]).toMatch(/without a stroke.*\(2 times\)/);
  });

  it('leaves out what it cannot cut, and says so', async () => {
    const { drawing, notes } = await read(
      '<defs><path d="M0 0h1"/></defs><text>Pears</text><use href="#a"/><image/><path display="none" d="M0 0h1"/>' +
        '<path stroke="none" fill="none" d="M0 0h1"/><svg/><title>t</title><x:y xmlns:x="x"/>',
    );
    expect(drawing.layers).toEqual([]);
    expect(notes.map(n => n.split(' ').slice(0, 3).join(' ')).sort()).toEqual([
      '<image> was left',
      '<text> was left',
      'a <use> of',
      'a hidden element',
      'a shape without',
    ]);
  });

  const bomb = `<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">${Array.from({ length: 9 }, (_, i) => `<!ENTITY a${i} "${'&a;'.repeat(10)}">`).join('')}]>`;
  it.each([
    ['an entity bomb', bomb + doc('<path d="M0 0h1" id="&a9;"/>'), /entities/],
    ['50 MB', doc(' '.repeat(50e6)), /50\.0 MB, at most 8\.0 MB/],
    ['a million segments', doc(`<path d="M0 0${'h1'.repeat(1e6)}"/>`), /more than 250000 segments/],
    ['two million elements', doc('<g/>'.repeat(1.9e6)), /1900002 tags, at most 300000/],
    [
      'groups 100,000 deep',
      doc('<g>'.repeat(1e5) + '</g>'.repeat(1e5)),
      /groups more than 100 deep/,
    ],
    ['NaN', doc('<path d="M0 NaN L1 1"/>'), /path data cannot be read/],
    ['infinity', doc('<path d="M0 0 L1e400 1"/>'), /no number/],
    ['a place kilometres away', doc('<path d="M0 0 L1e9 1"/>'), /kilometres/],
    [
      'path data that breaks off',
      doc('<path id="lid" d="M0 0 L1"/>'),
      /<path> lid in line 1: its path data/,
    ],
    ['no element at all', '', /not well-formed/],
    ['two roots', `${doc('')}${doc('')}`, /not well-formed/],
    ['an unclosed element', '<svg xmlns="http://www.w3.org/2000/svg"><g>', /not well-formed/],
    [
      'an attribute without quotes',
      '<svg xmlns="http://www.w3.org/2000/svg" width=9/>',
      /not well-formed.*quot/,
    ],
    ['another language', '<html/>', /not an SVG: it begins with <html>/],
    ['no size', doc('', ''), /size is unknown/],
    ['a size of zero', doc('', 'width="0mm" height="10mm"'), /0 × 10/],
    ['a size in ells', doc('', 'width="3ell" height="10mm"'), /"3ell" is no length/],
    ['a viewBox of three', doc('', 'viewBox="0 0 1"'), /viewBox/],
    ['a transform of its own', doc('<g transform="twist(3)"/>'), /transform "twist\(3\)"/],
    [
      'NaN in a transform',
      doc('<g transform="translate(NaN 3)"/>'),
      /transform "translate\(NaN 3\)"/,
    ],
    ['a transform with a number missing', doc('<g transform="matrix(1 2 3)"/>'), /transform/],
    ['odd points', doc('<polyline points="1 2 3"/>'), /points/],
  ])('refuses %s', async (_name, text, words) => {
    const error = await readSvg(text).then(
      () => undefined,
      (e: unknown) => e,
    );
    expect(error).toBeInstanceOf(ReadError);
    expect((error as ReadError).message).toMatch(words);
    expect((error as ReadError).message.length).toBeLessThan(400);
  });

  it('survives any damage: a drawing or an error of ours', async () => {
    const text = svg.write(SPECIMEN, CONVENTION);
    await fc.assert(
      fc.asyncProperty(
        fc.nat(text.length - 1),
        fc.nat(40),
        fc.string({ maxLength: 4 }),
        async (at, n, s) => {
          try {
            await readSvg(text.slice(0, at) + s + text.slice(at + n));
          } catch (error) {
            expect(error).toBeInstanceOf(ReadError);
          }
        },
      ),
      { seed: 72, numRuns: 400 },
    );
  });
});
