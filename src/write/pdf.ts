/**
 * Print files: one page of the sheet's true size. On paper come the art (clipped to its bleed), the
 * register marks, the scale bar and the captions. The lines of the tools are optional content, off at
 * first and never printed, named after ISO 19593-1's processing steps.
 */
import type { PrintWriter } from '../contracts.js';
import { bounds } from '../geom/index.js';
import type { Art, Convention, Operation, PrintPage } from '../model.js';
import { captionsOf } from './captions.js';
import { onGrid } from './number.js';
import type { PageKit } from './page-kit.js';
import {
  artOperators,
  boxOperators,
  clearOperators,
  fillOperators,
  matrixOperators,
  placeOperators,
  rgb,
  strokeOperators,
} from './pdf-content.js';
import { openPdf } from './pdf-file.js';
import { openLettering } from './pdf-lettering.js';
import { inWorkingOrder } from './svg.js';

/** Default user space is 1/72 inch (ISO 32000-1, 8.3.2.3). */
export const POINTS_PER_MM = 72 / 25.4;

/** Width of the tools' lines, mm, of the series in ISO 128. */
const TOOL_LINE_MM = 0.25;

/** Group and type names from the list in check-values.md section 2.4. A pen is no processing step of
 *  the standard's, so `draw` is a plain layer. */
const PROCESSING_STEP: Readonly<Partial<Record<Operation, string>>> = {
  score: 'Creasing',
  perforate: 'Perforating',
  cut: 'Cutting',
};
const LAYER_TITLE: Readonly<Record<Operation, string>> = {
  draw: 'Draw',
  score: 'Score',
  perforate: 'Perforate',
  cut: 'Cut',
  register: 'Register marks',
};

/** pdfkit's parts that its types leave out. */
interface Insides {
  readonly _root: { readonly data: Record<string, unknown> };
  readonly page: {
    readonly dictionary: { readonly data: Record<string, unknown> };
    readonly resources: { readonly data: Record<string, unknown> };
    readonly xobjects: Record<string, unknown>;
  };
}

/** Optional content: a layer for each operation of the drawing but the marks, off and unprinted. */
function writeToolLayers(doc: PDFKit.PDFDocument, page: PrintPage, convention: Convention): void {
  const layers = inWorkingOrder(page.drawing).filter(l => l.operation !== 'register');
  if (layers.length === 0) return;
  const insides = doc as unknown as Insides;
  const groups = layers.map(({ operation, paths }, i) => {
    const step = PROCESSING_STEP[operation];
    const group = doc.ref({
      Type: 'OCG',
      Name: new String(LAYER_TITLE[operation]),
      Usage: { Print: { PrintState: 'OFF' }, View: { ViewState: 'OFF' } },
      ...(step && {
        GTS_Metadata: { GTS_ProcStepsGroup: 'Structural', GTS_ProcStepsType: step },
      }),
    });
    group.end(undefined);
    const { colour, dash } = convention.operations[operation];
    doc.addContent(`/OC /OC${i} BDC`);
    doc.addContent(strokeOperators(paths, `${rgb(colour)} RG`, TOOL_LINE_MM, dash));
    doc.addContent('EMC');
    return group;
  });
  insides.page.resources.data.Properties = Object.fromEntries(groups.map((g, i) => [`OC${i}`, g]));
  insides._root.data.OCProperties = {
    OCGs: groups,
    D: {
      Name: new String('Print'),
      Order: groups,
      ON: [],
      OFF: groups,
      AS: [
        { Event: 'View', Category: ['View'], OCGs: groups },
        { Event: 'Print', Category: ['Print'], OCGs: groups },
      ],
    },
  };
}

/** Every art is written once, however often it lies on the sheet. */
function writeArts(doc: PDFKit.PDFDocument, { arts, drawing }: PrintPage): void {
  const forms = new Map<Art, string>();
  for (const { art, at, clear } of arts) {
    let name = forms.get(art);
    if (name === undefined) {
      name = `Art${forms.size}`;
      forms.set(art, name);
      const { minX, minY, maxX, maxY } = bounds(art.bleed);
      const form = doc.ref({
        Type: 'XObject',
        Subtype: 'Form',
        FormType: 1,
        BBox: [minX - 1, minY - 1, maxX + 1, maxY + 1],
        Resources: {},
      });
      form.end(artOperators(art));
      (doc as unknown as Insides).page.xobjects[name] = form;
    }
    const place = placeOperators(name, at);
    doc.addContent(clear ? clearOperators(clear, drawing, place) : place);
  }
}

/** The print writer. A sheet with no white paper left for the captions gets none of them. */
export function pdfWriter({ font }: Pick<PageKit, 'font'>): PrintWriter {
  const files = font instanceof Uint8Array ? [font] : font;
  return {
    id: 'pdf',
    summary: 'PDF of true size: printed art, register marks, scale bar, tool lines as layers',
    extension: 'pdf',
    async write(page, convention) {
      const { drawing } = page;
      const size = [drawing.width, drawing.height].map(mm => onGrid(mm) * POINTS_PER_MM);
      const { doc, bytes } = await openPdf(drawing.name, {
        size: size as [number, number],
        margin: 0,
      });
      const insides = doc as unknown as Insides;
      insides.page.dictionary.data.TrimBox = [0, 0, ...size];
      insides._root.data.ViewerPreferences = doc.ref({ PrintScaling: 'None' });
      const add = (operators: string) => doc.addContent(operators);

      // pdfkit begins a page with points and y down: back to y up, then to mm.
      add(`1 0 0 -1 0 ${size[1]} cm`);
      add(`${POINTS_PER_MM} 0 0 ${POINTS_PER_MM} 0 0 cm`);
      writeArts(doc, page);
      for (const { lines, width, solids } of page.ink) {
        if (lines.length > 0) add(strokeOperators(lines, '0 G', width));
        if (solids.length > 0) add(fillOperators(solids, '0 g'));
      }
      const lettering = openLettering(doc, files);
      const captions = captionsOf(page, lettering.width);
      if (captions) {
        add(`q 0 g ${matrixOperators(captions.at)}`);
        for (const box of captions.boxes) add(boxOperators(...box));
        for (const { text, x, y, size } of captions.lines) lettering.write(text, x, y, size);
        add('Q');
      }
      writeToolLayers(doc, page, convention);
      return bytes();
    },
  };
}
