/** Hebrew and Arabic on paper: the order by bidi-js' own reordering, the letters by HarfBuzz. */
import { createRequire } from 'node:module';
import type { Bidi } from 'bidi-js';
import fc from 'fast-check';
import { create, type Font } from 'fontkit';
import { describe, expect, it } from 'vitest';
import { runsRightToLeft, visualRuns } from '../../src/write/bidi.js';
import { letterOutlines } from '../../src/write/letter-outlines.js';
import { textMetrics } from '../../src/write/text-metrics.js';
import { GUIDE_FONTS, guideOf, jobOf, pdfOf, textsOf } from '../support/guide.js';
import { byHarfBuzz } from '../support/harfbuzz.js';

const bidi = (createRequire(import.meta.url)('bidi-js') as () => Bidi)();
const ONE = (char: string) => ({ font: 'one', char });
/** As it is seen, letter by letter: what its font turns round is turned round. */
const seen = (text: string) =>
  visualRuns(text, ONE)
    .map(r => (runsRightToLeft(r.text) ? [...r.text].reverse().join('') : r.text))
    .join('');

const [, , hebrew, arabic] = GUIDE_FONTS.bold as [Uint8Array, Uint8Array, Uint8Array, Uint8Array];

describe('a line with right-to-left letters', () => {
  it.each([
    ['אבג', 'גבא'],
    ['Box of אבג, 12', 'Box of 12 ,גבא'],
    ['אבג (12 דה) ו', 'ו (הד 12) גבא'],
    ['תה ١٢', '١٢ הת'],
    ['all from left', 'all from left'],
  ])('%s is seen as %s', (text, want) => {
    expect(seen(text)).toBe(want);
  });

  it('is in the order of a second reordering', () => {
    const line = fc.array(fc.constantFrom(...'אבגدهA b1٢(), -.'), { maxLength: 24 });
    const check = fc.property(line, chars => {
      const text = chars.join('');
      const again = bidi.getReorderedString(text, bidi.getEmbeddingLevels(text, 'auto'));
      expect(seen(text)).toBe(again);
    });
    fc.assert(check, { seed: 7, numRuns: 400 });
  });

  it('loses no letter where fonts change', () => {
    const line = fc.array(fc.constantFrom(...'אבדA1(', ' '), { maxLength: 16 });
    const letters = (t: string) => [...t].map(c => (c === ')' ? '(' : c)).sort();
    const check = fc.property(line, chars => {
      const text = chars.join('');
      const runs = visualRuns(text, char => ({ font: /[א-ת]/.test(char) ? 'a' : 'b', char }));
      expect(letters(runs.map(r => r.text).join(''))).toEqual(letters(text));
      for (const { font, text: run } of runs) expect(/[א-ת]/.test(run)).toBe(font === 'a');
    });
    fc.assert(check, { seed: 3, numRuns: 200 });
  });
});

describe('its letters', () => {
  it.each([
    ['hebrew', 'תפוחים'],
    ['hebrew', 'תַפוחַ'],
    ['arabic', 'علبة'],
    ['arabic', 'البستان'],
    ['arabic', 'لا'],
    ['arabic', 'تُفَّاح'],
  ])('%s: %s joins as HarfBuzz joins it', (script, text) => {
    const bytes = script === 'hebrew' ? hebrew : arabic;
    const font = create(Buffer.from(bytes)) as Font;
    const { glyphs, positions } = font.layout(text);
    const ours = glyphs.map((g, i) => [g.id, positions[i]!.xAdvance]);
    expect(ours).toEqual(byHarfBuzz(bytes, text));
  });

  it('are as wide in a line as they are when they join', () => {
    const { width } = textMetrics(GUIDE_FONTS);
    const font = create(Buffer.from(arabic)) as Font;
    const joined = font.layout('علبة').advanceWidth / font.unitsPerEm;
    expect(width('علبة', 10, true)).toBeCloseTo(10 * joined, 6);
    const alone = [...'علبة'].reduce((n, c) => n + width(`${c}`, 10, true), 0);
    expect(Math.abs(alone - 10 * joined)).toBeGreaterThan(1);
    expect(letterOutlines(GUIDE_FONTS.bold).width('علبة', 10)).toBeCloseTo(10 * joined, 6);
  });
});

it('a title in Hebrew or Arabic stands on the guide, and nothing is missing', async () => {
  const titled = (title: string) =>
    guideOf(
      jobOf(
        `job: fair\nboxes:\n  - { style: flip-lid, inside: 90mm x 60mm x 30mm, name: six, title: "${title}" }`,
      ),
    ).page;
  for (const title of ['קופסת תפוחים', 'علبة تفاح']) {
    const { bytes, missing } = await pdfOf(titled(title));
    expect(missing).toEqual([]);
    const texts = await textsOf(bytes);
    const words = title.split(' ');
    const [first, second] = words.map(w => texts.find(t => t.text === w)!);
    // The second word stands to the left of the first, on one line.
    expect(second!.x1).toBeLessThanOrEqual(first!.x0 + 0.1);
    expect(second!.y0).toBeCloseTo(first!.y0, 3);
    expect(texts.some(t => t.text === 'Six')).toBe(false);
  }
});
