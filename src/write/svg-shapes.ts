/** SVG's shape elements as paths, in their own user units and their own handedness: the map to the
 *  sheet turns y up. */
import type svgpath from 'svgpath';
import { arcTo, closedPath, ellipticalArc, line, openPath, roundedPolygon } from '../geom/index.js';
import type { Path, Point, Segment } from '../model.js';
import { ReadError } from './read-error.js';
import { type Frame, lengthUnits } from './svg-space.js';

export const SHAPES = ['path', 'rect', 'circle', 'ellipse', 'line', 'polyline', 'polygon'] as const;
export type Shape = (typeof SHAPES)[number];

type Attribute = (name: string) => string | null;
type SvgPath = typeof svgpath;

/** What an element draws; nothing for an empty one. Throws `ReadError` when it cannot be read. */
export function shapePaths(
  shape: Shape,
  attribute: Attribute,
  frame: Frame,
  where: string,
  parse: SvgPath,
  mostSegments: number,
): Path[] {
  const length = (name: string) =>
    lengthUnits(attribute(name), wholeOf(name, frame), `${name} of ${where}`) ?? 0;
  switch (shape) {
    case 'path':
      return dataPaths(attribute('d') ?? '', where, parse, mostSegments);
    case 'rect':
      return rectPaths(length, attribute);
    case 'circle':
      return ellipsePaths([length('cx'), length('cy')], length('r'), length('r'));
    case 'ellipse':
      return ellipsePaths([length('cx'), length('cy')], length('rx'), length('ry'));
    case 'line':
      return [openPath([length('x1'), length('y1')], [line([length('x2'), length('y2')])])];
    default:
      checkCount(attribute('points') ?? '', 2 * mostSegments + 2, mostSegments, where);
      return pointsPaths(attribute('points') ?? '', shape === 'polygon', where);
  }
}

/** What a share is of: the width, the height, or for radii of circles their mean square (SVG 2, 8.9
 *  "Units"). */
function wholeOf(name: string, { width, height }: Frame): number {
  if (name === 'r') return Math.hypot(width, height) / Math.SQRT2;
  return /y|height/.test(name) ? height : width;
}

/** Quarter arcs as cubics: 4/3 tan(π/8), out by 0.027 % of the radius at most. */
const KAPPA = (4 / 3) * (Math.SQRT2 - 1);

function quarter([cx, cy]: Point, rx: number, ry: number, turn: number): Segment {
  const on = (x: number, y: number): Point => {
    const [c, s] = [Math.cos((turn * Math.PI) / 2), Math.sin((turn * Math.PI) / 2)];
    return [
      cx + rx * (Math.round(c) * x - Math.round(s) * y),
      cy + ry * (Math.round(s) * x + Math.round(c) * y),
    ];
  };
  return { kind: 'cubic', c1: on(1, KAPPA), c2: on(KAPPA, 1), to: on(0, 1) };
}

function ellipsePaths(centre: Point, rx: number, ry: number): Path[] {
  if (!(rx > 0 && ry > 0)) return [];
  const right: Point = [centre[0] + rx, centre[1]];
  if (rx === ry) {
    const left: Point = [centre[0] - rx, centre[1]];
    return [closedPath(right, [arcTo(left, Math.PI), arcTo(right, Math.PI)])];
  }
  return [
    closedPath(
      right,
      [0, 1, 2, 3].map(i => quarter(centre, rx, ry, i)),
    ),
  ];
}

function rectPaths(length: (name: string) => number, attribute: Attribute): Path[] {
  const [x, y, w, h] = [length('x'), length('y'), length('width'), length('height')];
  if (!(w > 0 && h > 0)) return [];
  const [givenX, givenY] = [attribute('rx') !== null, attribute('ry') !== null];
  const rx = Math.min(w / 2, length(givenX ? 'rx' : 'ry'));
  const ry = Math.min(h / 2, length(givenY ? 'ry' : 'rx'));
  const corners: Point[] = [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ];
  if (rx === ry || !(rx > 0 && ry > 0)) return [roundedPolygon(corners, rx > 0 && ry > 0 ? rx : 0)];
  const segments: Segment[] = [
    line([x + w - rx, y]),
    quarter([x + w - rx, y + ry], rx, ry, -1),
    line([x + w, y + h - ry]),
    quarter([x + w - rx, y + h - ry], rx, ry, 0),
    line([x + rx, y + h]),
    quarter([x + rx, y + h - ry], rx, ry, 1),
    line([x, y + ry]),
    quarter([x + rx, y + ry], rx, ry, 2),
  ];
  return [closedPath([x + rx, y], segments)];
}

