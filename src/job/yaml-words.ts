/** Syntax faults of YAML in words for people who do not program. */

/** The library's messages in the words of this program, where its own are for programmers. */
export function plainMessage(code: string, message: string): string {
  switch (code) {
    case 'TAB_AS_INDENT':
      return 'a tab stands where lines are indented';
    case 'BAD_INDENT':
      return 'this line is not indented like its neighbours';
    case 'MULTIPLE_DOCS':
      return 'the file holds more than one document (---)';
    case 'MISSING_CHAR':
      return `something is missing here: ${message}`;
    case 'TAG_RESOLVE_FAILED':
      return `a tag (!) has no meaning here: ${message}`;
    case 'BLOCK_AS_IMPLICIT_KEY':
    case 'MULTILINE_IMPLICIT_KEY':
      return 'two colons on one line, or a line that belongs to the one before';
    default:
      return `this is not well-formed YAML: ${message}`;
  }
}

export function syntaxHint(code: string): { hint?: string } {
  switch (code) {
    case 'TAB_AS_INDENT':
      return { hint: 'indent with spaces' };
    case 'BAD_INDENT':
      return { hint: 'begin entries of one list or map in the same column' };
    case 'MULTIPLE_DOCS':
      return { hint: 'make two files of it' };
    case 'BLOCK_AS_IMPLICIT_KEY':
    case 'MULTILINE_IMPLICIT_KEY':
      return { hint: 'put text that contains a colon in quotes' };
    default:
      return {};
  }
}
