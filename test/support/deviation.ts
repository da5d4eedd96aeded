/** How far two paths lie apart, by points taken densely along both. */
import {
  distanceToPath,
  type Path,
  pointAt,
  stepPieces,
  steps,
  tangentAt,
} from '../../src/geom/index.js';

/** The greatest distance from a point of either path to the other; points as dense as chords of `sagitta` mm. */
export function deviation(a: Path, b: Path, sagitta = 2e-4): number {
  return Math.max(oneSided(a, b, sagitta), oneSided(b, a, sagitta));
}

function oneSided(from: Path, to: Path, sagitta: number): number {
  let most = 0;
  for (const step of steps(from)) {
    // At least eight a segment: a long line is one piece to any tolerance.
    const n = Math.max(8, stepPieces(step, sagitta));
    for (let i = 0; i <= n; i++) most = Math.max(most, distanceToPath(pointAt(step, i / n), to));
  }
  return most;
}

/** The greatest change of direction (radians) between neighbouring segments; cusps included. */
export function sharpest(path: Path): number {
  const all = [...steps(path)];
  let most = 0;
  for (let i = path.closed ? 0 : 1; i < all.length; i++) {
    const u = tangentAt(all.at(i - 1)!, 1);
    const v = tangentAt(all[i]!, 0);
    const turn = Math.atan2(u[0] * v[1] - u[1] * v[0], u[0] * v[0] + u[1] * v[1]);
    most = Math.max(most, Math.abs(turn));
  }
  return most;
}
