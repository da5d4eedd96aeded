/** Whether panels pass through one another, or lie in one another's paper, at one moment. */
import { add, perp, scale, sub, unit } from '../geom/index.js';
import type { Join, Net, Point } from '../model.js';
import { CLOSE_MM, SAME_POINT_MM } from '../units/tolerances.js';
import { type Face, faceOf, overlapDepth, toRim } from './face.js';
import { type Facet, facetsOf } from './facets.js';
import { nearestOn, type Pose, place } from './pose.js';
import { add3, cross3, dot3, length3, type Point3, scale3, sub3 } from './space.js';

/** Planes that differ by less (sine of the angle) count as parallel: 0.05 mm on 50 mm. */
const PARALLEL = 1e-3;

export interface Collision {
  readonly a: string;
  readonly b: string;
  /** `through`: the papers cross. `crowded`: they lie flat in each other's thickness. */
  readonly kind: 'through' | 'crowded';
  /** `through`: how far one reaches past the other's mid-surface, mm; `crowded`: the distance of
   *  the two mid-surfaces, mm. */
  readonly measured: number;
  readonly allowed: number;
  /** Where, on panel a, in the net's frame. */
  readonly where: Point;
}

export interface CollisionOptions {
  /** Panels joined by glue or a tuck lie on each other when the box is closed, and `joinFindings`
   *  says how near: those pairs are left out. On the way there none is, nor one hooked by an edge. */
  readonly closed: boolean;
}

const pairKey = (a: string, b: string) => (a < b ? `${a} ${b}` : `${b} ${a}`);

const lieOnEachOther = (joins: readonly Join[]): ReadonlySet<string> =>
  new Set(
    joins
      .filter(j => j.kind === 'glue' || (j.kind === 'tuck' && !('along' in j.a)))
      .map(j => pairKey(j.a.panel, j.b.panel)),
  );

/**
 * Every pair of panels that cross. Papers cross where their mid-surfaces meet inside
 * both edges and reach more than `CLOSE_MM` past each other: panels that touch along an edge do
 * not, nor those that pass through each other's slits. Parallel papers must be a thickness apart
 * where they cover each other.
 */
export function collisions(
  net: Net,
  pose: Pose,
  { closed }: CollisionOptions,
  faces: readonly Face[] = net.panels.map(faceOf),
): Collision[] {
  const excused = closed ? lieOnEachOther(net.joins) : new Set<string>();
  const facets = faces.map(f => facetsOf(f, pose.get(f.panel.id)!));
  const out: Collision[] = [];
  for (let i = 0; i < faces.length; i++) {
    for (let j = i + 1; j < faces.length; j++) {
      const [a, b] = [faces[i]!.panel.id, faces[j]!.panel.id];
      if (excused.has(pairKey(a, b))) continue;
      const worst = worstHit(facets[i]!, facets[j]!, net.thickness);
      if (worst) out.push({ a, b, ...worst });
    }
  }
  return out;
}

export type Hit = Omit<Collision, 'a' | 'b'>;

/** Where two panels, as facets, go deepest into each other; nothing where they do not. */
export function worstHit(
  as: readonly Facet[],
  bs: readonly Facet[],
  thickness: number,
): Hit | undefined {
  let worst: Hit | undefined;
  const how = (h: Hit) => Math.abs(h.measured - h.allowed);
  for (const a of as) {
    for (const b of bs) {
      if (apart(a, b, thickness)) continue;
      const across = cross3(a.normal, b.normal);
      const sine = length3(across);
      const hit =
        sine < PARALLEL ? crowded(a, b, thickness) : through(a, b, scale3(across, 1 / sine), sine);
      if (hit && (!worst || how(hit) > how(worst))) worst = hit;
    }
  }
  return worst;
}

function apart(a: Facet, b: Facet, by: number): boolean {
  for (const i of [0, 1, 2] as const) {
    if (a.low[i] > b.high[i] + by || b.low[i] > a.high[i] + by) return true;
  }
  return false;
}

