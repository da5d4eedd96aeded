/** What the other rooms use of folding. */
export { gluedFaces } from './areas.js';
export type { Assembly } from './assembly.js';
export { checkNet } from './check.js';
export { type Split, splitNets } from './cut-up.js';
export { netFacts } from './facts.js';
export { type Finding, LAWS, type Law } from './finding.js';
export { gathering } from './gather.js';
export { drawNet, type NetDrawing, netPiece } from './outline.js';
export type { Folding, Pose } from './pose.js';
export { type Proof, type Proven, proveNet, proveWay } from './prove.js';
export { litParts, type Standing, seenParts } from './seen.js';
export { standingExtent } from './stand.js';
export { togetherFindings } from './together.js';
export { waysUp } from './up.js';
export type { ViewPoint } from './view.js';
