/**
 * What the tip of a dragged blade does. The pivot moves with heading φ, the blade points along θ
 * and the tip, a distance d behind, can only move along the blade:
 *
 *     dθ/ds = sin(φ − θ) / d        (generalised tractrix; Sayers 1991, Dunbar et al. 2001)
 *
 * On a pivot path of constant curvature κ (lines: κ = 0) the lag α = φ − θ has an exact solution:
 * with tan(α/2) = a / b, the pair (a, b) obeys a linear system with constant coefficients,
 *
 *     a' = −a/2d + κb/2,   b' = −κa/2 + b/2d,   matrix M with M² = λ²·1, λ² = (1/d² − κ²) / 4,
 *
 * so (a, b)(s) = (cosh λs + M sinh λs / λ)(a, b)(0), with cos and sin where the pivot's arc is
 * tighter than d, and 1 + M s on a swing (κ = 1/d). No case has a singularity. On a line this is
 * tan(α/2) = tan(α₀/2) e^(−s/d).
 */
import { fitArcs, type Path } from '../geom/index.js';
import { TIP_MEASURE_MM } from '../units/tolerances.js';

/** Where the tip was while lowered: x, y, x, y, … in order; its chords leave the exact track by at
 *  most the tolerance asked for. */
export interface TipTrack {
  readonly xy: Float64Array;
  /** Heading that the blade keeps when it is lifted, radians. */
  readonly headingAfter: number;
}

/** Deepest halving of one line or arc while sampling: 2⁻²⁴ of a metre is 60 nm. */
const MAX_HALVINGS = 24;

/**
 * Drags a blade along pivot paths, one after another; while lifted it keeps its heading.
 * `startHeading` (radians) is where it points at first; left out, it already points along the
 * first path's first step. A path without length gives an empty track. Cubics are fitted with arcs
 * within `tolerance`.
 */
export function dragTip(
  driven: readonly Path[],
  offset: number,
  startHeading?: number,
  tolerance = TIP_MEASURE_MM,
): TipTrack[] {
  if (!(offset >= 0 && offset < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`blade offset ${offset} mm: it must be 0 or more`);
  }
  const blade = new DraggedBlade(offset, startHeading, tolerance);
  return driven.map(path => {
    blade.lower();
    const plain = fitArcs(path, tolerance);
    let [x, y] = plain.start;
    for (const segment of plain.segments) {
      blade.pull(x, y, segment.to[0], segment.to[1], segment.kind === 'arc' ? segment.bulge : 0);
      [x, y] = segment.to;
    }
    return blade.lift();
  });
}

/** Blade state and the pivot's present line or arc, in plain numbers: this is the inner loop. */
class DraggedBlade {
  // Unit vector along the blade.
  private hx = 0;
  private hy = 0;
  private xy: number[] = [];
  // The present piece: start, unit tangent at its start, signed curvature.
  private x0 = 0;
  private y0 = 0;
  private fx = 0;
  private fy = 0;
  private k = 0;
  // Half-angle state at the start of the piece.
  private a0 = 0;
  private b0 = 1;
  // Results of the last call of `state`.
  private tx = 0;
  private ty = 0;
  private ux = 0;
  private uy = 0;
  private cos = 0;

  constructor(
    private readonly d: number,
    startHeading: number | undefined,
    private readonly tolerance: number,
  ) {
    if (startHeading !== undefined) {
      this.hx = Math.cos(startHeading);
      this.hy = Math.sin(startHeading);
    }
  }

  lower(): void {
    this.xy = [];
  }

  lift(): TipTrack {
    return { xy: Float64Array.from(this.xy), headingAfter: Math.atan2(this.hy, this.hx) };
  }

  pull(x0: number, y0: number, x1: number, y1: number, bulge: number): void {
    const chord = Math.hypot(x1 - x0, y1 - y0);
    if (chord === 0) return;
    if (!(chord < Number.POSITIVE_INFINITY)) {
      // Nowhere: whoever measures the track will find it infinitely far from anything.
      this.xy.push(Number.NaN, Number.NaN);
      return;
    }
    const ux = (x1 - x0) / chord;
    const uy = (y1 - y0) / chord;
    const bb = bulge * bulge;
    const c = (1 - bb) / (1 + bb);
    const s = (2 * bulge) / (1 + bb);
    this.x0 = x0;
    this.y0 = y0;
    this.fx = ux * c + uy * s;
    this.fy = uy * c - ux * s;
    this.k = (4 * bulge) / (chord * (1 + bb));
    const length = bulge === 0 ? chord : (4 * Math.atan(bulge)) / this.k;
    if (this.hx === 0 && this.hy === 0) {
      this.hx = this.fx;
      this.hy = this.fy;
    }
    this.setLag();
    this.state(0);
    if (this.xy.length === 0) this.xy.push(this.tx, this.ty);
    const { ux: hx, uy: hy, cos } = this;
    this.state(length);
    this.sample(0, hx, hy, cos, length, this.tx, this.ty, this.ux, this.uy, this.cos, 0);
  }

