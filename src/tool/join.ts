/** Open paths whose ends meet made into longer ones. */
import { distance, endOf, type Path, type Point, reverse, type Segment } from '../geom/index.js';
import { SAME_POINT_MM } from '../units/tolerances.js';

export interface Joined {
  readonly paths: readonly Path[];
  /** Index of the first of the given paths in each. */
  readonly sources: readonly number[];
  readonly gapsClosed: number;
  readonly widestGap: number;
}

/** An end of an open path: `k` is its index, `tail` whether it is the far end. */
interface End {
  readonly k: number;
  readonly tail: boolean;
  readonly at: Point;
}

/**
 * Joins open paths at places where exactly two ends lie within `reach` of each other, and closes
 * those whose own ends do. Where three or more meet, nothing is joined: which runs on is not known.
 */
export function joinEnds(paths: readonly Path[], reach: number): Joined {
  const ends: End[] = [];
  paths.forEach((path, k) => {
    if (path.closed) return;
    ends.push({ k, tail: false, at: path.start }, { k, tail: true, at: endOf(path) });
  });
  const mates = mateUp(ends, reach);
  const done = new Set<number>();
  const out: Path[] = [];
  const sources: number[] = [];
  let gapsClosed = 0;
  let widestGap = 0;
  const close = (a: Point, b: Point) => {
    const gap = distance(a, b);
    if (!(gap > SAME_POINT_MM)) return;
    gapsClosed++;
    widestGap = Math.max(widestGap, gap);
  };
  paths.forEach((path, k) => {
    if (done.has(k)) return;
    done.add(k);
    if (path.closed) {
      out.push(path);
      sources.push(k);
      return;
    }
    let { start } = path;
    let segments = [...path.segments];
    let first: End | undefined = mates.get(key(k, false));
    let last: End | undefined = mates.get(key(k, true));
    let closed = false;
    // Runs on at the far end until it comes home or ends; then backwards from the start.
    while (last) {
      closed = last.k === k && !last.tail;
      if (closed || done.has(last.k)) break;
      done.add(last.k);
      const next = last.tail ? reverse(paths[last.k]!) : paths[last.k]!;
      const here = segments.at(-1)!.to;
      close(here, next.start);
      segments = [...movedEnd(segments, next.start), ...next.segments];
      last = mates.get(key(last.k, !last.tail));
    }
    while (first && !closed) {
      if (done.has(first.k)) break;
      done.add(first.k);
      const before = first.tail ? paths[first.k]! : reverse(paths[first.k]!);
      close(endOf(before), start);
      segments = [...movedEnd(before.segments, start), ...segments];
      start = before.start;
      first = mates.get(key(first.k, !first.tail));
    }
    if (closed && segments.length > 1) {
      close(segments.at(-1)!.to, start);
      segments = movedEnd(segments, start);
    } else closed = false;
    out.push({ start, segments, closed });
    sources.push(k);
  });
  return { paths: out, sources, gapsClosed, widestGap };
}

const key = (k: number, tail: boolean) => 2 * k + (tail ? 1 : 0);

function movedEnd(segments: readonly Segment[], to: Point): Segment[] {
  const last = segments.at(-1)!;
  return [...segments.slice(0, -1), { ...last, to } as Segment];
}

/** For each end the one other end within reach, where both have no other. */
function mateUp(ends: readonly End[], reach: number): Map<number, End> {
  const cells = new Map<string, number[]>();
  const cellOf = (p: Point) => [Math.floor(p[0] / reach), Math.floor(p[1] / reach)] as const;
  ends.forEach((end, i) => {
    const [x, y] = cellOf(end.at);
    const name = `${x},${y}`;
    const list = cells.get(name);
    if (list) list.push(i);
    else cells.set(name, [i]);
  });
  const near = ends.map((end, i) => {
    const [x, y] = cellOf(end.at);
    const found: number[] = [];
    for (let dx = -1; dx <= 1; dx++) {
      for (let dy = -1; dy <= 1; dy++) {
        for (const j of cells.get(`${x + dx},${y + dy}`) ?? []) {
          if (j !== i && distance(ends[j]!.at, end.at) <= reach) found.push(j);
        }
      }
    }
    return found;
  });
  const mates = new Map<number, End>();
  near.forEach((found, i) => {
    const j = found[0];
    if (found.length !== 1 || j === undefined || near[j]!.length !== 1) return;
    mates.set(key(ends[i]!.k, ends[i]!.tail), ends[j]!);
  });
  return mates;
}
