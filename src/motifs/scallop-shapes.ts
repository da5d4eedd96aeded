/** Scalloped oval, rectangle and heart. */
import { defineMotif } from '../contracts.js';
import {
  apply,
  bounds,
  compose,
  cubic,
  distance,
  openPath,
  rectangle,
  scaling,
  transform,
  translation,
  vertices,
} from '../geom/index.js';
import type { Layer, Path, Point } from '../model.js';
import { ParamError } from '../params.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import { heartHalf, heartOutline } from './hearts.js';
import { layer, mirrored, sizeParam } from './layers.js';
import { beadsAlong, eyelets, scallopEdge, scallopParams } from './scallop-edge.js';
import { seamInside, stitched, stitchParams } from './stitches.js';

const noStitch = { ...stitchParams, stitch: { ...stitchParams.stitch, default: 'none' } } as const;

export interface ScallopedEdge {
  readonly size: number;
  readonly sweep: number;
  readonly eyelet: number;
  readonly stitch: string;
  readonly inset: number;
  readonly stitchLength: number;
}

/** A layer with a scalloped edge, brought to size, with its eyelets and stitches. `string` is the
 *  closed line that the beads lie on; they come back where they are on the layer. */
export function scalloped(
  string: Path,
  beads: readonly Point[],
  edge: ScallopedEdge,
): { readonly front: Layer; readonly beads: readonly Point[] } {
  const { size, eyelet, stitch, inset, stitchLength } = edge;
  const sweep = (edge.sweep * Math.PI) / 180;
  const unit = scallopEdge(beads, sweep);
  const b = bounds(unit);
  const k = size / (b.maxX - b.minX);
  const at = compose(scaling(k), translation(0, -(b.minY + b.maxY) / 2));
  const ends = vertices(unit);
  const neck = Math.min(...ends.map((p, i) => distance(p, ends[(i + 1) % ends.length]!)));
  if (!(k * neck >= LEAST_WIDTH_MM)) {
    throw new ParamError(
      'size',
      size,
      `at least ${((LEAST_WIDTH_MM / neck) * (b.maxX - b.minX)).toFixed(2)} mm with as many scallops`,
      'make it larger or take fewer',
    );
  }
  const placed = beads.map(p => apply(at, p));
  const holes = eyelets(placed, sweep, eyelet);
  const front = layer('front', transform(unit, at), { holes });
  if (stitch === 'none') return { front, beads: placed };
  const line = seamInside(transform(string, at), inset + eyelet / 2);
  if (!line || !(bounds(line).maxX > 2 * stitchLength)) {
    throw new ParamError(
      'inset',
      inset,
      'the stitches do not fit inside the shape there',
      'bring them nearer to the edge, or make the shape larger',
    );
  }
  return {
    front: { ...front, strokes: stitched(line, { stitch, stitchLength }) },
    beads: placed,
  };
}

/** The right half of an ellipse one unit to each side of its axis, from its bottom to its top. */
function halfEllipse(ry: number): Path {
  const k = (4 / 3) * Math.tan(Math.PI / 8);
  return openPath(
    [0, -ry],
    [cubic([k, -ry], [1, -k * ry], [1, 0]), cubic([1, k * ry], [k, ry], [0, ry])],
  );
}

export const scallopedOval = defineMotif({
  id: 'scalloped-oval',
  family: 'scallops',
  summary: 'an oval with a scalloped edge, plain or pierced',
  params: {
    size: sizeParam(60),
    proportion: {
      kind: 'number',
      default: 0.74,
      least: 0.5,
      most: 1.6,
      help: 'height over width, without the scallops',
    },
    ...scallopParams(26),
    ...noStitch,
  },
  build({ proportion, scallops, ...edge }) {
    const half = halfEllipse(proportion);
    const odd = scallops % 2 === 1;
    const beads = beadsAlong(
      half,
      odd ? (scallops - 1) / 2 : scallops / 2 - 1,
      odd ? 'across' : 'on',
    );
    return [scalloped(mirrored(half), beads, edge).front];
  },
});

export const scallopedRectangle = defineMotif({
  id: 'scalloped-rectangle',
  family: 'scallops',
  summary: 'a rectangle edged by whole scallops, one about each corner',
  params: {
    size: sizeParam(70),
    across: { kind: 'count', default: 10, least: 3, most: 40, help: 'arcs along the width' },
    down: { kind: 'count', default: 6, least: 3, most: 40, help: 'arcs along the height' },
    sweep: scallopParams(0).sweep,
    eyelet: scallopParams(0).eyelet,
    ...noStitch,
  },
  build({ across, down, ...edge }) {
    // One unit from bead to bead, and beads on the corners.
    const [x, y] = [(across - 1) / 2, (down - 1) / 2];
    const along = across % 2 === 1 ? 0 : 0.5;
    const lower: Point[] = [];
    for (let at = along; at < x; at++) lower.push([at, -y]);
    const side = Array.from({ length: down }, (_, i): Point => [x, i - y]);
    const upper = lower.map(([at]): Point => [at, y]).reverse();
    const string = rectangle(-x, -y, 2 * x, 2 * y);
    return [scalloped(string, [...lower, ...side, ...upper], edge).front];
  },
});

/** A heart whose cleft is wide enough for scallops to turn round in. */
export const WIDE_CLEFT = { proportion: 0.93, cleft: 0.185, point: (86 * Math.PI) / 360 };

export const sideParam = (count: number) =>
  ({
    kind: 'count',
    default: count,
    least: 7,
    most: 30,
    help: 'arcs on each side, beside the one at the point',
  }) as const;

export const scallopedHeart = defineMotif({
  id: 'scalloped-heart',
  family: 'scallops',
  summary: 'a heart with a scalloped edge, plain or pierced',
  params: {
    size: sizeParam(55),
    scallops: sideParam(14),
    sweep: scallopParams(0).sweep,
    eyelet: scallopParams(0).eyelet,
    ...noStitch,
  },
  build({ scallops, ...edge }) {
    const beads = beadsAlong(heartHalf(WIDE_CLEFT), scallops, 'across');
    return [scalloped(heartOutline(WIDE_CLEFT), beads, edge).front];
  },
});
