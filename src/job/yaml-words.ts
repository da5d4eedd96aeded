/** Syntax faults of YAML in words for people who do not program. */

import type { More } from './fault.js';

interface Told {
  readonly message: string;
  readonly more?: More;
}

const told = (message: string, hint?: string): Told =>
  hint === undefined ? { message } : { message, more: { hint } };

const CLOSING: Readonly<Record<string, string>> = { '}': '{', ']': '[' };

/** The library's code and message, in this program's words. */
export function syntaxWords(code: string, message: string): Told {
  const closing = /end with a ([}\]])/.exec(message)?.[1];
  if (closing) {
    const opening = CLOSING[closing];
    return told(`the closing ${closing} is missing`, `each ${opening} needs its ${closing}`);
  }
  if (/Missing closing ["']/.test(message))
    return told('the closing quote is missing', 'put a quote at both ends of the text');
  if (/Comments must be separated/.test(message))
    return told(
      'an unquoted # starts a comment, and none can start here',
      'put colours in quotes, as "#D55E00"',
    );
  if (/without - indicator/.test(message))
    return told(
      'this line belongs neither to the list above nor to what the list is in',
      'indent it as far as its neighbours, or begin it with "- "',
    );
  switch (code) {
    case 'TAB_AS_INDENT':
      return told('a tab stands where lines are indented', 'indent with spaces');
    case 'BAD_INDENT':
      return told(
        'this line is not indented like its neighbours',
        'begin the entries of one list or map in the same column',
      );
    case 'MULTIPLE_DOCS':
      return told('the file holds more than one document (---)', 'make two files of it');
    case 'BLOCK_AS_IMPLICIT_KEY':
    case 'MULTILINE_IMPLICIT_KEY':
      return told(
        'two colons on one line, or a line that belongs to the one before',
        'put text that contains a colon in quotes',
      );
    case 'RESOURCE_EXHAUSTION':
      return told('lists and maps are nested too deeply');
    case 'TAG_RESOLVE_FAILED':
      return told('a tag (!) has no meaning here', 'leave it out');
    default:
      return told(`this is not well-formed YAML: ${message.split('\n')[0]}`);
  }
}
