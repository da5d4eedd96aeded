/** A guide, on paper and for the browser, from the plan of an item; the built program is measured. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Row, warmed } from './measure.js';

const AIM_MS = 250;
const presetsDir = new URL('../../presets', import.meta.url).pathname;

const built = <T>(file: string): Promise<T> =>
  import(new URL(`../../dist/${file}`, import.meta.url).href) as Promise<T>;

/** A box of the demo with a printed lid and nine layers, one that curls, one of several parts. */
const SHOWN = [
  ['jobs/orchard-fair', 'hazelnut-shortbread'],
  ['jobs/orchard-fair', 'apple-rings'],
  ['jobs/orchard-fair', 'pear-fudge-4x3'],
  ['boxes/sweets-drum', 'sweets-drum'],
] as const;

export async function guide(): Promise<Row[]> {
  const { openSession } = await built<typeof import('../../src/cli/session.js')>('cli/session.js');
  const { planItem } = await built<typeof import('../../src/pipeline.js')>('pipeline.js');
  const { guideFiles } = await built<typeof import('../../src/item-guide.js')>('item-guide.js');
  const { proveWay } = await built<typeof import('../../src/fold/index.js')>('fold/index.js');
  const rows: Row[] = [];
  for (const [file, name] of SHOWN) {
    const path = join(presetsDir, `${file}.yaml`);
    const source = { file: path, text: readFileSync(path, 'utf8') };
    const { design, kit } = openSession(source, {}, { presetsDir, cwd: presetsDir });
    const item = design.items.find(i => i.name === name)!;
    const plan = planItem(item, design, kit);
    const ways = plan.nets.map(proveWay);
    const make = () => guideFiles(plan, design, kit, ways);
    const from = performance.now();
    await make();
    const first = performance.now() - from;
    rows.push({ what: `guide of ${name}, the first time`, value: first, unit: 'ms', aim: AIM_MS });
    const warm = await warmed(make, 5, 11);
    rows.push({ what: `guide of ${name}, warm`, value: warm, unit: 'ms', aim: AIM_MS });
  }
  return rows;
}
