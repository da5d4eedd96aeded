/** DXF entities, as the npm parser gives them, as paths in the file's own units. */
import type {
  IArcEntity,
  ICircleEntity,
  IEllipseEntity,
  IEntity,
  ILineEntity,
  ILwpolylineEntity,
  IPoint,
  IPolylineEntity,
  ISplineEntity,
} from 'dxf-parser';
import {
  arcsToCubics,
  arcTo,
  circle,
  closedPath,
  lerp,
  line,
  openPath,
  polar,
  samePoint,
  transform,
} from '../geom/index.js';
import type { Path, Point, Segment } from '../model.js';

/** A path, or words for what the entity is that we cannot read. */
export type Read = Path | string | undefined;

const point = (p: IPoint): Point => [p.x, p.y];
const TURN = 2 * Math.PI;

/** `undefined` for what draws nothing. `mirrored`: the entity is seen from below (its extrusion points
 *  down), so its x runs the other way. */
export function entityPath(entity: IEntity, mirrored: boolean): Read {
  switch (entity.type) {
    case 'LINE': {
      const [a, b] = (entity as ILineEntity).vertices.map(point);
      return openPath(a!, [line(b!)]);
    }
    case 'ARC':
      return flip(arcPath(entity as IArcEntity), mirrored);
    case 'CIRCLE': {
      const { center, radius } = entity as ICircleEntity;
      return flip(radius > 0 ? circle(point(center), radius) : undefined, mirrored);
    }
    case 'POLYLINE': {
      const line = entity as IPolylineEntity;
      if (line.is3dPolygonMesh || line.isPolyfaceMesh) return 'a mesh';
      // Frame points of a spline shape the curve and do not lie on it.
      const corners = line.vertices.filter(v => !v.splineControlPoint);
      return flip(polylinePath(corners, line.shape), mirrored);
    }
    case 'LWPOLYLINE': {
      const { vertices, shape } = entity as ILwpolylineEntity;
      return flip(polylinePath(vertices, shape), mirrored);
    }
    case 'ELLIPSE':
      return ellipsePath(entity as IEllipseEntity, mirrored);
    default:
      return splinePath(entity as ISplineEntity);
  }
}

const flip = (path: Path | undefined, mirrored: boolean): Path | undefined =>
  path && mirrored ? transform(path, [-1, 0, 0, 1, 0, 0]) : path;

/** From one angle counter-clockwise to the other, in (0, 2π]. */
function sweepBetween(from: number, to: number): number {
  const sweep = (((to - from) % TURN) + TURN) % TURN;
  return sweep > 0 ? sweep : TURN;
}

function arcPath({ center, radius, startAngle, endAngle }: IArcEntity): Path | undefined {
  if (!(radius > 0)) return undefined;
  const sweep = sweepBetween(startAngle, endAngle);
  const at = (angle: number) => polar(radius, angle, point(center));
  if (sweep === TURN) return circle(point(center), radius);
  return openPath(at(startAngle), [arcTo(at(startAngle + sweep), sweep)]);
}

function polylinePath(
  vertices: readonly (IPoint & { readonly bulge?: number })[],
  closed: boolean,
): Path | undefined {
  const [first, ...rest] = vertices;
  if (!first) return undefined;
  const start = point(first);
  const segments: Segment[] = [];
  let at = start;
  let bulge = first.bulge ?? 0;
  const go = (to: Point) => {
    if (to[0] === at[0] && to[1] === at[1]) return;
    segments.push(bulge === 0 ? line(to) : { kind: 'arc', to, bulge });
    at = to;
  };
  for (const vertex of rest) {
    go(point(vertex));
    bulge = vertex.bulge ?? 0;
  }
  if (closed) go(start);
  if (segments.length === 0) return undefined;
  return closed ? closedPath(start, segments) : openPath(start, segments);
}

/** The parameters of an ELLIPSE are those of the circle it is the image of. */
function ellipsePath(entity: IEllipseEntity, mirrored: boolean): Path | undefined {
  const { center, majorAxisEndPoint: major, axisRatio, startAngle = 0, endAngle = TURN } = entity;
  const ratio = mirrored ? -axisRatio : axisRatio;
  if (!(Math.abs(ratio) > 0 && Math.hypot(major.x, major.y) > 0)) return undefined;
  const sweep = sweepBetween(startAngle, endAngle);
  const round =
    sweep === TURN
      ? circle([0, 0], 1)
      : openPath(polar(1, startAngle), [arcTo(polar(1, startAngle + sweep), sweep)]);
  return transform(Math.abs(ratio) === 1 ? round : arcsToCubics(round), [
    major.x,
    major.y,
    -major.y * ratio,
    major.x * ratio,
    center.x,
    center.y,
  ]);
}

/** Each span of a B-spline is a Bézier curve whose control points are the values of the polar form at
 *  the span's ends (Ramshaw, "Blossoms are polar forms", CAGD 6, 1989; from memory). */
function splinePath(spline: ISplineEntity): Read {
  const degree = spline.degreeOfSplineCurve;
  const knots = spline.knotValues ?? [];
  const control = (spline.controlPoints ?? []).map(point);
  if (spline.rational) return 'a rational spline';
  if (!(degree >= 1 && degree <= 3)) return `a spline of degree ${degree}`;
  if (control.length <= degree || knots.length !== control.length + degree + 1) {
    return 'a spline whose knots do not fit its points';
  }
  if (knots.some((k, i) => i > 0 && !(k >= knots[i - 1]!))) return 'a spline with falling knots';
  const polarForm = (span: number, args: readonly number[]): Point => {
    const d = control.slice(span - degree, span + 1);
    for (let r = 1; r <= degree; r++) {
      for (let j = degree; j >= r; j--) {
        const low = knots[span - degree + j]!;
        const high = knots[span + 1 + j - r]!;
        d[j] = lerp(d[j - 1]!, d[j]!, (args[r - 1]! - low) / (high - low));
      }
    }
    return d[degree]!;
  };
  const segments: Segment[] = [];
  let start: Point | undefined;
  for (let i = degree; i < control.length; i++) {
    const [u, v] = [knots[i]!, knots[i + 1]!];
    if (!(v > u)) continue;
    const bezier = Array.from({ length: degree + 1 }, (_, k) =>
      polarForm(i, [...Array(degree - k).fill(u), ...Array(k).fill(v)]),
    );
    start ??= bezier[0]!;
    segments.push(bezierSegment(bezier));
  }
  if (!start) return undefined;
  const closed = samePoint(start, segments.at(-1)!.to);
  return closed ? closedPath(start, segments) : openPath(start, segments);
}

function bezierSegment(b: readonly Point[]): Segment {
  if (b.length === 2) return line(b[1]!);
  if (b.length === 4) return { kind: 'cubic', c1: b[1]!, c2: b[2]!, to: b[3]! };
  return { kind: 'cubic', c1: lerp(b[0]!, b[1]!, 2 / 3), c2: lerp(b[2]!, b[1]!, 2 / 3), to: b[2]! };
}
