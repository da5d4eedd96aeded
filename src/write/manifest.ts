/**
 * `manifest.json`: what a run made, for the person, for the next run (which of the files are ours) and
 * for `inspect` (blade, sheets). Pure: the same facts give the same text.
 */
import { createHash } from 'node:crypto';
import type { Operation, PageTone, Sheet } from '../model.js';
import { FOLD_WAYS, MARK_SHAPES, OPERATIONS, PLAIN_IMPORT } from '../model.js';
import { count, list, number, numbersBy, object, oneOf, parseJson, text } from './checked-json.js';
import { CHECK_CUTTER, type ManifestCutter } from './manifest-cutter.js';
import { CHECK_IMPORT, importEntry, type ManifestImport } from './manifest-import.js';
import { CHECK_ITEMS, type ManifestItem } from './manifest-items.js';
import { CHECK_NETS, type ManifestNet } from './manifest-nets.js';
import { CHECK_PLACED, type ManifestPlaced } from './manifest-placed.js';
import { rounded } from './number.js';
import { CHECK_TONE } from './page-tone.js';
import { checkSize, ReadError } from './read-error.js';

const MOST_CHARACTERS = 64e6;

export interface ManifestFile {
  /** Relative to the manifest's folder, parts divided by `/`. */
  readonly path: string;
  readonly sha256: string;
  readonly bytes: number;
  /** What it holds, in words. */
  readonly holds: string;
}
export interface ManifestPlacement {
  readonly piece: string;
  readonly title: string;
  /** From the piece's frame to the sheet's: x' = a x + c y + e, y' = b x + d y + f (mm). */
  readonly at: readonly number[];
}
export interface ManifestMark {
  readonly name: string;
  readonly at: readonly number[];
  readonly shape: (typeof MARK_SHAPES)[number];
  readonly sizeMm: number;
  readonly strokeMm: number;
  /** Turned counter-clockwise by so many quarters. */
  readonly quarters: number;
}
export interface ManifestSheet {
  readonly id: string;
  readonly item: string;
  readonly stock: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly copies: number;
  readonly pieces: number;
  /** Tool travel with the tool down on one copy, mm, by operation. */
  readonly lengthsMm: Readonly<Partial<Record<Operation, number>>>;
  /** How far the lifted tools go on one copy, mm; and how far they would, line by line as drawn. */
  readonly travelMm: number;
  readonly travelAsDrawnMm: number;
  /** Estimated machine time of one copy, s. */
  readonly seconds: number;
  /** Paper of all copies, m². */
  readonly paperM2: number;
  /** How far the blade's tip leaves the drawing in this file, mm: at most, and for all but a hundredth of
   *  its track; and how far the drawing lies from what it cuts, likewise. All 0 where no blade works. */
  readonly tipErrorMm: number;
  readonly tipError99Mm: number;
  readonly uncutMm: number;
  readonly uncut99Mm: number;
  /** What `tipErrorMm` would be if nobody allowed for the blade's offset. */
  readonly uncompensatedMm: number;
  readonly compensatedBy: 'file' | 'cutter';
  readonly bladeOffsetMm: number;
  readonly overcutMm: number;
  /** Of a beam; 0 for a blade. */
  readonly kerfMm: number;
  readonly foldsBy: (typeof FOLD_WAYS)[number];
  /** Of the folds, what is scored while the sheet lies turned over (in the `.back` files): included in
   *  `lengthsMm.score`. */
  readonly fromBackMm: number;
  /** Register marks, by where they stand on the sheet and how they are printed. */
  readonly marks: readonly ManifestMark[];
  /** Its printed page; `null` where nothing but marks is printed, and in old manifests. */
  readonly tone: PageTone | null;
  readonly warnings: readonly string[];
  readonly placements: readonly ManifestPlacement[];
}
/** Where one half of a dot, sticker or magnet goes, on panel `a` of a net, in the net's frame. */
export interface ManifestClosure {
  readonly item: string;
  readonly net: string;
  readonly a: string;
  readonly b: string;
  readonly at: readonly number[];
  readonly diameterMm: number;
}
export interface Manifest {
  /** The version that wrote it; also what tells a manifest of ours from any other. */
  readonly foldwright: string;
  readonly job: string;
  readonly title: string;
  /** The stroke convention of the cut files. */
  readonly convention: string;
  /** How the cut files are written for the software that takes them. */
  readonly import: ManifestImport;
  /** `null` where an old run does not tell it. */
  readonly cutter: ManifestCutter | null;
  readonly items: readonly ManifestItem[];
  readonly files: readonly ManifestFile[];
  readonly sheets: readonly ManifestSheet[];
  readonly closures: readonly ManifestClosure[];
  /** What was checked of every net. */
  readonly laws: readonly string[];
  readonly nets: readonly ManifestNet[];
  /** Decorations by their pieces, as they are glued. */
  readonly placed: readonly ManifestPlaced[];
  readonly totals: {
    readonly sheets: number;
    readonly pieces: number;
    readonly seconds: number;
    readonly paperM2: number;
  };
  readonly warnings: readonly string[];
}

