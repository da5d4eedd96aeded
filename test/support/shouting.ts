/** A language of our own for tests: English in capitals. What is still small was said by no catalogue. */
import { ENGLISH, type Words } from '../../src/words/english.js';

/** Texts with `{braces}` keep their names. */
const loud = (text: string): string =>
  text.replace(/\{\w+\}|[^{]+/g, t => (t[0] === '{' ? t : t.toUpperCase()));

function shouted(given: unknown, key = ''): unknown {
  if (typeof given === 'string') return key === 'lang' ? 'tlh' : loud(given);
  if (typeof given === 'function') return (...args: unknown[]) => shouted(given(...args));
  if (Array.isArray(given)) return given.map(g => shouted(g));
  return Object.fromEntries(Object.entries(given as object).map(([k, v]) => [k, shouted(v, k)]));
}

export const SHOUTING = shouted(ENGLISH) as Words;

/** Units have the same letters in every language. */
const UNITS = /(?<=[\d/] ?)(?:mm|cm|in|m|yd)\b/g;

/** Words with small letters in a text, but for units, single letters (marks on a drawing), and what is
 *  `known`: the person's own. */
export function quietWords(text: string, known: readonly string[] = []): string[] {
  let rest = text.replace(UNITS, '').replace(/\{\w+\}/g, '');
  for (const k of [...known].sort((a, b) => b.length - a.length)) rest = rest.replaceAll(k, '');
  const words = new Set(rest.match(/\p{L}+/gu) ?? []);
  return [...words].filter(w => w.length > 1 && /\p{Ll}/u.test(w));
}

/** All that a page says to anyone: its text, and what it tells who does not see it. */
export function saidIn(html: string): string {
  const body = html.replace(/<(script|style)\b.*?<\/\1>/gs, '');
  const told = [...body.matchAll(/ (?:aria-label|alt|title|placeholder|data-words)="([^"]*)"/g)];
  return [body.replace(/<[^>]*>/g, ' '), ...told.map(t => t[1])]
    .join(' ')
    .replace(/&\w+;|&#\d+;/g, ' ');
}
