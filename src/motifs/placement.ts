/** Whether a decoration sits well on its panel. */
import { distanceToPath, pointAt, stepLength, steps, windingOf } from '../geom/index.js';
import type { Panel, Path, Point } from '../model.js';
import { CLOSE_MM } from '../units/tolerances.js';

/** A closure dot on the decorated face, in the net's frame. */
export interface Dot {
  readonly at: Point;
  readonly diameter: number;
}

/** Points are looked at this near to each other, mm: finer than anything a hand would notice. */
const LOOK = 0.5;

/** Points along a path, its corners among them. */
function along(path: Path): Point[] {
  const points = [path.start];
  for (const step of steps(path)) {
    const n = Math.ceil(stepLength(step) / LOOK);
    for (let i = 1; i <= n; i++) points.push(pointAt(step, i / n));
  }
  return points;
}

interface Shape {
  readonly path: Path;
  readonly points: readonly Point[];
  readonly winding: (p: Point) => number;
}
const shapeOf = (path: Path): Shape => ({
  path,
  points: along(path),
  winding: windingOf(path),
});
const isInside = (p: Point, shape: Shape) => shape.winding(p) !== 0;

/** The furthest that any of the points lies from the shape's edge, on the side asked for. */
function furthest(points: readonly Point[], shape: Shape, side: 'inside' | 'outside'): number {
  let far = 0;
  for (const p of points) {
    if (isInside(p, shape) === (side === 'inside')) {
      far = Math.max(far, distanceToPath(p, shape.path));
    }
  }
  return far;
}

/** How far one shape reaches past another's edge, mm; 0 when it lies within. */
export function overhang(of: Path, past: Path): number {
  const [a, b] = [shapeOf(of), shapeOf(past)];
  return Math.max(furthest(a.points, b, 'outside'), furthest(b.points, a, 'inside'));
}

/** How deep two shapes lie in each other, mm; 0 when apart or only touching. */
export function overlap(one: Path, other: Path): number {
  const [a, b] = [shapeOf(one), shapeOf(other)];
  return Math.max(furthest(a.points, b, 'inside'), furthest(b.points, a, 'inside'));
}

const shown = (mm: number) => `${mm.toFixed(mm < 10 ? 1 : 0)} mm`;

/**
 * What a person should know before gluing: a decoration that hangs over its panel's edge, or
 * covers a window, a closure, a slit or a tear line. `outline` is the widest layer's, in the net's
 * frame. Distances under `CLOSE_MM` are no matter: a hand cannot place nearer.
 */
export function placementWarnings(
  outline: Path,
  panel: Panel,
  closures: readonly Dot[],
  what: string,
): string[] {
  const warnings: string[] = [];
  const past = overhang(outline, panel.outline);
  if (past > CLOSE_MM) {
    warnings.push(
      `${what} reaches ${shown(past)} past the edge of panel "${panel.id}": ` +
        'make it smaller, or move it with "at"',
    );
  }
  for (const hole of panel.holes) {
    const deep = overlap(outline, hole);
    if (deep > CLOSE_MM) {
      warnings.push(
        `${what} covers ${shown(deep)} of a window in panel "${panel.id}": ` +
          'make it smaller, or move it with "at"',
      );
    }
  }
  const shape = shapeOf(outline);
  for (const { at, diameter } of closures) {
    const away = distanceToPath(at, outline) * (isInside(at, shape) ? -1 : 1);
    if (away < diameter / 2 - CLOSE_MM) {
      warnings.push(
        `${what} covers a closure dot of panel "${panel.id}": glue it after the dot, ` +
          'or move it with "at"',
      );
    }
  }
  for (const { operation, path } of panel.strokes) {
    const covered = furthest(along(path), shape, 'inside') > CLOSE_MM;
    if (covered && (operation === 'cut' || operation === 'perforate')) {
      const line = operation === 'cut' ? 'slit' : 'tear line';
      warnings.push(
        `${what} covers a ${line} of panel "${panel.id}": move it with "at", ` +
          'or cut it through after gluing',
      );
    }
  }
  return warnings;
}