function pointsPaths(text: string, closed: boolean, where: string): Path[] {
  const parts = text.split(/[\s,]+/).filter(Boolean);
  const numbers = parts.map(Number);
  if (!numbers.every(Number.isFinite) || numbers.length % 2 !== 0) {
    throw new ReadError('its points are not pairs of numbers', where, 'save it as a path');
  }
  const points: Point[] = [];
  for (let i = 0; i < numbers.length; i += 2) points.push([numbers[i]!, numbers[i + 1]!]);
  const [start, ...rest] = points;
  if (!start || rest.length === 0) return [];
  return [closed ? closedPath(start, rest.map(line)) : openPath(start, rest.map(line))];
}

/** So many numbers are too many segments: told before a million of them are parsed. */
function checkCount(text: string, most: number, mostSegments: number, where: string): void {
  if (numbersIn(text) <= most) return;
  throw new ReadError(
    `more than ${mostSegments} segments`,
    where,
    'simplify the drawing, or divide it among several files',
  );
}

/** Runs of digits and points: a number is one, or two with an exponent. */
function numbersIn(data: string): number {
  let count = 0;
  let inside = false;
  for (let i = 0; i < data.length; i++) {
    const code = data.charCodeAt(i);
    const digit = (code >= 48 && code <= 57) || code === 46;
    if (digit && !inside) count += 1;
    inside = digit;
  }
  return count;
}

/** A path per subpath that draws something. */
function dataPaths(data: string, where: string, parse: SvgPath, mostSegments: number): Path[] {
  // A segment has at most seven numbers.
  checkCount(data, 7 * mostSegments + 7, mostSegments, where);
  const parsed = parse(data);
  // The parser stops at the first fault and keeps what came before: a shape with a side missing.
  const fault = (parsed as unknown as { err: string }).err;
  if (fault !== '') {
    throw new ReadError(
      `its path data cannot be read (${fault.replace(/^SvgPath: /, '')})`,
      where,
      'save the file again, or redraw this path',
    );
  }
  const paths: Path[] = [];
  let start: Point = [0, 0];
  let at: Point = [0, 0];
  let segments: Segment[] = [];
  const end = (closed: boolean) => {
    if (segments.length > 0) {
      paths.push(closed ? closedPath(start, segments) : openPath(start, segments));
    }
    segments = [];
    at = start;
  };
  const go = (s: Segment) => {
    segments.push(s);
    at = s.to;
  };
  for (const s of absolute(parsed)) {
    const n = s.slice(1) as number[];
    switch (s[0]) {
      case 'M':
        end(false);
        start = [n[0]!, n[1]!];
        at = start;
        break;
      case 'L':
        go(line([n[0]!, n[1]!]));
        break;
      case 'H':
        go(line([n[0]!, at[1]]));
        break;
      case 'V':
        go(line([at[0], n[0]!]));
        break;
      case 'C':
        go({ kind: 'cubic', c1: [n[0]!, n[1]!], c2: [n[2]!, n[3]!], to: [n[4]!, n[5]!] });
        break;
      case 'Q': {
        const [cx, cy, x, y] = n as [number, number, number, number];
        const third = (p: Point): Point => [
          p[0] + (2 / 3) * (cx - p[0]),
          p[1] + (2 / 3) * (cy - p[1]),
        ];
        go({ kind: 'cubic', c1: third(at), c2: third([x, y]), to: [x, y] });
        break;
      }
      case 'A':
        for (const arc of ellipticalArc(at, n[0]!, n[1]!, n[2]!, n[3] === 1, n[4] === 1, [
          n[5]!,
          n[6]!,
        ])) {
          go(arc);
        }
        break;
      default:
        end(true);
    }
  }
  end(false);
  return paths;
}

function absolute(parsed: ReturnType<SvgPath>): (string | number)[][] {
  const segments: (string | number)[][] = [];
  parsed
    .abs()
    .unshort()
    .iterate(s => {
      segments.push([...s]);
    });
  return segments;
}
