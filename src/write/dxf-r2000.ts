/**
 * DXF R2000 (AC1015): LINE, ARC, CIRCLE, LWPOLYLINE with bulges, and SPLINE. Unlike R12 it wants every
 * object to have a handle and an owner, and tables, blocks and objects to be there: which ones is in ezdxf,
 * docs/source/dxfinternals/filestructure.rst; group codes are of the AutoCAD DXF reference.
 */
import type { Cubic, Path, Point } from '../model.js';
import { cornersOf, type DxfLayer, type DxfSheet, type Shape } from './dxf-settle.js';
import { exact, num } from './number.js';

type Tag = readonly [code: number, value: string | number];

const text = (...tags: readonly Tag[]): string =>
  tags.map(([code, value]) => `${code}\n${value}\n`).join('');

/** Handles of what every file holds; layers and entities count on from `FIRST_FREE`. */
const H = {
  vports: 1,
  lineTypes: 2,
  layers: 3,
  styles: 4,
  views: 5,
  frames: 6,
  programs: 7,
  dimensionStyles: 8,
  blockRecords: 9,
  vport: 0x10,
  byBlock: 0x11,
  byLayer: 0x12,
  continuous: 0x13,
  style: 0x14,
  program: 0x15,
  dimensionStyle: 0x16,
  model: 0x17,
  modelBegin: 0x18,
  modelEnd: 0x19,
  paper: 0x1a,
  paperBegin: 0x1b,
  paperEnd: 0x1c,
  root: 0x20,
  groups: 0x21,
  layouts: 0x22,
  modelLayout: 0x23,
  paperLayout: 0x24,
  plotStyles: 0x25,
  plotStyle: 0x26,
} as const;
const FIRST_FREE = 0x30;
const hex = (handle: number): string => handle.toString(16).toUpperCase();

const point2 = (n: number, [x, y]: Point): Tag[] => [
  [10 + n, num(x)],
  [20 + n, num(y)],
];
const point3 = (n: number, p: Point): Tag[] => [...point2(n, p), [30 + n, 0]];

// ---- Header, tables, blocks, objects ------------------------------------------------------------

const section = (name: string, body: string): string =>
  `${text([0, 'SECTION'], [2, name])}${body}${text([0, 'ENDSEC'])}`;

const header = ({ low, high, extent }: DxfSheet, seed: number): string =>
  section(
    'HEADER',
    text([9, '$ACADVER'], [1, 'AC1015'], [9, '$DWGCODEPAGE'], [3, 'ANSI_1252']) +
      text([9, '$HANDSEED'], [5, hex(seed)]) +
      text([9, '$INSUNITS'], [70, 4], [9, '$MEASUREMENT'], [70, 1]) +
      text([9, '$EXTMIN'], ...point3(0, extent.least), [9, '$EXTMAX'], ...point3(0, extent.most)) +
      // The limits are the sheet, and say which way up it is, as in R12.
      text([9, '$LIMMIN'], ...point2(0, low), [9, '$LIMMAX'], ...point2(0, high)),
  );

/** Tags of one entry after its handle and owner. */
type Entry = readonly [handle: number, tags: readonly Tag[]];

function table(name: string, handle: number, kind: string, entries: readonly Entry[]): string {
  const dimensions = name === 'DIMSTYLE';
  const own = entries.map(([h, tags]) =>
    text(
      [0, name],
      [dimensions ? 105 : 5, hex(h)],
      [330, hex(handle)],
      [100, 'AcDbSymbolTableRecord'],
      [100, kind],
      ...tags,
    ),
  );
  return (
    text([0, 'TABLE'], [2, name], [5, hex(handle)], [330, 0], [100, 'AcDbSymbolTable']) +
    text([70, entries.length], ...(dimensions ? ([[100, 'AcDbDimStyleTable']] as Tag[]) : [])) +
    own.join('') +
    text([0, 'ENDTAB'])
  );
}

const lineType = (handle: number, name: string): Entry => [
  handle,
  [
    [2, name],
    [70, 0],
    [3, name === 'Continuous' ? 'Solid line' : ''],
    [72, 65],
    [73, 0],
    [40, 0],
  ],
];

