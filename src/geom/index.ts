export * from './apart.js';
export * from './arc.js';
export {
  intersectRegions,
  pathsOverlap,
  subtractRegions,
  uniteContours,
  uniteRegions,
} from './boolean.js';
export * from './clip.js';
export * from './contain.js';
export { boxesMeet } from './crossing.js';
export * from './cut-at.js';
export * from './distance.js';
export * from './elliptical.js';
export * from './fit-arcs.js';
export * from './fit-cubics.js';
export * from './fit-polyline.js';
export * from './flatten.js';
export * from './grow-polygons.js';
export * from './hull.js';
export * from './intersect.js';
export * from './meet.js';
export { growRegions, type Join, offsetRegions } from './offset.js';
export * from './offset-exactly.js';
export * from './outward.js';
export * from './path.js';
export * from './slice.js';
export * from './solve.js';
export * from './spline.js';
export type * from './types.js';
export * from './vec.js';
