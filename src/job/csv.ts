/** Tables of comma-separated values after RFC 4180, read strictly: a list with a slip in it makes forty
 *  wrong labels. Semicolons part the fields where the first line has no comma, as some spreadsheets write. */

export interface CsvTable {
  readonly columns: readonly string[];
  readonly rows: readonly { readonly line: number; readonly fields: readonly string[] }[];
}
export interface CsvFault {
  /** From 1. */
  readonly line: number;
  readonly message: string;
}

const MOST_ROWS = 10_000;
const MOST_COLUMNS = 40;

interface Record_ {
  readonly line: number;
  readonly fields: readonly string[];
}

/** The first line names the columns. Lines with nothing on them are passed over. */
export function readCsv(text: string): CsvTable | CsvFault {
  const clean = text.replace(/^\ufeff/, '');
  const first = clean.slice(0, clean.search(/\r?\n|$/));
  const separator = first.includes(',') || !first.includes(';') ? ',' : ';';
  const read = records(clean, separator);
  if ('message' in read) return read;
  const [head, ...rows] = read.filter(r => r.fields.some(f => f.trim() !== ''));
  if (!head || rows.length === 0) {
    return { line: 1, message: 'it needs a first line with the names of its columns, and rows' };
  }
  const columns = head.fields.map(f => f.trim());
  const twice = columns.find((name, i) => columns.indexOf(name) !== i);
  if (columns.length > MOST_COLUMNS || columns.includes('') || twice !== undefined) {
    const why =
      twice !== undefined && twice !== ''
        ? `two columns are named "${twice}"`
        : `from 1 to ${MOST_COLUMNS} columns, each with a name`;
    return { line: head.line, message: `the first line cannot be used: ${why}` };
  }
  if (rows.length > MOST_ROWS) return { line: head.line, message: `more than ${MOST_ROWS} rows` };
  const wrong = rows.find(r => r.fields.length !== columns.length);
  if (wrong) {
    const n = wrong.fields.length;
    return {
      line: wrong.line,
      message:
        `it has ${n} field${n === 1 ? '' : 's'} where the first line has ${columns.length}; ` +
        `a field with a "${separator}" in it goes in quotes`,
    };
  }
  return { columns, rows };
}

/** A field: in quotes, where quotes are doubled, or bare, without any. Then what ends it. */
function records(text: string, separator: string): Record_[] | CsvFault {
  const field = new RegExp(
    `(?:"((?:[^"]|"")*)"|([^"${separator}\\r\\n]*))(${separator}|\\r?\\n|$)`,
    'y',
  );
  const found: Record_[] = [];
  let fields: string[] = [];
  let line = 1;
  let begun = 1;
  for (let at = 0; at <= text.length; ) {
    field.lastIndex = at;
    const match = field.exec(text);
    if (!match) {
      const open = text[at] === '"' && !/^"(?:[^"]|"")*"/.test(text.slice(at));
      const message = open
        ? 'a quote is opened and never closed'
        : 'a quote stands inside a field: put the whole field in quotes, and write "" for one quote';
      return { line, message };
    }
    const [whole, quoted, bare, end] = match;
    fields.push(quoted === undefined ? bare! : quoted.replaceAll('""', '"'));
    line += whole.split('\n').length - 1;
    at += whole.length;
    if (end === separator) continue;
    found.push({ line: begun, fields });
    [fields, begun] = [[], line];
    if (end === '') break;
  }
  return found;
}
