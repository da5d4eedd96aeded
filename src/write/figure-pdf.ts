/** Figures as PDF operators (ISO 32000-1, 8.5), in mm with y up. */
import { arcsToCubics, bounds } from '../geom/index.js';
import type { Art, Path, Point } from '../model.js';
import { type Figure, type Line, type Mark, plainColour, type Tag, type Words } from './figure.js';
import { exact, num } from './number.js';
import { artFillOperators, placeOperators, rgb } from './pdf-content.js';
import type { PdfFace } from './pdf-face.js';
import type { PdfStructure } from './pdf-structure.js';

/** Hundredths of a millimetre: a quarter of a dot at 600 dots an inch. */
const short = (value: number): string => {
  if (!Number.isFinite(value)) throw new RangeError(`${value} cannot stand in a figure`);
  return String(Math.round(value * 100) / 100 + 0);
};
const at = ([x, y]: Point): string => `${short(x)} ${short(y)}`;

/** Path construction, in the steps of a picture. */
function pathOperators(path: Path): string {
  let out = `${at(path.start)} m`;
  const curved = path.segments.some(s => s.kind === 'arc') ? arcsToCubics(path) : path;
  for (const s of curved.segments) {
    out += s.kind === 'cubic' ? `\n${at(s.c1)} ${at(s.c2)} ${at(s.to)} c` : `\n${at(s.to)} l`;
  }
  return path.closed ? `${out} h` : out;
}

/** pdfkit's parts that its types leave out. */
interface Insides {
  readonly page: { readonly xobjects: Record<string, unknown> };
}

type ShapeMark = Extract<Mark, { kind: 'shape' }>;

/** Paints figures on the pages of one document. */
export class PdfBrush {
  /** Art that has been written, by its name and its reference: once a document. */
  private readonly arts = new Map<Art, { readonly name: string; readonly form: unknown }>();
  private content: string[] = [];

  constructor(
    private readonly doc: PDFKit.PDFDocument,
    private readonly regular: PdfFace,
    private readonly bold: PdfFace,
    private readonly structure: PdfStructure,
  ) {}

  /** The figure on the page that the document has come to, by its lower left corner. What has no tag is
   *  an artifact, which is not read. */
  page({ marks }: Figure, frame: string): void {
    this.content.push(frame);
    let i = 0;
    while (i < marks.length) {
      const tag = tagOf(marks[i]!);
      let end = i + 1;
      while (end < marks.length && tagOf(marks[end]!) === tag) end++;
      this.flush();
      if (tag) this.structure.begin(tag);
      else this.doc.markContent('Artifact');
      for (const mark of marks.slice(i, end)) this.mark(mark);
      this.flush();
      this.doc.endMarkedContent();
      i = end;
    }
  }

  /** Many operators at once: pdfkit turns each addition into a buffer of its own. */
  private flush(): void {
    if (this.content.length > 0) this.doc.addContent(this.content.join('\n'));
    this.content = [];
  }

  private figure(figure: Figure, [x, y]: readonly [number, number], scale: number): void {
    this.content.push(`q ${exact(scale)} 0 0 ${exact(scale)} ${num(x)} ${num(y)} cm`);
    for (const mark of figure.marks) this.mark(mark);
    this.content.push('Q');
  }

  private mark(mark: Mark): void {
    const { content } = this;
    if (mark.kind === 'words') this.words(mark);
    else if (mark.kind === 'tagged') for (const inner of mark.marks) this.mark(inner);
    else if (mark.kind === 'placed') this.figure(mark.figure, mark.at, mark.scale ?? 1);
    else if (mark.kind === 'blurred') for (const inner of mark.marks) this.mark(inner);
    else if (mark.kind === 'clip') {
      content.push('q', mark.by.map(pathOperators).join('\n'), mark.all ? 'W n' : 'W* n');
      for (const inner of mark.marks) this.mark(inner);
      // A new list may have been begun inside.
      this.content.push('Q');
    } else if (mark.kind === 'art') content.push(placeOperators(this.form(mark.art), mark.at));
    else this.shape(mark.kind === 'soft' ? meanOf(mark) : mark);
  }

  private shape({ paths, all, fill, opacity, line }: ShapeMark): void {
    if (paths.length === 0) return;
    this.content.push('q');
    if (fill) this.content.push(`${rgb(plainColour(fill))} rg`);
    if (opacity !== undefined) {
      this.flush();
      this.doc.fillOpacity(opacity);
    }
    if (line) this.content.push(lineOperators(line));
    const how = fill ? `${line ? 'B' : 'f'}${all ? '' : '*'}` : 'S';
    this.content.push(paths.map(pathOperators).join('\n'), how, 'Q');
  }

  private words({ text, size, at, anchor, turned, bold, colour }: Words): void {
    const { width, operators } = (bold ? this.bold : this.regular).line(text, size);
    const back = anchor === 'start' ? 0 : anchor === 'end' ? width : width / 2;
    const [x, y] = turned ? [at[0], at[1] - back] : [at[0] - back, at[1]];
    const turn = turned ? '0 1 -1 0' : '1 0 0 1';
    this.content.push(
      `BT ${rgb(plainColour(colour))} rg ${turn} ${num(x)} ${num(y)} Tm ${operators} ET`,
    );
  }

  /** The name of an art's form on this page, written where it is new. */
  private form(art: Art): string {
    let known = this.arts.get(art);
    if (!known) {
      const { minX, minY, maxX, maxY } = bounds(art.bleed);
      const form = this.doc.ref({
        Type: 'XObject',
        Subtype: 'Form',
        FormType: 1,
        BBox: [minX - 1, minY - 1, maxX + 1, maxY + 1],
        Resources: {},
      });
      form.end(artFillOperators(art));
      known = { name: `Art${this.arts.size}`, form };
      this.arts.set(art, known);
    }
    (this.doc as unknown as Insides).page.xobjects[known.name] = known.form;
    return known.name;
  }
}

/** One colour for a fill that changes. */
function meanOf({ paths, ends: [a, b] }: Extract<Mark, { kind: 'soft' }>): ShapeMark {
  const [p, q] = [a, b].map(e => Number.parseInt(e.colour.slice(1), 16)) as [number, number];
  const part = (shift: number) =>
    Math.round((((p >> shift) & 255) + ((q >> shift) & 255)) / 2)
      .toString(16)
      .padStart(2, '0');
  const fill = `#${part(16)}${part(8)}${part(0)}` as const;
  const opacity = (a.opacity + b.opacity) / 2;
  return { kind: 'shape', paths, all: true, fill, ...(opacity < 1 && { opacity }) };
}

const tagOf = (mark: Mark): Tag | undefined => (mark.kind === 'tagged' ? mark.tag : undefined);

function lineOperators({ colour, width, dash = [], round }: Line): string {
  const ends = round ? '1 J 1 j ' : '';
  return `${rgb(plainColour(colour))} RG ${num(width)} w ${ends}[${dash.map(num).join(' ')}] 0 d`;
}
