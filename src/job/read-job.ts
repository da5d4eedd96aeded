/**
 * A job file to a design: every default filled in, every name looked up, every box built once. Or
 * all that is wrong with it, each fault at its place.
 */
import { GUIDE_PAPERS } from '../guide-model.js';
import {
  type Convention,
  type Cutter,
  type Design,
  DXF_KINDS,
  FORMATS,
  type FormatId,
  IMPORT_FILES,
  IMPORT_ORIGINS,
  IMPORT_Y,
  type Importing,
  type MarkStyle,
  PLAIN_IMPORT,
} from '../model.js';
import type { PlacedItem } from './asked.js';
import { type Context, type Library, presetOrOwn, readPapers } from './context.js';
import { leastWidthOf } from './decoration-layers.js';
import { type Document, type Entry, readDocument } from './document.js';
import { type Fault, inOrder, type Source, type Span } from './fault.js';
import { readItems } from './items.js';
import { titleFrom } from './names.js';
import { readConvention, readCutter, readMarks } from './preset-kinds.js';
import { countOf, lengthOf } from './quantities.js';
import {
  ask,
  choiceOf,
  type Fields,
  fields,
  headOf,
  listOf,
  type Reading,
  readUnits,
  safeName,
  startReading,
  titleOf,
} from './reading.js';
import { STANDARD } from './standard.js';

export type { Library } from './context.js';

/** Parts of an item that a later stage may find at fault. */
export type Part =
  | 'name'
  | 'size'
  | 'stock'
  | { readonly decoration: string }
  | { readonly feature: number };

export interface ReadJob {
  readonly design: Design;
  /** A fault of an item that was found after the job was read, at its place in the job. */
  faultOf(
    item: string,
    part: Part,
    message: string,
    more?: { allowed?: string; hint?: string },
  ): Fault;
}

const KEYS = [
  'job',
  'title',
  'units',
  'cutter',
  'convention',
  'marks',
  'formats',
  'bleed',
  'print-margin',
  'import',
  'dpi',
  'guide-paper',
  'least-width',
  'stock',
  'stocks',
  'decorations',
  'boxes',
  'tables',
  'decor',
] as const;

/** Less than 1 mm does not hide a printer's drift; more than 10 wastes paper. */
const BLEED_MM = { least: 0, most: 10 };
const IMPORT_KEYS = ['svg-units', 'origin', 'y', 'dxf', 'files', 'scale-square'] as const;
/** A square that a ruler measures to half a per cent. */
const SCALE_SQUARE_MM = { least: 10, most: 100 };
const PRINT_MARGIN_MM = { least: 0, most: 30 };
/** Below 100 the marks' lines blur; above 600 a picture of 12 x 12 in has more than 50 million pixels. */
const DPI = { least: 100, most: 600 };

/** Reads a job. Never throws for what a person wrote. */
export function readJob(
  source: Source | Document,
  library: Library,
): ReadJob | { readonly faults: readonly Fault[] } {
  const read = 'root' in source ? { document: source } : readDocument(source);
  if ('faults' in read) return read;
  const r = startReading(read.document, 'mm');
  const made = readRoot(r, library);
  if (!made || r.faults.length > 0) return { faults: inOrder(r.faults) };
  return made;
}

