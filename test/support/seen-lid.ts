/** The outside of a lid of 60 by 40 mm as it is seen, square to the eye. */
import type { SeenPart } from '../../src/model.js';

export const seenLid: SeenPart = {
  net: 'box',
  panel: 'lid',
  side: 'outside',
  polygon: [
    [0, 0],
    [60, 0],
    [60, 40],
    [0, 40],
  ],
  edges: [true, true, true, true],
  light: 0.75,
  at: [1, 0, 0, 1, 0, 0],
};
