/** Decorations: motifs, papers, lettering, and the pieces they become. */
export { collisionWarnings, type OnFace } from './collisions.js';
export { cutThrough } from './cut-through.js';
export { type Decorated, type DecorateOptions, decorationPieces } from './decorate.js';
export { keepLeastWidth } from './least-width.js';
export { MOTIFS } from './list.js';
export { motifOutline } from './outline.js';
export { ownArt } from './own-art.js';
export { PATTERNS } from './patterns/index.js';
export { type FontFiles, makeMotifTools } from './tools.js';
