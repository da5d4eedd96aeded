/** What the other rooms use of the guide. */
export type { CutNet, FoldedNet, Together } from './ask.js';
export type { Guide } from './facts.js';
export { makeGuide } from './make-guide.js';
export { partName, pieceName } from './names.js';
export { guidePage } from './page.js';
export { type Recipe, recipeFor } from './recipe.js';
export { noRecipeWords, recipeLines, roundingWords } from './recipe-words.js';
export { type HandBox, roundForHand } from './round.js';
export { foldText } from './step-words.js';
export { foldsDone } from './steps.js';
