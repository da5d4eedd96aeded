/** A sheet that an earlier run made, found from any of its files by the manifest above it. */
import { readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import type { Drawing } from '../model.js';
import {
  type Manifest,
  type ManifestSheet,
  parseManifest,
  ReadError,
  readDrawingJson,
} from '../write/index.js';
import { InputError } from './environment.js';

/** Larger files are refused before they are read. */
const MOST_FILE_BYTES = 32e6;
/** A manifest stands in the job's folder, one above the item's. */
const FOLDERS_UP = 3;

/** What a sheet's files are called, and those that `align` writes beside them. */
const NAMES = /^(.*?)(\.back)?(\.aligned)?\.(?:cut(?:\.(\w+))?\.\w+|print\.\w+|drawing\.json)$/;

export interface OurSheet {
  readonly manifest: Manifest;
  readonly sheet: ManifestSheet;
  /** Its files' path without their endings. */
  readonly base: string;
  /** The manifest lists the file that was asked about, or it was aligned from one that it lists. */
  readonly listed: boolean;
  /** The file was written by `align`. */
  readonly aligned: boolean;
  /** The sheet as the tip must follow it in this file; `undefined` where that file is gone. */
  drawn(): Drawing | undefined;
  /** The same of all the sheet's operations, though this file holds only one. */
  whole(): Drawing | undefined;
}

/** `undefined` for a file that no manifest knows. */
export function sheetOf(path: string): OurSheet | undefined {
  let folder = dirname(path);
  for (let i = 0; i < FOLDERS_UP; i++) {
    const manifest = manifestIn(folder);
    if (manifest) {
      const name = relative(folder, path).split(sep).join('/');
      const [, known = '', side = '', moved = '', only] = NAMES.exec(name) ?? [];
      const sheet = manifest.sheets.find(s => `${s.item}/${s.id}` === known);
      if (!sheet) return undefined;
      const base = `${join(folder, known)}${side}`;
      const before = `${base}${moved}.drawing.json`;
      const aligned = moved !== '';
      const whole = () => (isFile(before) ? readDrawingJson(readText(before)) : undefined);
      return {
        manifest,
        sheet,
        base,
        listed: aligned || manifest.files.some(f => f.path === name),
        aligned,
        drawn: () => layersOf(whole(), only),
        whole,
      };
    }
    folder = dirname(folder);
  }
  return undefined;
}

/** The drawing, or the one layer of it that a file by operation holds. */
const layersOf = (drawing: Drawing | undefined, only: string | undefined): Drawing | undefined =>
  only === undefined || !drawing
    ? drawing
    : { ...drawing, layers: drawing.layers.filter(l => l.operation === only) };

export function manifestIn(folder: string): Manifest | undefined {
  const path = join(folder, 'manifest.json');
  if (!isFile(path)) return undefined;
  try {
    return parseManifest(readText(path));
  } catch (error) {
    if (error instanceof ReadError) return undefined;
    throw error;
  }
}

const isFile = (path: string) => statSync(path, { throwIfNoEntry: false })?.isFile() === true;

/** Throws `InputError` for what is no file, or too large a one. */
export const readText = (path: string): string => readBytes(path).toString('utf8');

/** As `readText`. */
export function readBytes(path: string): Buffer {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat) throw new InputError('there is no such file');
  if (!stat.isFile()) throw new InputError('that is not a file');
  if (stat.size > MOST_FILE_BYTES) {
    const mb = (stat.size / 1e6).toFixed(0);
    throw new InputError(
      `${mb} MB is more than the ${MOST_FILE_BYTES / 1e6} MB that are read: simplify the drawing`,
    );
  }
  return readFileSync(path);
}
