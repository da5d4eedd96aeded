/** Whether a decoration sits well on its panel. */
import { distanceToPath, flatten, windingOf } from '../geom/index.js';
import type { Panel, Path, Point } from '../model.js';
import { CLOSE_MM, MEASURE_MM } from '../units/tolerances.js';

/** A closure dot on the decorated face, in the net's frame. */
export interface Dot {
  readonly at: Point;
  readonly diameter: number;
}

interface Shape {
  readonly path: Path;
  readonly chain: readonly Point[];
  readonly winding: (p: Point) => number;
}
const shapeOf = (path: Path): Shape => ({
  path,
  chain: flatten(path, MEASURE_MM),
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
  return Math.max(furthest(a.chain, b, 'outside'), furthest(b.chain, a, 'inside'));
}

/** How deep two shapes lie in each other, mm; 0 when apart or only touching. */
export function overlap(one: Path, other: Path): number {
  const [a, b] = [shapeOf(one), shapeOf(other)];
  return Math.max(furthest(a.chain, b, 'inside'), furthest(b.chain, a, 'inside'));
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
    const covered = furthest(flatten(path, MEASURE_MM), shape, 'inside') > CLOSE_MM;
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