function crowded(a: Facet, b: Facet, thickness: number): Hit | undefined {
  const allowed = thickness - CLOSE_MM;
  // Papers without thickness may lie on one another.
  if (!(allowed > 0)) return undefined;
  const measured = Math.abs(dot3(a.normal, b.loops[0]![0]!) - a.offset);
  if (measured >= allowed) return undefined;
  const onto = (to: Facet, p: Point3): Point =>
    to.flat(sub3(p, scale3(to.normal, dot3(to.normal, p) - to.offset)));
  const { depth, at } = overlapDepth(
    a.face,
    b.face,
    p => onto(b, a.solid(p)),
    p => onto(a, b.solid(p)),
  );
  return depth > CLOSE_MM ? { kind: 'crowded', measured, allowed, where: at } : undefined;
}

/** `along` is the direction of the line in which the two planes meet. */
function through(a: Facet, b: Facet, along: Point3, sine: number): Hit | undefined {
  // A point of that line: x = (α n + β m), from n·x = d and m·x = e.
  const cosine = dot3(a.normal, b.normal);
  const [alpha, beta] = [
    (a.offset - cosine * b.offset) / (sine * sine),
    (b.offset - cosine * a.offset) / (sine * sine),
  ];
  const at = add3(scale3(a.normal, alpha), scale3(b.normal, beta));
  const mine = stretches(a, b, at, along);
  const theirs = stretches(b, a, at, along);
  let worst: Hit | undefined;
  for (const [s0, s1] of mine) {
    for (const [t0, t1] of theirs) {
      const [from, to] = [Math.max(s0, t0), Math.min(s1, t1)];
      if (!(to - from > SAME_POINT_MM)) continue;
      for (let i = 0; i < PROBES; i++) {
        const p = add3(at, scale3(along, from + ((to - from) * (i + 0.5)) / PROBES));
        const depth = Math.min(toRim(a.face, a.flat(p)), toRim(b.face, b.flat(p)));
        const measured = depth > CLOSE_MM ? reach(a, b, p, along, depth) : 0;
        if (measured > CLOSE_MM && !(worst && worst.measured >= measured)) {
          worst = { kind: 'through', measured, allowed: CLOSE_MM, where: a.flat(p) };
        }
      }
    }
  }
  return worst;
}

/**
 * How far a reaches past b's true surface on both sides of a point where they meet: the lesser of
 * the two, and nothing when both are on one side, as where two papers only touch.
 */
function reach(a: Facet, b: Facet, p: Point3, along: Point3, depth: number): number {
  const at = a.flat(p);
  const next = a.flat(add3(p, along));
  const aside = unit(perp(sub(next, at)));
  // On curled paper no further than it can be told from its tangent plane.
  const curved = Math.max(Math.abs(a.curvature), Math.abs(b.curvature));
  const step = curved > 0 ? Math.min(depth, 0.25 / curved) : depth;
  const height = (sign: number) =>
    nearestOn(b.posed, place(a.posed, add(at, scale(aside, sign * step)))).height;
  const [h0, h1] = [height(-1), height(1)];
  return h0 * h1 < 0 ? Math.min(Math.abs(h0), Math.abs(h1)) : 0;
}

/** Points tried on each stretch where two papers cross. */
const PROBES = 5;

/** Where a facet crosses another's plane, as stretches of the line in which the planes meet. */
function stretches(f: Facet, other: Facet, at: Point3, along: Point3): [number, number][] {
  const marks: number[] = [];
  for (const loop of f.loops) {
    for (let i = 0, j = loop.length - 1; i < loop.length; j = i++) {
      const [p, q] = [loop[j]!, loop[i]!];
      const hp = dot3(other.normal, p) - other.offset;
      const hq = dot3(other.normal, q) - other.offset;
      if (hp >= 0 === hq >= 0) continue;
      const k = hp / (hp - hq);
      marks.push(dot3(sub3(add3(p, scale3(sub3(q, p), k)), at), along));
    }
  }
  marks.sort((x, y) => x - y);
  const out: [number, number][] = [];
  for (let i = 0; i + 1 < marks.length; i += 2) out.push([marks[i]!, marks[i + 1]!]);
  return out;
}
