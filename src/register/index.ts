export { type Alignment, type AlignOptions, align, type Refusal } from './align.js';
export { carry } from './carry.js';
export { type Distortion, distortionAt, distortionWords } from './distortion.js';
export type { Model, Move, Sighting } from './fit.js';
