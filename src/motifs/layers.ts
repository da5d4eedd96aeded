/** What every motif does alike: parameters with one meaning, and turning outlines into layers. */
import { bounds, compose, scaling, transform, translation } from '../geom/index.js';
import type { Layer, Path } from '../model.js';

/** The finished width of a motif: exact, whatever its shape. */
export const sizeParam = (width: number) =>
  ({
    kind: 'length',
    default: width,
    least: 10,
    most: 300,
    help: 'width of the finished shape, edge to edge',
  }) as const;

/** A layer with nothing on it but its outline, unless told. */
export function layer(id: string, outline: Path, more: Partial<Layer> = {}): Layer {
  return { id, outline, holes: [], strokes: [], fills: [], paper: 'main', lift: 0, ...more };
}

/** A shape brought to a bounding width, its bounds' middle on the origin. */
export function sized(path: Path, width: number): Path {
  const b = bounds(path);
  const middle = translation(-(b.minX + b.maxX) / 2, -(b.minY + b.maxY) / 2);
  return transform(path, compose(scaling(width / (b.maxX - b.minX)), middle));
}

/** The right half of a shape, from the bottom of the axis x = 0 up to its top, completed by its
 *  mirror image: exactly symmetric because the left is made from the right. */
export function mirrored(half: Path): Path {
  const flip = ([x, y]: readonly [number, number]): [number, number] => [-x, y];
  const back = [];
  const points = [half.start, ...half.segments.map(s => s.to)];
  for (let i = half.segments.length - 1; i >= 0; i--) {
    const s = half.segments[i]!;
    const to = flip(points[i]!);
    if (s.kind === 'cubic') back.push({ ...s, c1: flip(s.c2), c2: flip(s.c1), to } as const);
    // Mirroring turns an arc about, walking it backwards turns it back.
    else if (s.kind === 'arc') back.push({ ...s, to } as const);
    else back.push({ ...s, to } as const);
  }
  const [x0, x1] = [half.start[0], points.at(-1)![0]];
  if (!(x0 === 0 && x1 === 0)) throw new RangeError('a mirrored half must begin and end on x = 0');
  return { start: half.start, segments: [...half.segments, ...back], closed: true };
}
