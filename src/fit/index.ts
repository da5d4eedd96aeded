/** Treats in a box: how they may lie, the space they need, and which box takes the least paper. */
export {
  arranged,
  arrangementsFor,
  type Choice,
  type Fullest,
  fullest,
  laid,
  type Outline,
  outlinesFor,
  snug,
} from './arrange-treats.js';
export { liesKnown } from './lies.js';
