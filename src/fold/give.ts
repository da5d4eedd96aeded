/** What can be bent aside for a moment: flaps that are pushed in, and how far. */
import { distanceToPath, lerp } from '../geom/index.js';
import type { Net } from '../model.js';
import { FOLD_FACET_MM, ON_PATH_MM, SPRING_RADIUS_MM } from '../units/tolerances.js';
import { creasesOf } from './edges.js';
import type { Face } from './face.js';
import { isStraight } from './pose.js';
import { depthOf, type Tree } from './tree.js';

/**
 * How far a flap can be bent aside, mm, by its panel: those that are tucked in, lock, snap over a
 * curved crease or roll over others, and on which nothing hangs. The free end of a flap of depth d
 * bent to a radius r moves by d²/2r.
 */
export function givesOf({ net, order, above, panels }: Tree): ReadonlyMap<string, number> {
  const parents = new Set(order.map(h => h.parent));
  const pushed = [
    ...net.joins.flatMap(j =>
      j.kind === 'tuck' ? [j.a.panel] : j.kind === 'lock' ? [j.a.panel, j.b.panel] : [],
    ),
    ...order.filter(h => !isStraight(h.along) || (h.lift ?? 0) > 0).map(h => h.child),
  ];
  const gives = new Map<string, number>();
  for (const id of pushed) {
    const hinge = above.get(id);
    if (!hinge || parents.has(id)) continue;
    const depth = depthOf(panels.get(id)!, hinge);
    gives.set(id, Math.min((depth * depth) / (2 * SPRING_RADIUS_MM), depth / 4));
  }
  return gives;
}

/** The face with only those edges at which its paper ends: beside a fold nothing can be bent aside. */
export function looseFace(net: Net, face: Face): Face {
  const { id } = face.panel;
  const folds = creasesOf(net)
    .filter(h => h.parent === id || h.child === id)
    .map(h => h.along);
  // Chords of a curved fold lie beside it.
  const onFold = FOLD_FACET_MM * 20 + ON_PATH_MM;
  const rim = face.rim.filter(({ a, b }) => {
    const middle = lerp(a, b, 0.5);
    return folds.every(f => distanceToPath(middle, f) > (isStraight(f) ? ON_PATH_MM : onFold));
  });
  return { ...face, rim };
}
