export { findMarks, type SeenMark, type SeenSheet, type Unseen } from './find-marks.js';
export { howItLies, type Lies } from './lies.js';
export { PictureError, readPicture } from './picture-file.js';
export { greyOf, type Picture } from './raster.js';
