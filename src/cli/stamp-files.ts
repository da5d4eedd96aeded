/** What stamped pages have in common: the presets they are made with, and their folder of results. */
import { join, resolve } from 'node:path';
import { faultOfName, type PresetKind, type Presets } from '../job/index.js';
import { STANDARD } from '../job/standard.js';
import type { FormatId, Item, Sheet } from '../model.js';
import { type MadeSheet, makeSheet } from '../pipeline.js';
import { type StampKit, stampDesign } from '../stamp-pages.js';
import { cutterEntry, fileEntry, importEntry, itemEntry, manifestText } from '../write/index.js';
import { type Environment, InputError } from './environment.js';
import { previous } from './make.js';
import { entryOf } from './make-item.js';
import { readFonts, readPresets } from './preset-files.js';
import { captionFonts } from './session.js';
import { openStore } from './store.js';

/** The folder below `out` that stamped pages and what is traced of them share. */
export const STAMPS = 'stamps';

export interface StampAsk {
  readonly stock: string;
  readonly cutter: string;
  readonly marks: string;
  readonly formats?: readonly FormatId[] | undefined;
}

export function stampKit(ask: StampAsk, formats: readonly FormatId[], e: Environment): StampKit {
  const presets = readPresets(e);
  return {
    stock: preset(presets, 'stock', ask.stock),
    cutter: preset(presets, 'cutter', ask.cutter),
    convention: preset(presets, 'convention', STANDARD.convention),
    marks: preset(presets, 'mark', ask.marks),
    formats: ask.formats ?? formats,
  };
}

type Kinds = Extract<PresetKind, 'stock' | 'cutter' | 'convention' | 'mark'>;

export function preset<K extends Kinds>(presets: Presets, kind: K, id: string) {
  const found = presets.get(kind, id);
  if ('value' in found) return found.value;
  const known = presets.ids(kind).join(', ');
  throw new InputError(`"${id}" is no ${kind} that can be used. Allowed: ${known}.`);
}

/** Throws `InputError` for a name that is no name for a folder. */
export function checkName(name: string): void {
  const fault = faultOfName(name);
  if (!fault) return;
  throw new InputError(`${fault.message}. Allowed: ${fault.allowed}.`);
}

export interface StampRun {
  readonly item: Item;
  readonly sheet: Sheet;
  readonly kit: StampKit;
  readonly out: string;
  readonly force: boolean | undefined;
  /** Other files of the item, by their names in its folder. */
  more(): readonly { readonly name: string; readonly bytes: Uint8Array; readonly holds: string }[];
}

/** Makes one sheet's files in the folder of stamped pages; what other runs made there is left. Gives the
 *  paths of the files, from the working folder. */
export async function storeStamped(
  { item, sheet, kit, out, force, more }: StampRun,
  environment: Environment,
): Promise<{ readonly made: MadeSheet; readonly files: readonly string[] }> {
  const design = stampDesign(STAMPS, kit);
  const store = openStore(resolve(environment.cwd, out, STAMPS), {
    ...(force && { force }),
    removeStale: false,
  });
  try {
    const fonts = captionFonts(readFonts(environment));
    const made = await makeSheet(item, sheet, design, { captionFonts: fonts });
    const all = [
      ...made.files,
      ...more().map(f => ({ path: `${item.name}/${f.name}`, bytes: f.bytes, holds: f.holds })),
    ];
    for (const { path, bytes } of all) store.put(path, bytes);
    const old = previous(store, new Set([item.name]));
    const entry = entryOf(item.name, made, kit.cutter);
    store.finish(
      manifestText({
        version: environment.version,
        job: design.name,
        title: design.title,
        convention: design.convention.id,
        import: importEntry(design.importing),
        cutter: cutterEntry(kit.cutter),
        items: [...(old?.items ?? []), itemEntry(item)],
        files: [
          ...(old?.files ?? []),
          ...all.map(({ path, bytes, holds }) => fileEntry(path, bytes, holds)),
        ],
        sheets: [...(old?.sheets ?? []), entry],
        closures: [],
        laws: [],
        nets: [],
        placed: [],
        warnings: old?.warnings ?? [],
      }),
    );
    return { made, files: all.map(f => join(out, STAMPS, f.path)) };
  } finally {
    store.abandon();
  }
}
