/**
 * The paper's own edges in a picture, looked for where the marks say they should be: the strongest step of
 * the light across each side, where most of the steps found stand in one line.
 */
import type { Point } from '../model.js';
import { onto, type Plane, slopesAt } from './plane.js';
import { type Grey, sampled } from './raster.js';

export const EDGES = ['left', 'right', 'bottom', 'top'] as const;
export type Edge = (typeof EDGES)[number];
/** Two points on an edge, far apart, pixels. */
export type EdgeLine = readonly [Point, Point];
export type PaperEdges = Readonly<Partial<Record<Edge, EdgeLine>>>;

/** Where an edge is looked for, each way from its place, mm: more than printers are off, and less than from
 *  the edge to what is printed. */
const REACH_MM = 5;
/** Across a side, between the values that are compared, mm. */
const STEP_MM = 0.1;
/** Means on both sides of a step are over so much, mm. */
const SIDE_MM = 0.5;
/** Looks along one side. */
const LOOKS = 90;
/** Corners of paper are rounded, torn or bent: this share of a side at each end is left out. */
const ENDS = 0.05;
/** Levels of 255 between paper and what lies under it; less is paper on a white lid. */
const LEAST_STEP = 5;
/** Steps of one edge stand in line by this, mm. */
const IN_LINE_MM = 0.2;
/** Of all looks, this share must agree. */
const AGREE = 0.6;

export function paperEdges(grey: Grey, plane: Plane, width: number, height: number): PaperEdges {
  const side = (from: Point, to: Point, out: Point) => edgeAlong(grey, plane, from, to, out);
  const found = {
    left: side([0, 0], [0, height], [-1, 0]),
    right: side([width, 0], [width, height], [1, 0]),
    bottom: side([0, 0], [width, 0], [0, -1]),
    top: side([0, height], [width, height], [0, 1]),
  };
  return Object.fromEntries(Object.entries(found).filter(([, line]) => line));
}

/** `out` leads off the paper. */
function edgeAlong(
  grey: Grey,
  plane: Plane,
  from: Point,
  to: Point,
  out: Point,
): EdgeLine | undefined {
  const steps: { readonly along: number; readonly off: number }[] = [];
  const at = (along: number, off: number): Point =>
    onto(plane, [
      from[0] + along * (to[0] - from[0]) + off * out[0],
      from[1] + along * (to[1] - from[1]) + off * out[1],
    ]);
  for (let k = 0; k < LOOKS; k++) {
    const along = ENDS + ((1 - 2 * ENDS) * (k + 0.5)) / LOOKS;
    const off = stepAt(grey, off => at(along, off));
    if (off !== undefined) steps.push({ along, off });
  }
  const line = lineThrough(steps);
  return line && [at(0, line(0)), at(1, line(1))];
}

/** The strongest step across an edge, mm outward; `undefined` where there is none or no picture. */
function stepAt(grey: Grey, at: (off: number) => Point): number | undefined {
  const n = Math.round((2 * REACH_MM) / STEP_MM);
  // Running sums of the values across.
  const sums = [0];
  for (let i = 0; i <= n; i++) {
    const [x, y] = at(-REACH_MM + i * STEP_MM);
    // A path of values ends where the picture does.
    if (!(x >= 0 && y >= 0 && x <= grey.width && y <= grey.height)) break;
    sums.push(sums.at(-1)! + sampled(grey, x, y));
  }
  const wide = Math.round(SIDE_MM / STEP_MM);
  const steps: number[] = [];
  for (let i = wide; i + wide < sums.length; i++) {
    steps[i] = Math.abs(sums[i + wide]! - 2 * sums[i]! + sums[i - wide]!) / wide;
  }
  let best = -1;
  for (let i = wide; i < steps.length; i++) if (best < 0 || steps[i]! > steps[best]!) best = i;
  if (best < 0 || !(steps[best]! >= LEAST_STEP)) return undefined;
  const [l, m, r] = [steps[best - 1] ?? 0, steps[best]!, steps[best + 1] ?? 0];
  const bend = l - 2 * m + r;
  const part = bend < 0 ? (l - r) / (2 * bend) : 0;
  // Sums stand between the values.
  return -REACH_MM + (best - 0.5 + Math.max(-0.5, Math.min(0.5, part))) * STEP_MM;
}

/** The line that most steps are near, then by least squares through these. */
function lineThrough(steps: readonly { readonly along: number; readonly off: number }[]) {
  let inliers: typeof steps = [];
  for (const [i, p] of steps.entries()) {
    for (const q of steps.slice(i + 1)) {
      if (q.along - p.along < 0.3) continue;
      const slope = (q.off - p.off) / (q.along - p.along);
      const near = steps.filter(
        s => Math.abs(s.off - p.off - slope * (s.along - p.along)) <= IN_LINE_MM,
      );
      if (near.length > inliers.length) inliers = near;
    }
  }
  if (!(inliers.length >= AGREE * LOOKS)) return undefined;
  const n = inliers.length;
  const x = inliers.reduce((s, p) => s + p.along, 0) / n;
  const y = inliers.reduce((s, p) => s + p.off, 0) / n;
  const xx = inliers.reduce((s, p) => s + (p.along - x) ** 2, 0);
  const slope = inliers.reduce((s, p) => s + (p.along - x) * (p.off - y), 0) / xx;
  return (along: number) => y + slope * (along - x);
}

/** Where the lines of two edges meet, pixels. */
export function cornerOf([a, b]: EdgeLine, [c, d]: EdgeLine): Point {
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
  const [vx, vy] = [d[0] - c[0], d[1] - c[1]];
  const t = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / (ux * vy - uy * vx);
  return [a[0] + t * ux, a[1] + t * uy];
}

/** Pixels in a millimetre at a point of the sheet. */
export function pixelsPerMm(plane: Plane, at: Point): number {
  const [a, b, c, d] = slopesAt(plane, at);
  return Math.sqrt(Math.abs(a * d - b * c));
}
