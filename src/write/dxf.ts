/**
 * Cut files in DXF R12 (AC1009), which everything reads: LINE, ARC, CIRCLE and POLYLINE with
 * bulges, one layer an operation, millimetres. Group codes as in ezdxf's r12writer.py and
 * docs/source/dxfinternals. $INSUNITS came after R12, but every reader tried honours it there.
 */
import type { CutWriter } from '../contracts.js';
import { apply, arcPoint, arcShape, bounds, distance, fitArcs, transform } from '../geom/index.js';
import type {
  Affine,
  Arc,
  Convention,
  Drawing,
  Importing,
  Path,
  Point,
  Segment,
} from '../model.js';
import { PLAIN_IMPORT } from '../model.js';
import { FILE_STEP_MM } from '../units/tolerances.js';
import { exact, finite, num, onGrid } from './number.js';
import { inWorkingOrder } from './svg.js';

type Tag = readonly [code: number, value: string];

/** R12 layer names: capitals, digits, `$ - _`, 31 characters at most. Anything else (a line break
 *  would start a tag of its own) throws. */
export function layerName(name: string): string {
  const upper = name.toUpperCase();
  if (!/^[A-Z0-9$_-]{1,31}$/.test(upper))
    throw new RangeError(`layer name ${JSON.stringify(name)}`);
  return upper;
}

function aciOf(aci: number, operation: string): string {
  if (!(Number.isInteger(aci) && aci >= 1 && aci <= 255)) {
    throw new RangeError(`colour index of ${operation}: ${aci}; AutoCAD's run from 1 to 255`);
  }
  return String(aci);
}

/** Line types other than this are cut in dashes by some machines, so all layers have it. */
const LINE_TYPE = 'CONTINUOUS';

const gridPoint = ([x, y]: Point): Point => [onGrid(x), onGrid(y)];
const same = (a: Point, b: Point) => a[0] === b[0] && a[1] === b[1];

/** An arc in two halves. */
function halves(from: Point, arc: Arc): readonly Segment[] {
  const shape = arcShape(from, arc);
  const bulge = Math.tan(shape.sweep / 8);
  return [
    { kind: 'arc', to: arcPoint(shape, 0.5), bulge },
    { kind: 'arc', to: arc.to, bulge },
  ];
}

/** Lines and arcs only, points on the file's grid, nothing of no length; undefined if nothing is
 *  left. Bulges stay as they were: they do not depend on size or place. */
export function settle(path: Path): Path | undefined {
  const fitted = fitArcs(finite(path));
  const start = gridPoint(fitted.start);
  let from = fitted.start;
  let last = start;
  const segments: Segment[] = [];
  for (const segment of fitted.segments) {
    // A nearly full circle must not vanish because its ends round to one point.
    const split =
      segment.kind === 'arc' && Math.abs(segment.bulge) > 1 && same(last, gridPoint(segment.to))
        ? halves(from, segment)
        : [segment];
    for (const s of split) {
      const to = gridPoint(s.to);
      if (!same(last, to)) segments.push(bent(last, to, s) ? { ...s, to } : { kind: 'line', to });
      last = to;
    }
    from = segment.to;
  }
  return segments.length > 0 ? { start, segments, closed: path.closed } : undefined;
}

/** An arc that the file can tell from its chord: one flatter than half a step is its chord, and
 *  would only have a centre miles away. */
const bent = (from: Point, to: Point, s: Segment): s is Arc =>
  s.kind === 'arc' && (Math.abs(s.bulge) * distance(from, to)) / 2 >= FILE_STEP_MM / 2;

/** A half circle, counter-clockwise: tan(π / 4) is one bit short of 1. */
const isHalf = (s: Segment): boolean => s.kind === 'arc' && exact(s.bulge) === '1';
const bulgeOf = (s: Segment): number => (s.kind === 'arc' ? s.bulge : 0);
const degrees = (radians: number) => ((((radians * 180) / Math.PI) % 360) + 360) % 360;

const point2 = (n: number, [x, y]: Point): Tag[] => [
  [10 + n, num(x)],
  [20 + n, num(y)],
];
const point3 = (n: number, p: Point): Tag[] => [...point2(n, p), [30 + n, '0']];
const exactPoint = ([x, y]: Point): Tag[] => [
  [10, exact(x)],
  [20, exact(y)],
  [30, '0'],
];

/** One path as one entity. ARC and CIRCLE always run counter-clockwise, and a CIRCLE from its
 *  right: where that would turn a path around or move its start, it stays a POLYLINE. */
