/** A list of names for a decoration with words on it: one piece each. */
import { motifNamed } from '../contracts.js';
import type { ParamValues } from '../model.js';
import { ParamError } from '../params.js';
import type { MotifAsk } from './asked.js';
import type { Context } from './context.js';
import { readCsv } from './csv.js';
import type { Entry } from './document.js';
import { fillTemplate, placeholders } from './names.js';
import { didYouMean } from './nearest.js';
import { cut, type Fields, listed, listOf, textOf } from './reading.js';
import { tellParamError } from './values.js';

/** As the count of a box: more is a print shop's work. */
const MOST_NAMES = 10_000;

interface Row {
  readonly words: ReadonlyMap<string, string>;
  /** Where it stands, for a person: "row 3". */
  readonly where: string;
}
interface Names {
  readonly columns: readonly string[];
  readonly rows: readonly Row[];
}

/**
 * `to: guests.csv` or `to: [Ada, Ben]`. Each row fills the `{to}` (or another column's `{name}`) in the
 * motif's texts. Gives for each row the values that differ from the motif's own; every row is drawn once,
 * so that a letter its face lacks is told now.
 */
export function readGreetings(
  c: Context,
  f: Fields,
  asked: MotifAsk,
): readonly ParamValues[] | undefined {
  const entry = f.get('to');
  if (!entry) return undefined;
  const names = entry.kind === 'list' ? inline(c, entry) : fromFile(c, entry);
  if (!names) return undefined;
  const texts = Object.entries(asked.what.values).filter(
    (pair): pair is [string, string] =>
      typeof pair[1] === 'string' && placeholders(pair[1]).length > 0,
  );
  if (texts.length === 0) {
    const example = names.columns.includes('to') ? 'to' : names.columns[0]!;
    return c.r.fault(f.pair('to')!.keyAt, 'no text of this decoration takes a name from the list', {
      hint: `write for instance  text: "For {${example}}"`,
    });
  }
  for (const [param, text] of texts) {
    const unknown = placeholders(text).find(word => !names.columns.includes(word));
    if (unknown === undefined) continue;
    const hint = didYouMean(unknown, names.columns);
    return c.r.fault(
      asked.places.get(param) ?? asked.at,
      `the text has {${cut(unknown)}}, which is no column of the list`,
      { allowed: listed(names.columns.map(k => `{${k}}`)), ...(hint ? { hint } : {}) },
    );
  }
  const each = names.rows.map(({ words }) =>
    Object.fromEntries(texts.map(([param, text]) => [param, fillTemplate(text, words)])),
  );
  return drawn(c, entry, asked, names.rows, each) ? each : undefined;
}

function inline(c: Context, entry: Entry): Names | undefined {
  const items = listOf(c.r, entry, 'to', MOST_NAMES) ?? [];
  const rows = items.flatMap((item, i): Row[] => {
    const text = textOf(c.r, item, 'a name', 80);
    return text === undefined ? [] : [{ words: new Map([['to', text]]), where: `name ${i + 1}` }];
  });
  if (rows.length < items.length) return undefined;
  return rows.length > 0 ? { columns: ['to'], rows } : c.r.fault(entry.at, 'to: is an empty list');
}

function fromFile({ r, library }: Context, entry: Entry): Names | undefined {
  const path = textOf(r, entry, 'to');
  if (path === undefined) return undefined;
  const hint = 'give a CSV file beside the job, or a list of names:  to: [Ada, Ben]';
  if (!/\.csv$/i.test(path))
    return r.fault(entry.at, `to: "${cut(path)}" is no .csv file`, { hint });
  const read = library.readList?.(path) ?? { why: 'no files can be read here', advice: hint };
  if (typeof read !== 'string') {
    return r.fault(entry.at, `${cut(path)} cannot be read: ${read.why}`, { hint: read.advice });
  }
  const table = readCsv(read);
  if ('message' in table) {
    return r.fault(entry.at, `${cut(path)}, line ${table.line}: ${table.message}`);
  }
  const { columns } = table;
  const rows = table.rows.map(
    ({ line, fields }): Row => ({
      words: new Map(columns.map((name, i) => [name, fields[i]!.trim()])),
      where: `${path}, line ${line}`,
    }),
  );
  return { columns, rows };
}

/** Faults told for one list; the rest have the same cause. */
const MOST_TOLD = 5;

function drawn(
  { r, library }: Context,
  entry: Entry,
  asked: MotifAsk,
  rows: readonly Row[],
  each: readonly ParamValues[],
): boolean {
  const motif = motifNamed(library.motifs, asked.what.motif, library.tools);
  if (!motif || !library.tools || !asked.sound) return true;
  let told = 0;
  each.forEach((own, i) => {
    try {
      motif.build({ ...asked.what.values, ...own }, library.tools!);
    } catch (error) {
      if (!(error instanceof ParamError)) throw error;
      if (told++ < MOST_TOLD) tellParamError(r, error, entry.at, motif, `${rows[i]!.where}: `);
    }
  });
  return told === 0;
}
