/** The presets that come with the program, read from its own folder when first asked for. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { openPresets, PRESET_FOLDERS, type PresetStore, type Presets } from '../job/presets.js';
import type { FontFiles } from '../motifs/index.js';
import type { Environment } from './environment.js';

/** A preset larger than this is something else that strayed into the folder. */
const MOST_PRESET_BYTES = 200_000;

export const presetStore = ({
  presetsDir: folder,
}: Pick<Environment, 'presetsDir'>): PresetStore => {
  const fileOf = (kind: keyof typeof PRESET_FOLDERS, id: string) =>
    join(folder, PRESET_FOLDERS[kind], `${id}.yaml`);
  return {
    ids: kind =>
      readdirSync(join(folder, PRESET_FOLDERS[kind]))
        .filter(name => name.endsWith('.yaml'))
        .map(name => name.slice(0, -'.yaml'.length))
        .sort(),
    text(kind, id) {
      const file = fileOf(kind, id);
      const size = statSync(file, { throwIfNoEntry: false })?.size;
      return size !== undefined && size <= MOST_PRESET_BYTES
        ? readFileSync(file, 'utf8')
        : undefined;
    },
  };
};

export const readPresets = (environment: Pick<Environment, 'presetsDir'>): Presets =>
  openPresets(presetStore(environment));

export interface FacePreset {
  readonly id: string;
  readonly summary: string;
  readonly licence: string;
  readonly files: readonly string[];
}

/** The faces in `presets/fonts`, each a folder with a `face.yaml` and its licence. */
export function readFaces(environment: Pick<Environment, 'presetsDir'>): FacePreset[] {
  const folder = join(environment.presetsDir, 'fonts');
  return readdirSync(folder)
    .sort()
    .map(id => {
      const { summary, licence, files } = parse(
        readFileSync(join(folder, id, 'face.yaml'), 'utf8'),
      );
      return { id, summary, licence, files: files.map((f: string) => join(folder, id, f)) };
    });
}

/** The bytes of every face; small enough (a few hundred kB) to be read whole. */
export const readFonts = (environment: Pick<Environment, 'presetsDir'>): FontFiles =>
  new Map(readFaces(environment).map(f => [f.id, f.files.map(file => readFileSync(file))]));
