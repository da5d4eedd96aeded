/** Changing one panel of a net: its holes, its lines, part of its outline. */
import { clockwise, closedPath, cutPathAt, samePoint, steps } from '../../geom/index.js';
import type { Net, Panel, Path, Point, Segment, Stroke } from '../../model.js';

export function withPanel(net: Net, id: string, change: (panel: Panel) => Panel): Net {
  return { ...net, panels: net.panels.map(p => (p.id === id ? change(p) : p)) };
}

export const withHoles = (net: Net, id: string, holes: readonly Path[]): Net =>
  withPanel(net, id, p => ({ ...p, holes: [...p.holes, ...holes.map(clockwise)] }));

export const withStrokes = (net: Net, id: string, strokes: readonly Stroke[]): Net =>
  withPanel(net, id, p => ({ ...p, strokes: [...p.strokes, ...strokes] }));

/** The outline with what lies between two of its points, counter-clockwise, replaced. The segments
 *  end on `to`. */
export function replaced(outline: Path, from: Point, to: Point, by: readonly Segment[]): Path {
  const all = [...steps(cutPathAt(outline, [from, to]))];
  const start = all.findIndex(s => samePoint(s.from, from));
  const turned = [...all.slice(start), ...all.slice(0, start)];
  const end = turned.findIndex(s => samePoint(s.segment.to, to));
  if (start < 0 || end < 0) throw new Error('the stretch to replace is not on the outline');
  return closedPath(turned[0]!.from, [...by, ...turned.slice(end + 1).map(s => s.segment)]);
}
