/** Names that become folders and files, safe on every system that a memory stick goes to. */

import type { More } from './fault.js';

export const LONGEST_NAME = 60;

/** Names that Windows keeps for devices, with or without an extension (Microsoft, "Naming Files,
 *  Paths, and Namespaces"). */
const DEVICES = /^(?:con|prn|aux|nul|com[0-9]|lpt[0-9]|conin\$|conout\$)(?:\..*)?$/i;

export interface NameFault extends More {
  readonly message: string;
}

/** What is wrong with a name, or nothing. */
export function faultOfName(name: string): NameFault | undefined {
  const told = `the name "${name.length > 80 ? `${name.slice(0, 80)}…` : name}"`;
  const near = plainName(name);
  const safe = DEVICES.test(near) ? deviceless(near) : near;
  const hint = safe && !wrongIn(safe) ? `write ${safe}; the title may hold anything` : undefined;
  const wrong = wrongIn(name);
  if (wrong === undefined) return undefined;
  return {
    message: `${told} ${wrong}`,
    allowed: `letters a to z, digits, - _ and ., at most ${LONGEST_NAME}, beginning with a letter or digit`,
    ...(hint ? { hint } : {}),
  };
}

function wrongIn(name: string): string | undefined {
  if (name.trim() === '') return 'is empty';
  if (name.includes('..')) return 'has two dots in a row, which lead out of the folder';
  if (/[/\\]/.test(name)) return 'has a slash, which would make a folder';
  if (name.startsWith('.')) return 'begins with a dot, which hides it';
  if (/[. ]$/.test(name)) return 'ends in a dot or a space, which some systems drop';
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  if (/[\u0000-\u001f\u007f-\u009f]/.test(name)) return 'has a control character';
  if (DEVICES.test(name)) return 'is kept for a device by some systems';
  if ([...name].length > LONGEST_NAME) return `is ${[...name].length} characters long`;
  if (!/^[A-Za-z0-9][A-Za-z0-9._-]*$/.test(name))
    return 'has a character that not every system can keep in a file name';
  return undefined;
}

const deviceless = (name: string) =>
  name.includes('.') ? name.replaceAll('.', '-') : `${name}-box`;

/** The nearest safe name: accents taken off, anything else a hyphen. */
export function plainName(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .replace(/[^A-Za-z0-9._-]+/g, '-')
    .replace(/\.{2,}/g, '.')
    .replace(/^[^A-Za-z0-9]+|[^A-Za-z0-9]+$/g, '')
    .toLowerCase()
    .slice(0, LONGEST_NAME)
    .replace(/[^a-z0-9]+$/, '');
}

/** Two names that some systems take for one. */
export const sameOnDisk = (name: string) => name.toLowerCase();

/** `cider-caramels` as a title: `Cider caramels`. */
export function titleFrom(name: string): string {
  const words = name.replace(/[-_]+/g, ' ').trim();
  return words.charAt(0).toUpperCase() + words.slice(1);
}

const PLACEHOLDER = /\{([^{}]*)\}/g;

/** The words in braces of a template, in order. */
export const placeholders = (template: string) =>
  [...template.matchAll(PLACEHOLDER)].map(m => m[1]!.trim());

/** Fills `{word}`s; the caller has checked that each is known. */
export const fillTemplate = (template: string, words: ReadonlyMap<string, string>) =>
  template.replace(PLACEHOLDER, (whole, word: string) => words.get(word.trim()) ?? whole);
