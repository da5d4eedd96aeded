import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { line, openPath, rectangle } from '../../src/geom/index.js';
import { type Importing, PLAIN_IMPORT, type Sheet } from '../../src/model.js';
import {
  fileEntry,
  type ManifestFacts,
  manifestText,
  parseManifest,
  type SheetFacts,
  sheetEntry,
} from '../../src/write/manifest.js';
import { cutterEntry } from '../../src/write/manifest-cutter.js';
import { importEntry, importingOf } from '../../src/write/manifest-import.js';
import { itemEntry } from '../../src/write/manifest-items.js';
import { netEntry } from '../../src/write/manifest-nets.js';
import { placedEntry } from '../../src/write/manifest-placed.js';
import { ReadError } from '../../src/write/read-error.js';

const bytes = (text: string) => new TextEncoder().encode(text);
const OUTSIDE = ['', '/a', '../a', 'a/../b', 'a/..', './a', 'a//b', 'a/'].concat([
  'C:a',
  'a\\b',
  'a\n',
  'a\u0000',
  'a./b',
  'a ',
]);
const SHEET: Sheet = {
  id: 'kraft-1',
  stock: {
    id: 'kraft',
    summary: 'kraft card',
    width: 304.8,
    height: 304.8,
    gsm: 216,
    caliper: 0.3,
    caliperFrom: 'bulk',
    grain: 'width',
    colour: '#c8a97e',
  },
  placements: [
    {
      piece: {
        id: 'lid',
        title: 'lid',
        name: { part: { title: 'lid' } },
        stock: 'kraft',
        count: 1,
        outline: rectangle(0, 0, 10, 10),
        holes: [],
        strokes: [],
      },
      at: [1, 0, 0, 1, 12.00000004, 30],
    },
  ],
  marks: [],
  copies: 3,
};
const SHEET_FACTS: SheetFacts = {
  item: 'pear',
  sheet: SHEET,
  lengths: { cut: 1234.5678, score: 200 },
  travel: 800.04,
  travelAsDrawn: 2100,
  seconds: 61.4,
  tipError: 0.0031415926,
  tipError99: 0.001,
  uncut: 0.0020000004,
  uncut99: 0.0015,
  uncompensated: 0.16,
  compensatedBy: 'file',
  bladeOffset: 0.25,
  kerf: 0,
  foldsBy: 'tool',
  fromBack: 0,
  overcut: 0.5,
  tone: null,
  warnings: ['grain runs across'],
};
const edge = openPath([0, 0], [line([10, 0])]);
const NET = netEntry({
  item: 'pear',
  net: {
    id: 'box',
    title: 'Box',
    thickness: 0.3,
    root: 'base',
    panels: [],
    hinges: [{ parent: 'base', child: 'front', along: edge, angle: 1 }],
    joins: [
      { kind: 'glue', a: { panel: 'tab' }, b: { panel: 'front' } },
      { kind: 'edge', a: { panel: 'front', along: edge }, b: { panel: 'side', along: edge } },
    ],
    closures: [],
  },
  findings: [],
  curved: [],
  steps: [
    {
      step: 1,
      hinges: [{ parent: 'base', child: 'front' }],
      panels: ['front', 'tab'],
      joins: [1],
      springs: [{ panel: 'tab', by: 0.16789 }],
      folds: ['front'],
      bentIn: [],
      manner: 'square',
    },
  ],
  glue: [
    { panel: 'tab', face: 'outside', onto: 'front', area: rectangle(0, 0, 9, 7), drawn: false },
    { panel: 'front', face: 'inside', onto: 'tab', area: rectangle(0, 0, 9, 7), drawn: true },
  ],
});
const DECAL = {
  piece: SHEET.placements[0]!.piece,
  net: 'box',
  panel: 'lid',
  side: 'outside',
  at: [-1, 0, 0, 1, 12.00000004, 30],
  colour: '#c8a97e',
  lift: 2,
} as const;
const PLACED = placedEntry('pear', DECAL);
const FACTS: ManifestFacts = {
  version: '0.1.0',
  job: 'orchard-fair',
  title: 'Orchard fair',
  convention: 'okabe-ito',
  import: importEntry(PLAIN_IMPORT),
  cutter: cutterEntry({
    id: 'mat',
    summary: 'a mat cutter',
    width: 304.8,
    height: 304.8,
    margin: 6.35,
    blade: { offset: 0.25, overcut: 0.5, compensatedBy: 'file' },
    speed: { draw: 100, score: 60, perforate: 40, cut: 50, register: 100, travel: 150 },
  }),
  items: [
    itemEntry({ name: 'pear', title: 'Pear', count: 2, decorations: [] }),
    itemEntry({
      name: 'apple',
      title: 'Äpfel 🍎',
      count: 1,
      box: {
        style: 'flip-lid',
        spec: { inside: { length: 152.4, width: 50.8, height: 25.4 }, thickness: 0.3 },
        values: {},
        stock: 'kraft',
      },
      decorations: [],
    }),
  ],
  files: [
    fileEntry('pear/kraft-1.cut.svg', bytes('abc'), 'cut file'),
    fileEntry('apple/kraft-1.cut.dxf', bytes(''), 'cut file'),
  ],
  sheets: [sheetEntry(SHEET_FACTS)],
  closures: [{ item: 'pear', net: 'box', a: 'lid', b: 'front', at: [1, 2], diameterMm: 10 }],
  laws: ['join', 'way'],
  nets: [NET],
  placed: [PLACED],
  warnings: [],
};

