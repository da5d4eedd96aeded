/** The presets that come with the program, read from its own folder when first asked for. */
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { openPresets, PRESET_FOLDERS, type PresetStore, type Presets } from '../job/presets.js';
import type { FontFiles } from '../motifs/index.js';
import { ParamError } from '../params.js';
import type { Environment } from './environment.js';
import type { OwnFiles } from './own-files.js';

/** A preset larger than this is something else that strayed into the folder. */
const MOST_PRESET_BYTES = 200_000;

/** A person's own presets stand in a folder of this name, where they work; kinds and names as ours. */
export const OWN_PRESETS = 'presets';

interface Places {
  readonly presetsDir: string;
  /** Where the person works; left out, only our own presets count. */
  readonly cwd?: string;
}

/** Our presets, and before them a person's own: a name that both have is theirs. */
export const presetStore = ({ presetsDir, cwd }: Places): PresetStore => {
  const own = cwd === undefined ? undefined : join(cwd, OWN_PRESETS);
  const folders = own === undefined || own === presetsDir ? [presetsDir] : [own, presetsDir];
  return {
    ids(kind) {
      const names = folders.flatMap(folder => {
        const inIt = join(folder, PRESET_FOLDERS[kind]);
        return folder === presetsDir || existsSync(inIt) ? readdirSync(inIt) : [];
      });
      const ids = names
        .filter(name => name.endsWith('.yaml'))
        .map(name => name.slice(0, -'.yaml'.length));
      return [...new Set(ids)].sort();
    },
    text(kind, id) {
      for (const folder of folders) {
        const file = join(folder, PRESET_FOLDERS[kind], `${id}.yaml`);
        const stat = statSync(file, { throwIfNoEntry: false });
        if (stat?.isFile() && stat.size <= MOST_PRESET_BYTES) return readFileSync(file, 'utf8');
      }
      return undefined;
    },
  };
};

export const readPresets = (environment: Places): Presets => openPresets(presetStore(environment));

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

/** What pages are set with where their face ends: right-to-left letters. No words of a motif are. */
export function readPageFaces(
  { presetsDir }: Pick<Environment, 'presetsDir'>,
  weight: 'regular' | 'bold',
): readonly Uint8Array[] {
  const folder = join(presetsDir, 'page-fonts', `rubik-${weight}`);
  return ['hebrew.ttf', 'arabic.ttf'].map(file => readFileSync(join(folder, file)));
}

/** A face by the name of a file. */
const IS_FILE = /\.(?:ttf|otf|woff2?|svg)$/i;

/** The bytes of the faces, each read when it is first asked for; and of faces of the person's own, by
 *  their files. Throws `ParamError` for a file that cannot be read. */
export function readFonts(
  environment: Pick<Environment, 'presetsDir'>,
  own?: Pick<OwnFiles, 'bytes'>,
): FontFiles {
  const faces = new Map(readFaces(environment).map(f => [f.id, f.files]));
  return {
    keys: () => faces.keys(),
    get(name) {
      const files = faces.get(name);
      if (files) return files.map(file => readFileSync(file));
      if (!own || !IS_FILE.test(name)) return undefined;
      const bytes = own.bytes(name, 'face');
      if (!('why' in bytes)) return bytes;
      throw new ParamError(
        'font',
        name,
        `a face that can be read; ${bytes.why}`,
        `${bytes.advice}; or choose a face of the list (foldwright list fonts)`,
      );
    },
  };
}