  /** Half-angle form of the lag at the start of the piece, without losing digits at either end. */
  private setLag(): void {
    const c = this.hx * this.fx + this.hy * this.fy;
    const s = this.hx * this.fy - this.hy * this.fx;
    if (c > 0) {
      this.b0 = Math.sqrt((1 + c) / 2);
      this.a0 = s / (2 * this.b0);
    } else {
      this.a0 = Math.sqrt((1 - c) / 2);
      this.b0 = s / (2 * this.a0);
    }
  }

  /** Tip, blade direction and cos α after travel `s` on the present piece. */
  private state(s: number): void {
    const { k, d } = this;
    let px: number;
    let py: number;
    let fx = this.fx;
    let fy = this.fy;
    if (k === 0) {
      px = this.x0 + s * fx;
      py = this.y0 + s * fy;
    } else {
      const half = (k * s) / 2;
      const ch = Math.cos(half);
      const sh = Math.sin(half);
      const reach = (2 * sh) / k;
      px = this.x0 + reach * (fx * ch - fy * sh);
      py = this.y0 + reach * (fy * ch + fx * sh);
      const c = ch * ch - sh * sh;
      const q = 2 * sh * ch;
      const gx = fx * c - fy * q;
      fy = fy * c + fx * q;
      fx = gx;
    }
    if (d === 0) {
      this.tx = px;
      this.ty = py;
      this.ux = fx;
      this.uy = fy;
      this.cos = 1;
      return;
    }
    let a = this.a0;
    let b = this.b0;
    if (k === 0) a *= Math.exp(-s / d);
    else {
      const m = 1 / (2 * d);
      const x = (m * m - (k * k) / 4) * s * s;
      let c: number;
      let q: number;
      // Near x = 0 both forms lose digits; the series is exact to 1e-16 there.
      if (x > 1e-4) {
        const root = Math.sqrt(x);
        const e = Math.exp(-2 * root);
        c = (1 + e) / 2;
        q = (s * (1 - e)) / (2 * root);
      } else if (x < -1e-4) {
        const root = Math.sqrt(-x);
        c = Math.cos(root);
        q = (s * Math.sin(root)) / root;
      } else {
        c = 1 + (x / 2) * (1 + (x / 12) * (1 + x / 30));
        q = s * (1 + (x / 6) * (1 + (x / 20) * (1 + x / 42)));
      }
      a = c * this.a0 + q * ((k / 2) * this.b0 - m * this.a0);
      b = c * this.b0 + q * (m * this.b0 - (k / 2) * this.a0);
    }
    let size = a * a + b * b;
    if (!(size > 0)) {
      // Pushed dead against its heading, the blade has nothing that turns it.
      a = this.a0;
      b = this.b0;
      size = a * a + b * b;
    }
    const cos = (b * b - a * a) / size;
    const sin = (2 * a * b) / size;
    this.ux = fx * cos + fy * sin;
    this.uy = fy * cos - fx * sin;
    this.cos = cos;
    this.tx = px - d * this.ux;
    this.ty = py - d * this.uy;
  }

  /** Adds the track from s0 (already there) to s1, halved until each chord is near enough: its
   *  sagitta is about (tip travel) × (turn) / 8, and a reversal (cos α changes sign, the tip runs
   *  back on itself) is closed in on. */
  private sample(
    s0: number,
    hx0: number,
    hy0: number,
    cos0: number,
    s1: number,
    x1: number,
    y1: number,
    hx1: number,
    hy1: number,
    cos1: number,
    depth: number,
  ): void {
    const span = s1 - s0;
    const sm = s0 + span / 2;
    this.state(sm);
    const { tx: xm, ty: ym, ux: hxm, uy: hym, cos: cosm } = this;
    const turn = angleBetween(hx0, hy0, hxm, hym) + angleBetween(hxm, hym, hx1, hy1);
    const travel = (span * (Math.abs(cos0) + 4 * Math.abs(cosm) + Math.abs(cos1))) / 6;
    const reverses = cos0 * cos1 < 0 || cos0 * cosm < 0;
    const done = travel * turn <= 8 * this.tolerance && (!reverses || travel <= 4 * this.tolerance);
    if (done || depth >= MAX_HALVINGS) {
      this.xy.push(x1, y1);
      this.hx = hx1;
      this.hy = hy1;
      return;
    }
    this.sample(s0, hx0, hy0, cos0, sm, xm, ym, hxm, hym, cosm, depth + 1);
    this.sample(sm, hxm, hym, cosm, s1, x1, y1, hx1, hy1, cos1, depth + 1);
  }
}

function angleBetween(ax: number, ay: number, bx: number, by: number): number {
  return Math.abs(Math.atan2(ax * by - ay * bx, ax * bx + ay * by));
}
