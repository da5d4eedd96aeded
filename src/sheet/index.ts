export { type ArrangeFault, type Arrangement, arrange } from './arrange.js';
export type { SheetOptions } from './footprint.js';
export { largestScale, offerText, sheetNeeded, shrunk } from './larger.js';
export { markInk, type PrintLayout, printLayout, wedgeBeside, wedgeInk } from './marks.js';
export { cutterReach, printable } from './reach.js';
export { scaleSquare } from './scale-square.js';
export { stampArea, stampSheet } from './stamp-page.js';
export { canBeTurned, sheetArts, sheetInk, sheetStrokes } from './strokes.js';
export { type TooBig, tooBig } from './too-big.js';
