/** A PDF file as all of ours are begun and ended: version 1.7, and the same bytes for the same pages.
 *  Streams are left uncompressed: zlib's output differs between builds of Node. */
import type PDFDocument from 'pdfkit';

type Options = ConstructorParameters<typeof PDFDocument>[0];

/** `bytes` ends the document and gives all of it. Throws what pdfkit throws. */
export async function openPdf(
  title: string,
  options: Omit<NonNullable<Options>, 'info'> & { readonly subject?: string },
): Promise<{
  readonly doc: PDFKit.PDFDocument;
  readonly bytes: () => Promise<Uint8Array>;
}> {
  const { default: PDFDocument } = await import('pdfkit');
  const { subject, ...rest } = options;
  const doc = new PDFDocument({
    ...rest,
    compress: false,
    pdfVersion: '1.7',
    info: {
      Title: title,
      ...(subject !== undefined && { Subject: subject }),
      Creator: 'Foldwright',
      Producer: 'Foldwright',
      // A fixed date: the time of day is no part of a drawing.
      CreationDate: new Date(0),
    },
  });
  const chunks: Uint8Array[] = [];
  const finished = new Promise<void>((resolve, reject) => {
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('end', resolve);
    doc.on('error', reject);
  });
  const bytes = async () => {
    doc.end();
    await finished;
    return Buffer.concat(chunks);
  };
  return { doc, bytes };
}
