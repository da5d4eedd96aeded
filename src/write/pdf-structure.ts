/** The structure of a PDF (ISO 32000-1, 14.7): what is a heading, a list, a table, a figure and what it
 *  shows, in the order in which it is read. */
import type { Tag } from './figure.js';

export class PdfStructure {
  private readonly elements = new Map<Tag, PDFKit.PDFStructureElement>();
  private readonly roots: PDFKit.PDFStructureElement[] = [];

  constructor(private readonly doc: PDFKit.PDFDocument) {}

  /** Begins content that belongs to a tag, on the page that the document has come to. */
  begin(tag: Tag): void {
    this.element(tag).add(this.doc.markStructureContent(tag.type));
  }

  /** After all content. */
  end(): void {
    for (const root of this.roots) root.end();
  }

  /** Made when it is first used, after what holds it. */
  private element(tag: Tag): PDFKit.PDFStructureElement {
    const known = this.elements.get(tag);
    if (known) return known;
    const { type, within, alt, scope } = tag;
    const holder = within && this.element(within);
    const options = { ...(alt !== undefined && { alt }), ...(scope && { scope }) };
    const made = this.doc.struct(type, options);
    this.elements.set(tag, made);
    if (holder) holder.add(made);
    else {
      this.doc.addStructure(made);
      this.roots.push(made);
    }
    return made;
  }
}
