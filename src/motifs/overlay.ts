/** Overlays: paper cut to sit on a panel, smaller by the reveal all round. */
import {
  bounds,
  clockwise,
  counterClockwise,
  offsetExactly,
  offsetRegions,
  pathsMeet,
  signedArea,
} from '../geom/index.js';
import type { Bounds, Panel, Path, Region } from '../model.js';
import { ParamError } from '../params.js';

/**
 * The overlay for any panel, in the panel's own frame: its outline moved inward by the reveal, its
 * windows outward, so that `reveal` mm of the panel shows along every edge. Rounded corners keep
 * the panel's middles; sharp ones stay sharp. Lines and arcs stay so where the panel has only
 * these. Throws `ParamError` when the reveal leaves nothing, or more than one part.
 */
export function overlayFor(panel: Panel, reveal: number): Region {
  if (!(reveal >= 0)) throw fault(panel, reveal, '0 or more', 'give a reveal of 0 or more');
  const outer = counterClockwise(panel.outline);
  const holes = panel.holes.map(clockwise);
  const exact = insetExactly(outer, holes, reveal);
  if (exact) return exact;
  const parts = offsetRegions([{ outer, holes }], -reveal, 'mitre');
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
