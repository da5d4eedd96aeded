/** Every motif at its defaults with all its layers, warm. The slowest are
 *  named. The built program is measured: the loader of tests makes every import a call. */
import { allFonts } from '../support/fonts.js';
import { type Row, warmed } from './measure.js';

const AIM_MS = 15;
const NAMED = 6;

const built = <T>(file: string): Promise<T> =>
  import(new URL(`../../dist/${file}`, import.meta.url).href) as Promise<T>;

export async function motifs(): Promise<Row[]> {
  const { MOTIFS } = await built<typeof import('../../src/motifs/list.js')>('motifs/list.js');
  const { makeMotifTools } =
    await built<typeof import('../../src/motifs/tools.js')>('motifs/tools.js');
  const { fillParams } = await built<typeof import('../../src/params.js')>('params.js');
  const tools = makeMotifTools({ fonts: allFonts() });
  const rows: Row[] = [];
  for (const motif of MOTIFS) {
    const values = fillParams(motif.params, {});
    const value = await warmed(() => motif.build(values, tools), 10, 21);
    rows.push({ what: motif.id, value, unit: 'ms', aim: AIM_MS });
  }
  rows.sort((a, b) => b.value - a.value);
  return rows.slice(0, NAMED).map((row, i) => ({
    ...row,
    what: `${row.what}, ${i === 0 ? `the slowest of ${rows.length} motifs` : 'all its layers'}`,
  }));
}
