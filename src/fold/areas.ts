/** Which part of a panel's face is covered by another panel that lies on it in the closed box. */
import {
  bounds,
  counterClockwise,
  distance,
  flatten,
  intersectRegions,
  lerp,
  polygon,
  transform,
} from '../geom/index.js';
import type { Affine, GlueArea, Join, Net, Path, Point } from '../model.js';
import { FOLD_FACET_MM } from '../units/tolerances.js';
import { nearestOn, normalAt, type PanelPose, place, pose, reachOf } from './pose.js';
import { dot3, sub3 } from './space.js';
import { standing } from './stand.js';

/** Faces that differ by more (cosine) do not lie flat on each other: 0.05 mm on 50 mm. */
export const FLAT = 1 - 5e-7;

export const AREAS = {
  glueAreas: (net: Net): readonly GlueArea[] => areasOf(net, 'glue'),
  tuckAreas: (net: Net): readonly GlueArea[] => areasOf(net, 'tuck'),
  seatAreas,
};

/** On curled paper an area is found point by point: for the same net only once. */
const glued = new WeakMap<Net, readonly GlueArea[]>();

function areasOf(net: Net, kind: 'glue' | 'tuck'): readonly GlueArea[] {
  if (kind === 'tuck') return newAreas(net, kind);
  const known = glued.get(net) ?? newAreas(net, kind);
  glued.set(net, known);
  return known;
}

function newAreas(net: Net, kind: 'glue' | 'tuck'): readonly GlueArea[] {
  const folded = pose(net);
  const whole = (j: Join) => j.kind === kind && !('along' in j.a);
  return net.joins
    .filter(whole)
    .flatMap(j => bothFaces(folded.get(j.a.panel)!, folded.get(j.b.panel)!))
    .map(area => withPen(net, area));
}

const withPen = ({ glueDrawn = [] }: Net, area: Bare): GlueArea => ({
  ...area,
  drawn: glueDrawn.some(d => d.panel === area.panel && d.onto === area.onto),
});

/** All that is glued of each net of a box, to itself and to the others, by the net. */
export function gluedFaces(nets: readonly Net[]): ReadonlyMap<string, readonly GlueArea[]> {
  const seats = seatAreas(nets);
  return new Map(
    nets.map(net => {
      const onOthers = seats.filter(s => s.net === net.id).map(s => s.area);
      return [net.id, [...areasOf(net, 'glue'), ...onOthers]];
    }),
  );
}

/** As glued joints, from part to part of one box. */
function seatAreas(nets: readonly Net[]): { net: string; area: GlueArea }[] {
  if (!nets.some(n => n.seats)) return [];
  const placed = new Map(nets.map(n => [n.id, new Map(standing(n).map(p => [p.panel.id, p]))]));
  return nets.flatMap(net =>
    (net.seats ?? []).flatMap(({ panel, onto }) => {
      const other = nets.find(n => n.id === onto.net);
      const [a, b] = [placed.get(net.id)?.get(panel), placed.get(onto.net)?.get(onto.panel)];
      if (!a || !b || !other) return [];
      const [own, ...others] = bothFaces(a, b);
      return [
        { net: net.id, area: withPen(net, own!) },
        ...others.map(area => ({ net: onto.net, area: withPen(other, area) })),
      ];
    }),
  );
}

type Bare = Omit<GlueArea, 'drawn'>;

/** All of panel a, and its place on panel b. */
function bothFaces(a: PanelPose, b: PanelPose): Bare[] {
  const [own, other] = [a.panel, b.panel];
  const sample = innerOf(own.outline);
  const mate = nearestOn(b, place(a, sample));
  const up = dot3(sub3(place(b, mate.at), place(a, sample)), normalAt(a, sample));
  const on = { outer: counterClockwise(projected(a, b)), holes: [] };
  const parts = intersectRegions([on], [{ outer: other.outline, holes: [] }]);
  const face = (height: number) => (height >= 0 ? 'inside' : 'outside');
  return [
    { panel: own.id, face: face(up), onto: other.id, area: own.outline },
    ...parts.map(
      (r): Bare => ({
        panel: other.id,
        face: face(mate.height),
        onto: own.id,
        area: r.outer,
      }),
    ),
  ];
}

/** Middle of an outline's corners: for the small convex panels that are glued it lies on them. */
function innerOf(outline: Path): Point {
  const all = flatten(outline, FOLD_FACET_MM);
  const sum = all.reduce<Point>((s, p) => [s[0] + p[0], s[1] + p[1]], [0, 0]);
  return [sum[0] / all.length, sum[1] / all.length];
}

/** On curled paper straight edges are curved: points no further apart than this are taken over, mm. */
const STEP_MM = 1;

/** Panel a's outline where it lies on panel b: exact on flat paper. */
function projected(a: PanelPose, b: PanelPose): Path {
  const m = layIn(a, b);
  if (m) return transform(a.panel.outline, m);
  const rim = flatten(a.panel.outline, FOLD_FACET_MM);
  const points = rim.flatMap((p, i) => {
    const q = rim[(i + 1) % rim.length]!;
    const n = Math.max(1, Math.ceil(distance(p, q) / STEP_MM));
    return Array.from({ length: n }, (_, k) => lerp(p, q, k / n));
  });
  const near = stretchBy(a, b);
  return polygon(points.map(p => nearestOn(b, place(a, p), near).at));
}

/** Round a ring the end that panel a hangs on is as near as the beginning that it lies on: only what is as
 *  near along the curl as panel a is long. */
function stretchBy(a: PanelPose, b: PanelPose): readonly [number, number] | undefined {
  if (!b.curl) return undefined;
  const { minX, maxX, minY, maxY } = bounds(a.panel.outline);
  const long = Math.hypot(maxX - minX, maxY - minY);
  const middle = b.curl.reach(nearestOn(b, place(a, innerOf(a.panel.outline))).at);
  const [from, to] = reachOf(b.curl, b.panel.outline);
  return [Math.max(from, middle - long), Math.min(to, middle + long)];
}

export function layIn(a: PanelPose, b: PanelPose): Affine | undefined {
  if (a.curl || b.curl || Math.abs(dot3(a.frame.z, b.frame.z)) < FLAT) return undefined;
  const to = (p: Point) => nearestOn(b, place(a, p)).at;
  const [o, x, y] = [to([0, 0]), to([1, 0]), to([0, 1])];
  return [x[0] - o[0], x[1] - o[1], y[0] - o[0], y[1] - o[1], o[0], o[1]];
}