describe('the manifest', () => {
  it('says foam of a piece that is lifted, and glue of one that lies flat', () => {
    expect(PLACED).toMatchObject({ adhesive: 'foam', liftMm: 2 });
    expect(placedEntry('pear', { ...DECAL, lift: 0 })).toMatchObject({
      adhesive: 'glue',
      liftMm: 0,
    });
  });

  it('says where glue goes, how much paper it covers, and where a person sees it', () => {
    const tab = { panel: 'tab', face: 'outside', onto: 'front', areaMm2: 63, shown: 'guide' };
    expect(NET.glue).toEqual([
      tab,
      { ...tab, panel: 'front', face: 'inside', onto: 'tab', shown: 'draw' },
    ]);
  });

  it('of a run that did not say where glue goes is read', () => {
    const { glue: _, ...older } = NET;
    const text = manifestText(FACTS);
    const before = JSON.stringify({ ...JSON.parse(text), nets: [older] });
    expect(parseManifest(before).nets).toEqual([{ ...NET, glue: [] }]);
  });

  it('says how far the tip strays, both ways round and for all but a hundredth', () => {
    const { tipErrorMm, tipError99Mm, uncutMm, uncut99Mm } = sheetEntry(SHEET_FACTS);
    expect([tipErrorMm, tipError99Mm]).toEqual([0.003142, 0.001]);
    expect([uncutMm, uncut99Mm]).toEqual([0.002, 0.0015]);
  });

  it('is read back as it was written, the same text for the same facts', () => {
    const text = manifestText(FACTS);
    expect(manifestText(structuredClone(FACTS))).toBe(text);
    expect(`${JSON.stringify(parseManifest(text), undefined, 2)}\n`).toBe(text);
  });

  it('lists files by path with their sums', () => {
    const { files } = parseManifest(manifestText(FACTS));
    expect(files.map(f => f.path)).toEqual(['apple/kraft-1.cut.dxf', 'pear/kraft-1.cut.svg']);
    // SHA-256 of the empty message and of "abc": FIPS 180-4, worked examples.
    expect(files[0]!.sha256).toBe(
      'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
    );
    expect(files[1]!.sha256).toBe(
      'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    );
    expect(files[1]!.bytes).toBe(3);
  });

  it('counts all copies', () => {
    const { totals, sheets } = parseManifest(manifestText(FACTS));
    expect(totals.sheets).toBe(3);
    expect(totals.pieces).toBe(3);
    // 12 × 12 in is a square foot, 0.09290304 m².
    expect(sheets[0]!.paperM2).toBeCloseTo(3 * 0.09290304, 6);
    expect(totals.seconds).toBe(183);
    expect([sheets[0]!.travelMm, sheets[0]!.travelAsDrawnMm]).toEqual([800, 2100]);
    expect(sheets[0]!.lengthsMm).toEqual({ score: 200, cut: 1234.6 });
    expect(sheets[0]!.placements[0]!.at).toEqual([1, 0, 0, 1, 12, 30]);
  });

  it('says of every net what was checked and how it is put together', () => {
    const { laws, nets } = parseManifest(manifestText(FACTS));
    expect(laws).toEqual(['join', 'way']);
    expect(nets[0]).toMatchObject({ item: 'pear', net: 'box', thicknessMm: 0.3, sound: true });
    expect(nets[0]!.steps[0]!.joins).toEqual([{ kind: 'edge', a: 'front', b: 'side' }]);
    expect(nets[0]!.steps[0]!.springs).toEqual([{ panel: 'tab', byMm: 0.17 }]);
  });

  it('reads manifests of before nets were told, and no others without them', () => {
    const { laws: _, nets: __, ...old } = JSON.parse(manifestText(FACTS));
    expect(parseManifest(JSON.stringify(old)).nets).toEqual([]);
    expect(() => parseManifest(JSON.stringify({ ...old, nets: [] }))).toThrow('laws: missing');
  });

  it('tells the cutter, and reads manifests of before it was told', () => {
    const text = manifestText(FACTS);
    expect(parseManifest(text).cutter).toMatchObject({ id: 'mat', marginMm: 6.35 });
    const { cutter: _, ...old } = JSON.parse(text);
    expect(parseManifest(JSON.stringify(old)).cutter).toBeNull();
    const wrong = text.replace('"travel": 150', '"travel": 0');
    expect(() => parseManifest(wrong)).toThrow('cutter.speed.travel: 0 is not a number from 0.01');
  });

  it('tells how cut files are written, and reads manifests of before that as plain ones', () => {
    const asked: readonly Importing[] = [
      PLAIN_IMPORT,
      { ...PLAIN_IMPORT, svgUnits: 90, dxf: 'r2000-splines' },
      { origin: 'middle', y: 'down', dxf: 'r2000', files: 'by-operation', scaleSquare: 20 },
    ];
    for (const importing of asked) {
      const text = manifestText({ ...FACTS, import: importEntry(importing) });
      expect(importingOf(parseManifest(text).import)).toEqual(importing);
    }
    const { import: _, ...old } = JSON.parse(manifestText(FACTS));
    expect(importingOf(parseManifest(JSON.stringify(old)).import)).toEqual(PLAIN_IMPORT);
    const wrong = manifestText(FACTS).replace('"dxf": "r12"', '"dxf": "r14"');
    expect(() => parseManifest(wrong)).toThrow('import.dxf: "r14" is not one of r12, r2000');
  });

  it('throws on NaN and on paths that lead out of the folder', () => {
    const withPath = (...paths: string[]) => ({
      ...FACTS,
      files: paths.map(path => fileEntry(path, bytes('x'), 'x')),
    });
    for (const path of OUTSIDE) expect(() => manifestText(withPath(path)), path).toThrow(ReadError);
    for (const path of ['a', 'a/b.c', '.hidden', 'a..b', 'ő/ł x.svg', 'a/..b']) {
      expect(() => manifestText(withPath(path)), path).not.toThrow();
    }
    expect(() => manifestText(withPath('a/b', 'A/B'))).toThrow('listed twice');
    expect(() => sheetEntry({ ...SHEET_FACTS, tipError: Number.NaN })).toThrow('NaN');
  });

  it.each(OUTSIDE)('refuses to read the path %j', path => {
    const text = manifestText(FACTS).replace('"pear/kraft-1.cut.svg"', JSON.stringify(path));
    expect(() => parseManifest(text)).toThrow(/files\[1\]\.path: .* a path inside the folder/s);
  });

  it('refuses what is not a manifest of ours, with the place', () => {
    const text = manifestText(FACTS);
    const change = (from: string | RegExp, to: string) => () =>
      parseManifest(text.replace(from, to));
    expect(() => parseManifest('{}')).toThrow('foldwright: missing');
    expect(() => parseManifest('hello')).toThrow('no JSON');
    expect(change(/"ba78/, '"BA78')).toThrow('files[1].sha256');
    expect(change('"bytes": 3', '"bytes": 3.5')).toThrow('files[1].bytes');
    expect(change('"bytes": 3', '"bytes": 3, "owner": 1')).toThrow('unknown field "owner"');
    expect(change('"compensatedBy": "file"', '"compensatedBy": "both"')).toThrow(
      'sheets[0].compensatedBy: "both" is not one of file, cutter',
    );
    expect(change('"cut": 1234.6', '"laser": 1')).toThrow('sheets[0].lengthsMm: "laser"');
    expect(change('"0.1.0"', '"ours"')).toThrow('foldwright');
  });

  it('survives any damage to one character: an error of ours or a manifest, never another error', () => {
    const text = manifestText(FACTS);
    fc.assert(
      fc.property(fc.nat(text.length - 1), fc.string({ maxLength: 3 }), (at, given) => {
        try {
          parseManifest(text.slice(0, at) + given + text.slice(at + 1));
        } catch (error) {
          expect(error).toBeInstanceOf(ReadError);
        }
      }),
      { seed: 61, numRuns: 500 },
    );
  });
});
