/** Whether a decoration sits well on its panel. */
import {
  bounds,
  compose,
  distanceToPath,
  pointAt,
  scaling,
  stepLength,
  steps,
  transform,
  translation,
  windingOf,
} from '../geom/index.js';
import type { Obstacle, Panel, Path, Point } from '../model.js';
import { CLOSE_MM } from '../units/tolerances.js';
import type { Dot } from './overlay.js';

/** A face of a panel as a decoration finds it, in the net's frame. */
export interface Ground {
  readonly panel: Panel;
  /** Lines that the panel folds about. */
  readonly hinges: readonly Path[];
  /** Closure dots on this face. */
  readonly closures: readonly Dot[];
}

/** What a decoration lies over, and by how much at its deepest, mm. */
export interface Covered {
  readonly what: Exclude<Obstacle, 'decoration'>;
  readonly by: number;
  readonly words: string;
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

/** How far points outside the panel reach over its hinges and over its free edges. */
function beyond(points: readonly Point[], { panel, hinges }: Ground, shape: Shape) {
  const past = { hinge: 0, edge: 0 };
  for (const p of points) {
    if (isInside(p, shape)) continue;
    const far = distanceToPath(p, panel.outline);
    const fold = Math.min(Number.POSITIVE_INFINITY, ...hinges.map(h => distanceToPath(p, h)));
    const side = fold <= far + CLOSE_MM ? 'hinge' : 'edge';
    past[side] = Math.max(past[side], far);
  }
  return past;
}

const shown = (mm: number) => `${mm.toFixed(mm < 10 ? 1 : 0)} mm`;

/**
 * All that a decoration lies over without being allowed to. `outline` is the widest layer's, in the
 * net's frame. Distances under `CLOSE_MM` are no matter: a hand cannot place nearer.
 */
export function coveredBy(
  outline: Path,
  ground: Ground,
  over: readonly Obstacle[] = [],
): readonly Covered[] {
  const { panel, closures } = ground;
  const found: Covered[] = [];
  const note = (what: Covered['what'], by: number, words: (mm: string) => string) => {
    if (by > CLOSE_MM && !over.includes(what)) found.push({ what, by, words: words(shown(by)) });
  };
  const own = shapeOf(outline);
  const shape = shapeOf(panel.outline);
  const past = beyond(own.points, ground, shape);
  // A notch of the panel may reach in between the decoration's points.
  const notch = furthest(shape.points, own, 'inside');
  note('hinge', past.hinge, mm => `reaches ${mm} over a hinge of panel "${panel.id}"`);
  const edge = past.hinge > 0 ? past.edge : Math.max(past.edge, notch);
  note('edge', edge, mm => `reaches ${mm} past the edge of panel "${panel.id}"`);
  for (const hole of panel.holes) {
    note('window', overlap(outline, hole), mm => `covers ${mm} of a window in panel "${panel.id}"`);
  }
  for (const { at, diameter } of closures) {
    const away = distanceToPath(at, outline) * (isInside(at, own) ? -1 : 1);
    const deep = Math.min(diameter, diameter / 2 - away);
    note('closure', deep, mm => `covers ${mm} of a closure dot of panel "${panel.id}"`);
  }
  for (const { operation, path } of panel.strokes) {
    if (operation !== 'cut' && operation !== 'perforate') continue;
    const line = operation === 'cut' ? 'slit' : 'tear line';
    const deep = furthest(along(path), own, 'inside');
    note('slit', deep, mm => `covers ${mm} of a ${line} of panel "${panel.id}"`);
  }
  return found;
}

/** Whether a copy may lie there. What is not even within the panel's box is not looked at closely. */
export function isClear(outline: Path, ground: Ground, over: readonly Obstacle[] = []): boolean {
  if (!over.includes('edge') && !over.includes('hinge')) {
    const [own, box] = [bounds(outline), bounds(ground.panel.outline)];
    const low = Math.min(own.minX - box.minX, own.minY - box.minY);
    const high = Math.min(box.maxX - own.maxX, box.maxY - own.maxY);
    if (!(Math.min(low, high) > -CLOSE_MM)) return false;
  }
  return coveredBy(outline, ground, over).length === 0;
}

/** Places tried each way across a panel, and points of an outline looked at, for where it would fit. */
const PLACES = 24;
const FEW_POINTS = 90;
/** Places that look free and are then measured, at most. */
const MEASURED = 60;
/** Sizes tried where there is no room, each this part of the one before. */
const SMALLER = [0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2];

export interface Fit {
  /** How far to move it from where it is, in the net's frame. */
  readonly by: Point;
  /** The part of its size that fits there. */
  readonly scale: number;
}

/** The nearest place where the decoration would lie over nothing, smaller where there is none. */
export function nearestFit(
  outline: Path,
  ground: Ground,
  over: readonly Obstacle[] = [],
): Fit | undefined {
  const b = bounds(outline);
  const middle: Point = [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
  for (const scale of [1, ...SMALLER]) {
    const size = compose(
      translation(...middle),
      compose(scaling(scale), translation(-middle[0], -middle[1])),
    );
    const by = freeMove(transform(outline, size), ground, over);
    if (by) return { by, scale };
  }
  return undefined;
}

function freeMove(outline: Path, ground: Ground, over: readonly Obstacle[]): Point | undefined {
  const own = bounds(outline);
  const box = bounds(ground.panel.outline);
  const step = Math.max(box.maxX - box.minX, box.maxY - box.minY) / PLACES;
  const all = along(outline);
  const every = Math.max(1, Math.floor(all.length / FEW_POINTS));
  const few = all.filter((_, i) => i % every === 0);
  const inPanel = windingOf(ground.panel.outline);
  const moves: Point[] = [[0, 0]];
  // From the middle of the panel out, so that what fits snugly is found.
  const toMiddle: Point = [
    (box.minX + box.maxX - own.minX - own.maxX) / 2,
    (box.minY + box.maxY - own.minY - own.maxY) / 2,
  ];
  for (let i = -PLACES; i <= PLACES; i++) {
    for (let j = -PLACES; j <= PLACES; j++) {
      moves.push([toMiddle[0] + (i * step) / 2, toMiddle[1] + (j * step) / 2]);
    }
  }
  const near = moves
    .filter(
      ([x, y]) => few.every(p => inPanel([p[0] + x, p[1] + y]) !== 0) || over.includes('edge'),
    )
    .sort((a, b) => Math.hypot(...a) - Math.hypot(...b));
  const windows = over.includes('window') ? [] : ground.panel.holes;
  let measured = 0;
  for (const by of near) {
    const there = few.map((p): Point => [p[0] + by[0], p[1] + by[1]]);
    if (windows.some(hole => there.some(p => windingOf(hole)(p) !== 0))) continue;
    if (isClear(transform(outline, translation(...by)), ground, over)) return by;
    if (++measured >= MEASURED) return undefined;
  }
  return undefined;
}
