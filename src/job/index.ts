/** Job files and presets: what the command line and the pipeline use of this room. */
export { type AnsweredCard, answerCard, type CardCommand } from './card-command.js';
export { type BoxCommand, boxDocument, type DecorCommand, decorDocument } from './command-line.js';
export { answerCutter, type CutterCommand, cutterText } from './cutter-command.js';
export { type Document, faultOfSize } from './document.js';
export { type Fault, formatFaults, inOrder, type Source } from './fault.js';
export { answerFit, type FitAnswer, type FitCommand, type FittedBox } from './fit-command.js';
export { type Measured, readMisses, readPositions } from './marks.js';
export { faultOfName, plainName } from './names.js';
export { nearest } from './nearest.js';
export { toolKind } from './preset-kinds.js';
export * from './presets.js';
export { type Library, type Part, type ReadJob, readJob } from './read-job.js';
export { STANDARD } from './standard.js';
