import { describe, expect, it } from 'vitest';
import { readFonts } from '../../src/cli/preset-files.js';
import { ENGLISH } from '../../src/words/english.js';
import { type ContactFacts, contactPage } from '../../src/write/contact-page.js';
import { contactPicture } from '../../src/write/contact-picture.js';
import { titleFor } from '../../src/write/guide-spelling.js';
import { toPng } from '../../src/write/png.js';
import { root } from '../support/command.js';
import { quietWords, SHOUTING, saidIn } from '../support/shouting.js';

const PROGRAM = { script: '', style: '' };
const OPTIONS = { unit: 'mm', words: ENGLISH, stockName: (id: string) => `card ${id}` } as const;
const file = (path: string) => ({ path, sha256: '0'.repeat(64), bytes: 1, holds: 'a file' });
const sheet = (item: string, id: string, copies: number, seconds: number) => ({
  id,
  item,
  stock: 'kraft',
  widthMm: 305,
  heightMm: 305,
  copies,
  pieces: 1,
  lengthsMm: {},
  travelMm: 0,
  travelAsDrawnMm: 0,
  seconds,
  paperM2: 0.1,
  tipErrorMm: 0,
  tipError99Mm: 0,
  uncutMm: 0,
  uncut99Mm: 0,
  uncompensatedMm: 0,
  compensatedBy: 'file' as const,
  bladeOffsetMm: 0.25,
  overcutMm: 0,
  kerfMm: 0,
  foldsBy: 'tool' as const,
  fromBackMm: 0,
  tone: null,
  marks: [],
  warnings: [],
  placements: [],
});
const item = (name: string, title = name) => ({
  name,
  title,
  count: 2,
  style: 'flip-lid',
  stock: 'kraft',
  insideMm: [60, 40, 20],
});
const FACTS: ContactFacts = {
  job: 'fair',
  title: 'The fair',
  items: [item('pear'), item('apple')],
  sheets: [sheet('pear', 'kraft-1', 2, 100), sheet('apple', 'kraft-1', 1, 60)],
  files: [
    file('apple/kraft-1.cut.svg'),
    file('pear/kraft-1.cut.svg'),
    file('pear/kraft-1.drawing.json'),
    file('pear/pear.folded.png'),
    file('pear/pear.preview.html'),
  ],
};

describe('the contact page', () => {
  const page = contactPage(FACTS, OPTIONS, PROGRAM);
  const cards = page.split('<article').slice(1);

  it('has a card for every item in the order given, with what it is sorted by', () => {
    expect(cards.map(c => /data-name="(.*?)"/.exec(c)![1])).toEqual(['pear', 'apple']);
    expect(cards[0]).toContain('data-sheets="2"');
    expect(cards[0]).toContain('data-seconds="200"');
    expect(cards[0]).toContain('data-size="48000"');
    expect(cards[0]).toContain('60 × 40 × 20\u00a0mm inside');
    expect(cards[0]).toContain('2 of card kraft');
  });
  it('has the title before its picture in each card, and papers that can be told apart', () => {
    for (const card of cards) expect(card.indexOf('<h2')).toBeLessThan(card.indexOf('class="box"'));
    const twice = [sheet('pear', 'red-1', 1, 9), sheet('pear', 'gold-1', 1, 9)].map((s, i) => ({
      ...s,
      stock: ['red', 'gold'][i]!,
    }));
    const same = { ...OPTIONS, stockName: () => 'card of one kind' };
    const choice = /<select id="stock">(.*?)<\/select>/s;
    const [, options] = choice.exec(contactPage({ ...FACTS, sheets: twice }, same, PROGRAM))!;
    const labels = [...options!.matchAll(/>([^<]+)</g)].map(m => m[1]);
    expect(labels).toEqual(['all', 'gold: card of one kind', 'red: card of one kind']);
  });
  it('leads to the files of the item, and only to files that there are', () => {
    const links = [...page.matchAll(/(?:href|src)="(.*?)"/g)].map(m => m[1]!);
    const paths = FACTS.files.map(f => f.path);
    expect(links.length).toBeGreaterThan(3);
    for (const link of links) expect(paths).toContain(link);
    expect(cards[0]).toContain('pear/kraft-1.cut.svg');
    expect(cards[0]).not.toContain('apple/');
    expect(page).not.toContain('drawing.json');
  });
  it('takes any title as words', () => {
    const title = '<script>alert("x")</script>';
    const hostile = contactPage(
      { ...FACTS, title, items: [item('pear', title)] },
      OPTIONS,
      PROGRAM,
    );
    expect(hostile).not.toContain('<script>alert');
    expect(hostile.match(/<script/g)).toHaveLength(1);
  });
  it('is a page without items as well', () => {
    const none = contactPage({ ...FACTS, items: [], sheets: [], files: [] }, OPTIONS, PROGRAM);
    expect(none).toContain('0 items on 0 sheets');
  });
  it('says nothing but what its catalogue says', () => {
    const titled = {
      ...FACTS,
      title: 'FAIR',
      items: FACTS.items.map(i => ({ ...i, title: 'PEAR' })),
    };
    const loud = contactPage(titled, { ...OPTIONS, words: SHOUTING }, PROGRAM);
    const known = ['flip-lid', 'card kraft', 'kraft-1', 'cut.svg', 'pear', 'apple'];
    expect(quietWords(saidIn(loud), known)).toEqual([]);
    expect(loud).toContain('SEE IT FOLD');
  });
});

