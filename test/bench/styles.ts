/**
 * Every style at its example, warm: built and checked; and its order of folding found, apart. The built
 * program is measured: the loader of tests makes every import a call.
 */
import { type Row, warmed } from './measure.js';

const THICKNESS = 0.3;
/** Walls that curl stand as many facets. */
const CURVED = ['drum', 'heart-box'];
const AIM_MS = 10;
const AIM_CURVED_MS = 40;
/** No figure was promised: a tenth of a second is not waited for. */
const AIM_WAY_MS = 100;

const built = <T>(file: string): Promise<T> =>
  import(new URL(`../../dist/${file}`, import.meta.url).href) as Promise<T>;

export async function styles(): Promise<Row[]> {
  const { checkNet } = await built<typeof import('../../src/fold/index.js')>('fold/index.js');
  const { proveFold } =
    await built<typeof import('../../src/fold/assembly.js')>('fold/assembly.js');
  const { fillParams } = await built<typeof import('../../src/params.js')>('params.js');
  const { STYLES } = await built<typeof import('../../src/styles/index.js')>('styles/index.js');
  const rows: Row[] = [];
  for (const style of STYLES) {
    const spec = { inside: style.example, thickness: THICKNESS };
    const values = fillParams(style.params, {});
    const aim = CURVED.includes(style.id) ? AIM_CURVED_MS : AIM_MS;
    const checked = await warmed(() => style.build(spec, values).map(checkNet), 10, 21);
    rows.push({ what: `${style.id}, built and checked`, value: checked, unit: 'ms', aim });
    const nets = style.build(spec, values);
    const way = await warmed(() => nets.map(proveFold), 5, 11);
    rows.push({ what: `${style.id}, order of folding`, value: way, unit: 'ms', aim: AIM_WAY_MS });
  }
  return rows;
}
