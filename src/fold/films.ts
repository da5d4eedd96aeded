/** Film behind windows, as facets of their own. */
import type { Film, Panel } from '../model.js';
import { type Face, faceWithin } from './face.js';
import { type Facet, facetsOf } from './facets.js';
import type { PanelPose } from './pose.js';
import { add3, dot3, scale3 } from './space.js';

/** Film lies so far off its panel's middle surface, mm: enough for the painter to tell the two apart. */
const OFF_MM = 0.08;

const faces = new WeakMap<Film, Map<number, Face>>();

/** The facets of a film on its panel, curled as that is. */
export function filmFacets(film: Film, posed: PanelPose, tolerance: number): Facet[] {
  const known = faces.get(film) ?? new Map<number, Face>();
  faces.set(film, known);
  const patch: Panel = { ...posed.panel, outline: film.outline, holes: [], strokes: [] };
  // Of its panel still, so that it is bent at the same lines.
  const face = known.get(tolerance) ?? { ...faceWithin(patch, tolerance), panel: posed.panel };
  known.set(tolerance, face);
  return facetsOf(face, posed, tolerance).map(f => {
    const off = scale3(f.normal, film.side === 'inside' ? OFF_MM : -OFF_MM);
    const move = (p: (typeof f.loops)[number][number]) => add3(p, off);
    const loops = f.loops.map(l => l.map(move));
    const solid: Facet['solid'] = p => move(f.solid(p));
    return { ...f, loops, solid, offset: f.offset + dot3(f.normal, off) };
  });
}
