/** Where the points of a curled panel go, in the panel's own frame before it is folded. */
import { add, dot, perp, scale, sub } from '../geom/index.js';
import type { Bend, Point } from '../model.js';
import { dot3, moved, type Point3, type Rigid, sub3, turned } from './space.js';

interface Joint {
  /** Length along the curl, and the profile's position and direction there. */
  readonly s: number;
  readonly x: number;
  readonly z: number;
  readonly turn: number;
  /** Curvature of the stretch that begins here. */
  readonly k: number;
}

/** A bend at one moment of folding: `fraction` 0 is flat, 1 is closed. */
export class Curl {
  private readonly joints: readonly Joint[];
  private readonly along: Point;

  constructor(
    readonly bend: Bend,
    fraction: number,
  ) {
    this.along = perp(bend.across);
    let here: Joint = { s: 0, x: 0, z: 0, turn: 0, k: 0 };
    const joints: Joint[] = [];
    for (const { length, turn } of bend.stretches) {
      here = { ...here, k: (turn * fraction) / length };
      joints.push(here);
      here = { ...onStretch(here, length), s: here.s + length, k: 0 };
    }
    joints.push(here);
    this.joints = joints;
  }

  /** How far along the curl a point of the net lies; before the curl it is negative. */
  reach(p: Point): number {
    return dot(sub(p, this.bend.from), this.bend.across);
  }

  /** The lengths along the curl at which its curvature changes. */
  get breaks(): readonly number[] {
    return this.joints.map(j => j.s);
  }

  /** Curvature (1/mm) at a length along the curl. */
  curvature(s: number): number {
    return s < 0 ? 0 : this.jointBefore(s).k;
  }

  /** The move that lays the flat panel against the curl's tangent plane at length `s`. */
  tangent(s: number): Rigid {
    const { x, z, turn } = this.profile(s);
    const u = this.bend.across;
    const v = this.along;
    const c = Math.cos(turn);
    const t = Math.sin(turn);
    // Columns of the turn about the ruling v that takes u to c·u + t·z.
    const column = (p: Point): Point3 => {
      const [a, b] = [dot(p, u), dot(p, v)];
      return [a * c * u[0] + b * v[0], a * c * u[1] + b * v[1], a * t];
    };
    const rigid: Rigid = {
      x: column([1, 0]),
      y: column([0, 1]),
      z: [-t * u[0], -t * u[1], c],
      at: [0, 0, 0],
    };
    const foot = add(this.bend.from, scale(u, s));
    const put = add(this.bend.from, scale(u, x));
    return { ...rigid, at: sub3([put[0], put[1], z], turned(rigid, [foot[0], foot[1], 0])) };
  }

  /**
   * The point of the net whose place on the curl is nearest to `q`, and the height of `q` over it
   * toward the inside. Looked for on every stretch and on the straight ends.
   */
  nearest(q: Point3, fromS: number, toS: number): { readonly at: Point; readonly height: number } {
    const { from, across } = this.bend;
    const flat: Point = [q[0] - from[0], q[1] - from[1]];
    const [px, pz, r] = [dot(flat, across), q[2], dot(flat, this.along)];
    let best = { s: Number.NaN, d2: Number.POSITIVE_INFINITY };
    const see = (s: number) => {
      const clamped = Math.min(Math.max(s, fromS), toS);
      const p = this.profile(clamped);
      const d2 = (p.x - px) ** 2 + (p.z - pz) ** 2;
      if (d2 < best.d2) best = { s: clamped, d2 };
    };
    see(fromS);
    see(toS);
    const first = this.joints[0]!;
    see(Math.min(first.s, px));
    for (const [i, j] of this.joints.entries()) {
      const next = this.joints[i + 1];
      const [c, t] = [Math.cos(j.turn), Math.sin(j.turn)];
      const ahead = (px - j.x) * c + (pz - j.z) * t;
      const aside = (pz - j.z) * c - (px - j.x) * t;
      const length = next ? next.s - j.s : Number.POSITIVE_INFINITY;
      let run = ahead;
      if (j.k !== 0) {
        // The angle at the circle's centre, which lies 1/k to the left of the direction.
        const a = Math.atan2(ahead, (1 / j.k - aside) * Math.sign(j.k));
        const whole = 2 * Math.PI;
        run = (a - whole * Math.floor(a / whole)) / Math.abs(j.k);
        if (run > length) see(j.s);
      }
      see(j.s + Math.min(Math.max(run, 0), length));
    }
    const { s } = best;
    const m = this.tangent(s);
    const height = dot3(m.z, sub3(q, placed(m, add(from, scale(across, s)))));
    return { at: add(from, add(scale(across, s), scale(this.along, r))), height };
  }

  private profile(s: number): { x: number; z: number; turn: number } {
    if (s < 0) return { x: s, z: 0, turn: 0 };
    const j = this.jointBefore(s);
    return onStretch(j, s - j.s);
  }

  private jointBefore(s: number): Joint {
    let found = this.joints[0]!;
    for (const j of this.joints) if (j.s <= s) found = j;
    return found;
  }
}

/** Along a circular stretch by its chord: sound for any curvature, nothing divided by it. */
function onStretch<J extends Joint>(j: J, length: number): J {
  const half = (j.k * length) / 2;
  const chord = Math.abs(half) < 1e-8 ? length : (length * Math.sin(half)) / half;
  return {
    ...j,
    x: j.x + chord * Math.cos(j.turn + half),
    z: j.z + chord * Math.sin(j.turn + half),
    turn: j.turn + 2 * half,
  };
}

const placed = (m: Rigid, p: Point): Point3 => moved(m, [p[0], p[1], 0]);
