/**
 * How the closed parts of a box come together: what is glued to a part is brought to it where that lies on
 * the table, its inside up; then each goes to its place in the box. Every move has a way on which nothing
 * passes through what is there.
 */
import type { Gathering, Net } from '../model.js';
import { faceOf, isOn, toRim } from './face.js';
import { type Facet, facetsOf } from './facets.js';
import { add3, after, dot3, type Point3, type Rigid, scale3, sub3, undone } from './space.js';
import { standing } from './stand.js';

/** Ways to come, the likeliest first: from above, along the box, across it. */
const WAYS: readonly Point3[] = [
  [0, 0, 1],
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
];
/** Curves stand as strips this near to them, mm. */
const STRIPS_MM = 0.6;
/** Paper that goes less than this into other paper only touches it: its own thickness and the strips, mm. */
const TOUCH_MM = 1.5;
/** And this near to its rim it passes by, mm: parts slide in each other with less room than that. */
const RIM_MM = 0.3;
/** How far before its place a part is looked at, in shares of the way out of the box. */
const LOOKS = [0.06, 0.2, 0.4, 0.6, 0.8] as const;

/** Parts whose middles are as high, mm, go in the order in which they are listed. */
const LEVEL_MM = 2;

interface Part {
  readonly net: Net;
  readonly root: Rigid;
  readonly facets: readonly Facet[];
}

/** Parts that say where they stand; none of the others moves. */
export function gathering(nets: readonly Net[]): Gathering[] {
  const parts = nets.map((net): Part => {
    const poses = standing(net);
    const root = poses.find(p => p.panel.id === net.root)!.frame;
    return { net, root, facets: poses.flatMap(p => facetsOf(faceOf(p.panel), p, STRIPS_MM)) };
  });
  const leaderOf = (part: Part): Part => {
    const onto = parts.find(p => p !== part && p.net.id === part.net.seats?.[0]?.onto.net);
    return onto ? leaderOf(onto) : part;
  };
  const groups = parts
    .filter(p => leaderOf(p) === p)
    .map(leader => ({ leader, all: parts.filter(p => leaderOf(p) === leader) }));
  const seats = groups.flatMap(({ leader, all }) =>
    all
      .filter(p => p !== leader)
      .map((part, i, glued): Gathering => {
        // In the frame of the leader, as it lies: its inside is up.
        const back = undone(leader.root);
        const there = [leader, ...glued.slice(0, i)].flatMap(p => movedFacets(p.facets, back));
        const way = wayTo(movedFacets(part.facets, back), there);
        return { nets: [part.net.id], onto: leader.net.id, way };
      }),
  );
  const order = [...groups].sort((a, b) => heightOf(a.leader, a.all) - heightOf(b.leader, b.all));
  const joins = order.map(({ leader, all }, i): Gathering => {
    const there = order.slice(0, i).flatMap(g => g.all.flatMap(p => p.facets));
    const way = wayTo(
      all.flatMap(p => p.facets),
      there,
    );
    return { nets: [leader, ...all.filter(p => p !== leader)].map(p => p.net.id), way };
  });
  return [...seats, ...joins];
}

/** The middle's height, to a hand's exactness; lids go on last. */
function heightOf({ net }: Part, all: readonly Part[]): number {
  const facets = all.flatMap(p => p.facets);
  const low = Math.min(...facets.map(f => f.low[2]));
  const high = Math.max(...facets.map(f => f.high[2]));
  return LEVEL_MM * Math.floor((low + high) / (2 * LEVEL_MM)) + (net.up && net.up[2] < 0 ? 1e4 : 0);
}

const movedFacets = (facets: readonly Facet[], by: Rigid): Facet[] =>
  facets.flatMap(f => facetsOf(f.face, { ...f.posed, frame: after(by, f.posed.frame) }, STRIPS_MM));

function wayTo(part: readonly Facet[], there: readonly Facet[]): Point3 {
  if (there.length === 0) return WAYS[0]!;
  return WAYS.find(way => isClear(part, there, way)) ?? WAYS[0]!;
}

function isClear(part: readonly Facet[], there: readonly Facet[], way: Point3): boolean {
  const along = (f: Facet, end: 'low' | 'high') => {
    const [p, q] = [dot3(f.low, way), dot3(f.high, way)];
    return end === 'low' ? Math.min(p, q) : Math.max(p, q);
  };
  const out =
    Math.max(...there.map(f => along(f, 'high'))) - Math.min(...part.map(f => along(f, 'low')));
  return LOOKS.every(share => {
    const by = scale3(way, share * out);
    return !crosses(part, there, by) && !crosses(there, part, scale3(by, -1));
  });
}

/** Whether paper of `a`, moved, goes through paper of `b`: along an edge, or a line from its middle to a
 *  corner. */
function crosses(a: readonly Facet[], b: readonly Facet[], by: Point3): boolean {
  return a.some(f => {
    const near = b.filter(g =>
      ([0, 1, 2] as const).every(
        i => f.low[i] + by[i] <= g.high[i] + TOUCH_MM && g.low[i] - TOUCH_MM <= f.high[i] + by[i],
      ),
    );
    if (near.length === 0) return false;
    const points = f.loops[0]!.map(p => add3(p, by));
    const middle = scale3(points.reduce(add3), 1 / points.length);
    const on = (at: Point3) => isOn(f.face, f.flat(sub3(at, by)));
    return near.some(g =>
      points.some((p, i) => {
        if (pierces(p, points[(i + 1) % points.length]!, g)) return true;
        const at = pierces(middle, p, g);
        return at !== undefined && on(at);
      }),
    );
  });
}

function pierces(p: Point3, q: Point3, { normal, offset, face, flat }: Facet): Point3 | undefined {
  const [hp, hq] = [dot3(normal, p) - offset, dot3(normal, q) - offset];
  if (hp * hq >= 0 || Math.min(Math.abs(hp), Math.abs(hq)) < TOUCH_MM) return undefined;
  const at = add3(p, scale3(sub3(q, p), hp / (hp - hq)));
  const on = flat(at);
  return isOn(face, on) && toRim(face, on) > RIM_MM ? at : undefined;
}
