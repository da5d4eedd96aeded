/** The programs of the pages speak no language of their own: with a catalogue in capitals, Chromium shows no
 *  small letter of ours, whatever is pressed. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pageProgram } from '../../src/cli/page-files.js';
import { openSession } from '../../src/cli/session.js';
import { proveNet } from '../../src/fold/index.js';
import { itemPreview } from '../../src/item-preview.js';
import { planItem } from '../../src/pipeline.js';
import { previewPage } from '../../src/write/index.js';
import { root } from '../support/command.js';
import { jobOf } from '../support/guide.js';
import { quietWords, SHOUTING, saidIn } from '../support/shouting.js';
import { startBrowser } from './browser.js';

const JOB = `job: fair
title: FAIR
units: mm
boxes:
  - style: flip-lid
    name: six
    title: PEAR
    treat: cider-caramel
    decorations:
      - { on: lid, motif: apple, lift: 2mm, art: { pattern: dots, palette: cider } }
`;

describe('a preview in another language', () => {
  const folder = mkdtempSync(join(tmpdir(), 'foldwright-words-'));
  const browser = startBrowser();
  beforeAll(() => {
    execFileSync('npm', ['run', '-s', 'page'], { cwd: root });
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('says nothing of its own in Chromium', async () => {
    const presets = { presetsDir: `${root}presets`, cwd: root };
    const { design, kit } = openSession(jobOf(JOB), {}, presets);
    const plan = planItem(design.items[0]!, design, kit);
    const facts = itemPreview(plan, design, plan.nets.map(proveNet), SHOUTING);
    const file = join(folder, 'six.html');
    writeFileSync(file, previewPage(facts, pageProgram('preview')));
    const { page, said } = await browser.open(file);
    const papers = Object.values(design.stocks).map(s => s.id);
    const quiet = async () => quietWords(saidIn(await page.content()), papers);
    expect(await quiet()).toEqual([]);
    expect(await page.locator('html').getAttribute('lang')).toBe('tlh');
    const buttons = page.locator('button');
    expect(await buttons.count()).toBeGreaterThan(5);
    for (const button of await buttons.all()) {
      await button.dispatchEvent('click');
      expect(await quiet(), (await button.textContent()) ?? '').toEqual([]);
    }
    await page.locator('g.piece').first().focus();
    expect(await quiet()).toEqual([]);
    expect(await page.locator('body').textContent()).toContain('APPLE');
    expect(said).toEqual([]);
  });
});
