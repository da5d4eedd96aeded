/**
 * Folds a written net, by the words of its schema alone: nothing of the program is used. Rotation
 * matrices by Rodrigues' formula; curves by their ends and quarter points.
 */
type P2 = readonly [number, number];
type P3 = readonly [number, number, number];
type Matrix = readonly [P3, P3, P3];

interface JsonPath {
  readonly start: P2;
  readonly segments: readonly {
    readonly kind: 'line' | 'arc' | 'cubic';
    readonly to: P2;
    readonly bulge?: number;
    readonly c1?: P2;
    readonly c2?: P2;
  }[];
}
interface JsonHinge {
  readonly parent: string;
  readonly child: string;
  readonly along: JsonPath;
  readonly angle: number;
  readonly curved: boolean;
  readonly lift?: number;
}
export interface JsonNet {
  readonly id: string;
  readonly thickness: number;
  readonly root: string;
  readonly panels: readonly {
    readonly id: string;
    readonly outline: JsonPath;
    readonly bend?: object;
  }[];
  readonly hinges: readonly JsonHinge[];
  readonly ringHinges: readonly JsonHinge[];
  readonly joins: readonly {
    readonly kind: 'glue' | 'edge' | 'tuck' | 'lock';
    readonly a: { readonly panel: string; readonly along?: JsonPath };
    readonly b: { readonly panel: string; readonly along?: JsonPath };
    readonly gap: number;
  }[];
  readonly glue: readonly {
    readonly panel: string;
    readonly onto: string;
    readonly area: JsonPath;
  }[];
  readonly steps: readonly {
    readonly step: number;
    readonly hinges: readonly string[];
    readonly joins: readonly number[];
  }[];
}

const plus = (a: P3, b: P3): P3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const minus = (a: P3, b: P3): P3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: P3, b: P3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const times = (m: Matrix, v: P3): P3 => [dot(m[0], v), dot(m[1], v), dot(m[2], v)];
const far = (a: P3, b: P3) => Math.hypot(...minus(a, b));

/** R = I + sin θ K + (1 − cos θ) K². */
function turning(axis: P3, angle: number): Matrix {
  const [x, y, z] = axis;
  const [s, c] = [Math.sin(angle), Math.cos(angle)];
  const k = 1 - c;
  return [
    [c + k * x * x, k * x * y - s * z, k * x * z + s * y],
    [k * x * y + s * z, c + k * y * y, k * y * z - s * x],
    [k * x * z - s * y, k * y * z + s * x, c + k * z * z],
  ];
}

/** Points of a path: every corner, and between them. */
export function pointsOf({ start, segments }: JsonPath): P2[] {
  const out: P2[] = [start];
  let at = start;
  for (const s of segments) {
    for (const t of [0.25, 0.5, 0.75, 1]) out.push(onSegment(at, s, t));
    at = s.to;
  }
  return out;
}
function onSegment(a: P2, s: JsonPath['segments'][number], t: number): P2 {
  const b = s.to;
  if (s.kind === 'cubic') {
    const u = 1 - t;
    const of = (i: 0 | 1) =>
      u ** 3 * a[i] + 3 * u * u * t * s.c1![i] + 3 * u * t * t * s.c2![i] + t ** 3 * b[i];
    return [of(0), of(1)];
  }
  if (s.kind === 'arc' && s.bulge! !== 0) {
    // Centre of the circle from the chord and the sweep 4·atan(bulge).
    const sweep = 4 * Math.atan(s.bulge!);
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const cot = 1 / Math.tan(sweep / 2);
    const centre: P2 = [(a[0] + b[0] - dy * cot) / 2, (a[1] + b[1] + dx * cot) / 2];
    const [c, n] = [Math.cos(sweep * t), Math.sin(sweep * t)];
    const [px, py] = [a[0] - centre[0], a[1] - centre[1]];
    return [centre[0] + c * px - n * py, centre[1] + n * px + c * py];
  }
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
}

type Place = (p: P2) => P3;