describe('the contact picture', () => {
  const FAIR = { title: 'The fair', name: 'fair' };
  const font = readFonts({ presetsDir: `${root}presets` }).get('nunito-bold')!;
  const width = (png: Uint8Array) => Buffer.from(png).readUInt32BE(16);
  const height = (png: Uint8Array) => Buffer.from(png).readUInt32BE(20);
  const picture = toPng('<svg xmlns="http://www.w3.org/2000/svg" width="4" height="3"/>', 40);

  it('grows downward with its cards', () => {
    const of = (n: number) =>
      contactPicture(
        FAIR,
        Array.from({ length: n }, (_, i) => ({
          title: `Box ${i}`,
          name: `box-${i}`,
          note: '60 mm',
          picture,
        })),
        font,
        ENGLISH,
      );
    const [few, more, lots] = [of(3), of(20), of(100)];
    for (const png of [few, more, lots]) expect(width(png)).toBe(1600);
    expect(height(more)).toBeGreaterThan(height(few));
    expect(height(lots)).toBeGreaterThan(height(more));
    // No taller than pictures can be, however many there are.
    const bare = Array.from({ length: 1000 }, () => ({ title: 'x', name: 'x', note: '' }));
    expect(height(contactPicture(FAIR, bare, font, ENGLISH))).toBeLessThan(16_384);
  });
  it('sets the name of what it cannot spell, and leaves emoji out', () => {
    const has = (char: string) => /[\x20-\x7e]/.test(char);
    expect(titleFor('צנצנות דבש', 'honey-jars', has)).toBe('Honey jars');
    expect(titleFor('🍎 apples', 'a', has)).toBe('apples');
    expect(titleFor('🍎', 'red-apple', has)).toBe('Red apple');
    expect(titleFor('Pear', 'p', has)).toBe('Pear');
    const one = (title: string) =>
      contactPicture(FAIR, [{ title, name: 'honey', note: '' }], font, ENGLISH);
    expect(Buffer.from(one('דבש')).equals(Buffer.from(one('Honey')))).toBe(true);
    expect(Buffer.from(one('דבש')).equals(Buffer.from(one('Pear')))).toBe(false);
  });
  it('takes names that are long, in other scripts, or nothing', () => {
    const titles = ['long '.repeat(60), 'صندوق', '🍎', ''];
    const cards = titles.map(title => ({ title, name: 'six', note: '', picture: undefined }));
    expect(width(contactPicture({ ...FAIR, title: titles[0]! }, cards, font, ENGLISH))).toBe(1600);
    expect(width(contactPicture({ title: '', name: '' }, [], font, ENGLISH))).toBe(1600);
  });
});
