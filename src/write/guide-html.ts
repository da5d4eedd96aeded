/** A guide as one HTML file: everything in it, nothing fetched, the same content as on paper. */
import type { FoldedView, GuidePage, Shown, StepsWords, StepWords } from '../guide-model.js';
import { escaped } from './escaped.js';
import type { Figure } from './figure.js';
import { figureMarks, SvgPool } from './figure-svg.js';
import { thumb, viewFigure } from './guide-pictures.js';
import { guideStyle } from './guide-style.js';
import { legendFigure, patternFigure } from './pattern-figure.js';
import { barFigure } from './scale-bar.js';
import { type GuideFonts, type TextMetrics, textMetrics } from './text-metrics.js';

/** Nothing may be fetched, and nothing runs. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; font-src data:";

export function writeGuideHtml(page: GuidePage, paper: 'a4' | 'letter', fonts: GuideFonts): string {
  const pool = new SvgPool(colour => `var(--${colour})`);
  const metrics = textMetrics(fonts);
  const parts = [
    headPart(page, pool),
    piecesPart(page.pieces, pool),
    patternsPart(page.patterns, pool, metrics),
    handPart(page.byHand),
    stepsPart(page.steps, pool, 'steps'),
    stepsPart(page.decorating, pool, 'decorating'),
    scalePart(page.scale, pool),
    section('care', page.care.title, list('ul', page.care.items), 'care card'),
  ];
  return `<!doctype html>
<html lang="${escaped(page.lang)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${escaped(POLICY)}">
<title>${escaped(page.title)}</title>
<style>${fontFaces(fonts)}${guideStyle(paper === 'a4' ? 'A4' : 'letter')}</style>
</head>
<body>
<main>
${parts.filter(p => p !== '').join('\n')}
</main>
</body>
</html>
`;
}

// ---- Pieces of markup -----------------------------------------------------------------------------

/** Text of the person's own runs the way its letters do. */
const own = (text: string): string => `<bdi>${escaped(text)}</bdi>`;

function list(tag: 'ol' | 'ul', items: readonly string[], name = ''): string {
  const attribute = name === '' ? '' : ` class="${name}"`;
  return `<${tag}${attribute}>${items.map(i => `<li>${escaped(i)}</li>`).join('')}</${tag}>`;
}

function section(id: string, title: string, inner: string, name = ''): string {
  const attribute = name === '' ? '' : ` class="${name}"`;
  return `<section${attribute} aria-labelledby="${id}"><h2 id="${id}">${escaped(title)}</h2>${inner}</section>`;
}

/** What is wider than a phone is moved sideways by itself, by keyboard too. */
const scrolling = (title: string): string =>
  `<div class="scroll" tabindex="0" role="group" aria-label="${escaped(title)}">`;

/** A figure, told to who does not see it; without words it is a mere ornament. `unit` sets its size. */
function svg(figure: Figure, pool: SvgPool, told: string, unit: 'mm' | '' = ''): string {
  const [w, h] = [figure.width, figure.height].map(v => Number(v.toFixed(2)));
  const size = unit === '' ? '' : ` width="${w}mm" height="${h}mm"`;
  const label = told === '' ? 'aria-hidden="true"' : `role="img" aria-label="${escaped(told)}"`;
  return `<svg viewBox="0 0 ${w} ${h}"${size} ${label}>${figureMarks(figure, pool)}</svg>`;
}

const viewSvg = ({ of, told }: Shown<FoldedView>, pool: SvgPool): string =>
  svg(viewFigure(of), pool, told);

// ---- The sections ---------------------------------------------------------------------------------

function headPart({ job, title, lines, closed, needs }: GuidePage, pool: SvgPool): string {
  const groups = needs.groups.map(g => `<h3>${escaped(g.title)}</h3>${list('ul', g.items)}`);
  const picture = closed ? `<div class="card">${viewSvg(closed, pool)}</div>` : '';
  return `<header><p class="job">${own(job)}</p><h1>${own(title)}</h1>
<p class="lines">${lines.map(escaped).join(' · ')}</p></header>
<div class="top">${picture}${section('needs', needs.title, groups.join(''))}</div>`;
}

function piecesPart({ title, head, rows, notes }: GuidePage['pieces'], pool: SvgPool): string {
  if (rows.length === 0) return '';
  const heads = ['', ...head].map(h =>
    h === '' ? '<td></td>' : `<th scope="col">${escaped(h)}</th>`,
  );
  const lines = rows.map(({ cells, piece, colour }) => {
    const shown = svg(thumb(piece, colour, 10.4, 8), pool, '');
    const [name, ...more] = cells.map(own);
    return `<tr><td>${shown}</td><th scope="row">${name}</th>${more.map(c => `<td>${c}</td>`).join('')}</tr>`;
  });
  const table = `${scrolling(title)}<table><thead><tr>${heads.join('')}</tr></thead><tbody>${lines.join('')}</tbody></table></div>`;
  const said = notes.map(n => `<p class="quiet">${escaped(n)}</p>`).join('');
  return section('pieces', title, table + said, 'pieces');
}

