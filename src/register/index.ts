export { type Alignment, type AlignOptions, align, type Refusal } from './align.js';
export { carry } from './carry.js';
export { type Distortion, distortionAt, distortionWords } from './distortion.js';
export { MODELS, type Model, type Move, moved, type Sighting } from './fit.js';
