/**
 * The contact sheet of a job: every item as a card, with its pictures, sizes and files. It is made from
 * the manifest and says nothing that the manifest does not. Its program only sorts and filters; without it
 * the cards stand as they are.
 */
import { formatLength } from '../units/length.js';
import { escaped } from './escaped.js';
import type { Manifest, ManifestFile, ManifestSheet } from './manifest.js';
import type { ManifestItem } from './manifest-items.js';
import { type PageProgram, pagePolicy } from './preview-page.js';

export type ContactFacts = Pick<Manifest, 'job' | 'title' | 'items' | 'sheets' | 'files'>;

export interface ContactOptions {
  /** Unit in which lengths are shown. */
  readonly unit: 'mm' | 'in';
  /** What a stock is called. */
  stockName(id: string): string;
}

/** Sorts, by their name in the page: what a card is sorted by, and what it is called. */
const SORTS = [
  ['order', 'as in the job'],
  ['name', 'by name'],
  ['size', 'by size, the largest first'],
  ['sheets', 'by sheets, the most first'],
  ['seconds', 'by cutting time, the longest first'],
] as const;

export function contactPage(
  facts: ContactFacts,
  options: ContactOptions,
  { script, style }: PageProgram,
): string {
  const title = escaped(facts.title);
  const cards = facts.items.map((item, i) => card(item, i, facts, options));
  const styles = [...new Set(facts.items.map(i => i.style).filter(s => s !== ''))].sort();
  const stocks = [...new Set(facts.sheets.map(s => s.stock))].sort();
  const copies = facts.sheets.reduce((n, s) => n + s.copies, 0);
  const time = facts.sheets.reduce((n, s) => n + s.copies * s.seconds, 0);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta http-equiv="Content-Security-Policy" content="${pagePolicy('file: data:')}">
<title>${title}: contact sheet</title>
<style>${style}</style>
</head>
<body>
<header>
<h1><bdi>${title}</bdi></h1>
<p class="told">${many(facts.items.length, 'item')} on ${many(copies, 'sheet')}, ${minutes(time)} of cutting.</p>
</header>
<form class="choose" role="search">
<label>Find <input type="search" id="find" autocomplete="off"></label>
${select('Style', 'style', [['', 'all'], ...styles.map(s => [s, s] as const)])}
${select('Paper', 'stock', [['', 'all'], ...stocks.map(s => [s, options.stockName(s)] as const)])}
${select('Sort', 'sort', SORTS)}
<p id="shown" role="status"></p>
</form>
<main id="cards">
${cards.join('\n')}
</main>
<footer>Made with Foldwright from manifest.json. Nothing is loaded from elsewhere.</footer>
<script>${script.replaceAll('</script', '<\\/script')}</script>
</body>
</html>
`;
}

function select(
  label: string,
  id: string,
  options: readonly (readonly [value: string, label: string])[],
): string {
  const each = options.map(([v, l]) => `<option value="${escaped(v)}">${escaped(l)}</option>`);
  return `<label>${label} <select id="${id}">${each.join('')}</select></label>`;
}

function card(
  item: ManifestItem,
  order: number,
  { sheets, files }: ContactFacts,
  options: ContactOptions,
): string {
  const own = sheets.filter(s => s.item === item.name);
  const mine = files.filter(f => f.path.startsWith(`${item.name}/`));
  const at = (ending: string) => mine.find(f => f.path === `${item.name}/${item.name}${ending}`);
  const [folded, net, preview] = [at('.folded.png'), at('.net.png'), at('.preview.html')];
  const copies = own.reduce((n, s) => n + s.copies, 0);
  const seconds = own.reduce((n, s) => n + s.copies * s.seconds, 0);
  const volume = item.insideMm.reduce((v, side) => v * side, item.insideMm.length > 0 ? 1 : 0);
  const stocks = [...new Set(own.map(s => s.stock))];
  const name = escaped(item.name);
  const title = escaped(item.title);
  const facts = [
    item.insideMm.length > 0 && ['Inside', sides(item.insideMm, options.unit)],
    item.style !== '' && ['Style', item.style],
    ['Count', String(item.count)],
    ['Sheets', sheetWords(own, options)],
    ['Cutting', minutes(seconds)],
  ].filter(f => f !== false) as string[][];
  const picture = folded
    ? `<img src="${link(folded)}" alt="${title}, ${item.style === '' ? 'as it is layered' : 'folded'}" width="480" height="360" loading="lazy">`
    : '';
  const data = {
    name: item.name,
    style: item.style,
    stocks: stocks.join(' '),
    size: volume.toFixed(0),
    sheets: String(copies),
    seconds: seconds.toFixed(0),
    order: String(order),
    words: `${item.title} ${item.name} ${item.style}`.toLowerCase(),
  };
  const attributes = Object.entries(data).map(([k, v]) => `data-${k}="${escaped(v)}"`);
  return `<article id="item-${name}" ${attributes.join(' ')}>
${preview ? `<a class="box" href="${link(preview)}">${picture}</a>` : `<div class="box">${picture}</div>`}
<div class="words">
${net ? `<img class="net" src="${link(net)}" alt="The net of ${title}" loading="lazy">` : ''}
<h2><bdi>${title}</bdi></h2>
<dl>${facts.map(([k, v]) => `<div><dt>${k}</dt><dd>${escaped(v!)}</dd></div>`).join('')}</dl>
${links(item, mine, own, options)}
</div>
</article>`;
}

function links(
  item: ManifestItem,
  files: readonly ManifestFile[],
  sheets: readonly ManifestSheet[],
  options: ContactOptions,
): string {
  const a = (f: ManifestFile, label: string, what: string) =>
    `<a href="${link(f)}" aria-label="${escaped(`${item.title}: ${what}`)}">${escaped(label)}</a>`;
  const start = `${item.name}/${item.name}.`;
  const pages = files.filter(f => f.path.startsWith(start) && /\.(?:html|pdf)$/.test(f.path));
  const rows = sheets.map(sheet => {
    const base = `${item.name}/${sheet.id}.`;
    const cut = files.filter(f => f.path.startsWith(base) && !f.path.endsWith('.drawing.json'));
    const each = cut.map(f => a(f, f.path.slice(base.length), f.path.slice(item.name.length + 1)));
    const stock = escaped(options.stockName(sheet.stock));
    return `<li><span>${sheet.copies} × ${escaped(sheet.id)}, ${stock}</span> ${each.join(' ')}</li>`;
  });
  const all = pages.map(f => {
    const ending = f.path.slice(start.length);
    const label = ending === 'preview.html' ? 'See it fold' : ending;
    return a(f, label, label);
  });
  const top = all.length > 0 ? `<p class="pages">${all.join(' ')}</p>` : '';
  return `${top}<details><summary aria-label="Files of ${escaped(item.title)}">Files</summary><ul>${rows.join('')}</ul></details>`;
}

const link = ({ path }: ManifestFile) => escaped(path.split('/').map(encodeURIComponent).join('/'));

const sides = (mm: readonly number[], unit: 'mm' | 'in') =>
  mm.map(v => formatLength(v, unit)).join(' × ');

const many = (n: number, one: string) => `${n} ${n === 1 ? one : `${one}s`}`;

function minutes(seconds: number): string {
  if (seconds < 90) return `${Math.round(seconds)} s`;
  return seconds < 5400 ? `${Math.round(seconds / 60)} min` : `${(seconds / 3600).toFixed(1)} h`;
}

function sheetWords(sheets: readonly ManifestSheet[], { stockName }: ContactOptions): string {
  const copies = sheets.reduce((n, s) => n + s.copies, 0);
  const stocks = [...new Set(sheets.map(s => s.stock))];
  const [only] = stocks;
  return stocks.length === 1
    ? `${copies} of ${stockName(only!)}`
    : `${copies} of ${stocks.length} papers`;
}
