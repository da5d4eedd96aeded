/** What the other rooms use of the guide. */
export { type Recipe, recipeFor } from './recipe.js';
export { recipeLines, roundingWords } from './recipe-words.js';
export { type HandBox, roundForHand } from './round.js';