function* entity(path: Path, layer: string): Generator<Tag> {
  const [first, second] = path.segments;
  if (path.segments.length === 1 && !path.closed && first!.kind === 'line') {
    yield* [[0, 'LINE'], [8, layer], ...point3(0, path.start), ...point3(1, first!.to)] as Tag[];
    return;
  }
  if (path.segments.length === 1 && !path.closed && first!.kind === 'arc' && first!.bulge > 0) {
    const { centre, radius, startAngle, sweep } = arcShape(path.start, first!);
    yield* [[0, 'ARC'], [8, layer], ...exactPoint(centre), [40, exact(radius)]] as Tag[];
    yield [50, exact(degrees(startAngle))];
    yield [51, exact(degrees(startAngle + sweep))];
    return;
  }
  if (
    path.segments.length === 2 &&
    path.closed &&
    isHalf(first!) &&
    isHalf(second!) &&
    path.start[1] === first!.to[1] &&
    path.start[0] > first!.to[0]
  ) {
    const centre: Point = [(path.start[0] + first!.to[0]) / 2, path.start[1]];
    const radius = (path.start[0] - first!.to[0]) / 2;
    yield* [[0, 'CIRCLE'], [8, layer], ...exactPoint(centre), [40, exact(radius)]] as Tag[];
    return;
  }
  yield* [
    [0, 'POLYLINE'],
    [8, layer],
    [66, '1'],
    [10, '0'],
    [20, '0'],
    [30, '0'],
  ] as Tag[];
  yield [70, path.closed ? '1' : '0'];
  const points = [path.start, ...path.segments.map(s => s.to)];
  // The closed flag draws the last segment: its end, the start, is not repeated.
  if (path.closed) points.pop();
  for (let i = 0; i < points.length; i++) {
    yield* [[0, 'VERTEX'], [8, layer], ...point3(0, points[i]!)] as Tag[];
    const bulge = path.segments[i] ? bulgeOf(path.segments[i]!) : 0;
    if (bulge !== 0) yield [42, exact(bulge)];
  }
  yield* [
    [0, 'SEQEND'],
    [8, layer],
  ] as Tag[];
}

/** `low` and `high` are the sheet's lower left and upper right corners. */
function* header(low: Point, high: Point, paths: readonly Path[]): Generator<Tag> {
  const extent =
    paths.length > 0
      ? bounds(...paths)
      : {
          minX: low[0],
          minY: Math.min(low[1], high[1]),
          maxX: high[0],
          maxY: Math.max(low[1], high[1]),
        };
  yield [0, 'SECTION'];
  yield [2, 'HEADER'];
  yield* [
    [9, '$ACADVER'],
    [1, 'AC1009'],
  ] as Tag[];
  yield* [
    [9, '$INSUNITS'],
    [70, '4'],
  ] as Tag[];
  yield* [
    [9, '$MEASUREMENT'],
    [70, '1'],
  ] as Tag[];
  yield* [[9, '$EXTMIN'], ...point3(0, [extent.minX, extent.minY])] as Tag[];
  yield* [[9, '$EXTMAX'], ...point3(0, [extent.maxX, extent.maxY])] as Tag[];
  // The limits are the sheet: that is how its size travels with the file, and which way up it is.
  yield* [[9, '$LIMMIN'], ...point2(0, low)] as Tag[];
  yield* [[9, '$LIMMAX'], ...point2(0, high)] as Tag[];
  yield [0, 'ENDSEC'];
}

function* tables(layers: readonly { name: string; aci: string }[]): Generator<Tag> {
  yield* [
    [0, 'SECTION'],
    [2, 'TABLES'],
  ] as Tag[];
  yield* [
    [0, 'TABLE'],
    [2, 'LTYPE'],
    [70, '1'],
    [0, 'LTYPE'],
    [2, LINE_TYPE],
    [70, '0'],
  ] as Tag[];
  yield* [
    [3, 'Solid line'],
    [72, '65'],
    [73, '0'],
    [40, '0'],
    [0, 'ENDTAB'],
  ] as Tag[];
  yield* [
    [0, 'TABLE'],
    [2, 'LAYER'],
    [70, String(layers.length)],
  ] as Tag[];
  for (const { name, aci } of layers) {
    yield* [
      [0, 'LAYER'],
      [2, name],
      [70, '0'],
      [62, aci],
      [6, LINE_TYPE],
    ] as Tag[];
  }
  yield* [
    [0, 'ENDTAB'],
    [0, 'ENDSEC'],
  ] as Tag[];
}

/** From the sheet to the file's numbers: where they begin, and which way y counts. */
function toFile({ width, height }: Drawing, { origin, y }: Importing): Affine {
  const [ox, oy] = {
    'lower-left': [0, 0],
    'upper-left': [0, height],
    middle: [width / 2, height / 2],
  }[origin] as [number, number];
  return y === 'up' ? [1, 0, 0, 1, -ox, -oy] : [1, 0, 0, -1, -ox, oy];
}

function write(
  given: Drawing,
  convention: Convention,
  importing: Importing = PLAIN_IMPORT,
): string {
  const at = toFile(given, importing);
  const drawing: Drawing = {
    ...given,
    layers: given.layers.map(l => ({ ...l, paths: l.paths.map(p => transform(p, at)) })),
  };
  const layers = inWorkingOrder(drawing)
    .map(({ operation, paths }) => ({
      name: layerName(operation),
      aci: aciOf(convention.operations[operation].aci, operation),
      paths: paths.map(settle).filter(p => p !== undefined),
    }))
    .filter(layer => layer.paths.length > 0);
  const lines: string[] = [];
  const put = (tags: Iterable<Tag>) => {
    for (const [code, value] of tags) lines.push(String(code).padStart(3), value);
  };
  put(
    header(
      apply(at, [0, 0]),
      apply(at, [drawing.width, drawing.height]),
      layers.flatMap(l => l.paths),
    ),
  );
  put(tables([{ name: '0', aci: '7' }, ...layers]));
  put([
    [0, 'SECTION'],
    [2, 'ENTITIES'],
  ]);
  for (const { name, paths } of layers) for (const path of paths) put(entity(path, name));
  put([
    [0, 'ENDSEC'],
    [0, 'EOF'],
  ]);
  return `${lines.join('\n')}\n`;
}

export const dxf: CutWriter = {
  id: 'dxf',
  summary: 'DXF R12, arcs as arcs, one layer an operation, millimetres',
  extension: 'dxf',
  write,
};
