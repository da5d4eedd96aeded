/**
 * Presets: papers, cutters, stroke conventions, register marks, palettes and treats, one YAML file each,
 * named by its file.
 * Nothing here touches the disk: whoever does hands in a `PresetStore`.
 */
import type { Convention, Cutter, MarkStyle, Stock, Treat } from '../model.js';
import type { LengthUnit } from '../units/length.js';
import { readDocument } from './document.js';
import { type Fault, faultOfFile } from './fault.js';
import {
  type Palette,
  readConvention,
  readCutter,
  readMarks,
  readPalette,
} from './preset-kinds.js';
import { readStock } from './preset-stock.js';
import { type Reading, startReading } from './reading.js';
import { readTreat } from './treats.js';

export const PRESET_KINDS = [
  'stock',
  'cutter',
  'convention',
  'mark',
  'palette',
  'treat',
  'box',
  'job',
] as const;
export type PresetKind = (typeof PRESET_KINDS)[number];
/** The folder of each kind under `presets/`. */
export const PRESET_FOLDERS: Readonly<Record<PresetKind, string>> = {
  stock: 'stocks',
  cutter: 'cutters',
  convention: 'conventions',
  mark: 'marks',
  palette: 'palettes',
  treat: 'treats',
  box: 'boxes',
  job: 'jobs',
};

export interface PresetStore {
  /** The ids of a kind: the names of its files without `.yaml`. */
  ids(kind: PresetKind): readonly string[];
  /** The text of one of them; undefined when it is not there or too large to be one. */
  text(kind: PresetKind, id: string): string | undefined;
}

interface PresetTypes {
  readonly stock: Stock;
  readonly cutter: Cutter;
  readonly convention: Convention;
  readonly mark: MarkStyle;
  readonly palette: Palette;
  readonly treat: Treat;
}
export type ReadKind = keyof PresetTypes;
export type Result<T> = { readonly value: T } | { readonly faults: readonly Fault[] };

export interface Presets {
  ids(kind: PresetKind): readonly string[];
  /** Read when first asked for. Faults are those of the preset's own file. */
  get<K extends ReadKind>(kind: K, id: string): Result<PresetTypes[K]>;
}

const READERS: {
  readonly [K in ReadKind]: (r: Reading, id: string) => PresetTypes[K] | undefined;
} = {
  stock: (r, id) => readStock(r, r.document.root, id),
  cutter: (r, id) => readCutter(r, r.document.root, id),
  convention: (r, id) => readConvention(r, r.document.root, id),
  mark: (r, id) => readMarks(r, r.document.root, id),
  palette: (r, id) => readPalette(r, r.document.root, id),
  treat: (r, id) => readTreat(r, r.document.root, id),
};

/** Reads one preset file. Bare lengths are millimetres unless the file says `units:`. */
export function parsePreset<K extends ReadKind>(
  kind: K,
  id: string,
  file: string,
  text: string,
  unit: LengthUnit = 'mm',
): Result<PresetTypes[K]> {
  const read = readDocument({ file, text });
  if ('faults' in read) return read;
  const r = startReading(read.document, unit);
  const value = READERS[kind](r, id);
  return value === undefined || r.faults.length > 0 ? { faults: r.faults } : { value };
}

export const parseStock = (id: string, file: string, text: string) =>
  parsePreset('stock', id, file, text);
export const parseCutter = (id: string, file: string, text: string) =>
  parsePreset('cutter', id, file, text);
export const parseConvention = (id: string, file: string, text: string) =>
  parsePreset('convention', id, file, text);
export const parsePalette = (id: string, file: string, text: string) =>
  parsePreset('palette', id, file, text);
export const parseTreat = (id: string, file: string, text: string) =>
  parsePreset('treat', id, file, text);

/** The presets of a store, each read at most once. */
export function openPresets(store: PresetStore): Presets {
  const read = new Map<string, Result<PresetTypes[ReadKind]>>();
  return {
    ids: kind => store.ids(kind),
    get<K extends ReadKind>(kind: K, id: string) {
      const key = `${kind} ${id}`;
      const known = read.get(key);
      if (known) return known as Result<PresetTypes[K]>;
      const file = `presets/${PRESET_FOLDERS[kind]}/${id}.yaml`;
      const text = store.text(kind, id);
      const result: Result<PresetTypes[K]> =
        text === undefined
          ? { faults: [faultOfFile(file, `the ${kind} preset cannot be read`)] }
          : parsePreset(kind, id, file, text);
      read.set(key, result);
      return result;
    },
  };
}

export interface PresetLine {
  readonly id: string;
  readonly summary: string;
  readonly faults: readonly Fault[];
}

/** Every preset of a kind with its one line, for listings; a faulty one says so. */
export function listPresets(presets: Presets, kind: ReadKind): PresetLine[] {
  return presets.ids(kind).map(id => {
    const result = presets.get(kind, id);
    return 'value' in result
      ? { id, summary: result.value.summary, faults: [] }
      : { id, summary: 'cannot be read', faults: result.faults };
  });
}

export type { Palette } from './preset-kinds.js';