/** What a run knows of one sheet. Lengths in mm, of one copy. */
export interface SheetFacts {
  readonly item: string;
  readonly sheet: Sheet;
  readonly lengths: Readonly<Partial<Record<Operation, number>>>;
  readonly travel: number;
  readonly travelAsDrawn: number;
  readonly seconds: number;
  readonly tipError: number;
  readonly tipError99: number;
  readonly uncut: number;
  readonly uncut99: number;
  readonly uncompensated: number;
  readonly compensatedBy: 'file' | 'cutter';
  readonly bladeOffset: number;
  readonly overcut: number;
  readonly kerf: number;
  readonly foldsBy: (typeof FOLD_WAYS)[number];
  readonly fromBack: number;
  readonly tone: PageTone | null;
  readonly warnings: readonly string[];
}

/** What a run knows when it writes its manifest: entries made as the files were, so that no more than
 *  one item's bytes are held at a time. */
export interface ManifestFacts extends Omit<Manifest, 'foldwright' | 'totals'> {
  readonly version: string;
}

export const sha256 = (bytes: Uint8Array): string =>
  createHash('sha256').update(bytes).digest('hex');

export const fileEntry = (path: string, bytes: Uint8Array, holds: string): ManifestFile => ({
  path,
  sha256: sha256(bytes),
  bytes: bytes.length,
  holds,
});

/** Throws on numbers that are not finite. */
export function sheetEntry(s: SheetFacts): ManifestSheet {
  const { width, height, id } = s.sheet.stock;
  const present = OPERATIONS.filter(o => s.lengths[o] !== undefined);
  return {
    id: s.sheet.id,
    item: s.item,
    stock: id,
    widthMm: rounded(width, 3),
    heightMm: rounded(height, 3),
    copies: s.sheet.copies,
    pieces: s.sheet.placements.length,
    lengthsMm: Object.fromEntries(present.map(o => [o, rounded(s.lengths[o]!, 1)])),
    travelMm: rounded(s.travel, 1),
    travelAsDrawnMm: rounded(s.travelAsDrawn, 1),
    seconds: rounded(s.seconds, 0),
    paperM2: rounded((s.sheet.copies * width * height) / 1e6, 6),
    tipErrorMm: rounded(s.tipError, 6),
    tipError99Mm: rounded(s.tipError99, 6),
    uncutMm: rounded(s.uncut, 6),
    uncut99Mm: rounded(s.uncut99, 6),
    uncompensatedMm: rounded(s.uncompensated, 3),
    compensatedBy: s.compensatedBy,
    bladeOffsetMm: rounded(s.bladeOffset, 4),
    overcutMm: rounded(s.overcut, 4),
    kerfMm: rounded(s.kerf, 4),
    foldsBy: s.foldsBy,
    fromBackMm: rounded(s.fromBack, 1),
    marks: s.sheet.marks.map(({ name, at, style, quarters }) => ({
      name,
      at: at.map(v => rounded(v, 6)),
      shape: style.shape,
      sizeMm: rounded(style.size, 3),
      strokeMm: rounded(style.stroke, 3),
      quarters,
    })),
    tone: s.tone,
    warnings: s.warnings,
    placements: s.sheet.placements.map(({ piece, at }) => ({
      piece: piece.id,
      title: piece.title,
      at: at.map(v => rounded(v, 6)),
    })),
  };
}

/** Files are listed by path, sheets in the order given. Throws on a path that leads out of the folder
 *  and on one that is listed twice. */
function buildManifest(facts: ManifestFacts): Manifest {
  const files = [...facts.files].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  const { sheets } = facts;
  const sum = (of: (sheet: ManifestSheet) => number) => sheets.reduce((t, s) => t + of(s), 0);
  const manifest: Manifest = {
    foldwright: facts.version,
    job: facts.job,
    title: facts.title,
    convention: facts.convention,
    import: facts.import,
    cutter: facts.cutter,
    items: facts.items,
    files,
    sheets,
    closures: facts.closures.map(c => ({
      item: c.item,
      net: c.net,
      a: c.a,
      b: c.b,
      at: c.at.map(v => rounded(v, 6)),
      diameterMm: rounded(c.diameterMm, 3),
    })),
    laws: facts.laws,
    nets: facts.nets,
    placed: facts.placed,
    totals: {
      sheets: sum(s => s.copies),
      pieces: sum(s => s.copies * s.pieces),
      seconds: sum(s => s.copies * s.seconds),
      paperM2: rounded(
        sum(s => s.paperM2),
        6,
      ),
    },
    warnings: facts.warnings,
  };
  CHECK(manifest, '');
  return manifest;
}

/** Two spaces deep, a line break at the end. */
export const manifestText = (facts: ManifestFacts): string =>
  `${JSON.stringify(buildManifest(facts), undefined, 2)}\n`;

