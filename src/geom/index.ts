export * from './arc.js';
export * from './meet.js';
export * from './offset-exactly.js';
export * from './path.js';
export * from './slice.js';
export type * from './types.js';
export * from './vec.js';
