/** The writers, in the order in which they are listed. */
import type { CutWriter, PrintWriter } from '../contracts.js';
import { dxf } from './dxf.js';
import type { PageKit } from './page-kit.js';
import { pdfWriter } from './pdf.js';
import { printPngWriter } from './print-png.js';
import { printSvgWriter } from './print-svg.js';
import { svg } from './svg.js';

export const CUT_WRITERS: readonly CutWriter[] = [svg, dxf];

/** Print writers set words, so each is made with the files of a face. */
export const PRINT_WRITERS: readonly ((kit: PageKit) => PrintWriter)[] = [
  pdfWriter,
  printSvgWriter,
  printPngWriter,
];

export { artPaths, previewPath } from './art-paths.js';
export { cardPage } from './card-page.js';
export { contactPage } from './contact-page.js';
export { contactPicture } from './contact-picture.js';
export { readDrawingJson, writeDrawingJson } from './drawing-json.js';
export { flatPicture, loosePicture } from './flat-picture.js';
export { type FoldedSubject, foldedPicture } from './folded-picture.js';
export { writeGuideHtml } from './guide-html.js';
export { writeGuidePdf } from './guide-pdf.js';
export { type InspectedSheet, inspectPicture } from './inspect-picture.js';
export {
  fileEntry,
  type Manifest,
  type ManifestClosure,
  type ManifestFacts,
  type ManifestFile,
  type ManifestSheet,
  manifestText,
  parseManifest,
  sheetEntry,
} from './manifest.js';
export { cutterEntry } from './manifest-cutter.js';
export { importEntry, importingOf } from './manifest-import.js';
export { itemEntry, type ManifestItem } from './manifest-items.js';
export { type ManifestNet, netEntry } from './manifest-nets.js';
export { type ManifestPlaced, placedEntry } from './manifest-placed.js';
export { writeNetJson } from './net-json.js';
export { type CutFileKind, checkKind } from './other-kinds.js';
export { type OverlayLine, overlayPng } from './overlay.js';
export type { PageKit } from './page-kit.js';
export { pageTone } from './page-tone.js';
export { drawingPicture, type Letter, type PictureSubject } from './picture.js';
export { toPng } from './png.js';
export { type PageProgram, previewPage } from './preview-page.js';
export { readDxf } from './read-dxf.js';
export { ReadError } from './read-error.js';
export { readOwnSvg } from './read-own-svg.js';
export { readSvg } from './read-svg.js';
export type { ImportWay, Reading, ReadOptions } from './reading.js';
export { readingFindings } from './reading-findings.js';
export type { GuideFonts } from './text-metrics.js';
export { type TreatSubject, treatPicture } from './treat-picture.js';
