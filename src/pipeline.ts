/**
 * The whole program on one screen. An item of a design becomes nets and pieces, then sheets, then
 * passes, then drawings, then files. No geometry here: each stage is a call into its room, from one
 * plain type to the next. `planItem` finds everything in a job that can be wrong and makes no bytes;
 * `makeSheet` makes them. Beside both, `proveNet` shows that each net folds: a net that does not is a
 * fault of its style's, told as a failed check.
 */
import { faceWarnings } from './box-faces.js';
import {
  type BoxKit,
  type BoxNets,
  boxNets,
  closuresOf,
  closuresOn,
  hingesOf,
  largerOffer,
  panelIn,
} from './box-nets.js';
import type { MotifTools } from './contracts.js';
import { netPiece } from './fold/index.js';
import { roundingWords } from './guide/index.js';
import type {
  Blade,
  Closure,
  Convention,
  Cutter,
  Decal,
  Design,
  Drawing,
  Folding,
  FormatId,
  Importing,
  Item,
  Net,
  Pass,
  Piece,
  PrintPage,
  Sheet,
  Stroke,
} from './model.js';
import { isFromBack } from './model.js';
import { type Decorated, decorationPieces } from './motifs/index.js';
import { carry, type Move } from './register/index.js';
import {
  type ArrangeFault,
  arrange,
  canBeTurned,
  scaleSquare,
  sheetArts,
  sheetInk,
  sheetStrokes,
} from './sheet/index.js';
import { driveLayers, planSides, type SheetReport, type TipError } from './tool/index.js';
import {
  CUT_WRITERS,
  type GuideFonts,
  type PageKit,
  PRINT_WRITERS,
  writeDrawingJson,
} from './write/index.js';

/** What a run works with beside the design. */
export interface Kit extends BoxKit {
  readonly captionFonts: Pick<PageKit, 'font'>;
  readonly guideFonts: GuideFonts;
}

/** A piece that fits no sheet of its stock, and what it belongs to beside the box itself. */
export interface SheetFault {
  readonly decoration: string | undefined;
  /** Its place in the list of the box's features. */
  readonly feature?: number;
  readonly message: string;
  /** What to do about it. */
  readonly hint?: string;
}

export interface PlannedItem {
  readonly item: Item;
  /** What is cut. */
  readonly nets: readonly Net[];
  /** Also those from one part of a net that is cut up to another; by the part of panel a. */
  readonly closures: readonly { readonly net: string; readonly closure: Closure }[];
  readonly warnings: readonly string[];
  /** Pieces that fit no sheet: these stop the batch. */
  readonly faults: readonly SheetFault[];
  readonly sheets: readonly Sheet[];
  /** What lies on which panel, in the order in which it is glued: for pictures. */
  readonly decals: readonly Decal[];
  /** The same of decorations without a box: they lie on nothing. */
  readonly loose: readonly Decal[];
  readonly box: BoxNets;
}

export function planItem(item: Item, design: Design, kit: Kit): PlannedItem {
  const box = boxNets(item, design, kit);
  const nets = box.parts.flat();
  const cut = cutOut(item, nets, design);
  const films = filmPieces(item, box);
  const decorated = decorate(item, box, design, kit.tools);
  const pieces = [...cut, ...films, ...decorated.flatMap(d => d.pieces)];
  const { sheets, faults: tooBig } = arrangeByStock(pieces, design);
  const misplaced = decorated.flatMap((d, i) =>
    d.faults.map((f): SheetFault => ({ decoration: item.decorations[i]!.name, ...f })),
  );
  const large = tooBig.map(({ piece, message }): SheetFault => {
    const i = decorated.findIndex(d => d.pieces.includes(piece));
    const decoration = item.decorations[i]?.name;
    if (cut.includes(piece)) {
      return { decoration, message, hint: largerOffer(item, design, kit, box) };
    }
    const film = box.pieces[films.indexOf(piece)];
    const feature = film ? item.box?.features?.indexOf(film.spec) : undefined;
    return { decoration, message, ...(feature !== undefined && { feature }) };
  });
  const faults = [...misplaced, ...large];
  const rounding = item.box?.rounding;
  const rounded = rounding ? [roundingWords(rounding, design.unit)] : [];
  const warnings = [...rounded, ...box.warnings, ...decorated.flatMap(d => d.warnings)];
  warnings.push(...faceWarnings(item, box, decorated), ...unprinted(pieces, design));
  const decals = decalsOf(item, box, decorated, design);
  const loose = item.box ? [] : looseOf(decorated, design);
  return { item, nets, closures: closuresOf(box), warnings, faults, sheets, decals, loose, box };
}

