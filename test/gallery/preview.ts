/** The folding preview as a browser shows it: half folded by day; closed, its layers lifted, at night. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { proofsOf } from '../../src/cli/make-item.js';
import { pageProgram } from '../../src/cli/page-files.js';
import type { Session } from '../../src/cli/session.js';
import { itemPreview } from '../../src/item-preview.js';
import { planItem } from '../../src/pipeline.js';
import { previewPage } from '../../src/write/index.js';
import { startBrowser } from '../outside/browser.js';

const SIZE = { width: 1000, height: 840 };

/** Two PNGs. */
export async function previewShots({ design, kit }: Session): Promise<Uint8Array[]> {
  const folder = mkdtempSync(join(tmpdir(), 'foldwright-shots-'));
  const browser = startBrowser();
  const shot = async (name: string, colorScheme: 'light' | 'dark', act: string) => {
    const plan = planItem(design.items.find(i => i.name === name)!, design, kit);
    const file = join(folder, `${name}.html`);
    writeFileSync(
      file,
      previewPage(itemPreview(plan, design, proofsOf(plan)), pageProgram('preview')),
    );
    const { page } = await browser.open(file, { colorScheme, viewport: SIZE });
    await page.evaluate(act);
    await page.waitForTimeout(900);
    return page.screenshot();
  };
  try {
    return [
      await shot('apple-butter', 'light', 'preview.show(preview.steps - 3.45)'),
      await shot(
        'hazelnut-shortbread',
        'dark',
        "[...document.querySelectorAll('button')].find(b => b.textContent === 'Lift the layers').click()",
      ),
    ];
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}
