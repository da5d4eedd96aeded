/**
 * Blade-offset compensation. The blade of a drag knife swivels: its cutting point (the tip) trails
 * the swivel axis (the pivot) by the offset d. For the tip to run on c(t) with unit tangent T, the
 * pivot must run on c + d·T. A line moves ahead by d; an arc of radius r becomes a concentric arc
 * of radius √(r² + d²), turned ahead by atan(d / r); at a corner of turn δ the pivot swings about
 * the tip on an arc of radius d by δ (check values: pivot length = perimeter + 2πd on convex
 * polygons). All of it stays lines and arcs.
 *
 * A corner is swung at where its turn moves the pivot by more than `JOIN_MM`, so from JOIN_MM / d up: 0.115°
 * for d = 0.25 mm, 0.057° for 0.5, 0.029° for 1. Below that the next stretch takes the turn with it.
 *
 * Open lines are never extended, whatever the operation. The pivot ends d past the end, so the tip ends on
 * it: a slit is cut from end to end, and what ran on past it would weaken a panel, score a visible face or
 * turn a dash's paper bridge into a cut. Only a closed cut runs on, over itself, by the overcut.
 */
import { distance, fitArcs, type Path, type Point, type Segment } from '../geom/index.js';
import type { Blade } from '../model.js';
import { FIT_MM, JOIN_MM, SAME_POINT_MM } from '../units/tolerances.js';

export interface Compensated {
  /** Where the pivot is driven, path for path with the drawn ones. Always open: the tip closes. */
  readonly driven: readonly Path[];
  /** Heading of the blade that the first path begins from, radians. Where it was not given it is
   *  taken to be the first path's own heading: the same assumption `dragTip` makes. */
  readonly headingBefore: number;
  /** Heading that the lifted blade keeps, radians. */
  readonly headingAfter: number;
}

/** A line or arc with its unit tangents at both ends. */
export interface Stretch {
  readonly from: Point;
  readonly to: Point;
  readonly bulge: number;
  readonly enter: Point;
  readonly leave: Point;
}

/**
 * Pivot paths for drawn paths, in their order. Cubics are fitted with arcs within `FIT_MM` first.
 * `startHeading` (radians) is where the lifted blade points before the first path. Paths without
 * length stay empty paths. Throws `RangeError` for an offset or overcut that is negative or NaN.
 */
export function compensatePaths(
  paths: readonly Path[],
  blade: Pick<Blade, 'offset' | 'overcut'>,
  startHeading?: number,
): Compensated {
  const { offset, overcut } = blade;
  if (!(offset >= 0 && offset < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`blade offset ${offset} mm: it must be 0 or more`);
  }
  if (!(overcut >= 0 && overcut < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`overcut ${overcut} mm: it must be 0 or more`);
  }
  let heading: Point | undefined =
    startHeading === undefined ? undefined : [Math.cos(startHeading), Math.sin(startHeading)];
  let before = heading;
  const driven = paths.map(path => {
    const run = stretches(path);
    const first = run[0];
    if (!first) return { start: path.start, segments: [], closed: false };
    heading ??= first.enter;
    before ??= heading;
    const pivot = new PivotLine(first.from, heading, offset);
    for (const s of run) pivot.follow(s);
    if (path.closed && overcut > 0) for (const s of leading(run, overcut)) pivot.follow(s);
    heading = pivot.heading;
    return pivot.path();
  });
  const angle = (h: Point | undefined) => (h ? Math.atan2(h[1], h[0]) : (startHeading ?? 0));
  return { driven, headingBefore: angle(before), headingAfter: angle(heading) };
}

/** The lines and arcs of a path with their tangents; cubics fitted, steps without length left out. */
export function stretches(path: Path): Stretch[] {
  const plain = fitArcs(path, FIT_MM);
  const run: Stretch[] = [];
  let from = plain.start;
  for (const segment of plain.segments) {
    const { to } = segment;
    const chord = distance(from, to);
    // A step too short to have a direction is carried over to the next one.
    const bulge = segment.kind === 'arc' ? segment.bulge : 0;
    if (!(chord * (1 + Math.abs(bulge)) > SAME_POINT_MM && chord > 0)) continue;
    const ux = (to[0] - from[0]) / chord;
    const uy = (to[1] - from[1]) / chord;
    // The chord turned by half the sweep, 2 atan(bulge), to either side.
    const c = (1 - bulge * bulge) / (1 + bulge * bulge);
    const s = (2 * bulge) / (1 + bulge * bulge);
    run.push({
      from,
      to,
      bulge,
      enter: [ux * c + uy * s, uy * c - ux * s],
      leave: [ux * c - uy * s, uy * c + ux * s],
    });
    from = to;
  }
  return run;
}

/** The first `length` mm of a run, at most the whole of it once. */
function* leading(run: readonly Stretch[], length: number): Generator<Stretch> {
  let left = length;
  for (const s of run) {
    const sweep = 4 * Math.atan(s.bulge);
    const chord = distance(s.from, s.to);
    const size = sweep === 0 ? chord : (chord * sweep) / (2 * Math.sin(sweep / 2));
    if (size <= left) {
      yield s;
      left -= size;
      if (!(left > SAME_POINT_MM)) return;
      continue;
    }
    const part = sweep * (left / size);
    // The chord of the part, from the start: along the first tangent turned by half of its sweep.
    const reach = part === 0 ? left : (left * Math.sin(part / 2)) / (part / 2);
    const along = turned(s.enter, part / 2);
    yield {
      from: s.from,
      to: [s.from[0] + reach * along[0], s.from[1] + reach * along[1]],
      bulge: Math.tan(part / 4),
      enter: s.enter,
      leave: turned(s.enter, part),
    };
    return;
  }
}

const turned = (v: Point, angle: number): Point => {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return [v[0] * c - v[1] * s, v[1] * c + v[0] * s];
};

/** The pivot's path as it grows. */
class PivotLine {
  private readonly start: Point;
  private readonly segments: Segment[] = [];
  private at: Point;

  constructor(
    tip: Point,
    /** Where the blade points now, as a unit vector. */
    public heading: Point,
    private readonly offset: number,
  ) {
    this.start = this.ahead(tip, heading);
    this.at = this.start;
  }

  follow(s: Stretch): void {
    this.swing(s.from, s.enter);
    // Concentric and turned ahead: both ends move by d·T, the sweep (so the bulge) stays.
    this.go(this.ahead(s.to, s.leave), s.bulge);
    this.heading = s.leave;
  }

  path(): Path {
    return { start: this.start, segments: this.segments, closed: false };
  }

  private ahead(tip: Point, heading: Point): Point {
    return [tip[0] + this.offset * heading[0], tip[1] + this.offset * heading[1]];
  }

  /** Turns the blade about the tip to a new heading. Turns that move the pivot by no more than `JOIN_MM`
   *  are left to the next stretch; arcs flatter than that are driven as a line (7.2° at 0.25 mm). */
  private swing(tip: Point, to: Point): void {
    const { heading: from, offset } = this;
    const turn = Math.atan2(from[0] * to[1] - from[1] * to[0], from[0] * to[0] + from[1] * to[1]);
    if (offset * Math.abs(turn) <= JOIN_MM) return;
    const flat = offset * (1 - Math.cos(turn / 2)) <= JOIN_MM;
    this.go(this.ahead(tip, to), flat ? 0 : Math.tan(turn / 4));
  }

  private go(to: Point, bulge: number): void {
    if (!(distance(this.at, to) > 0)) return;
    this.segments.push(bulge === 0 ? { kind: 'line', to } : { kind: 'arc', to, bulge });
    this.at = to;
  }
}
