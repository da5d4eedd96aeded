/** The faces in presets/fonts, read for tests. */
import { readFileSync } from 'node:fs';

const file = (face: string, name: string) =>
  new Uint8Array(readFileSync(new URL(`../../presets/fonts/${face}/${name}`, import.meta.url)));

export const FACES = ['pacifico', 'nunito-bold'] as const;

export const fontBytes = (face: (typeof FACES)[number]): Uint8Array[] => [
  file(face, 'latin.ttf'),
  file(face, 'latin-ext.ttf'),
];

export const allFonts = (): Map<string, Uint8Array[]> =>
  new Map(FACES.map(face => [face, fontBytes(face)]));
