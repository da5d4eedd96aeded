/** What figures of several papers are put together from: shapes drawn by eye on a sheet of any unit,
 *  then brought to size all together. */
import {
  bounds,
  circle,
  clockwise,
  compose,
  counterClockwise,
  intersectRegions,
  openSpline,
  scaling,
  transform,
  translation,
} from '../geom/index.js';
import type { Affine, Layer, Path, Point, Stroke } from '../model.js';
import { layer } from './layers.js';
import { flipped } from './shapes.js';

/** Width of the line of a fine pen for paper, mm (common practice, no source). */
const PEN_MM = 0.5;
/** Rings of a dot that is filled with the pen. */
const MOST_RINGS = 40;

/** Layers brought to a bounding width all together, the middle of their bounds on the origin. What
 *  lies under a layer in mm, its foam, stays. */
export function figure(layers: readonly Layer[], width: number): Layer[] {
  const b = bounds(...layers.map(l => l.outline));
  const middle = translation(-(b.minX + b.maxX) / 2, -(b.minY + b.maxY) / 2);
  const m = compose(scaling(width / (b.maxX - b.minX)), middle);
  return layers.map(l => moved(l, m));
}

/** A layer turned over, left for right, with all that is on it. */
export function turnedOver(l: Layer): Layer {
  const m = moved(l, scaling(-1, 1));
  return {
    ...m,
    outline: counterClockwise(m.outline),
    holes: m.holes.map(clockwise),
    ...(m.through && { through: m.through.map(clockwise) }),
    fills: m.fills.map(f => ({
      ...f,
      regions: f.regions.map(r => ({
        outer: counterClockwise(r.outer),
        holes: r.holes.map(clockwise),
      })),
    })),
  };
}

/** A layer turned, scaled or moved with all that is on it. Mirrored, its outlines run the wrong way round:
 *  see `turnedOver`. */
export function moved(l: Layer, m: Affine): Layer {
  const move = (p: Path) => transform(p, m);
  return {
    ...l,
    outline: move(l.outline),
    holes: l.holes.map(move),
    ...(l.through && { through: l.through.map(move) }),
    strokes: l.strokes.map(s => ({ ...s, path: move(s.path) })),
    fills: l.fills.map(f => ({
      ...f,
      regions: f.regions.map(r => ({ outer: move(r.outer), holes: r.holes.map(move) })),
    })),
    ...(l.words && {
      words: l.words.map(w => ({
        ...w,
        box: move(w.box),
        capital: w.capital * Math.hypot(m[0], m[1]),
      })),
    }),
  };
}

export const drawn = (path: Path): Stroke => ({ operation: 'draw', path });
export const scored = (path: Path): Stroke => ({ operation: 'score', path });

/** Width of the pen's line in the unit of a sheet `drawnWidth` wide that becomes `size` mm. */
export const penOf = (drawnWidth: number, size: number): number => (PEN_MM * drawnWidth) / size;

/** A dot filled with the pen: rings from its edge inward, no gap between them. */
export function inked(centre: Point, radius: number, pen: number): Stroke[] {
  const outer = radius - pen / 2;
  if (!(outer > pen / 4)) return [drawn(circle(centre, radius / 2))];
  const rings = Math.min(MOST_RINGS, Math.ceil(outer / (0.5 * pen)));
  return Array.from({ length: rings }, (_, i) =>
    drawn(circle(centre, (outer * (rings - i)) / rings)),
  );
}

/** An eye: a disc of white paper with its pupil drawn, looking `look` of its radius aside. */
export function eye(id: string, centre: Point, radius: number, look: Point, pen: number): Layer {
  const [x, y] = centre;
  const pupil: Point = [x + look[0] * radius, y + look[1] * radius];
  return layer(id, circle(centre, radius), {
    paper: 'eye',
    strokes: inked(pupil, radius * 0.5, pen),
  });
}

/** What two shapes share, in one part without holes. Throws where it is not so. */
export function shared(a: Path, b: Path): Path {
  const found = intersectRegions([{ outer: a, holes: [] }], [{ outer: b, holes: [] }]);
  const [only] = found;
  if (!only || found.length !== 1 || only.holes.length > 0) {
    throw new RangeError(`two shapes share ${found.length} parts, not one`);
  }
  return only.outer;
}

/** A layer and its mirror image about x = 0, named `-right` and `-left`; nothing is drawn on them. */
export const pairOf = (id: string, outline: Path, paper: string): Layer[] => [
  layer(`${id}-right`, outline, { paper }),
  layer(`${id}-left`, flipped(outline), { paper }),
];

export const faceParam = (shown: boolean) =>
  ({ kind: 'flag', default: shown, help: 'a face that is asleep, with cheeks' }) as const;

export interface Face {
  readonly strokes: readonly Stroke[];
  readonly cheeks: readonly Layer[];
}

/** A face asleep about a point: `wide` from the middle of one eye to the other's. */
export function asleep([x, y]: Point, wide: number): Face {
  const bow = (cx: number, cy: number, w: number, sag: number) =>
    openSpline([
      [cx - w / 2, cy],
      [cx, cy - sag],
      [cx + w / 2, cy],
    ]);
  const half = wide / 2;
  return {
    strokes: [
      drawn(bow(x - half, y, 0.36 * wide, 0.14 * wide)),
      drawn(bow(x + half, y, 0.36 * wide, 0.14 * wide)),
      drawn(bow(x, y - 0.3 * wide, 0.34 * wide, 0.13 * wide)),
    ],
    cheeks: [-1, 1].map(side =>
      layer(
        side < 0 ? 'cheek-left' : 'cheek-right',
        circle([x + side * 0.84 * wide, y - 0.26 * wide], 0.17 * wide),
        { paper: 'cheek' },
      ),
    ),
  };
}

export const NO_FACE: Face = { strokes: [], cheeks: [] };
