/** Decorations: motifs, papers, lettering, and the pieces they become. */
export { artFor } from './art.js';
export { backingOutlines, outwardOf } from './backing.js';
export {
  type Decorated,
  type DecorateOptions,
  decorationPieces,
  type PlacedPiece,
} from './decorate.js';
export { letterLine, openFont } from './lettering.js';
export { MOTIFS } from './list.js';
export { overlayFor } from './overlay.js';
export { PATTERNS } from './patterns/index.js';
export { type FontFiles, makeMotifTools } from './tools.js';
