/**
 * Booleans and offsets of finely flattened outlines by clipper2, refitted with lines and arcs: for what the
 * exact construction does not resolve, and for open lines.
 */
import type { PathsD } from 'clipper2-ts';
import { FIT_MM } from '../units/tolerances.js';
import { fitPolyline } from './fit-polyline.js';
import { flatten } from './flatten.js';
import { clipper } from './heavy.js';
import { signedArea } from './measure.js';
import { regionsOf } from './regions.js';
import type { Path, Point, Region } from './types.js';

/** Curves are flattened this much finer than they are fitted again. */
const FINE_MM = FIT_MM / 8;
/** Decimals clipper keeps: at five its products stay exact to 600 mm, at four to 6 m. */
const precisionFor = (points: Iterable<Point>): number => {
  let reach = 0;
  for (const [x, y] of points) reach = Math.max(reach, Math.abs(x), Math.abs(y));
  return reach < 600 ? 5 : 4;
};
/** A corner of a mitred offset reaches at most this many offsets out; beyond it is cut square. */
export const LONGEST_MITRE = 3;
/** Polygons of less than this, mm², are rounding between shared edges. */
const SLIVER_MM2 = 1e-4;

const asD = (points: readonly Point[]) => points.map(([x, y]) => ({ x, y }));
const flat = (paths: readonly Path[]): Point[][] => paths.map(p => flatten(p, FINE_MM));

function fitted(polygons: PathsD): Region[] {
  const loops = polygons
    .filter(p => p.length > 2)
    .map(p =>
      fitPolyline(
        p.map(({ x, y }): Point => [x, y]),
        true,
        FIT_MM - FINE_MM,
      ),
    )
    .filter(p => Math.abs(signedArea(p)) > SLIVER_MM2);
  return regionsOf(loops);
}

/** As the operations on regions: loops of the two sides, each running the right way round; `weld` is the
 *  first side alone by the nonzero rule. */
export function polygonBoolean(
  a: readonly Path[],
  b: readonly Path[],
  operation: 'unite' | 'subtract' | 'intersect' | 'weld',
): Region[] {
  const { booleanOpD, ClipType, FillRule } = clipper();
  const [first, second] = [flat(a), flat(b)];
  const type = {
    unite: ClipType.Union,
    weld: ClipType.Union,
    subtract: ClipType.Difference,
    intersect: ClipType.Intersection,
  }[operation];
  const rule = operation === 'weld' ? FillRule.NonZero : FillRule.Positive;
  const precision = precisionFor([...first, ...second].flat());
  return fitted(booleanOpD(type, first.map(asD), second.map(asD), rule, precision));
}

/** Loops moved outward by `delta` mm, inward when negative. */
export function polygonOffset(
  loops: readonly Path[],
  delta: number,
  join: 'round' | 'mitre',
): Region[] {
  const { inflatePathsD, EndType, JoinType } = clipper();
  const points = flat(loops);
  const type = join === 'round' ? JoinType.Round : JoinType.Miter;
  const precision = precisionFor(points.flat());
  // Corners of a flattened curve open by hairs: mitred or rounded, they stay on the curve's offset.
  return fitted(
    inflatePathsD(points.map(asD), delta, type, EndType.Polygon, LONGEST_MITRE, precision, FINE_MM),
  );
}
