import { describe, expect, it } from 'vitest';
import type { PreviewFacts } from '../../src/preview-model.js';
import { ENGLISH } from '../../src/words/english.js';
import { previewPage } from '../../src/write/preview-page.js';

const PROGRAM = { script: 'run("</script>")', style: 'body{}' };
const FACTS: PreviewFacts = {
  title: 'Plum truffles',
  name: 'plum-truffles',
  job: 'The fair',
  told: ['Inside 60 mm × 60 mm × 30 mm'],
  decorated: '',
  paper: '#f5ead2',
  nets: [],
  placing: {},
  gathering: [],
  pieces: [],
  decals: [],
  films: [],
  marks: [],
  sheets: [],
  colours: {
    draw: '#0072b2',
    score: '#d55e00',
    perforate: '#cc79a7',
    cut: '#000000',
    register: '#009e73',
  },
  words: { lang: 'en', ...ENGLISH.preview.page },
};
const factsIn = (page: string) =>
  JSON.parse(/<script type="application\/json" id="facts">(.*?)<\/script>/s.exec(page)![1]!);

describe('the preview page', () => {
  it('carries its facts, and nothing that leads out of the file', () => {
    const page = previewPage(FACTS, PROGRAM);
    expect(factsIn(page)).toEqual(FACTS);
    expect(page).not.toMatch(/(?:src|href|url)\s*[=(]\s*["']?(?:https?:)?\/\//);
    expect(page).toContain("default-src 'none'");
  });
  it.each([
    ['</script><script>alert(1)</script>'],
    ['<b>"bold" & \'quoted\'</b>'],
    ['صندوق الخوخ'],
    ['🍎 apples 🍏'],
    ['long '.repeat(200)],
    ['\u2028\u2029'],
  ])('takes any title as words: %s', title => {
    const page = previewPage({ ...FACTS, title, told: [title] }, PROGRAM);
    expect(factsIn(page).title).toBe(title);
    // Two scripts, each of them closed once.
    expect(page.match(/<script/g)).toHaveLength(2);
    expect(page.match(/<\/script>/g)).toHaveLength(2);
    const heading = /<h1><bdi>(.*?)<\/bdi><\/h1>/s.exec(page)![1]!;
    expect(heading).not.toMatch(/[<>"]/);
  });
  it('never holds a number that is none', () => {
    const treat = { told: '', inside: [1, Number.NaN, 1] as const, things: [] };
    expect(() => previewPage({ ...FACTS, treat }, PROGRAM)).toThrow(/cannot stand in a file/);
  });
});
