/** Which way is up on the panels of a closed box that stands on a table. */
import type { Net, Point } from '../model.js';
import { pose } from './pose.js';
import { after } from './space.js';
import { upright } from './stand.js';

/** A panel nearer to level than this (sine of its slope) has no way up: it is looked down on. */
const LEAST_SLOPE = 0.5;

/** The way up on each panel that stands or leans, as a unit vector in the net's frame; not of curled ones. */
export function waysUp(net: Net): ReadonlyMap<string, Point> {
  const stood = upright(net);
  const found = new Map<string, Point>();
  for (const { panel, frame, curl } of pose(net).values()) {
    const { x, y } = after(stood, frame);
    const slope = Math.hypot(x[2], y[2]);
    if (!curl && slope > LEAST_SLOPE) found.set(panel.id, [x[2] / slope, y[2] / slope]);
  }
  return found;
}