/** The view that the file opens with: the whole sheet. */
function vport({ low, high }: DxfSheet): Entry {
  const [width, height] = [Math.abs(high[0] - low[0]), Math.abs(high[1] - low[1])];
  const middle: Point = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
  const tags: Tag[] = [
    [2, '*Active'],
    [70, 0],
    ...point2(0, [0, 0]),
    ...point2(1, [1, 1]),
    ...point2(2, middle),
    [16, 0],
    [26, 0],
    [36, 1],
    [40, num(1.1 * height)],
    [41, exact(height > 0 ? width / height : 1)],
  ];
  return [H.vport, tags];
}

function tables(sheet: DxfSheet, layers: readonly (DxfLayer & { handle: number })[]): string {
  const layerEntry = (handle: number, name: string, aci: string): Entry => [
    handle,
    [
      [2, name],
      [70, 0],
      [62, aci],
      [6, 'Continuous'],
      [390, hex(H.plotStyle)],
    ],
  ];
  const named = (name: string): Tag[] => [
    [2, name],
    [70, 0],
  ];
  const styleTags: Tag[] = [
    ...named('Standard'),
    [40, 0],
    [41, 1],
    [50, 0],
    [71, 0],
    [42, '2.5'],
    [3, 'txt'],
    [4, ''],
  ];
  return section(
    'TABLES',
    table('VPORT', H.vports, 'AcDbViewportTableRecord', [vport(sheet)]) +
      table('LTYPE', H.lineTypes, 'AcDbLinetypeTableRecord', [
        lineType(H.byBlock, 'ByBlock'),
        lineType(H.byLayer, 'ByLayer'),
        lineType(H.continuous, 'Continuous'),
      ]) +
      table('LAYER', H.layers, 'AcDbLayerTableRecord', [
        layerEntry(FIRST_FREE, '0', '7'),
        ...layers.map(l => layerEntry(l.handle, l.name, l.aci)),
      ]) +
      table('STYLE', H.styles, 'AcDbTextStyleTableRecord', [[H.style, styleTags]]) +
      table('VIEW', H.views, 'AcDbViewTableRecord', []) +
      table('UCS', H.frames, 'AcDbUCSTableRecord', []) +
      table('APPID', H.programs, 'AcDbRegAppTableRecord', [[H.program, named('ACAD')]]) +
      table('DIMSTYLE', H.dimensionStyles, 'AcDbDimStyleTableRecord', [
        [H.dimensionStyle, named('Standard')],
      ]) +
      table('BLOCK_RECORD', H.blockRecords, 'AcDbBlockTableRecord', [
        [H.model, blockRecord('*Model_Space', H.modelLayout)],
        [H.paper, blockRecord('*Paper_Space', H.paperLayout)],
      ]),
  );
}

const blockRecord = (name: string, layout: number): Tag[] => [
  [2, name],
  [340, hex(layout)],
];

/** An empty block: what is drawn in model space stands among the entities. */
function block(name: string, owner: number, begin: number, end: number): string {
  const common = (handle: number): Tag[] => [
    [5, hex(handle)],
    [330, hex(owner)],
    [100, 'AcDbEntity'],
    [8, '0'],
  ];
  return (
    text([0, 'BLOCK'], ...common(begin), [100, 'AcDbBlockBegin'], [2, name], [70, 0]) +
    text(...point3(0, [0, 0]), [3, name], [1, '']) +
    text([0, 'ENDBLK'], ...common(end), [100, 'AcDbBlockEnd'])
  );
}

const blocks = (): string =>
  section(
    'BLOCKS',
    block('*Model_Space', H.model, H.modelBegin, H.modelEnd) +
      block('*Paper_Space', H.paper, H.paperBegin, H.paperEnd),
  );

