/** Treats in a box: how they may lie, the space they need, and which box takes the least paper. */
export {
  arrangementsFor,
  type Choice,
  type Fullest,
  fullest,
  type Outline,
  outlinesFor,
} from './arrange-treats.js';
export {
  type BoxChoice,
  type Choices,
  chooseBoxes,
  type Question,
  type Refusal,
  type SheetYield,
} from './choose-box.js';
export { cellsOf, holesOf, INSERTS, type Insert, insertValues, spacedFor } from './inserts.js';
export type { Blank, Sheet, StyleAsked } from './least-paper.js';
export { liesKnown } from './lies.js';
export { laid, placedIn, roundAbout } from './move.js';
export { arrangementWords, treatWords } from './words.js';
