/** The guide as a page for the browser. */
import { describe, expect, it } from 'vitest';
import type { GuidePage } from '../../src/guide-model.js';
import { guideOf, htmlOf, jobOf } from '../support/guide.js';

const job = (title: string) =>
  jobOf(`job: fair
units: mm
boxes:
  - style: flip-lid
    name: six
    title: ${JSON.stringify(title)}
    inside: 150x50x25
    decorations:
      - { on: lid, motif: heart, params: { size: 20 }, art: { pattern: dots, palette: cider } }
`);
const { page } = guideOf(job('Pears <b>& plums</b> "today"'));
const html = htmlOf(page);
const plain = (text: string) =>
  text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');

/** Every text of the page that is not a mere fallback. */
function textsOf(p: GuidePage): string[] {
  return [
    p.job,
    p.title,
    ...p.lines,
    ...p.needs.groups.flatMap(g => [g.title, ...g.items]),
    ...p.pieces.head,
    ...p.pieces.rows.flatMap(r => r.cells),
    ...p.patterns!.legend.map(l => l.text),
    ...p.patterns!.nets.flatMap(n => n.measures),
    ...p.byHand!.nets.flatMap(n => n.lines.map(l => l.trim())),
    ...p.steps!.steps.map(s => s.text),
    ...p.decorating!.steps.flatMap(s => [s.text, ...s.layers]),
    p.scale.text,
    ...p.care.items,
  ];
}

describe('the guide for the browser', () => {
  it('says all that the guide on paper says', () => {
    for (const text of textsOf(page)) expect(html).toContain(plain(text));
  });

  it('fetches nothing and runs nothing', () => {
    expect(html).not.toMatch(/https?:/);
    expect(html).not.toContain('<script');
    for (const [, to] of html.matchAll(/href="([^"]*)"/g)) expect(to).toMatch(/^#/);
    for (const [, to] of html.matchAll(/url\(([^)]*)\)/g)) expect(to).toMatch(/^(?:#|data:font)/);
    expect(html).toContain("default-src 'none'");
  });

  it('lets no text of a person become markup', () => {
    expect(html).not.toContain('<b>');
    expect(html).toContain(
      '<h1><bdi>Pears &lt;b&gt;&amp; plums&lt;/b&gt; &quot;today&quot;</bdi></h1>',
    );
  });

  it('has each id once, and every reference leads to one', () => {
    const ids = [...html.matchAll(/ id="([^"]*)"/g)].map(m => m[1]);
    expect(new Set(ids).size).toBe(ids.length);
    const asked = [...html.matchAll(/(?:href="#|url\(#|labelledby=")([\w-]+)/g)].map(m => m[1]);
    expect(asked.length).toBeGreaterThan(5);
    for (const id of asked) expect(ids).toContain(id);
  });

  it('tells what each picture shows, and hides what is an ornament', () => {
    for (const [tag] of html.matchAll(/<svg[^>]*>/g)) {
      expect(tag).toMatch(/role="img" aria-label="[^"]+"|aria-hidden="true"/);
    }
  });

  it('is the same each time, and keeps scripts that the paper cannot spell', () => {
    expect(htmlOf(guideOf(job('Pears <b>& plums</b> "today"')).page)).toBe(html);
    expect(htmlOf(guideOf(job('קופסה 🍎')).page)).toContain('<bdi>קופסה 🍎</bdi>');
  });
});
