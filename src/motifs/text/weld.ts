/** Letters that overlap made one outline; their own self-overlaps cleaned on the way. */
import { bounds, uniteContours } from '../../geom/index.js';
import type { Bounds, Path, Region } from '../../model.js';
import { SAME_POINT_MM } from '../../units/tolerances.js';

/** Glyphs' contours by the nonzero rule, from left to right. Only glyphs whose boxes meet are welded to
 *  each other: a word at a time costs a fraction of a line. */
export function weld(glyphs: readonly (readonly Path[])[]): Region[] {
  return clusters(glyphs.flat()).flatMap(uniteContours);
}

interface Cluster {
  box: Bounds;
  paths: Path[];
}

/** Contours whose boxes meet, directly or through others. */
function clusters(contours: readonly Path[]): Path[][] {
  const open: Cluster[] = [];
  const done: Cluster[] = [];
  const boxed = contours.map((path): Cluster => ({ box: bounds(path), paths: [path] }));
  for (const one of boxed.sort((a, b) => a.box.minX - b.box.minX)) {
    // What ends left of here meets nothing that comes.
    for (let i = open.length - 1; i >= 0; i--) {
      if (open[i]!.box.maxX + SAME_POINT_MM < one.box.minX) done.push(...open.splice(i, 1));
    }
    // The union may reach others than its parts did.
    for (let found = true; found; ) {
      const i = open.findIndex(c => meet(c.box, one.box));
      found = i >= 0;
      if (found) join(one, ...open.splice(i, 1));
    }
    open.push(one);
  }
  return [...done, ...open]
    .sort((a, b) => a.box.minX - b.box.minX || a.box.minY - b.box.minY)
    .map(c => c.paths);
}

function join(to: Cluster, ...others: readonly Cluster[]): void {
  for (const { box, paths } of others) {
    to.paths = [...paths, ...to.paths];
    to.box = {
      minX: Math.min(to.box.minX, box.minX),
      minY: Math.min(to.box.minY, box.minY),
      maxX: Math.max(to.box.maxX, box.maxX),
      maxY: Math.max(to.box.maxY, box.maxY),
    };
  }
}

const meet = (a: Bounds, b: Bounds) =>
  a.minX <= b.maxX + SAME_POINT_MM &&
  b.minX <= a.maxX + SAME_POINT_MM &&
  a.minY <= b.maxY + SAME_POINT_MM &&
  b.minY <= a.maxY + SAME_POINT_MM;
