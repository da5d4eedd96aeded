/** What a drawing from elsewhere may not have, looked for in its text before anything reads it. */
import type { Element } from '@xmldom/xmldom';
import { ReadError } from './read-error.js';

const lineOf = (source: string, at: number): string =>
  `line ${source.slice(0, at).split('\n').length}`;

const REFUSED: readonly (readonly [sign: RegExp, what: string, advice: string])[] = [
  [
    /<!ENTITY/i,
    'entities of its own (<!ENTITY>); only the five of XML and numbers are read',
    'save the file as plain SVG',
  ],
  [
    /<!DOCTYPE/i,
    'a <!DOCTYPE>, which could fetch or make up text; a drawing needs none',
    'delete it up to its > or save the file as plain SVG',
  ],
  [
    /<\?(?!xml\s)/i,
    'an instruction to programs (<? … ?>); only <?xml … ?> in the first line is allowed',
    'delete it',
  ],
  [
    /@import/i,
    'a style sheet from elsewhere (@import); styles must stand in the file',
    'save the file as plain SVG',
  ],
];

/** Throws `ReadError` with the line of the first of them. */
export function checkSafe(source: string): void {
  for (const [sign, what, advice] of REFUSED) {
    const found = sign.exec(source);
    if (found) throw new ReadError(what, lineOf(source, found.index), advice);
  }
}

const RUNS: readonly string[] = ['script', 'foreignObject', 'iframe', 'handler', 'listener'];

/** Throws `ReadError` for scripts, pictures, and links that lead out of the file. */
export function checkSafeElement(element: Element, where: string): void {
  const name = element.localName ?? element.tagName;
  if (RUNS.includes(name)) {
    throw new ReadError(`<${name}> is not allowed`, where, 'save the file as plain SVG');
  }
  for (let i = 0; i < element.attributes.length; i++) {
    const { name: attribute, value } = element.attributes[i]!;
    if (/^on/i.test(attribute)) {
      throw new ReadError(`a script (${attribute})`, where, 'save the file as plain SVG');
    }
    const outside =
      (/(^|:)href$|^src$|^xml:base$/i.test(attribute) && !/^\s*#/.test(value)) ||
      /url\(\s*(?!['"]?#)/i.test(value);
    if (outside) {
      throw new ReadError(
        `${attribute} leads out of the file; only #names inside it are followed`,
        where,
        name === 'image' ? 'trace the picture into paths' : 'save the file as plain SVG',
      );
    }
  }
}
