/** The faces in presets/fonts, read for tests. */
import { readFileSync } from 'node:fs';

const file = (face: string, name: string) =>
  new Uint8Array(readFileSync(new URL(`../../presets/fonts/${face}/${name}`, import.meta.url)));

export const FACES = ['pacifico', 'nunito', 'nunito-bold', 'zilla-slab-bold', 'sniglet'] as const;
export const PEN_FACES = [
  'hershey-sans',
  'hershey-script',
  'ems-allure',
  'ems-tech',
  'ems-readability',
] as const;

export const fontBytes = (face: (typeof FACES)[number]): Uint8Array[] => [
  file(face, 'latin.ttf'),
  file(face, 'latin-ext.ttf'),
];
export const penBytes = (face: (typeof PEN_FACES)[number]): Uint8Array => file(face, 'pen.svg');

export const allFonts = (): Map<string, Uint8Array[]> =>
  new Map<string, Uint8Array[]>([
    ...FACES.map(face => [face, fontBytes(face)] as const),
    ...PEN_FACES.map((face): [string, Uint8Array[]] => [face, [penBytes(face)]]),
  ]);