/** Art that none of the formats asked for prints. */
function unprinted(pieces: readonly Piece[], { formats }: Design): string[] {
  if (formats.some(f => PRINTED.includes(f)) || !pieces.some(p => p.art)) return [];
  return [`what is printed on it is in none of the files: add ${PRINTED.join(' or ')} to formats`];
}
const PRINTED: readonly FormatId[] = ['pdf', 'print-svg', 'print-png'];

/** A file of a sheet. `path` is relative to the job's folder. */
export interface MadeFile {
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly holds: string;
}
export interface MadeSheet {
  readonly sheet: Sheet;
  readonly report: SheetReport;
  /** Length of the folds that are scored while the sheet lies turned over, mm. */
  readonly fromBack: number;
  /** What is printed on it, if anything is. */
  readonly page?: PrintPage;
  readonly files: readonly MadeFile[];
}

/** The cut files of a sheet that lies turned over are named after it, with this. */
const BACK = 'back';

export async function makeSheet(
  item: Item,
  sheet: Sheet,
  design: Design,
  kit: Pick<Kit, 'captionFonts'>,
): Promise<MadeSheet> {
  const { importing, cutter } = design;
  const square = scaleSquare(sheet, cutter, importing.scaleSquare);
  const { strokes, warnings } = sided(sheet, cutter);
  const plan = planSides([...strokes, ...square.strokes], cutter, { sheet: sheet.stock });
  const told = [...plan.report.warnings, ...square.warnings, ...warnings];
  const made = drawings(item, sheet, plan.face.passes);
  const page = sheet.marks.length > 0 && printPage(item, sheet, made.drawn, design);
  const base = `${item.name}/${sheet.id}`;
  const files = cutFiles(base, made, design, `cut file, ${sheet.placements.length} pieces`);
  if (page) files.push(...(await printFiles(base, page, design, kit)));
  if (plan.back) {
    const turned = drawings(item, sheet, plan.back.passes, BACK);
    files.push(...cutFiles(`${base}.${BACK}`, turned, design, BACK_HOLDS));
  }
  const fromBack = plan.back?.report.lengths.score ?? 0;
  const report = { ...plan.report, warnings: told };
  return { sheet, report, fromBack, files, ...(page && { page }) };
}
const BACK_HOLDS = 'cut file of the sheet turned over, to be scored first';

/** What is worked of a sheet, and from which side. */
function sided(sheet: Sheet, { folds }: Cutter): { strokes: Stroke[]; warnings: string[] } {
  const strokes = sheetStrokes(sheet);
  if (canBeTurned(sheet) || !strokes.some(s => isFromBack(s, folds))) {
    return { strokes, warnings: [] };
  }
  return {
    strokes: strokes.map(({ operation, path }) => ({ operation, path })),
    warnings: [
      'it is printed, and its back has no register marks: all folds are scored from its face',
    ],
  };
}

/** The cut files of a sheet whose print lies elsewhere: `drawn` moved, then driven anew, since the
 *  blade's way round a corner does not follow the move. */