// ---- Reading -----------------------------------------------------------------------------------

/** A path inside the folder: no root, no drive, no `.` or `..`, no empty part, no backslash or colon, no
 *  control character, no space or full stop at a part's end (some systems drop those). */
const PATH_IN_FOLDER =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is refused
  /^(?!.*(^|\/)\.{1,2}(\/|$))[^/\\:\x00-\x1f\x7f]*[^/\\:\x00-\x1f\x7f .](\/[^/\\:\x00-\x1f\x7f]*[^/\\:\x00-\x1f\x7f .])*$/;

/** Manifests of our first runs say less. */
const OLDER = {
  convention: 'okabe-ito',
  import: importEntry(PLAIN_IMPORT),
  cutter: null,
  placed: [],
  items: [],
};
const BEFORE_NETS = { laws: [], nets: [] };
const OLDER_NET = { glue: [] };
const OLDER_SHEET = {
  travelMm: 0,
  travelAsDrawnMm: 0,
  overcutMm: 0,
  kerfMm: 0,
  foldsBy: 'tool',
  fromBackMm: 0,
  marks: [],
  tone: null,
  tipError99Mm: 0,
  uncutMm: 0,
  uncut99Mm: 0,
  uncompensatedMm: 0,
};
const OLDER_MARK = { shape: 'ring-and-cross', sizeMm: 8, strokeMm: 0.25, quarters: 0 };
const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const each = (all: unknown, grow: (one: object) => object) =>
  Array.isArray(all) ? all.map(one => (isObject(one) ? grow(one) : one)) : all;
const grownSheet = (sheet: { readonly marks?: unknown }) => {
  const known = { ...OLDER_SHEET, ...sheet };
  return { ...known, marks: each(known.marks, mark => ({ ...OLDER_MARK, ...mark })) };
};
function grown(value: unknown): unknown {
  if (!isObject(value)) return value;
  const known = { ...OLDER, ...('nets' in value ? {} : BEFORE_NETS), ...value };
  return {
    ...known,
    sheets: each(value.sheets, grownSheet),
    nets: each(known.nets, net => ({ ...OLDER_NET, ...net })),
  };
}

const strings = list(text());
const CHECK = (value: unknown, where: string): Manifest => {
  const manifest = object({
    foldwright: text(/^\d+\.\d+\.\d+/, 'a version'),
    job: text(),
    title: text(),
    convention: text(),
    import: CHECK_IMPORT,
    cutter: CHECK_CUTTER,
    items: CHECK_ITEMS,
    files: list(
      object({
        path: text(PATH_IN_FOLDER, 'a path inside the folder'),
        sha256: text(/^[0-9a-f]{64}$/, 'a SHA-256 in hex'),
        bytes: count,
        holds: text(),
      }),
    ),
    sheets: list(
      object({
        id: text(),
        item: text(),
        stock: text(),
        widthMm: number(0),
        heightMm: number(0),
        copies: count,
        pieces: count,
        lengthsMm: numbersBy(OPERATIONS),
        travelMm: number(0),
        travelAsDrawnMm: number(0),
        seconds: number(0),
        paperM2: number(0),
        tipErrorMm: number(0),
        tipError99Mm: number(0),
        uncutMm: number(0),
        uncut99Mm: number(0),
        uncompensatedMm: number(0),
        compensatedBy: oneOf('file', 'cutter'),
        bladeOffsetMm: number(0),
        overcutMm: number(0),
        kerfMm: number(0),
        foldsBy: oneOf(...FOLD_WAYS),
        fromBackMm: number(0),
        marks: list(
          object({
            name: text(),
            at: list(number()),
            shape: oneOf(...MARK_SHAPES),
            sizeMm: number(0),
            strokeMm: number(0),
            quarters: number(0, 3),
          }),
        ),
        tone: CHECK_TONE,
        warnings: strings,
        placements: list(object({ piece: text(), title: text(), at: list(number()) })),
      }),
    ),
    closures: list(
      object({
        item: text(),
        net: text(),
        a: text(),
        b: text(),
        at: list(number()),
        diameterMm: number(0),
      }),
    ),
    laws: strings,
    nets: CHECK_NETS,
    placed: CHECK_PLACED,
    totals: object({ sheets: count, pieces: count, seconds: number(0), paperM2: number(0) }),
    warnings: strings,
  })(grown(value), where);
  const seen = new Set<string>();
  for (const [i, { path }] of manifest.files.entries()) {
    // On some disks two names that differ in case are one file.
    const key = path.normalize('NFC').toLowerCase();
    if (seen.has(key)) {
      throw new ReadError(`${path} is listed twice`, `files[${i}].path`, 'write the job again');
    }
    seen.add(key);
  }
  return manifest;
};

/** A manifest of ours, checked field by field. Throws `ReadError` on anything else. */
export function parseManifest(source: string): Manifest {
  checkSize(source, MOST_CHARACTERS, 'no manifest of ours is so long');
  return parseJson(source, CHECK);
}
