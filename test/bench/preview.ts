/** The folding preview and the contact sheet; frames a second in Debian's Chromium, where it is there. */
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { contactFiles } from '../../src/cli/contact-files.js';
import { makeItem, proofsOf } from '../../src/cli/make-item.js';
import { pageProgram } from '../../src/cli/page-files.js';
import { openSession } from '../../src/cli/session.js';
import { itemPicture, netPicture } from '../../src/item-pictures.js';
import { itemPreview } from '../../src/item-preview.js';
import { planItem } from '../../src/pipeline.js';
import { importEntry, previewPage, toPng } from '../../src/write/index.js';
import { fairSession } from '../gallery/fair.js';
import { startBrowser } from '../outside/browser.js';
import { type Row, warmed } from './measure.js';

const root = new URL('../..', import.meta.url).pathname;
const presetsDir = join(root, 'presets');

/** As many plain boxes, all of different sizes. */
const manyBoxes = (count: number) =>
  `job: many\nunits: mm\nboxes:\n${Array.from(
    { length: count },
    (_, i) => `  - { name: box-${i}, style: flip-lid, inside: ${50 + i}x${40 + (i % 9)}x25 }`,
  ).join('\n')}\n`;

export async function preview(): Promise<Row[]> {
  const { design, kit } = fairSession(presetsDir);
  const item = design.items.find(i => i.name === 'hazelnut-shortbread')!;
  const plan = planItem(item, design, kit);
  const proofs = proofsOf(plan);
  const program = pageProgram('preview');
  const page = () => previewPage(itemPreview(plan, design, proofs), program);
  const one = await warmed(page, 5, 21);
  const rows: Row[] = [
    { what: 'a preview of a decorated box, warm', value: one, unit: 'ms', aim: 60 },
    { what: 'its size', value: page().length / 1000, unit: 'kB', aim: 400 },
    { what: 'contact sheet of 100 items', value: await contact(100), unit: 'ms', aim: 5000 },
  ];
  if (existsSync('/usr/bin/chromium')) rows.push(...(await frames(page())));
  return rows;
}

/** Pictures of all items, the page and the picture of it. */
async function contact(count: number): Promise<number> {
  const source = { file: 'many.yaml', text: manyBoxes(count) };
  const session = openSession(source, {}, { presetsDir, cwd: root });
  const { design, kit } = session;
  const plans = design.items.map(item => planItem(item, design, kit));
  const made = await makeItem(session, design.items[0]!);
  const begun = performance.now();
  const pictures = new Map<string, Uint8Array>();
  for (const plan of plans) {
    const { name } = plan.item;
    pictures.set(`${name}/${name}.folded.png`, toPng(await itemPicture(plan, design, 480), 480));
    toPng(netPicture(plan, design)!, 400);
  }
  const items = design.items.map(i => ({ ...made.item, name: i.name, title: i.title }));
  const none = { closures: [], laws: [], nets: [], placed: [], warnings: [] };
  const told = {
    version: '0.0.0',
    job: 'many',
    title: 'Many',
    convention: 'okabe-ito',
    import: importEntry(design.importing),
    cutter: null,
  };
  const facts = { ...told, ...none, items, files: [], sheets: made.sheets };
  contactFiles(facts, session, pictures, root);
  return performance.now() - begun;
}

/** While it folds from flat to closed, painted by software: the milliseconds that a frame takes to paint, and
 *  the shortfall against 60 a second. */
async function frames(page: string): Promise<Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'foldwright-frames-'));
  const browser = startBrowser();
  try {
    const file = join(folder, 'preview.html');
    writeFileSync(file, page);
    const opened = await browser.open(file);
    const { each, paint } = (await opened.page.evaluate(`new Promise(done => {
      const times = [];
      preview.took.length = 0;
      preview.play();
      const tick = now => {
        times.push(now);
        if (now - times[0] < 4000) return requestAnimationFrame(tick);
        const took = [...preview.took].sort((a, b) => a - b);
        done({ each: (times.at(-1) - times[0]) / (times.length - 1), paint: took[took.length >> 1] });
      };
      requestAnimationFrame(tick);
    })`)) as { each: number; paint: number };
    return [
      {
        what: 'between frames while it folds, Chromium',
        value: each,
        unit: 'ms',
        aim: 1000 / 60 + 0.5,
      },
      { what: 'of that, painting', value: paint, unit: 'ms', aim: 12 },
    ];
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}
