/** Stars with straight, plump or slender points, flat or creased to stand in ridges; and a sunburst. */
import { defineMotif } from '../contracts.js';
import {
  arcTo,
  bounds,
  circle,
  closedPath,
  distance,
  line,
  openPath,
  polar,
  polygon,
  roundedPolygon,
  scaling,
  transform,
  vertices,
} from '../geom/index.js';
import type { Path, Point, Segment, Stroke } from '../model.js';
import { ParamError } from '../params.js';
import { figure, scored } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { stitched } from './stitches.js';

/**
 * Where the edges of a star meet between its points, as a part of its radius. `straight`: each edge is in
 * line with one of the second point on, as in {n/2}: cos(2π/n) / cos(π/n), which for five points is
 * (3 − √5) / 2; of four and fewer there is none.
 */
export function starWaist(points: number, form: 'straight' | 'plump' | 'slender'): number {
  const chord = Math.cos(Math.PI / points);
  if (form === 'straight') return Math.cos((2 * Math.PI) / points) / chord;
  return form === 'plump' ? 0.66 * chord : 0.4 * chord;
}

/** A star of radius 1 about the origin, its first point up. */
export const starOutline = (points: number, waist: number): Path =>
  polygon(
    Array.from({ length: 2 * points }, (_, i) =>
      polar(i % 2 === 0 ? 1 : waist, Math.PI / 2 + (i * Math.PI) / points),
    ),
  );

/** Creases keep this far from the edge and from each other in the middle, mm. */
const CREASE_SHORT_MM = 1;

export const star = defineMotif({
  id: 'star',
  family: 'stars',
  summary: 'a star, flat or creased from its middle so that its ridges stand up',
  params: {
    size: { ...sizeParam(40), least: 14 },
    points: { kind: 'count', default: 5, least: 4, most: 16, help: 'points' },
    form: {
      kind: 'choice',
      default: 'plump',
      choices: ['plump', 'straight', 'slender'],
      help: 'plump or slender points, or edges in line with each other (five points or more)',
    },
    corner: {
      kind: 'length',
      default: 0,
      least: 0,
      most: 6,
      help: 'radius of the points and of the corners between them; creases need 0',
    },
    ridges: { kind: 'flag', default: true, help: 'creases: points up, corners down' },
  },
  build({ size, points, form, corner, ridges }) {
    const waist = starWaist(points, form as 'straight' | 'plump' | 'slender');
    if (!(waist > 0.05)) {
      throw new ParamError('form', form, 'plump or slender for four points', 'choose one of these');
    }
    const sharp = starOutline(points, waist);
    const b = bounds(sharp);
    const k = size / (b.maxX - b.minX);
    const outline = transform(sharp, scaling(k));
    if (corner === 0) {
      const rays = vertices(outline).map((p): Stroke => {
        const long = Math.hypot(...p);
        const along = (r: number): Point => [(p[0] / long) * r, (p[1] / long) * r];
        const gap = CREASE_SHORT_MM;
        return scored(openPath(along(2 * gap), [line(along(long - 2 * gap))]));
      });
      return figure([layer('front', outline, { strokes: ridges ? rays : [] })], size);
    }
    const [tip, dip] = vertices(outline);
    const most = roomFor(tip!, dip!, points);
    if (!(corner <= most)) {
      throw new ParamError(
        'corner',
        corner,
        `at most ${most.toFixed(2)} mm for this star`,
        'make it smaller or the star larger',
      );
    }
    return figure([layer('front', roundedPolygon(vertices(outline), corner))], size);
  },
});

/** The largest radius that an edge from a point to the corner beside it has room for. */
function roomFor(tip: Point, dip: Point, points: number): number {
  const edge = Math.hypot(tip[0] - dip[0], tip[1] - dip[1]);
  // Half the angle at the point, from the edge and the spoke; the corner between opens by a spoke more.
  const half = Math.asin((Math.hypot(...dip) * Math.sin(Math.PI / points)) / edge);
  const [turn, back] = [Math.PI / 2 - half, Math.PI / 2 - half - Math.PI / points];
  return (0.98 * edge) / (Math.tan(turn) + Math.tan(back));
}

/** One ray between two points of a circle, with flanks that draw in, the less the slimmer it is. */
function ray(from: Point, tip: Point, to: Point): Segment[] {
  const foot = distance(from, to) / 2;
  const sweep = -1.15 * Math.asin(foot / distance(from, tip));
  return [arcTo(tip, sweep), arcTo(to, sweep)];
}

/** Where rays begin, as a part of their reach. */
const RIM = 0.47;

export const sunburst = defineMotif({
  id: 'sunburst',
  family: 'stars',
  summary: 'a sunburst: long and short rays by turns about a stitched disc',
  params: {
    size: { ...sizeParam(60), least: 24 },
    rays: {
      kind: 'count',
      default: 12,
      least: 6,
      most: 20,
      help: 'long rays, with a short one between',
    },
    layers: {
      kind: 'count',
      default: 2,
      least: 1,
      most: 2,
      help: '1: all rays on one paper; 2: the short ones on a paper of their own',
    },
  },
  build({ size, rays, layers }) {
    const burst = (count: number, turn: number, reach: (i: number) => number): Path => {
      const on = (i: number) => polar(RIM, Math.PI / 2 + turn + ((i - 0.5) * 2 * Math.PI) / count);
      const segments = Array.from({ length: count }, (_, i) =>
        ray(on(i), polar(reach(i), Math.PI / 2 + turn + (i * 2 * Math.PI) / count), on(i + 1)),
      ).flat();
      return closedPath(on(0), segments);
    };
    const all = burst(2 * rays, 0, i => (i % 2 === 0 ? 1 : 0.78));
    const split = [
      layer(
        'back',
        burst(rays, 0, () => 1),
        { paper: 'back' },
      ),
      layer(
        'front',
        burst(rays, Math.PI / rays, () => 0.82),
      ),
    ];
    // Fitted in mm, on the drawing's scale.
    const sewn = stitched(circle([0, 0], 0.33), { stitch: 'draw', stitchLength: 4 / size });
    return figure(
      [
        ...(layers === 1 ? [layer('front', all)] : split),
        layer('disc', circle([0, 0], 0.4), { paper: 'disc', lift: 1, strokes: sewn }),
      ],
      size,
    );
  },
});
