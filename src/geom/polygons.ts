/**
 * Booleans and offsets of finely flattened outlines by clipper2, refitted with lines and arcs: for what the
 * exact construction does not resolve, and for open lines.
 */
import type { PathsD } from 'clipper2-ts';
import { FIT_MM } from '../units/tolerances.js';
import { polygon } from './build.js';
import { regionArea } from './contain.js';
import { fitPolyline } from './fit-polyline.js';
import { flatten } from './flatten.js';
import { clipper } from './heavy.js';
import { pathLength, signedArea } from './measure.js';
import { LONGEST_MITRE } from './offset-loops.js';
import { vertices } from './path.js';
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

const asD = (points: readonly Point[]) => points.map(([x, y]) => ({ x, y }));
const flat = (paths: readonly Path[]): Point[][] => paths.map(p => flatten(p, FINE_MM));

/** Clipper's polygons as regions of lines and arcs. They are sorted and sifted before they are fitted: a
 *  ring thinner than the flattening would come out with its hole around its outline. */
function fitted(polygons: PathsD): Region[] {
  const loops = polygons
    .filter(p => p.length > 2)
    .map(p => polygon(p.map(({ x, y }): Point => [x, y])))
    .filter(p => Math.abs(signedArea(p)) > FINE_MM * pathLength(p));
  const refit = (path: Path): Path => fitPolyline(vertices(path), true, FIT_MM - FINE_MM);
  return regionsOf(loops)
    .filter(region => {
      const edge = [region.outer, ...region.holes].reduce((sum, p) => sum + pathLength(p), 0);
      return regionArea(region) > FINE_MM * edge;
    })
    .map(({ outer, holes }) => ({ outer: refit(outer), holes: holes.map(refit) }));
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
