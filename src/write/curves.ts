/** Interim, until src/geom has arcsToCubics and fitArcs of its own. */
import { arcShape, pointAt } from '../geom/index.js';
import type { Path, Point, Segment } from '../model.js';
import { FIT_MM } from '../units/tolerances.js';

export function arcsToCubics(path: Path): Path {
  let from = path.start;
  const segments: Segment[] = [];
  for (const s of path.segments) {
    if (s.kind !== 'arc') segments.push(s);
    else {
      const { centre, radius, startAngle, sweep } = arcShape(from, s);
      const n = Math.ceil(Math.abs(sweep) / (Math.PI / 4));
      const k = (4 / 3) * Math.tan(sweep / n / 4) * radius;
      for (let i = 0; i < n; i++) {
        const a = startAngle + (sweep * i) / n;
        const b = startAngle + (sweep * (i + 1)) / n;
        const p: Point = [centre[0] + radius * Math.cos(a), centre[1] + radius * Math.sin(a)];
        const q: Point =
          i === n - 1 ? s.to : [centre[0] + radius * Math.cos(b), centre[1] + radius * Math.sin(b)];
        segments.push({
          kind: 'cubic',
          c1: [p[0] - k * Math.sin(a), p[1] + k * Math.cos(a)],
          c2: [q[0] + k * Math.sin(b), q[1] - k * Math.cos(b)],
          to: q,
        });
      }
    }
    from = s.to;
  }
  return { ...path, segments };
}
/** Interim, until src/geom has its own: cubics as chords within `FIT_MM` (Wang's bound). */
export function fitArcs(path: Path): Path {
  let from = path.start;
  const segments: Segment[] = [];
  for (const s of path.segments) {
    if (s.kind === 'cubic') {
      const bend = (a: Point, b: Point, c: Point) =>
        Math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]);
      const most = Math.max(bend(from, s.c1, s.c2), bend(s.c1, s.c2, s.to));
      const n = Math.max(1, Math.ceil(Math.sqrt((0.75 * most) / FIT_MM)));
      for (let i = 1; i < n; i++) {
        segments.push({ kind: 'line', to: pointAt({ from, segment: s }, i / n) });
      }
      segments.push({ kind: 'line', to: s.to });
    } else segments.push(s);
    from = s.to;
  }
  return { ...path, segments };
}
