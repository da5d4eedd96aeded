/** The pieces of a person's drawing: which lines stand round paper and which round holes, and what is done
 *  on which piece. */
import {
  bounds,
  boxesMeet,
  clockwise,
  counterClockwise,
  distance,
  endOf,
  intersections,
  meetingOf,
  openPathCutter,
  pathLength,
  placesIn,
  pointAt,
  selfMeeting,
  signedArea,
  steps,
  uniteContours,
  uniteRegions,
} from '../geom/index.js';
import type { Layer, Path, Point, Stroke } from '../model.js';
import type { ParamError } from '../params.js';
import { ON_PATH_MM } from '../units/tolerances.js';
import { layer } from './layers.js';

/** Many pieces are a sheet, not a motif. */
const MOST_PARTS = 60;

const at = ([x, y]: Point) => `${x.toFixed(1)}, ${y.toFixed(1)} mm`;

/** An error about the drawing. */
export type Refuse = (allowed: string, advice: string) => ParamError;

/** Prepared when it is first asked: most loops have nothing in them. */
function placesLazily(outer: Path): (p: Point) => 'in' | 'on' | 'out' {
  let places: ReturnType<typeof placesIn> | undefined;
  return p => {
    places ??= placesIn({ outer, holes: [] });
    return places(p);
  };
}

/**
 * Closed lines by how deep they lie: an outline, its holes, what lies in a hole, and so on. Outlines that
 * cross or touch are united first, as paper that is glued together would be.
 */
export function partsOf(
  drawn: readonly Path[],
  open: readonly Path[],
  paper: string,
  refuse: Refuse,
): Layer[] {
  if (drawn.length === 0) {
    const nearest = open.map(p => distance(p.start, endOf(p))).sort((a, b) => a - b)[0]!;
    throw refuse(
      `a closed cut line round it; the one that comes nearest is open by ${nearest.toFixed(2)} mm`,
      nearest <= 3 ? `close it, or give gap: ${(nearest + 0.05).toFixed(2)}mm` : 'close it',
    );
  }
  const closed = united(drawn);
  const sorted = closed
    .map(path => ({
      path,
      area: Math.abs(signedArea(path)),
      box: bounds(path),
      where: placesLazily(path),
    }))
    .sort((p, q) => q.area - p.area);
  const depth: number[] = [];
  const holes: Path[][] = sorted.map(() => []);
  for (const [i, { path, box }] of sorted.entries()) {
    // The smallest of the larger ones around it.
    let around = -1;
    for (let k = i - 1; k >= 0 && around < 0; k--) {
      const other = sorted[k]!;
      const inBox =
        other.box.minX <= box.minX &&
        other.box.maxX >= box.maxX &&
        other.box.minY <= box.minY &&
        other.box.maxY >= box.maxY;
      if (inBox && other.where(path.start) === 'in') around = k;
    }
    depth.push(around < 0 ? 0 : depth[around]! + 1);
    if (depth[i]! % 2 === 1) holes[around]!.push(clockwise(path));
  }
  const outlines = sorted.flatMap(({ path }, i) =>
    depth[i]! % 2 === 0 ? [{ path: counterClockwise(path), holes: holes[i]! }] : [],
  );
  if (outlines.length > MOST_PARTS) {
    throw refuse(
      `at most ${MOST_PARTS} separate pieces; it falls into ${outlines.length}`,
      'leave the small ones out, or draw them instead of cutting them',
    );
  }
  const [one, several] = paper === 'main' ? ['front', 'part'] : [paper, paper];
  return outlines.map(({ path, holes }, i) =>
    layer(outlines.length === 1 ? one : `${several}-${i + 1}`, path, { holes, paper }),
  );
}

/** Lines to be worked; on the pieces of one paper, where it is named. */
interface Worked {
  readonly paper?: string;
  readonly strokes: readonly Stroke[];
}

/** Every line on the pieces that it lies on; if no paper is named, on those of the paper that has the most of
 *  it, the foremost of several. What runs over an edge ends there. */
export function withStrokes(
  parts: readonly Layer[],
  worked: readonly Worked[],
  refuse: Refuse,
): Layer[] {
  const strokes = worked.flatMap(w => w.strokes.map(stroke => ({ stroke, paper: w.paper })));
  if (strokes.length === 0) return [...parts];
  const cutters = parts.map(p => openPathCutter({ outer: p.outline, holes: p.holes }));
  const laid: Stroke[][] = parts.map(p => [...p.strokes]);
  for (const { stroke, paper } of strokes) {
    const { operation, path } = stroke;
    const inside = cutters.map((cut, i) =>
      paper === undefined || parts[i]!.paper === paper ? cut(path) : [],
    );
    const its = mostOf(parts, inside);
    if (its === undefined) {
      throw refuse(
        `lines to ${operation} on ${paper === undefined ? 'its paper' : `its paper ${paper}`}; ` +
          `one lies beside it near ${at(pointAt(steps(path)[0]!, 0.5))} from its middle`,
        'move it onto the paper, or map its colour to leave-out',
      );
    }
    for (const [i, part] of parts.entries()) {
      if (part.paper !== its) continue;
      laid[i]!.push(...inside[i]!.map((p): Stroke => ({ operation, path: p })));
    }
  }
  return parts.map((part, i) => ({ ...part, strokes: laid[i]! }));
}

/** The paper with the greatest length of a line. */
function mostOf(parts: readonly Layer[], inside: readonly (readonly Path[])[]): string | undefined {
  const lengths = new Map<string, number>();
  for (const [i, { paper }] of parts.entries()) {
    const here = inside[i]!.reduce((sum, p) => sum + pathLength(p), 0);
    lengths.set(paper, (lengths.get(paper) ?? 0) + here);
  }
  const most = Math.max(...lengths.values());
  if (!(most > 0)) return undefined;
  return [...lengths].findLast(([, length]) => length > most - ON_PATH_MM)?.[0];
}

/** Closed lines of which those that cross or touch each other have become one outline. */
function united(closed: readonly Path[]): readonly Path[] {
  if (!meetingOf(closed)) return closed;
  const boxed = closed.map(path => ({ path, box: bounds(path) }));
  const groups: (typeof boxed)[] = [];
  for (const one of boxed) {
    const meets = (other: (typeof boxed)[number]) =>
      boxesMeet(one.box, other.box) && intersections(one.path, other.path).length > 0;
    const met = groups.filter(g => g.some(meets));
    const group = [one, ...met.flat()];
    for (const g of met) groups.splice(groups.indexOf(g), 1);
    groups.push(group);
  }
  return groups.flatMap(group => {
    const paths = group.map(g => g.path);
    if (paths.length === 1 && !selfMeeting(paths[0]!)) return paths;
    // A line that crosses itself runs round some of its parts clockwise: they are paper all the same.
    const each = paths.map(path => uniteContours([path]));
    return uniteRegions(each.flat()).flatMap(r => [r.outer, ...r.holes]);
  });
}
