/** Runs of lines in one direction, and of arcs on one circle, made one segment. */
import {
  arcShape,
  arcTo,
  distance,
  type Path,
  type Point,
  type Segment,
  type Step,
  steps,
} from '../geom/index.js';
import { JOIN_MM, SAME_ANGLE } from '../units/tolerances.js';

/** Longest run that is looked at as one: checking a run costs its square. */
const LONGEST_RUN = 200;
/** An arc made of several turns by at most this: a half circle keeps its digits in any file. */
const LONGEST_SWEEP = Math.PI + 1e-9;

/** The same path with corners left out that lie within `JOIN_MM` of one line or arc through their
 *  neighbours. A closed path may then begin elsewhere. */
export function mergeRuns(path: Path): { readonly path: Path; readonly joined: number } {
  const all = [...steps(path)];
  const merged: Step[] = [];
  let run: Step[] = [];
  const flush = () => {
    if (run.length > 0) merged.push(asOne(run)!);
    run = [];
  };
  for (const step of all) {
    if (run.length >= LONGEST_RUN || !asOne([...run, step])) flush();
    run.push(step);
  }
  flush();
  // A closed path that began in the middle of a run begins at the run's own start instead.
  if (path.closed && merged.length > 2) {
    const last = merged.at(-1)!;
    const both = asOne([last, merged[0]!]);
    if (both) merged.splice(0, merged.length, ...merged.slice(1, -1), both);
  }
  const joined = all.length - merged.length;
  if (joined === 0) return { path, joined };
  const start = merged[0]!.from;
  const segments = merged.map(m => m.segment);
  if (path.closed) {
    const last = segments.at(-1)!;
    segments[segments.length - 1] = { ...last, to: start } as Segment;
  }
  return { path: { start, segments, closed: path.closed }, joined };
}

/** The one segment that a run is, or `undefined` when it is not one. */
function asOne(run: readonly Step[]): Step | undefined {
  const first = run[0]!;
  if (run.length === 1) return first;
  const { kind } = first.segment;
  const from = first.from;
  const to = run.at(-1)!.segment.to;
  if (kind === 'line') {
    const size = distance(from, to);
    if (!(size > JOIN_MM)) return undefined;
    let along = 0;
    for (const { segment } of run) {
      if (segment.kind !== 'line') return undefined;
      const [x, y] = along2(from, to, segment.to, size);
      // Always forward, never off the line.
      if (!(x > along && Math.abs(y) <= JOIN_MM)) return undefined;
      along = x;
    }
    return { from, segment: { kind: 'line', to } };
  }
  if (kind !== 'arc' || !(Math.abs(first.segment.bulge) > 0)) return undefined;
  const shape = arcShape(from, first.segment);
  let sweep = 0;
  for (const step of run) {
    if (step.segment.kind !== 'arc' || !(step.segment.bulge * shape.sweep > 0)) return undefined;
    const other = arcShape(step.from, step.segment);
    const off = distance(other.centre, shape.centre) + Math.abs(other.radius - shape.radius);
    if (!(off <= JOIN_MM)) return undefined;
    sweep += other.sweep;
  }
  if (!(Math.abs(sweep) <= LONGEST_SWEEP)) return undefined;
  const one: Step = { from, segment: arcTo(to, sweep) };
  const whole = arcShape(from, one.segment as Extract<Segment, { kind: 'arc' }>);
  const off = distance(whole.centre, shape.centre) + Math.abs(whole.radius - shape.radius);
  return off <= JOIN_MM + SAME_ANGLE ? one : undefined;
}

/** Coordinates of p along and beside the line from a to b, `size` long. */
function along2(a: Point, b: Point, p: Point, size: number): Point {
  const ux = (b[0] - a[0]) / size;
  const uy = (b[1] - a[1]) / size;
  const x = p[0] - a[0];
  const y = p[1] - a[1];
  return [x * ux + y * uy, y * ux - x * uy];
}
