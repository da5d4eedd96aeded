export { findMarks, type SeenMark, type SeenSheet, type Unseen } from './find-marks.js';
export { howItLies, type Lies } from './lies.js';
export { printLikeness } from './other-sheet.js';
export { PictureError, readPicture, writePicture } from './picture-file.js';
export { greyOf, type Picture } from './raster.js';
export type { TracedImage } from './trace.js';
export { GRID_MM, type PageOptions, tracePage } from './trace-page.js';
