/** A lid to decorate, and a plain decoration on it. */
import { rectangle } from '../../src/geom/index.js';
import type { Decoration, Panel } from '../../src/model.js';

export const lid: Panel = {
  id: 'lid',
  role: 'lid',
  // Off the origin, so that a mistaken frame shows.
  outline: rectangle(100, 200, 90, 60),
  holes: [],
  strokes: [],
};

/** A heart in the middle of the lid, where nothing else is said. */
export const onLid = (said: Partial<Decoration>): Decoration => ({
  name: 'one',
  panel: 'lid',
  face: 'outside',
  what: { kind: 'motif', motif: 'heart', values: { size: 30 } },
  at: [0, 0],
  turn: 0,
  stocks: { main: 'red' },
  backings: [],
  ...said,
});
