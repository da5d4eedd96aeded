/** Job files and presets: what the command line and the pipeline use of this room. */
export { type BoxCommand, boxDocument, type DecorCommand, decorDocument } from './command-line.js';
export { type Document, faultOfSize, MOST_BYTES } from './document.js';
export { type Fault, formatFault, formatFaults, inOrder, type Source } from './fault.js';
export { didYouMean, nearest } from './nearest.js';
export * from './presets.js';
export { type Library, type Part, type ReadJob, readJob } from './read-job.js';
