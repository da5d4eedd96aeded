/** The page that comes with a test card: its picture and how to read it. One file, no network. */
import { escaped } from './escaped.js';

/** What is to be typed stands between backticks. */
const typed = (sentence: string): string =>
  escaped(sentence).replace(/`([^`]+)`/g, '<code>$1</code>');

/** `picture` is an SVG of ours, put in as it is. */
export function cardPage(title: string, picture: string, read: readonly string[]): string {
  const drawing = picture.slice(picture.indexOf('<svg'));
  const items = read.map(sentence => `<li>${typed(sentence)}</li>`).join('\n');
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<style>
:root { color-scheme: light dark; --ink: #33291f; --paper: #fbf6ec; --line: #d9c9ae; }
@media (prefers-color-scheme: dark) { :root { --ink: #efe6d6; --paper: #241d16; --line: #5a4a38; } }
body { margin: 2rem auto; max-width: 46rem; padding: 0 1rem; background: var(--paper); color: var(--ink);
  font: 1.05rem/1.55 Georgia, "Times New Roman", serif; }
h1 { font-size: 1.5rem; font-weight: 600; }
figure { margin: 1.5rem 0; } svg { width: 100%; height: auto; border-radius: 6px; }
code { font: .92em/1.4 ui-monospace, "DejaVu Sans Mono", monospace; overflow-wrap: break-word;
  background: color-mix(in srgb, var(--line) 35%, transparent); padding: .1em .3em; border-radius: 3px; }
li { margin: .6rem 0; } footer { border-top: 1px solid var(--line); margin-top: 2rem; padding-top: .6rem;
  font-size: .92rem; }
@media print { body { margin: 0; max-width: none; background: none; color: #000; } }
</style>
<main>
<h1>${escaped(title)}</h1>
<figure role="img" aria-label="The card as it is drawn and cut">
${drawing}</figure>
<h2>How to read it</h2>
<ol>
${items}
</ol>
</main>
<footer>Blades are sharp: an adult changes them, switches the machine off first, and caps the blade. The
machine's own safety notes and local rules come first.</footer>
</html>
`;
}
