/** Overlays: paper cut to sit on a panel, smaller by the reveal all round. */
import {
  bounds,
  circle,
  clockwise,
  counterClockwise,
  distanceToPath,
  offsetExactly,
  offsetRegions,
  pathsMeet,
  regionContains,
  signedArea,
  subtractRegions,
  uniteRegions,
} from '../geom/index.js';
import type { Bounds, Panel, Path, Point, Region } from '../model.js';
import { ParamError } from '../params.js';

/** A closure dot on the decorated face, in the net's frame. */
export interface Dot {
  readonly at: Point;
  readonly diameter: number;
}

/** The panel with its dots as holes: what is glued over a dot keeps it from closing. */
function pierced(panel: Panel, dots: readonly Dot[]): Region[] {
  const outer = counterClockwise(panel.outline);
  const holes = [...panel.holes];
  const across: Region[] = [];
  for (const { at, diameter } of dots) {
    const dot = circle(at, diameter / 2);
    const clear = [outer, ...holes].every(p => distanceToPath(at, p) > diameter / 2);
    if (clear && regionContains({ outer, holes }, at) === 'in') holes.push(dot);
    else across.push({ outer: dot, holes: [] });
  }
  const region = { outer, holes: holes.map(clockwise) };
  return across.length > 0 ? subtractRegions([region], uniteRegions(across)) : [region];
}

/**
 * The overlay for any panel, in the panel's own frame: its outline moved inward by the reveal, its
 * windows outward, so that `reveal` mm of the panel shows along every edge. Rounded corners keep
 * the panel's middles; sharp ones stay sharp. Lines and arcs stay so where the panel has only
 * these. Dots are kept clear like windows. Throws `ParamError` when the reveal leaves nothing, or more than one part.
 */
export function overlayFor(panel: Panel, reveal: number, dots: readonly Dot[] = []): Region {
  if (!(reveal >= 0)) throw fault(panel, reveal, '0 or more', 'give a reveal of 0 or more');
  const whole = pierced(panel, dots);
  const outer = counterClockwise(panel.outline);
  const exact = whole.length === 1 && insetExactly(whole[0]!.outer, whole[0]!.holes, reveal);
  if (exact) return exact;
  const parts = offsetRegions(whole, -reveal, 'mitre');
  const [only] = parts;
  if (only && parts.length === 1) return only;
  const b = bounds(outer);
  const size = `${(b.maxX - b.minX).toFixed(1)} × ${(b.maxY - b.minY).toFixed(1)} mm`;
  throw only
    ? fault(panel, reveal, `less: it leaves ${parts.length} parts of the panel`, 'make it smaller')
    : fault(panel, reveal, `less: the panel is ${size} and nothing is left`, 'make it smaller');
}

const fault = (panel: Panel, reveal: number, allowed: string, advice: string) =>
  new ParamError('reveal', reveal, `on panel "${panel.id}" it must be ${allowed}`, advice);

function insetExactly(outer: Path, holes: readonly Path[], reveal: number): Region | undefined {
  const edge = offsetExactly(outer, -reveal, 'mitre');
  if (!edge || !(signedArea(edge) > 0)) return undefined;
  const grown: Path[] = [];
  for (const hole of holes) {
    // Run counter-clockwise, a window grows outward into the paper.
    const wider = offsetExactly(counterClockwise(hole), reveal, 'mitre');
    if (!wider || !isInside(bounds(wider), bounds(edge))) return undefined;
    if ([edge, ...grown].some(other => pathsMeet(other, wider))) return undefined;
    grown.push(wider);
  }
  return { outer: edge, holes: grown.map(clockwise) };
}

const isInside = (a: Bounds, b: Bounds) =>
  a.minX > b.minX && a.minY > b.minY && a.maxX < b.maxX && a.maxY < b.maxY;
