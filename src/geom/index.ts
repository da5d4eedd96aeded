export * from './arc.js';
export * from './path.js';
export type * from './types.js';
export * from './vec.js';
