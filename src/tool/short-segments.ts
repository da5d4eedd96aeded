/** Segments too short for a machine to make, merged into longer ones. */
import {
  distance,
  distanceToStep,
  fitPolyline,
  flatten,
  line,
  type Path,
  type Point,
  type Segment,
  type Step,
  samePoint,
  startingAt,
  steps,
} from '../geom/index.js';
import { JOIN_MM, LEAST_SEGMENT_MM, MERGE_MM } from '../units/tolerances.js';

/** Two merges in a row, of the short ones among themselves and then into their neighbours, share it. */
const EACH = MERGE_MM / 2;
/** Longest run of points that is tried as one line: checking it costs its square. */
const LONGEST_RUN = 200;

/**
 * The same path with segments shorter than `LEAST_SEGMENT_MM` merged with each other (as the fewer of
 * arcs or lines) and into lines beside them, as far as nothing moves by more than `MERGE_MM`. All
 * else stays as it is. A closed path may then begin elsewhere.
 */
export function mergeShort(path: Path): { readonly path: Path; readonly merged: number } {
  if (!steps(path).some(isShort)) return { path, merged: 0 };
  const turned = path.closed ? startingAt(path, firstAfterLong(path)) : path;
  const kept: Step[] = [];
  let run: Step[] = [];
  let from = turned.start;
  const put = (segment: Segment) => {
    kept.push({ from, segment });
    from = segment.to;
  };
  const flush = () => {
    if (run.length > 0) fewest(run).forEach(put);
    run = [];
  };
  for (const step of steps(turned)) {
    if (isShort(step)) run.push(step);
    else {
      flush();
      put(step.segment);
    }
  }
  flush();
  const segments = absorbed(kept).map(s => s.segment);
  const merged = path.segments.length - segments.length;
  return merged > 0 && (segments.length > 1 || !path.closed)
    ? { path: { start: turned.start, segments, closed: path.closed }, merged }
    : { path, merged: 0 };
}

/** By its chord, and by the way about its control points or its bulge. */
function isShort({ from, segment }: Step): boolean {
  const { to } = segment;
  if (segment.kind === 'cubic') {
    const { c1, c2 } = segment;
    return distance(from, c1) + distance(c1, c2) + distance(c2, to) < LEAST_SEGMENT_MM;
  }
  const bend = segment.kind === 'arc' ? 1 + Math.abs(segment.bulge) : 1;
  return distance(from, to) * bend < LEAST_SEGMENT_MM;
}

/** Where a run of short segments does not go on across the start; 0 where all are short. */
function firstAfterLong(path: Path): number {
  const all = steps(path);
  const long = all.findIndex(step => !isShort(step));
  return long < 0 ? 0 : (long + 1) % all.length;
}

/** A run of short segments as arcs and lines: whichever way needs fewer. */
function fewest(run: readonly Step[]): readonly Segment[] {
  const own = run.map(s => s.segment);
  if (run.length === 1) return own;
  const path: Path = { start: run[0]!.from, segments: own, closed: false };
  const points = flatten(path, JOIN_MM).filter(
    (p, i, all) => i === 0 || !samePoint(p, all[i - 1]!),
  );
  if (points.length < 2) return own;
  // What is left of the tolerance when curves were taken as chords.
  const most = EACH - JOIN_MM;
  const ways = [own, straightRuns(points, most)];
  const loop = distance(points[0]!, points.at(-1)!) === 0;
  // A loop's own start stays: its fit may begin where its curve suits.
  if (loop && points.length > 3) {
    const fit = fitPolyline(points.slice(0, -1), true, most);
    const at = [fit.start, ...fit.segments.map(s => s.to)].findIndex(p => samePoint(p, points[0]!));
    if (at >= 0) ways.push([...startingAt(fit, at % fit.segments.length).segments]);
  } else if (!loop && points.length > 3) ways.push([...fitPolyline(points, false, most).segments]);
  return ways.reduce((best, way) => (way.length < best.length ? way : best));
}

/** Greedy: the longest line from which no point is farther than `most`, again and again. */
function straightRuns(points: readonly Point[], most: number): Segment[] {
  const segments: Segment[] = [];
  let i = 0;
  while (i < points.length - 1) {
    let end = i + 1;
    const last = Math.min(points.length - 1, i + LONGEST_RUN);
    for (let j = i + 2; j <= last; j++) {
      if (!keeps(points[i]!, points.slice(i + 1, j), points[j]!, most)) break;
      end = j;
    }
    segments.push(line(points[end]!));
    i = end;
  }
  return segments;
}

/** Whether the line from a to b passes its points in their order and none is farther than `most`. */
function keeps(a: Point, between: readonly Point[], b: Point, most: number): boolean {
  const size = distance(a, b);
  if (!(size > 0)) return false;
  const step: Step = { from: a, segment: line(b) };
  let along = 0;
  for (const p of between) {
    const x = ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / size;
    if (!(x >= along && x <= size && distanceToStep(p, step) <= most)) return false;
    along = x;
  }
  return true;
}

/** Lines of which one is short made one, where the points between stay near it. */
function absorbed(all: readonly Step[]): Step[] {
  const out: (Step & { readonly dropped: readonly Point[] })[] = [];
  for (const step of all) {
    const before = out.at(-1);
    const lines = before?.segment.kind === 'line' && step.segment.kind === 'line';
    if (before && lines && (isShort(before) || isShort(step))) {
      const dropped = [...before.dropped, step.from];
      if (keeps(before.from, dropped, step.segment.to, EACH)) {
        out[out.length - 1] = { from: before.from, segment: step.segment, dropped };
        continue;
      }
    }
    out.push({ ...step, dropped: [] });
  }
  return out;
}
