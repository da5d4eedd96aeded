/** The styles, features, motifs, patterns, presets and faces that come with the program, for tests. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { type Library, openPresets, PRESET_FOLDERS, type PresetKind } from '../../src/job/index.js';
import { MOTIFS, makeMotifTools, PATTERNS } from '../../src/motifs/index.js';
import { FEATURES } from '../../src/styles/features/index.js';
import { STYLES } from '../../src/styles/index.js';

export const presetsFolder = new URL('../../presets/', import.meta.url);

const fileOf = (kind: PresetKind, id: string) =>
  new URL(`${PRESET_FOLDERS[kind]}/${id}.yaml`, presetsFolder);

export const presetText = (kind: PresetKind, id: string): string =>
  readFileSync(fileOf(kind, id), 'utf8');

export const realPresets = openPresets({
  ids: kind =>
    readdirSync(new URL(PRESET_FOLDERS[kind], presetsFolder))
      .filter(name => name.endsWith('.yaml'))
      .map(name => name.slice(0, -5))
      .sort(),
  text: (kind, id) => (existsSync(fileOf(kind, id)) ? presetText(kind, id) : undefined),
});

/** The bytes of every face under `presets/fonts`. */
function faces(): Map<string, Uint8Array[]> {
  const folder = new URL('fonts/', presetsFolder);
  return new Map(
    readdirSync(folder).map(id => {
      const own = new URL(`${id}/`, folder);
      const files = readdirSync(own).filter(name => /\.(?:woff|ttf|otf|svg)$/.test(name));
      return [id, files.map(name => readFileSync(new URL(name, own)))];
    }),
  );
}

export const realLibrary = (): Library => ({
  styles: STYLES,
  motifs: MOTIFS,
  patterns: PATTERNS,
  features: FEATURES,
  presets: realPresets,
  tools: makeMotifTools({ fonts: faces() }),
});