/** Where each panel's points go: closed, or with the hinges of the first steps only. */
export function folded(net: JsonNet, steps = Number.POSITIVE_INFINITY): Map<string, Place> {
  const done = new Set(net.steps.filter(s => s.step <= steps).flatMap(s => s.hinges));
  const places = new Map<string, (p: P3) => P3>([[net.root, p => p]]);
  let left = [...net.hinges];
  while (left.length > 0) {
    const next = left.filter(h => places.has(h.parent));
    if (next.length === 0) throw new Error('the hinges are no tree');
    for (const h of next) {
      const parent = places.get(h.parent)!;
      const end = h.along.segments.at(-1)!.to;
      const from: P3 = [...h.along.start, 0];
      const way = minus([...end, 0], from);
      const long = Math.hypot(...way);
      const back: P3 = [-way[0] / long, -way[1] / long, -way[2] / long];
      const closed = steps === Number.POSITIVE_INFINITY || done.has(h.child);
      const turn = turning(back, closed ? h.angle : 0);
      const lift: P3 = [0, 0, closed ? Math.sign(h.angle) * (h.lift ?? 0) : 0];
      places.set(h.child, p => parent(plus(lift, plus(from, times(turn, minus(p, from))))));
    }
    left = left.filter(h => !places.has(h.child));
  }
  return new Map([...places].map(([id, f]) => [id, (p: P2) => f([p[0], p[1], 0])]));
}

/** Points of a path at equal lengths, for straight edges of one or more lines. */
function evenly(path: JsonPath, n: number): P2[] {
  const dense: P2[] = [path.start];
  let at = path.start;
  for (const s of path.segments) {
    for (let i = 1; i <= 64; i++) dense.push(onSegment(at, s, i / 64));
    at = s.to;
  }
  const runs = [0];
  for (let i = 1; i < dense.length; i++) {
    runs.push(
      runs[i - 1]! + Math.hypot(dense[i]![0] - dense[i - 1]![0], dense[i]![1] - dense[i - 1]![1]),
    );
  }
  return Array.from({ length: n + 1 }, (_, k) => {
    const want = (runs.at(-1)! * k) / n;
    let i = runs.findIndex(r => r >= want - 1e-12);
    if (i < 1) i = 1;
    const share = (want - runs[i - 1]!) / (runs[i]! - runs[i - 1]!);
    const [p, q] = [dense[i - 1]!, dense[i]!];
    return [p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share];
  });
}

/** Panels that a rigid folder cannot place: those that curl, and what hangs on them or on a curve. */
export function bentPanels(net: JsonNet): ReadonlySet<string> {
  const bent = new Set(net.panels.filter(p => p.bend).map(p => p.id));
  // Each round finds more until none is left.
  for (let before = -1; before !== bent.size; ) {
    before = bent.size;
    for (const h of net.hinges) if (h.curved || bent.has(h.parent)) bent.add(h.child);
  }
  return bent;
}

/** The distances of the one panel's points from the other's plane. */
function offPlane(a: Place, b: Place, points: readonly P2[]): number[] {
  const [o, x, y] = [b([0, 0]), minus(b([1, 0]), b([0, 0])), minus(b([0, 1]), b([0, 0]))];
  const normal: P3 = [
    x[1] * y[2] - x[2] * y[1],
    x[2] * y[0] - x[0] * y[2],
    x[0] * y[1] - x[1] * y[0],
  ];
  return points.map(p => Math.abs(dot(normal, minus(a(p), o))));
}

/** How far points of one panel lie off another in the closed net, mm; nothing where one of them curls. */
export function offPanel(
  net: JsonNet,
  panel: string,
  onto: string,
  points: readonly P2[],
): number[] | undefined {
  const bent = bentPanels(net);
  const at = folded(net);
  const [a, b] = [at.get(panel), at.get(onto)];
  if (!a || !b || bent.has(panel) || bent.has(onto)) return undefined;
  return offPlane(a, b, points);
}

/** How far each join of rigid panels is out in the closed net, mm. */
export function joinGaps(net: JsonNet): number[] {
  const at = folded(net);
  const bent = bentPanels(net);
  const rigid = net.joins.filter(j => !bent.has(j.a.panel) && !bent.has(j.b.panel));
  return rigid.map(j => {
    const [a, b] = [at.get(j.a.panel)!, at.get(j.b.panel)!];
    if (j.kind === 'edge' || j.kind === 'lock') {
      const mine = evenly(j.a.along!, 8).map(a);
      const theirs = evenly(j.b.along!, 8).map(b);
      const worst = (list: readonly P3[]) =>
        Math.max(...mine.map((p, i) => Math.abs(far(p, list[i]!) - j.gap)));
      return Math.min(worst(theirs), worst([...theirs].reverse()));
    }
    const outline = net.panels.find(p => p.id === j.a.panel)!.outline;
    const off = offPlane(a, b, pointsOf(j.a.along ?? outline));
    const most = Math.max(...off);
    const least = Math.min(...off);
    return j.kind === 'glue'
      ? Math.max(Math.abs(most - j.gap), Math.abs(least - j.gap))
      : Math.max(0, most - j.gap);
  });
}
