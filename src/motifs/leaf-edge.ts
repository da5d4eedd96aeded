/** Leaves that grow out of an edge: the outline runs along a stem, round a leaf, and on. So what is
 *  drawn is one piece without any welding, and each leaf hangs on a foot of known width. */
import {
  add,
  apply,
  compose,
  cubic,
  lerp,
  line,
  openPath,
  polar,
  rotation,
  sub,
  translation,
} from '../geom/index.js';
import type { Path, Point, Segment } from '../model.js';

export interface LeafForm {
  readonly long: number;
  readonly wide: number;
  readonly tip: 'pointed' | 'round';
}

/** A cubic's belly reaches three quarters of the way to its handles. */
const BELLY = 0.75;

/**
 * The way round a leaf from `a` to `b`, two points of an edge with the paper on the left, and the line
 * of its rib. The leaf points along `angle` from between them.
 */
export function leafFrom(
  a: Point,
  b: Point,
  angle: number,
  { long, wide, tip }: LeafForm,
): { readonly segments: readonly Segment[]; readonly rib: Path } {
  const root = lerp(a, b, 0.5);
  const place = compose(translation(...root), rotation(angle));
  const at = (x: number, y: number) => apply(place, [x, y]);
  // The foot as the leaf sees it: half of its width, and on which side the outline comes.
  const foot = apply(rotation(-angle), sub(a, root))[1];
  const side = Math.sign(foot);
  const f = Math.abs(foot);
  const w = side * (f + (wide / 2 - f) / BELLY);
  const rib = openPath(at(0.14 * long, 0), [line(at(0.82 * long, 0))]);
  if (tip === 'pointed') {
    const segments = [
      cubic(at(0.3 * long, 1.12 * w), at(0.66 * long, 0.84 * w), at(long, 0)),
      cubic(at(0.66 * long, -0.84 * w), at(0.3 * long, -1.12 * w), b),
    ];
    return { segments, rib };
  }
  const r = (side * wide) / 2;
  const y = side * f;
  const segments = [
    cubic(at(0.24 * long, y), at(0.22 * long, r), at(0.58 * long, r)),
    cubic(at(0.82 * long, r), at(long, 0.54 * r), at(long, 0)),
    cubic(at(long, -0.54 * r), at(0.82 * long, -r), at(0.58 * long, -r)),
    cubic(at(0.22 * long, -r), at(0.24 * long, -y), b),
  ];
  return { segments, rib };
}

/** A smooth cubic between two points with known directions of travel, as far apart as they are. */
export function bridge(from: Point, go: number, to: Point, come: number): Segment {
  const third = Math.hypot(...sub(to, from)) / 3;
  return cubic(add(from, polar(third, go)), sub(to, polar(third, come)), to);
}
