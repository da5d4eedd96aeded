/** The guide in Debian's Chromium: on a phone, in both themes, and printed. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { boxOf, guideOf, htmlOf, jobOf, textsOf } from '../support/guide.js';
import { objections, startBrowser } from './browser.js';

const NAMES = ['קופסה לממתקים', 'صندوق الحلوى', 'Apples 🍎'] as const;
const DRESSED = (title: string) => `job: fair
units: mm
boxes:
  - style: flip-lid
    name: six
    title: ${JSON.stringify(title)}
    inside: 150x50x25
    decorations:
      - { on: lid, motif: apple, lift: 2mm, backings: [{ reveal: 2mm }] }
`;
const SHOWN = [
  ['cup', guideOf(boxOf('cup', { length: 70, width: 70, height: 80 })).page],
  ['heart-box', guideOf(boxOf('heart-box', { length: 80, width: 74, height: 35 })).page],
  ['dressed', guideOf(jobOf(DRESSED(NAMES[0]))).page],
] as const;

describe.each(SHOWN)('the guide of %s in Chromium', (name, made) => {
  const folder = mkdtempSync(join(tmpdir(), 'foldwright-guide-'));
  const browser = startBrowser();
  const file = join(folder, `${name}.html`);
  beforeAll(() => writeFileSync(file, htmlOf(made)));
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('fits a phone in either theme, and axe-core objects to nothing', async () => {
    for (const colorScheme of ['light', 'dark'] as const) {
      const phone = { colorScheme, viewport: { width: 390, height: 844 } };
      const { page, said, asked } = await browser.open(file, phone);
      expect(await objections(page), colorScheme).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
      expect(said).toEqual([]);
      // The file itself, and its own faces.
      for (const address of asked) expect(address).toMatch(/^(?:file|data):/);
      // Lengths of the drawing can be read: seven pixels and more; the least name is 1.9 mm.
      const tall = await page.evaluate(
        "Math.min(...[...document.querySelectorAll('.nets svg text')].map(t => Math.hypot(t.getScreenCTM().a, t.getScreenCTM().b) * Number(t.getAttribute('font-size'))))",
      );
      expect(Number(tall)).toBeGreaterThan(7);
    }
  });

  it('is printed whole: every step, every length, no heading without what follows', async () => {
    const { page } = await browser.open(file);
    const path = join(folder, `${name}.pdf`);
    await page.pdf({ path, preferCSSPageSize: true, printBackground: true });
    const texts = await textsOf(readFileSync(path));
    const all = texts
      .map(t => t.text)
      .join(' ')
      .replace(/\s+/g, ' ');
    for (const { text } of made.steps!.steps) expect(all).toContain(text);
    for (const { measures } of made.patterns!.nets) {
      for (const length of measures) expect(texts.map(t => t.text)).toContain(length);
    }
    expect(all).toContain(made.scale.text);
    const pageOf = (text: string) =>
      texts.find(t => text.startsWith(t.text) && t.text.length > 14)!.page;
    for (const { title, intro } of [made.steps!, made.patterns!]) {
      expect(texts.find(t => t.text === title)!.page).toBe(pageOf(intro));
    }
    // The first step stands with its heading.
    expect(pageOf(made.steps!.steps[0]!.text)).toBe(pageOf(made.steps!.intro));
  });
});

describe('names in other scripts in Chromium', () => {
  const folder = mkdtempSync(join(tmpdir(), 'foldwright-guide-'));
  const browser = startBrowser();
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });
  it.each(NAMES)('%s stands in the page as it was written', async title => {
    const file = join(folder, 'six.html');
    writeFileSync(file, htmlOf(guideOf(jobOf(DRESSED(title))).page));
    const { page } = await browser.open(file, { viewport: { width: 390, height: 844 } });
    expect(await page.locator('h1').textContent()).toBe(title);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
  });
});
