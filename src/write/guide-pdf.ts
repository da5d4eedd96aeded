/** A guide as PDF: real text in reading order, fonts embedded, the same bytes for the same guide. */
import type { GuidePage, GuidePaper } from '../guide-model.js';
import { PdfBrush } from './figure-pdf.js';
import { layoutGuide } from './guide-layout.js';
import { spelled } from './guide-spelling.js';
import { onGrid } from './number.js';
import { PAGE_SIZES } from './page-flow.js';
import { POINTS_PER_MM } from './pdf.js';
import { openFace } from './pdf-face.js';
import { openPdf } from './pdf-file.js';
import { PdfStructure } from './pdf-structure.js';
import { type GuideFonts, textMetrics } from './text-metrics.js';

/** The bytes, and the characters that the fonts lack. */
export async function writeGuidePdf(
  asked: GuidePage,
  paper: GuidePaper,
  fonts: GuideFonts,
): Promise<{ readonly bytes: Uint8Array; readonly missing: readonly string[] }> {
  const metrics = textMetrics(fonts);
  const { page, missing } = spelled(asked, metrics);
  const figures = layoutGuide(page, PAGE_SIZES[paper], metrics);
  const { doc, bytes } = await openPdf(page.title, {
    autoFirstPage: false,
    // None of the standard fonts, whose tables would be read for each document.
    font: '',
    lang: page.lang,
    displayTitle: true,
    tagged: true,
    subject: page.job,
  });
  const structure = new PdfStructure(doc);
  let brush: PdfBrush | undefined;
  for (const figure of figures) {
    const size = [figure.width, figure.height].map(mm => onGrid(mm) * POINTS_PER_MM);
    doc.addPage({ size: size as [number, number], margin: 0 });
    brush ??= new PdfBrush(
      doc,
      openFace(doc, fonts.regular, 'regular', false),
      openFace(doc, fonts.bold, 'bold', true),
      structure,
    );
    // pdfkit begins a page with points and y down: back to y up, then to mm.
    const k = POINTS_PER_MM;
    brush.page(figure, `1 0 0 -1 0 ${size[1]} cm ${k} 0 0 ${k} 0 0 cm`);
  }
  structure.end();
  return { bytes: await bytes(), missing };
}