function readRoot(r: Reading, library: Library): ReadJob | undefined {
  const { root } = r.document;
  if (root.kind === 'empty') {
    return r.fault({ start: 0, end: 1 }, 'the job is empty', {
      hint: 'begin with  job: a-name  and a list of boxes:',
    });
  }
  const f = fields(r, root, 'a job', KEYS, ['job'], { start: 0, end: 1 });
  if (!f) return undefined;
  readUnits(r, f);
  const name = ask(f, 'job', e => safeName(r, e, 'job'));
  const title = ask(f, 'title', e => titleOf(r, e, 'title'));
  const cutter = named(r, library, 'cutter', f, STANDARD.cutter, (base: Cutter | undefined, e) =>
    readCutter(r, e, 'own', base, ['like']),
  );
  const convention = named(
    r,
    library,
    'convention',
    f,
    STANDARD.convention,
    (base: Convention | undefined, e) => readConvention(r, e, 'own', base, ['like']),
  );
  const marks = named(
    r,
    library,
    'mark',
    f,
    STANDARD.mark,
    (base: MarkStyle | undefined, e) => readMarks(r, e, 'own', base, ['like']),
    'marks',
  );
  const formats = ask(f, 'formats', e => readFormats(r, e)) ?? STANDARD.formats;
  const bleed = ask(f, 'bleed', e => lengthOf(r, e, 'bleed', BLEED_MM)) ?? STANDARD.bleed;
  const printMargin =
    ask(f, 'print-margin', e => lengthOf(r, e, 'print-margin', PRINT_MARGIN_MM)) ??
    STANDARD.printMargin;
  const importing = ask(f, 'import', e => readImporting(r, e)) ?? PLAIN_IMPORT;
  const dpi = ask(f, 'dpi', e => countOf(r, e, 'dpi', DPI)) ?? STANDARD.dpi;
  const paper = ask(f, 'guide-paper', e => choiceOf(r, e, 'guide-paper', GUIDE_PAPERS));
  const papers = readPapers(r, library, f.get('stocks'), f.get('stock'));
  const leastWidth = ask(f, 'least-width', e => leastWidthOf(r, e));
  const c: Context = { r, library, papers, cutter, leastWidth };
  const placed = readItems(c, f);
  if (!cutter || !convention || !marks || name === undefined) return undefined;
  const unit = r.unit === 'in' ? 'in' : 'mm';
  const design: Design = {
    name,
    title: title ?? titleFrom(name),
    items: placed.map(p => p.item),
    stocks: papers.all(),
    cutter,
    convention,
    formats,
    unit,
    bleed,
    printMargin,
    marks,
    importing,
    dpi,
    // Who measures in inches has Letter in the printer.
    guidePaper: paper ?? (unit === 'in' ? 'letter' : 'a4'),
  };
  return { design, faultOf: faultsOf(r, placed) };
}

/** `key` is the job's word for it. */
function named<K extends 'cutter' | 'convention' | 'mark', T>(
  r: Reading,
  library: Library,
  kind: K,
  f: Fields,
  standard: string,
  read: (base: T | undefined, entry: Entry) => T | undefined,
  key: string = kind,
): T | undefined {
  if (f.pair(key) && !f.get(key)) return undefined;
  const entry = f.get(key) ?? { kind: 'text', text: standard, at: f.at };
  return presetOrOwn(r, library, kind, entry, read);
}

/** What the software asks that the cut files go into. */
function readImporting(r: Reading, entry: Entry): Importing | undefined {
  const f = fields(r, entry, 'import', IMPORT_KEYS, []);
  if (!f) return undefined;
  const units = ask(f, 'svg-units', e => choiceOf(r, e, 'svg-units', ['mm', '72', '90', '96']));
  const made = {
    origin: ask(f, 'origin', e => choiceOf(r, e, 'origin', IMPORT_ORIGINS)) ?? PLAIN_IMPORT.origin,
    y: ask(f, 'y', e => choiceOf(r, e, 'y', IMPORT_Y)) ?? PLAIN_IMPORT.y,
    dxf: ask(f, 'dxf', e => choiceOf(r, e, 'dxf', DXF_KINDS)) ?? PLAIN_IMPORT.dxf,
    files: ask(f, 'files', e => choiceOf(r, e, 'files', IMPORT_FILES)) ?? PLAIN_IMPORT.files,
    scaleSquare:
      ask(f, 'scale-square', e => lengthOf(r, e, 'scale-square', SCALE_SQUARE_MM)) ??
      PLAIN_IMPORT.scaleSquare,
  };
  const svgUnits =
    units === undefined || units === 'mm' ? undefined : (Number(units) as 72 | 90 | 96);
  return { ...made, ...(svgUnits && { svgUnits }) };
}

function readFormats(r: Reading, entry: Entry): readonly FormatId[] | undefined {
  const items = listOf(r, entry, 'formats', FORMATS.length, true);
  if (!items) return undefined;
  if (items.length === 0)
    return r.fault(entry.at, 'formats is empty', { allowed: FORMATS.join(', ') });
  const chosen = items.map(e => choiceOf(r, e, 'format', FORMATS));
  return FORMATS.filter(format => chosen.includes(format));
}

function faultsOf(r: Reading, placed: readonly PlacedItem[]): ReadJob['faultOf'] {
  const places = new Map(placed.map(p => [p.item.name, p.places]));
  return (item, part, message, more = {}) => {
    const own = places.get(item);
    const spans: readonly (Span | undefined)[] = [
      typeof part === 'object'
        ? 'decoration' in part
          ? own?.decorations.get(part.decoration)
          : own?.features[part.feature]
        : part === 'name'
          ? own?.at
          : own?.[part],
      own?.at,
    ];
    const at = headOf(r, spans.find(span => span) ?? { start: 0, end: 1 });
    return { ...r.place(at), message, ...more };
  };
}