function objects({ low, high }: DxfSheet): string {
  const dictionary = (handle: number, owner: number, entries: readonly [string, number][]) =>
    text([0, 'DICTIONARY'], [5, hex(handle)], [330, owner === 0 ? 0 : hex(owner)]) +
    text([100, 'AcDbDictionary'], [281, 1]) +
    text(
      ...entries.flatMap(([name, to]): Tag[] => [
        [3, name],
        [350, hex(to)],
      ]),
    );
  const layout = (handle: number, name: string, order: number, space: number) =>
    text([0, 'LAYOUT'], [5, hex(handle)], [330, hex(H.layouts)], [100, 'AcDbPlotSettings']) +
    // 1024: model space. Everything else of plotting is left to whoever plots.
    text([1, ''], [2, ''], [4, ''], [6, ''], [70, order === 0 ? 1024 : 0], [72, 1], [7, '']) +
    text([100, 'AcDbLayout'], [1, name], [70, 1], [71, order]) +
    text(...point2(0, low), ...point2(1, high), ...point3(2, [0, 0])) +
    text(...point3(4, low), ...point3(5, high), [146, 0], ...point3(3, [0, 0])) +
    text(...point3(6, [1, 0]), ...point3(7, [0, 1]), [76, 0], [330, hex(space)]);
  return section(
    'OBJECTS',
    dictionary(H.root, 0, [
      ['ACAD_GROUP', H.groups],
      ['ACAD_LAYOUT', H.layouts],
      ['ACAD_PLOTSTYLENAME', H.plotStyles],
    ]) +
      dictionary(H.groups, H.root, []) +
      dictionary(H.layouts, H.root, [
        ['Model', H.modelLayout],
        ['Layout1', H.paperLayout],
      ]) +
      layout(H.modelLayout, 'Model', 0, H.model) +
      layout(H.paperLayout, 'Layout1', 1, H.paper) +
      text([0, 'ACDBDICTIONARYWDFLT'], [5, hex(H.plotStyles)], [330, hex(H.root)]) +
      text([100, 'AcDbDictionary'], [281, 1], [3, 'Normal'], [350, hex(H.plotStyle)]) +
      text([100, 'AcDbDictionaryWithDefault'], [340, hex(H.plotStyle)]) +
      text([0, 'ACDBPLACEHOLDER'], [5, hex(H.plotStyle)], [330, hex(H.plotStyles)]),
  );
}

// ---- Entities -----------------------------------------------------------------------------------

const round = (centre: Point, radius: number): string =>
  text([100, 'AcDbCircle'], [10, exact(centre[0])], [20, exact(centre[1])], [30, 0]) +
  text([40, exact(radius)]);

function entity(shape: Shape, layer: string, handle: number): string {
  const head = (kind: string) =>
    text([0, kind], [5, hex(handle)], [330, hex(H.model)], [100, 'AcDbEntity'], [8, layer]);
  switch (shape.kind) {
    case 'line':
      return (
        head('LINE') + text([100, 'AcDbLine'], ...point3(0, shape.from), ...point3(1, shape.to))
      );
    case 'arc':
      return (
        head('ARC') +
        round(shape.centre, shape.radius) +
        text([100, 'AcDbArc'], [50, exact(shape.startDeg)], [51, exact(shape.endDeg)])
      );
    case 'circle':
      return head('CIRCLE') + round(shape.centre, shape.radius);
    case 'polyline':
      return head('LWPOLYLINE') + polyline(shape.path);
    case 'spline':
      return head('SPLINE') + spline(shape.path);
  }
}

function polyline(path: Path): string {
  const corners = cornersOf(path);
  const flag = path.closed ? 1 : 0;
  let all = text([100, 'AcDbPolyline'], [90, corners.length], [70, flag]);
  for (const { at, bulge } of corners) {
    all += `10\n${num(at[0])}\n20\n${num(at[1])}\n`;
    if (bulge !== undefined) all += `42\n${bulge}\n`;
  }
  return all;
}

/** Cubics end to end as one B-spline of degree 3: each of its Bézier curves is a span, so that the knot
 *  between two stands three times, the first and the last four times (clamped). It closes by ending
 *  where it began: the closed flag is for splines that go round without ends. */
function spline({ start, segments }: Path): string {
  const n = segments.length;
  const PLANAR = 8;
  let all =
    text([100, 'AcDbSpline'], [70, PLANAR], [71, 3]) +
    text([72, 3 * n + 5], [73, 3 * n + 1], [74, 0]);
  for (let k = 0; k <= n; k++) all += `40\n${k}\n`.repeat(k === 0 || k === n ? 4 : 3);
  const put = ([x, y]: Point) => {
    all += `10\n${num(x)}\n20\n${num(y)}\n30\n0\n`;
  };
  put(start);
  for (const s of segments as readonly Cubic[]) {
    put(s.c1);
    put(s.c2);
    put(s.to);
  }
  return all;
}

/** The whole file. */
export function r2000(sheet: DxfSheet): string {
  let free = FIRST_FREE + 1;
  const layers = sheet.layers.map(layer => ({ ...layer, handle: free++ }));
  const entities = layers.flatMap(({ name, shapes }) => shapes.map(s => entity(s, name, free++)));
  return (
    header(sheet, free) +
    section('CLASSES', '') +
    tables(sheet, layers) +
    blocks() +
    section('ENTITIES', entities.join('')) +
    objects(sheet) +
    text([0, 'EOF'])
  );
}
