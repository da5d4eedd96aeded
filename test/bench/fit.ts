/** `fit` over all styles, warm: from the command's words to the boxes, least paper first. */
import { fileURLToPath } from 'node:url';
import { type Row, warmed } from './measure.js';

const ASKED = [
  { treat: 'round', diameter: '40mm', height: '20mm', count: '6' },
  { treat: 'cider-caramel', count: '20' },
  { treat: 'hazelnut-ball' },
] as const;
const AIM_MS = 100;

const built = <T>(file: string): Promise<T> =>
  import(new URL(`../../dist/${file}`, import.meta.url).href) as Promise<T>;

export async function fit(): Promise<Row[]> {
  const { answerFit } = await built<typeof import('../../src/job/index.js')>('job/index.js');
  const { readPresets } =
    await built<typeof import('../../src/cli/preset-files.js')>('cli/preset-files.js');
  const { STYLES } = await built<typeof import('../../src/styles/index.js')>('styles/index.js');
  const presetsDir = fileURLToPath(new URL('../../presets', import.meta.url));
  const presets = readPresets({ presetsDir });
  const library = { styles: STYLES, motifs: [], patterns: [], presets };
  const paper = { style: [], stock: 'cardstock-65lb-12x12', cutter: 'mat-12x12' };
  const rows: Row[] = [];
  for (const asked of ASKED) {
    const value = await warmed(() => answerFit({ ...asked, ...paper }, library, 2), 5, 11);
    rows.push({ what: `fit ${asked.treat}, all styles`, value, unit: 'ms', aim: AIM_MS });
  }
  return rows;
}
