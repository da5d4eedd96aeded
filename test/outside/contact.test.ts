/** The contact sheet in Debian's Chromium: finding, sorting, and nothing that axe-core objects to. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { foldwright, root } from '../support/command.js';
import { objections, startBrowser } from './browser.js';

const JOB = `job: seen
units: mm
formats: [svg, preview]
boxes:
  - { name: pear, style: flip-lid, inside: 60x40x20, count: 9 }
  - { name: apple, style: lid-and-base, inside: 80x70x40 }
  - { name: plum, style: flip-lid, inside: 50x50x25 }
`;

describe('the contact sheet in Chromium', () => {
  const folder = mkdtempSync(join(tmpdir(), 'foldwright-contact-'));
  const browser = startBrowser();
  const file = join(folder, 'out', 'seen', 'index.html');
  beforeAll(async () => {
    execFileSync('npm', ['run', '-s', 'page'], { cwd: root });
    writeFileSync(join(folder, 'seen.yaml'), JOB);
    const ran = await foldwright(['look', 'seen.yaml'], folder);
    expect(ran.code, ran.err).toBe(0);
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('finds, filters and sorts, and asks for nothing but its own pictures', async () => {
    const { page, said, asked } = await browser.open(file);
    const shown = () =>
      page.locator('article:visible').evaluateAll(all => all.map(a => a.dataset.name));
    expect(await shown()).toEqual(['pear', 'apple', 'plum']);
    await page.getByLabel('Sort').selectOption('name');
    expect(await shown()).toEqual(['apple', 'pear', 'plum']);
    await page.getByLabel('Sort').selectOption('size');
    expect(await shown()).toEqual(['apple', 'plum', 'pear']);
    await page.getByLabel('Sort').selectOption('sheets');
    expect((await shown())[0]).toBe('pear');
    await page.getByLabel('Style').selectOption('flip-lid');
    expect((await shown()).sort()).toEqual(['pear', 'plum']);
    await page.getByLabel('Find').fill('plu');
    expect(await shown()).toEqual(['plum']);
    expect(await page.getByRole('status').textContent()).toBe('1 of 3 shown');
    const home = pathToFileURL(join(folder, 'out', 'seen')).href;
    expect(asked.length).toBeGreaterThan(3);
    for (const address of asked) expect(address.startsWith(`${home}/`), address).toBe(true);
    expect(said).toEqual([]);
    const images = page.locator('article:visible img');
    for (const image of await images.all()) {
      const width = await image.evaluate(async e => {
        await (e as unknown as { decode(): Promise<void> }).decode();
        return (e as unknown as { naturalWidth: number }).naturalWidth;
      });
      expect(width).toBeGreaterThan(0);
    }
  });

  it('is read by headings: a title, then every card under its name, one link to a page', async () => {
    const { page } = await browser.open(file);
    const heads = page.getByRole('heading');
    expect(await heads.allTextContents()).toEqual(['Seen', 'Pear', 'Apple', 'Plum']);
    const card = page.getByRole('article', { name: 'Pear' });
    expect(await card.ariaSnapshot()).toMatch(/heading "Pear".*img "Pear, folded"/s);
    const stops = card.locator('a:not([tabindex="-1"])');
    const named = await stops.evaluateAll(all => all.map(a => a.getAttribute('aria-label')));
    expect(new Set(named).size).toBe(named.length);
    expect(named[0]).toBe('Pear: See it fold');
  });

  it('has nothing that axe-core objects to, in either theme, and fits a phone', async () => {
    for (const colorScheme of ['light', 'dark'] as const) {
      const { page } = await browser.open(file, {
        colorScheme,
        viewport: { width: 390, height: 844 },
      });
      expect(await objections(page), colorScheme).toEqual([]);
      const wide = await page.evaluate('document.documentElement.scrollWidth');
      expect(Number(wide)).toBeLessThanOrEqual(390);
    }
  });
});
