/**
 * The folding preview: one HTML file that opens from disk and asks for nothing else. The page's program is
 * the same for every box; what it folds stands beside it as JSON. What needs no program to be read, the
 * steps and the facts, stands in the page as plain words.
 */

import type { PreviewFacts } from '../preview-model.js';
import { filled } from '../words/filled.js';
import { escaped } from './escaped.js';

export interface PageProgram {
  readonly script: string;
  readonly style: string;
}

/** Steps to the millimetre and to the radian. */
const STEPS = 1e7;

/** Nothing may be asked for but images from where it is said. */
export const pagePolicy = (images: string): string =>
  `default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; img-src ${images}`;
export function previewPage(facts: PreviewFacts, { script, style }: PageProgram): string {
  const title = escaped(facts.title);
  const { words } = facts;
  const told = facts.told.map(line => `<li>${escaped(line)}</li>`).join('');
  return `<!doctype html>
<html lang="${escaped(words.lang)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta http-equiv="Content-Security-Policy" content="${pagePolicy('data:')}">
<title>${escaped(filled(words.title, { title: facts.title }))}</title>
<style>${style}</style>
</head>
<body>
<header>
<p class="job" dir="auto">${escaped(facts.job)}</p>
<h1><bdi>${title}</bdi></h1>
<ul class="told">${told}</ul>
</header>
<main id="preview"><noscript><p>${escaped(words.noScript)}</p></noscript></main>
<footer>${escaped(words.foot)}</footer>
<script type="application/json" id="facts">${jsonText(facts)}</script>
<script>${script.replaceAll('</script', '<\\/script')}</script>
</body>
</html>
`;
}

/** Numbers rounded once. `<` is escaped, so that no text in it can end the script. Throws on NaN. */
function jsonText(facts: PreviewFacts): string {
  const text = JSON.stringify(facts, (key, value) => {
    if (typeof value !== 'number') return value;
    if (!Number.isFinite(value)) throw new RangeError(`${key}: ${value} cannot stand in a file`);
    return Math.round(value * STEPS) / STEPS + 0;
  });
  return text
    .replaceAll('<', '\\u003c')
    .replaceAll('\u2028', '\\u2028')
    .replaceAll('\u2029', '\\u2029');
}