export function alignedFiles(
  drawn: Drawing,
  move: Move,
  { blade, foldsBy }: { readonly blade: Blade; readonly foldsBy: Folding['by'] },
  convention: Convention,
  importing: Importing,
): {
  readonly files: readonly { readonly ending: string; readonly text: string }[];
  readonly tip?: TipError;
} {
  const layers = drawn.layers.map(layer => ({
    ...layer,
    paths: layer.paths.map(path => carry(path, move)),
  }));
  const { layers: driven, tip } = driveLayers(layers, blade, foldsBy);
  const name = `${drawn.name} aligned`;
  const parts = partsOf({ ...drawn, name, layers: driven }, importing);
  const files = CUT_WRITERS.flatMap(w =>
    parts.map(({ drawing, part }) => ({
      ending: `cut${part}.${w.extension}`,
      text: w.write(drawing, convention, importing),
    })),
  );
  const before = writeDrawingJson({ ...drawn, name, layers });
  return {
    files: [...files, { ending: 'drawing.json', text: before }],
    ...(tip ? { tip } : {}),
  };
}

// ---- The stages --------------------------------------------------------------------------------

function cutOut(item: Item, nets: readonly Net[], design: Design): Piece[] {
  if (!item.box) return [];
  const stock = stockOf(design, item.box.stock);
  return nets.map(net => netPiece(net, stock, item.count));
}

/** Pieces that features add to a box: film behind its windows. */
function filmPieces(item: Item, { pieces }: BoxNets): Piece[] {
  return pieces.map(({ spec, what, panel, outline }, i) => ({
    id: `${what}-${i + 1}-${panel}`,
    title: `${item.name}: ${what} behind the ${spec.feature} of ${panel}`,
    name: { film: spec.feature, panel },
    stock: spec.film!,
    count: item.count,
    outline,
    holes: [],
    strokes: [],
  }));
}

function decorate(
  item: Item,
  box: BoxNets,
  design: Design,
  tools: MotifTools,
): readonly Decorated[] {
  return item.decorations.map(decoration => {
    const found = panelIn(box, decoration.panel);
    if (item.box && !found) {
      throw new Error(`a design with an unknown panel: ${decoration.panel}`);
    }
    const { bleed, stocks } = design;
    return decorationPieces(decoration, found?.panel, tools, {
      bleed,
      hinges: found ? hingesOf(found.net, found.panel.id) : [],
      colourOf: stock => stocks[stock]?.colour,
      count: item.count,
      itemName: item.name,
      closures: closuresOn(box, decoration.panel, decoration.face),
    });
  });
}

/** The panel of a decoration is looked up again: its id may stand in several nets. */
function decalsOf(
  item: Item,
  box: BoxNets,
  decorated: readonly Decorated[],
  design: Design,
): Decal[] {
  return decorated.flatMap(({ pieces, placed }, i) => {
    const found = panelIn(box, item.decorations[i]!.panel);
    if (!found) return [];
    const { net, panel } = found;
    const { over = [] } = item.decorations[i]!;
    const overhangs = over.includes('edge') || over.includes('hinge');
    return placed.map(({ piece: id, face: side, at, lift }): Decal => {
      const piece = pieces.find(p => p.id === id)!;
      const { colour } = stockOf(design, piece.stock);
      return { piece, net: net.id, panel: panel.id, side, at, colour, lift, overhangs };
    });
  });
}

function looseOf(decorated: readonly Decorated[], design: Design): Decal[] {
  return decorated.flatMap(({ pieces, placed }) =>
    placed.map(({ piece: id, face: side, at, lift }): Decal => {
      const piece = pieces.find(p => p.id === id)!;
      const { colour } = stockOf(design, piece.stock);
      return { piece, net: '', panel: '', side, at, colour, lift };
    }),
  );
}