function patternsPart(
  patterns: GuidePage['patterns'],
  pool: SvgPool,
  metrics: TextMetrics,
): string {
  if (!patterns) return '';
  const { title, intro, legend, nets, notes } = patterns;
  const keys = legend.map(
    ({ mark, text }) => `<li>${svg(legendFigure(mark), pool, '')}${escaped(text)}</li>`,
  );
  const width = nets.length > 1 ? 120 : 180;
  const figures = nets.map(net => {
    const drawn = svg(patternFigure(net, width, 170, metrics), pool, net.pattern.told);
    const letters = net.lettered.length > 0 ? `<p>${escaped(net.lettered.join(' · '))}</p>` : '';
    return `<figure><figcaption><h3>${escaped(net.title)}</h3></figcaption>${scrolling(net.title)}${drawn}</div>${letters}</figure>`;
  });
  const said = notes.map(n => `<p class="quiet">${escaped(n)}</p>`).join('');
  const inner = `<p>${escaped(intro)}</p><div class="light"><ul class="legend">${keys.join('')}</ul><div class="nets">${figures.join('')}</div></div>${said}`;
  return section('pattern', title, inner);
}

function handPart(byHand: GuidePage['byHand']): string {
  if (!byHand) return '';
  const nets = byHand.nets.map(({ title, lines }) => {
    const head = byHand.nets.length > 1 && title !== '' ? `<h3>${escaped(title)}</h3>` : '';
    if (lines.length === 1) return `${head}<p>${escaped(lines[0]!)}</p>`;
    const steps: { text: string; under: string[] }[] = [];
    for (const line of lines) {
      if (line.startsWith('  ') && steps.length > 0) steps.at(-1)!.under.push(line.trim());
      else steps.push({ text: line, under: [] });
    }
    const items = steps.map(
      ({ text, under }) => `<li>${escaped(text)}${under.length > 0 ? list('ul', under) : ''}</li>`,
    );
    return `${head}<ol class="hand">${items.join('')}</ol>`;
  });
  const intro = byHand.intro === '' ? '' : `<p>${escaped(byHand.intro)}</p>`;
  return section('hand', byHand.title, intro + nets.join(''));
}

/** A list of layers longer than this takes the whole width. */
const LONG_LIST = 9;

function stepsPart(words: StepsWords | undefined, pool: SvgPool, id: string): string {
  if (!words) return '';
  const items = words.steps.map(step => stepItem(step, pool));
  return section(
    id,
    words.title,
    `<p>${escaped(words.intro)}</p><ol class="steps">${items.join('')}</ol>`,
  );
}

function stepItem({ text, layers, picture }: StepWords, pool: SvgPool): string {
  const shown = picture ? `<div class="card">${viewSvg(picture, pool)}</div>` : '';
  const stack = layers.length > 0 ? list('ol', layers) : '';
  const said = `<div class="said"><p>${escaped(text)}</p>${stack}</div>`;
  const name = layers.length > LONG_LIST ? ' class="long wide"' : picture ? '' : ' class="wide"';
  return `<li${name}>${shown}${said}</li>`;
}

function scalePart({ title, text, labels }: GuidePage['scale'], pool: SvgPool): string {
  const names = labels.map(escaped).join('<br>');
  const bar = svg(barFigure(), pool, '', 'mm');
  const inner = `<div class="scale"><figure>${bar}<span>${names}</span></figure><p>${escaped(text)}</p></div>`;
  return section('scale', title, inner, 'on-paper');
}

// ---- Fonts ----------------------------------------------------------------------------------------

const faces = new WeakMap<GuideFonts, string>();

/** The first file of each weight; what it lacks comes from the reader's own fonts. Made once. */
function fontFaces(fonts: GuideFonts): string {
  const known = faces.get(fonts);
  if (known !== undefined) return known;
  const text = (['regular', 'bold'] as const)
    .map(weight => {
      const data = Buffer.from(fonts[weight][0]!).toString('base64');
      return `@font-face{font-family:Guide;font-weight:${weight === 'bold' ? 700 : 400};src:url(data:font/ttf;base64,${data})}`;
    })
    .join('');
  faces.set(fonts, text);
  return text;
}
