/**
 * The clear space of closed boxes whose walls do not stand square, measured on the papers' inner faces:
 * planes cut by a level or by an upright line. None of the code that builds or checks boxes is used but
 * the folding itself.
 */
import { place } from '../../src/fold/pose.js';
import { standing } from '../../src/fold/stand.js';
import { windingOf } from '../../src/geom/index.js';
import type { Net, Point, Triple } from '../../src/model.js';

/** The face of a flat panel that looks at the middle of the box. */
export interface InnerFace {
  readonly id: string;
  /** A point on the face, and the unit normal that looks inside. */
  readonly at: Triple;
  readonly normal: Triple;
  /** Whether the paper is there, at a point of the face's plane. */
  covers(at: Triple): boolean;
  readonly corners: readonly Triple[];
}

const dot = (a: Triple, b: Triple) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const sub = (a: Triple, b: Triple): Triple => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const go = (a: Triple, way: Triple, by: number): Triple => [
  a[0] + way[0] * by,
  a[1] + way[1] * by,
  a[2] + way[2] * by,
];

/** Every flat panel of nets that stand in their places. `middle` is a point of the clear space. */
export function innerFaces(nets: readonly Net[], middle: Triple): InnerFace[] {
  return nets.flatMap(net =>
    standing(net).map((p): InnerFace => {
      const [o, x, y] = [place(p, [0, 0]), place(p, [1, 0]), place(p, [0, 1])];
      const [ex, ey] = [sub(x, o), sub(y, o)];
      const n: Triple = [
        ex[1] * ey[2] - ex[2] * ey[1],
        ex[2] * ey[0] - ex[0] * ey[2],
        ex[0] * ey[1] - ex[1] * ey[0],
      ];
      const normal = dot(sub(middle, o), n) >= 0 ? n : go([0, 0, 0], n, -1);
      const winding = windingOf(p.panel.outline, ...p.panel.holes);
      return {
        id: p.panel.id,
        at: go(o, normal, net.thickness / 2),
        normal,
        covers: at => {
          const d = sub(at, o);
          const flat: Point = [dot(d, ex), dot(d, ey)];
          return winding(flat) !== 0;
        },
        corners: p.panel.outline.segments.map(s => go(place(p, s.to), normal, net.thickness / 2)),
      };
    }),
  );
}

const STEEP = 0.999;

/** The diameter of the largest round that lies level at a height: the middle is as far from the three
 *  nearest faces, and no face is nearer. */
export function roundAt(faces: readonly InnerFace[], z: number): number {
  const lines = faces
    .filter(f => Math.abs(f.normal[2]) < STEEP)
    .filter(
      f => Math.min(...f.corners.map(c => c[2])) <= z && Math.max(...f.corners.map(c => c[2])) >= z,
    )
    .map(({ at, normal }) => {
      // n · (x, y) + c ≥ 0 inside, in millimetres.
      const level = Math.hypot(normal[0], normal[1]);
      return {
        n: [normal[0] / level, normal[1] / level] as const,
        c: (normal[2] * (z - at[2]) - normal[0] * at[0] - normal[1] * at[1]) / level,
      };
    });
  let most = 0;
  const ids = lines.map((_, i) => i);
  for (const i of ids) {
    for (const j of ids.slice(i + 1)) {
      for (const k of ids.slice(j + 1)) {
        const at = equallyFar([lines[i]!, lines[j]!, lines[k]!]);
        if (!at || at[2] <= most) continue;
        const clear = lines.every(({ n, c }) => n[0] * at[0] + n[1] * at[1] + c >= at[2] - 1e-9);
        if (clear) most = at[2];
      }
    }
  }
  return 2 * most;
}

/** Cramer's rule for n · p + c = r, three times. */
function equallyFar(
  lines: readonly { readonly n: readonly [number, number]; readonly c: number }[],
): Triple | undefined {
  const rows = lines.map(({ n, c }): [Triple, number] => [[n[0], n[1], -1], -c]);
  const det = (a: Triple, b: Triple, c: Triple) =>
    a[0] * (b[1] * c[2] - b[2] * c[1]) -
    a[1] * (b[0] * c[2] - b[2] * c[0]) +
    a[2] * (b[0] * c[1] - b[1] * c[0]);
  const whole = det(rows[0]![0], rows[1]![0], rows[2]![0]);
  if (Math.abs(whole) < 1e-12) return undefined;
  const solved = [0, 1, 2].map(col => {
    const put = rows.map(([row, right]) =>
      row.map((v, i) => (i === col ? right : v)),
    ) as unknown as [Triple, Triple, Triple];
    return det(...put) / whole;
  });
  return solved as unknown as Triple;
}

/** From the highest paper under `from` to the lowest over it, on the upright line through x, y. */
export function uprightAt(
  faces: readonly InnerFace[],
  [x, y]: Point,
  from: number,
): readonly [floor: number, ceiling: number] {
  let [floor, ceiling] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const { at, normal, covers } of faces) {
    if (Math.abs(normal[2]) < 1e-9) continue;
    const z = at[2] - (normal[0] * (x - at[0]) + normal[1] * (y - at[1])) / normal[2];
    if (!covers([x, y, z])) continue;
    if (z <= from) floor = Math.max(floor, z);
    else ceiling = Math.min(ceiling, z);
  }
  return [floor, ceiling];
}

/** Between the upright faces on both sides of a point, along x or y, at its height. */
export function acrossAt(
  faces: readonly InnerFace[],
  from: Triple,
  axis: 0 | 1,
): readonly [low: number, high: number] {
  let [low, high] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const { at, normal, covers } of faces) {
    if (Math.abs(normal[axis]) < 1e-9) continue;
    const d = dot(sub(at, from), normal) / normal[axis];
    const hit: Triple =
      axis === 0 ? [from[0] + d, from[1], from[2]] : [from[0], from[1] + d, from[2]];
    if (!covers(hit)) continue;
    if (d <= 0) low = Math.max(low, hit[axis]);
    else high = Math.min(high, hit[axis]);
  }
  return [low, high];
}
