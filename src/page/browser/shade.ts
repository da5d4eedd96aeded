/** Colours in the light, and paths of points. */

/** How dark the side away from the light is, and how bright the one toward it: as in our pictures. */
const DARKEST = 0.72;
const BRIGHTEST = 1.04;
/** An edge of paper is this much darker than its face. */
const EDGE = 0.62;

const factor = (light: number) => DARKEST + ((BRIGHTEST - DARKEST) * (light + 1)) / 2;

/** `#rrggbb` in the light: from −1 (away) to 1 (toward the lamp). */
export function shaded(colour: string, light: number): string {
  const value = Number.parseInt(colour.slice(1), 16);
  const k = factor(light);
  const part = (shift: number) =>
    Math.max(0, Math.min(255, Math.round(((value >> shift) & 255) * k)));
  return `rgb(${part(16)} ${part(8)} ${part(0)})`;
}

export const edgeLight = (light: number) => light * EDGE - (1 - EDGE);

/** What is laid over a picture so that it is as light as its paper. */
export function veil(light: number): string {
  const k = factor(light);
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
