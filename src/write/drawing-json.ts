/**
 * A drawing as JSON: the sidecar `<sheet>.drawing.json` keeps what the tip must follow, before the
 * blade's offset is allowed for, so that a cut file can be compared with it later. Arcs stay arcs.
 */
import type { Drawing, Operation, Path, Point, Segment } from '../model.js';
import { OPERATIONS } from '../model.js';
import { SAME_POINT_MM } from '../units/tolerances.js';
import { list, number, object, oneOf, parseJson, text } from './checked-json.js';
import { finite } from './number.js';
import { checkSize, ReadError } from './read-error.js';

/** Marks the format and its version. */
const FORMAT = 'foldwright drawing 1';
const MOST_CHARACTERS = 32e6;
const MOST_MM = 1e7;

/** A path is whether it is closed, its start, then each segment by its numbers: a line has 2 (its end),
 *  an arc 3 (end and bulge), a cubic 6 (two control points and end). */
type PathNumbers = readonly [closed: 0 | 1, start: Point, ...segments: (readonly number[])[]];

const PER_MM = Math.round(1 / SAME_POINT_MM);
/** Two points that are one point have the same numbers. */
const coordinate = (v: number) => Math.round(v * PER_MM) / PER_MM + 0;
/** Bulges are ratios: their digits count whatever the size. */
const bulge = (v: number) => Number(v.toPrecision(15));
const point = (p: Point): [number, number] => [coordinate(p[0]), coordinate(p[1])];

function pathNumbers(path: Path): PathNumbers {
  const segments = finite(path).segments.map(s => {
    if (s.kind === 'arc') return [...point(s.to), bulge(s.bulge)];
    if (s.kind === 'cubic') return [...point(s.c1), ...point(s.c2), ...point(s.to)];
    return point(s.to);
  });
  return [path.closed ? 1 : 0, point(path.start), ...segments];
}

/** One path a line, numbers to `SAME_POINT_MM`; throws on NaN and infinities. */
export function writeDrawingJson(drawing: Drawing): string {
  if (!(Math.abs(drawing.width) <= MOST_MM && Math.abs(drawing.height) <= MOST_MM)) {
    throw new RangeError(`a sheet of ${drawing.width} × ${drawing.height} mm`);
  }
  const layers = drawing.layers.map(({ operation, paths }) => {
    const lines = paths.map(p => `\n${JSON.stringify(pathNumbers(p))}`);
    return `{"operation":"${operation}","paths":[${lines.join(',')}]}`;
  });
  const head = JSON.stringify({
    format: FORMAT,
    name: drawing.name,
    width: coordinate(drawing.width),
    height: coordinate(drawing.height),
  });
  return `${head.slice(0, -1)},"layers":[\n${layers.join(',\n')}\n]}\n`;
}

const length = number(-MOST_MM, MOST_MM);

function readSegment(value: unknown, where: string): Segment {
  const n = list(length)(value, where);
  if (n.length === 2) return { kind: 'line', to: [n[0]!, n[1]!] };
  if (n.length === 3) return { kind: 'arc', to: [n[0]!, n[1]!], bulge: n[2]! };
  if (n.length === 6) {
    return { kind: 'cubic', c1: [n[0]!, n[1]!], c2: [n[2]!, n[3]!], to: [n[4]!, n[5]!] };
  }
  throw new ReadError(`a segment of ${n.length} numbers`, where, 'write the file again');
}

function readPath(value: unknown, where: string): Path {
  const [closed, start, ...rest] = list<unknown>(v => v)(value, where);
  const begin = readSegment(start, `${where}[1]`);
  if (begin.kind !== 'line' || (closed !== 0 && closed !== 1) || rest.length === 0) {
    throw new ReadError('not a path of ours', where, 'write the file again');
  }
  const segments = rest.map((s, i) => readSegment(s, `${where}[${i + 2}]`));
  const end = segments.at(-1)!.to;
  if (closed === 1 && (end[0] !== begin.to[0] || end[1] !== begin.to[1])) {
    throw new ReadError('a closed path does not end on its start', where, 'write the file again');
  }
  return { start: begin.to, segments, closed: closed === 1 };
}

const READ = object({
  format: oneOf(FORMAT),
  name: text(),
  width: number(0, MOST_MM),
  height: number(0, MOST_MM),
  layers: list(object({ operation: oneOf<Operation>(...OPERATIONS), paths: list(readPath) })),
});

/** The drawing that `writeDrawingJson` wrote. Throws `ReadError` on anything else. */
export function readDrawingJson(source: string): Drawing {
  checkSize(source, MOST_CHARACTERS, 'is this the right file?');
  const { name, width, height, layers } = parseJson(source, READ);
  return { name, width, height, layers };
}
