/**
 * DXF R12 (AC1009), which everything reads: LINE, ARC, CIRCLE and POLYLINE with bulges. Group codes as in
 * ezdxf's r12writer.py (no spaces before them, corners of two coordinates) and docs/source/dxfinternals.
 * $INSUNITS came after R12, but every reader tried
 * honours it there.
 */
import type { Point } from '../model.js';
import { cornersOf, type DxfSheet, type Shape } from './dxf-settle.js';
import { exact, num } from './number.js';

/** Line types other than this are cut in dashes by some machines, so all layers have it. */
const LINE_TYPE = 'CONTINUOUS';

type Tag = readonly [code: number, value: string];

const text = (...tags: readonly Tag[]): string =>
  tags.map(([code, value]) => `${code}\n${value}\n`).join('');

const point2 = (n: number, [x, y]: Point): Tag[] => [
  [10 + n, num(x)],
  [20 + n, num(y)],
];
const point3 = (n: number, p: Point): Tag[] => [...point2(n, p), [30 + n, '0']];
const round = (centre: Point, radius: number): Tag[] => [
  [10, exact(centre[0])],
  [20, exact(centre[1])],
  [30, '0'],
  [40, exact(radius)],
];

function entity(shape: Shape, layer: string): string {
  switch (shape.kind) {
    case 'line':
      return text([0, 'LINE'], [8, layer], ...point3(0, shape.from), ...point3(1, shape.to));
    case 'arc': {
      const { centre, radius, startDeg, endDeg } = shape;
      const angles: Tag[] = [
        [50, exact(startDeg)],
        [51, exact(endDeg)],
      ];
      return text([0, 'ARC'], [8, layer], ...round(centre, radius), ...angles);
    }
    case 'circle':
      return text([0, 'CIRCLE'], [8, layer], ...round(shape.centre, shape.radius));
    default: {
      const { path } = shape;
      const head = text([0, 'POLYLINE'], [8, layer], [66, '1'], ...point3(0, [0, 0]));
      const flag = text([70, path.closed ? '1' : '0']);
      const vertices = cornersOf(path).map(({ at: [x, y], bulge }) => {
        const place = `${VERTEX}${layer}\n10\n${num(x)}\n20\n${num(y)}\n`;
        return bulge === undefined ? place : `${place}42\n${bulge}\n`;
      });
      return head + flag + vertices.join('') + text([0, 'SEQEND'], [8, layer]);
    }
  }
}
/** Written out: a sheet has tens of thousands of them. Each says its layer: where it does not, some readers
 *  put it on layer 0. */
const VERTEX = '0\nVERTEX\n8\n';

function header({ low, high, extent }: DxfSheet): string {
  return (
    text([0, 'SECTION'], [2, 'HEADER'], [9, '$ACADVER'], [1, 'AC1009']) +
    text([9, '$INSUNITS'], [70, '4'], [9, '$MEASUREMENT'], [70, '1']) +
    text([9, '$EXTMIN'], ...point3(0, extent.least), [9, '$EXTMAX'], ...point3(0, extent.most)) +
    // The limits are the sheet: that is how its size travels with the file, and which way up it is.
    text([9, '$LIMMIN'], ...point2(0, low), [9, '$LIMMAX'], ...point2(0, high), [0, 'ENDSEC'])
  );
}

function tables(layers: readonly { name: string; aci: string }[]): string {
  const line: Tag[] = [
    [0, 'LTYPE'],
    [2, LINE_TYPE],
    [70, '0'],
    [3, 'Solid line'],
    [72, '65'],
    [73, '0'],
    [40, '0'],
  ];
  const entries = layers.map(({ name, aci }) =>
    text([0, 'LAYER'], [2, name], [70, '0'], [62, aci], [6, LINE_TYPE]),
  );
  return (
    text([0, 'SECTION'], [2, 'TABLES']) +
    text([0, 'TABLE'], [2, 'LTYPE'], [70, '1'], ...line, [0, 'ENDTAB']) +
    text([0, 'TABLE'], [2, 'LAYER'], [70, String(layers.length)]) +
    entries.join('') +
    text([0, 'ENDTAB'], [0, 'ENDSEC'])
  );
}

/** The whole file. Its shapes must hold no spline: R12 has none. */
export function r12(sheet: DxfSheet): string {
  const { layers } = sheet;
  return (
    header(sheet) +
    tables([{ name: '0', aci: '7' }, ...layers]) +
    text([0, 'SECTION'], [2, 'ENTITIES']) +
    layers.flatMap(({ name, shapes }) => shapes.map(shape => entity(shape, name))).join('') +
    text([0, 'ENDSEC'], [0, 'EOF'])
  );
}
