/** A bent branch with leaves by turns and berries in their axils. Drawn about 108 long. */
import { defineMotif } from '../contracts.js';
import {
  angleOf,
  arcTo,
  circle,
  closedPath,
  openSpline,
  pathLength,
  pointAt,
  polar,
  steps,
  tangentAt,
} from '../geom/index.js';
import type { Layer, Path, Point, Segment } from '../model.js';
import { figure, scored } from './figure.js';
import { leafParam } from './greenery.js';
import { layer, sizeParam } from './layers.js';
import { bridge, type LeafForm, leafFrom } from './leaf-edge.js';

const WAY = openSpline([
  [0, 0],
  [34, 17],
  [72, 23],
  [108, 14],
]);
const WHOLE = pathLength(WAY);
const STEPS = [...steps(WAY)];

/** Where the branch is at a part of its way (of about equal stretches), its direction, half its width. */
function onWay(t: number) {
  const i = Math.min(Math.floor(t * STEPS.length), STEPS.length - 1);
  const step = STEPS[i]!;
  const u = t * STEPS.length - i;
  return { point: pointAt(step, u), along: angleOf(tangentAt(step, u)), half: 2.4 - 0.6 * t };
}

/** The point of an edge at a part of the branch's length; `side` 1 is the left of its way. */
function onEdge(t: number, side: number): { at: Point; along: number } {
  const { point, along, half } = onWay(t);
  return { at: polar(half, along + (side * Math.PI) / 2, point), along };
}

export const branch = defineMotif({
  id: 'branch',
  family: 'greenery',
  summary: 'a bent branch of leaves by turns, with berries',
  params: {
    size: { ...sizeParam(60), least: 45 },
    leaves: { kind: 'count', default: 9, least: 5, most: 11, help: 'leaves' },
    leaf: leafParam,
    berries: { kind: 'flag', default: true, help: 'berries where leaves meet the branch' },
  },
  build({ size, leaves, leaf: form, berries }) {
    const round = form === 'round';
    const ribs: Path[] = [];
    const leafOf = (t: number): LeafForm => {
      const long = (round ? 20 : 36) * (1.1 - 0.38 * t) * (leaves > 9 ? 0.88 : 1);
      return { long, wide: (round ? 0.76 : 0.33) * long, tip: round ? 'round' : 'pointed' };
    };
    // Leaves on one side by where they stand; the last one is the tip's own.
    const stands = Array.from({ length: leaves - 1 }, (_, i) => (i + 1) / leaves);
    const grow = (side: number, from: Point): Segment[] => {
      const way = side < 0 ? 1 : -1;
      const mine = stands.filter((_, i) => (i % 2 === 0 ? 1 : -1) === side);
      const segments: Segment[] = [];
      let at = { at: from, along: onWay(side < 0 ? 0 : 1).along };
      for (const t of side < 0 ? mine : mine.reverse()) {
        const lean = (round ? 1.16 : 0.86) - 0.2 * t;
        const foot = 1.7 / Math.sin(lean) / WHOLE;
        const [a, b] = [onEdge(t - way * foot, side), onEdge(t + way * foot, side)];
        const turn = way < 0 ? Math.PI : 0;
        segments.push(bridge(at.at, at.along + turn, a.at, a.along + turn));
        const grown = leafFrom(a.at, b.at, onWay(t).along + side * lean, leafOf(t));
        segments.push(...grown.segments);
        ribs.push(grown.rib);
        at = b;
      }
      const end = onEdge(side < 0 ? 1 : 0, side);
      const turn = way < 0 ? Math.PI : 0;
      segments.push(bridge(at.at, at.along + turn, end.at, end.along + turn));
      return segments;
    };
    const [start, right, left] = [onEdge(0, -1), onEdge(1, -1), onEdge(1, 1)];
    const tip = leafFrom(right.at, left.at, right.along, leafOf(0.9));
    const outline = closedPath(start.at, [
      ...grow(-1, start.at),
      ...tip.segments,
      ...grow(1, left.at),
      arcTo(start.at, Math.PI),
    ]);
    ribs.push(tip.rib);
    const dots = stands.flatMap((t, i): Layer[] => {
      if (!berries || i % 2 === 1) return [];
      // On the side that has no leaf here, by the branch's edge.
      const { point, along } = onWay(t + 0.012);
      const disc = circle(polar(4.2, along - Math.PI / 2, point), 3.5);
      return [layer(`berry-${i / 2 + 1}`, disc, { paper: 'berry', lift: 1 })];
    });
    return figure([layer('front', outline, { strokes: ribs.map(scored) }), ...dots], size);
  },
});
