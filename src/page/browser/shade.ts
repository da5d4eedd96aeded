/** The light on pictures, and paths of points. */
import { brightness } from '../../shading.js';

/** What is laid over a picture so that it is as light as its paper. */
export function veil(light: number): string {
  const k = brightness(light);
  return k < 1
    ? `rgb(30 18 8 / ${(1 - k).toFixed(3)})`
    : `rgb(255 255 255 / ${(k - 1).toFixed(3)})`;
}

export type Px = readonly [x: number, y: number];

export function trace(ctx: CanvasRenderingContext2D | Path2D, points: readonly Px[]): void {
  points.forEach(([x, y], i) => {
    if (i === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  });
  ctx.closePath();
}

/** A convex polygon grown by about `by` on every side, so that no seam shows. */
export function grown(points: readonly Px[], by: number): Px[] {
  const n = points.length;
  const cx = points.reduce((s, p) => s + p[0], 0) / n;
  const cy = points.reduce((s, p) => s + p[1], 0) / n;
  return points.map(([x, y]) => {
    const l = Math.hypot(x - cx, y - cy) || 1;
    return [x + ((x - cx) / l) * by, y + ((y - cy) / l) * by];
  });
}
