/**
 * The contact sheet of a job: every item as a card, with its pictures, sizes and files. It is made from
 * the manifest and says nothing that the manifest does not. Its program only sorts and filters; without it
 * the cards stand as they are.
 */
import { formatSides } from '../units/length.js';
import type { Words } from '../words/english.js';
import { escaped } from './escaped.js';
import type { Manifest, ManifestFile, ManifestSheet } from './manifest.js';
import type { ManifestItem } from './manifest-items.js';
import { type PageProgram, pagePolicy } from './preview-page.js';

export type ContactFacts = Pick<Manifest, 'job' | 'title' | 'items' | 'sheets' | 'files'>;

export interface ContactOptions {
  /** Unit in which lengths are shown. */
  readonly unit: 'mm' | 'in';
  readonly words: Words;
  /** What a stock is called. */
  stockName(id: string): string;
}

export function contactPage(
  facts: ContactFacts,
  options: ContactOptions,
  { script, style }: PageProgram,
): string {
  const { stockName, words } = options;
  const { contact } = words;
  const title = escaped(facts.title);
  const cards = facts.items.map((item, i) => card(item, i, facts, options));
  const styles = [...new Set(facts.items.map(i => i.style).filter(s => s !== ''))].sort();
  const stocks = [...new Set(facts.sheets.map(s => s.stock))].sort();
  const papers = stocks.map(s => [s, contact.paperCalled(s, stockName(s))] as const);
  const copies = facts.sheets.reduce((n, s) => n + s.copies, 0);
  const any = ['', contact.all] as const;
  const time = facts.sheets.reduce((n, s) => n + s.copies * s.seconds, 0);
  return `<!doctype html>
<html lang="${escaped(words.lang)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta http-equiv="Content-Security-Policy" content="${pagePolicy('file: data:')}">
<title>${escaped(contact.title(facts.title))}</title>
<style>${style}</style>
</head>
<body>
<header>
<h1><bdi>${title}</bdi></h1>
<p class="told">${escaped(contact.told(facts.items.length, copies, timeWords(time, contact)))}</p>
</header>
<form class="choose" role="search">
<label>${escaped(contact.find)} <input type="search" id="find" autocomplete="off"></label>
${select(contact.style, 'style', [any, ...styles.map(s => [s, contact.styleCalled(s)] as const)])}
${select(contact.paper, 'stock', [any, ...papers])}
${select(contact.sort, 'sort', Object.entries(contact.sorts))}
<p id="shown" role="status" data-words="${escaped(contact.shown)}"></p>
</form>
<main id="cards">
${cards.join('\n')}
</main>
<footer>${escaped(contact.foot)}</footer>
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
  return `<label>${escaped(label)} <select id="${id}">${each.join('')}</select></label>`;
}

function card(
  item: ManifestItem,
  order: number,
  { sheets, files }: ContactFacts,
  options: ContactOptions,
): string {
  const { contact } = options.words;
  const own = sheets.filter(s => s.item === item.name);
  const mine = files.filter(f => f.path.startsWith(`${item.name}/`));
  const at = (ending: string) => mine.find(f => f.path === `${item.name}/${item.name}${ending}`);
  const [folded, net, preview] = [at('.folded.png'), at('.net.png'), at('.preview.html')];
  const copies = own.reduce((n, s) => n + s.copies, 0);
  const seconds = own.reduce((n, s) => n + s.copies * s.seconds, 0);
  const volume = item.insideMm.reduce((v, side) => v * side, item.insideMm.length > 0 ? 1 : 0);
  const stocks = [...new Set(own.map(s => s.stock))];
  const name = escaped(item.name);
  const sides = item.insideMm.length > 0 ? formatSides(item.insideMm, options.unit) : '';
  // Lines break between sides, never within one.
  const size = sides.replace(/(\d) (?=\d|[a-z])/g, '$1\u00a0');
  const title = escaped(item.title);
  const facts = [
    item.style !== '' && [contact.style, contact.styleCalled(item.style)],
    [contact.count, String(item.count)],
    [contact.sheets, sheetWords(own, options)],
    [contact.cutting, timeWords(seconds, contact)],
  ].filter(f => f !== false) as string[][];
  const picture = folded
    ? `<img src="${link(folded)}" alt="${escaped(item.style === '' ? contact.layered(item.title) : contact.folded(item.title))}" width="480" height="360" loading="lazy">`
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
  // The title comes first for whoever goes by headings; the picture is laid above it.
  return `<article id="item-${name}" aria-labelledby="title-${name}" ${attributes.join(' ')}>
<div class="words">
${net ? `<img class="net" src="${link(net)}" alt="${escaped(contact.net(item.title))}" loading="lazy">` : ''}
<h2 id="title-${name}" title="${title}"><bdi>${title}</bdi></h2>
${size === '' ? '' : `<p class="size">${escaped(contact.insideOf(size))}</p>`}
<dl>${facts.map(([k, v]) => `<div><dt>${escaped(k!)}</dt><dd>${escaped(v!)}</dd></div>`).join('')}</dl>
${links(item, mine, own, options)}
</div>
${preview ? `<a class="box" href="${link(preview)}" tabindex="-1">${picture}</a>` : `<div class="box">${picture}</div>`}
</article>`;
}

function links(
  item: ManifestItem,
  files: readonly ManifestFile[],
  sheets: readonly ManifestSheet[],
  options: ContactOptions,
): string {
  const { stockName, words } = options;
  const { contact } = words;
  const a = (f: ManifestFile, label: string, what: string) =>
    `<a href="${link(f)}" aria-label="${escaped(contact.file(item.title, what))}">${escaped(label)}</a>`;
  const start = `${item.name}/${item.name}.`;
  const pages = files.filter(f => f.path.startsWith(start) && /\.(?:html|pdf)$/.test(f.path));
  const rows = sheets.map(sheet => {
    const base = `${item.name}/${sheet.id}.`;
    const cut = files.filter(f => f.path.startsWith(base) && !f.path.endsWith('.drawing.json'));
    const each = cut.map(f => a(f, f.path.slice(base.length), f.path.slice(item.name.length + 1)));
    const said = contact.sheet(sheet.copies, sheet.id, stockName(sheet.stock));
    return `<li><span>${escaped(said)}</span> ${each.join(' ')}</li>`;
  });
  const all = pages.map(f => {
    const ending = f.path.slice(start.length);
    const label = contact.pages[ending] ?? ending;
    return a(f, label, label);
  });
  const top = all.length > 0 ? `<p class="pages">${all.join(' ')}</p>` : '';
  return `${top}<details><summary aria-label="${escaped(contact.filesOf(item.title))}">${escaped(contact.files)}</summary><ul>${rows.join('')}</ul></details>`;
}

const link = ({ path }: ManifestFile) => escaped(path.split('/').map(encodeURIComponent).join('/'));

function timeWords(seconds: number, { seconds: s, minutes, hours }: Words['contact']): string {
  if (seconds < 90) return s(Math.round(seconds));
  return seconds < 5400 ? minutes(Math.round(seconds / 60)) : hours(seconds / 3600);
}

function sheetWords(
  sheets: readonly ManifestSheet[],
  { stockName, words }: ContactOptions,
): string {
  const { contact } = words;
  const copies = sheets.reduce((n, s) => n + s.copies, 0);
  const stocks = [...new Set(sheets.map(s => s.stock))];
  const [only] = stocks;
  return stocks.length === 1
    ? contact.sheetsOf(copies, stockName(only!))
    : contact.sheetsOfSeveral(copies, stocks.length);
}