/** Printed pieces go on sheets of their own, since those pass through the printer first. */
function arrangeByStock(
  pieces: readonly Piece[],
  design: Design,
): { sheets: Sheet[]; faults: ArrangeFault[] } {
  const { cutter, bleed, printMargin: margin, marks } = design;
  const groups = new Map<string, Piece[]>();
  for (const piece of pieces) {
    const key = `${piece.art ? 'print' : 'cut'} ${piece.stock}`;
    groups.set(key, [...(groups.get(key) ?? []), piece]);
  }
  const sheets: Sheet[] = [];
  const faults: ArrangeFault[] = [];
  for (const [key, group] of groups) {
    const stock = stockOf(design, group[0]!.stock);
    const print = key.startsWith('print ') ? { margin, bleed, marks } : undefined;
    const result = arrange(group, stock, { cutter, ...(print && { print }) });
    if (result.faults) faults.push(...result.faults);
    else {
      const before = sheets.filter(s => s.stock.id === stock.id).length;
      sheets.push(...result.sheets.map((s, i) => ({ ...s, id: `${stock.id}-${before + i + 1}` })));
    }
  }
  return { sheets, faults };
}

/** A sheet's passes as they are drawn and as they are driven. */
interface Drawings {
  readonly drawn: Drawing;
  readonly driven: Drawing;
}

function drawings(item: Item, sheet: Sheet, passes: readonly Pass[], side = ''): Drawings {
  const { width, height } = sheet.stock;
  const name = [item.name, sheet.id, side].filter(s => s !== '').join(' ');
  const of = (paths: 'drawn' | 'driven'): Drawing => {
    const layers = passes.map(p => ({ operation: p.operation, paths: p[paths] }));
    return { name, width, height, layers };
  };
  return { drawn: of('drawn'), driven: of('driven') };
}

const printPage = (item: Item, sheet: Sheet, drawing: Drawing, design: Design): PrintPage => ({
  drawing,
  arts: sheetArts(sheet, design.bleed),
  ink: sheetInk(sheet),
  captions: [design.title, `${item.title} (${item.name}, ${sheet.id})`],
});

async function printFiles(
  base: string,
  page: PrintPage,
  { dpi, formats, convention }: Design,
  kit: Pick<Kit, 'captionFonts'>,
): Promise<MadeFile[]> {
  const writers = PRINT_WRITERS.map(writerOf => writerOf({ ...kit.captionFonts, dpi }));
  const asked = writers.filter(w => (formats as string[]).includes(w.id));
  return Promise.all(
    asked.map(async writer => ({
      path: `${base}.print.${writer.extension}`,
      bytes: await writer.write(page, convention),
      holds: 'print file, to be printed before cutting',
    })),
  );
}

/** The cut files of one side of a sheet, and beside them what they were made from. */
function cutFiles(
  base: string,
  { drawn, driven }: Drawings,
  { formats, importing, convention }: Design,
  holds: string,
): MadeFile[] {
  const text = new TextEncoder();
  const writers = CUT_WRITERS.filter(w => (formats as string[]).includes(w.id));
  const files = writers.flatMap(writer =>
    partsOf(driven, importing).map(({ drawing, part }): MadeFile => {
      const bytes = text.encode(writer.write(drawing, convention, importing));
      return { path: `${base}.cut${part}.${writer.extension}`, bytes, holds };
    }),
  );
  const before = text.encode(writeDrawingJson(drawn));
  const asDrawn = 'the sheet as drawn, before the blade is allowed for';
  return [...files, { path: `${base}.drawing.json`, bytes: before, holds: asDrawn }];
}

/** One drawing for all operations, or one for each, named after it. */
function partsOf(drawing: Drawing, { files }: Importing): { drawing: Drawing; part: string }[] {
  if (files === 'together') return [{ drawing, part: '' }];
  return drawing.layers.map(layer => ({
    drawing: { ...drawing, layers: [layer] },
    part: `.${layer.operation}`,
  }));
}

function stockOf(design: Design, id: string) {
  const stock = design.stocks[id];
  if (!stock) throw new Error(`a design with an unknown stock: ${id}`);
  return stock;
}
