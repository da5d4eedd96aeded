/** Lists of names: the CSV reader, and what a job makes of one. */
import { describe, expect, it } from 'vitest';
import { readCsv } from '../../src/job/csv.js';
import { readJob } from '../../src/job/read-job.js';
import { standIns } from './stand-ins.js';

describe('comma-separated values', () => {
  const rows = (text: string) => {
    const read = readCsv(text);
    if ('message' in read) throw new Error(`line ${read.line}: ${read.message}`);
    return [read.columns, ...read.rows.map(r => r.fields)];
  };

  // RFC 4180, section 2, rules 1 to 7: its own examples, with the header of rule 3.
  it('are read as RFC 4180 says', () => {
    const head = 'field_name,field_name2,field_name3';
    const names = ['field_name', 'field_name2', 'field_name3'];
    expect(rows(`${head}\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n`)).toEqual([
      names,
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
    expect(rows(`${head}\r\naaa,bbb,ccc`)[1]).toEqual(['aaa', 'bbb', 'ccc']);
    expect(rows(`${head}\n"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx`)[1]).toEqual([
      'aaa',
      'b\r\nbb',
      'ccc',
    ]);
    expect(rows(`${head}\n"aaa","b""bb","ccc"`)[1]).toEqual(['aaa', 'b"bb', 'ccc']);
    // Spaces are part of a field.
    expect(rows('a,b\n x ,y')[1]).toEqual([' x ', 'y']);
  });

  it('may begin with a byte order mark, be parted by semicolons, and have empty lines', () => {
    expect(rows('\ufeffto,table\nAda,1\n\nBen,2\n')).toEqual([
      ['to', 'table'],
      ['Ada', '1'],
      ['Ben', '2'],
    ]);
    expect(rows('to;table\n"Ada; and Ben";1')[1]).toEqual(['Ada; and Ben', '1']);
  });

  it.each([
    ['to\nAda "the" Ben', 2, /a quote stands inside a field/],
    ['to\nAda\n"Ben" b', 3, /a quote stands inside a field/],
    ['to,table\nAda,1\nBen', 3, /1 field where the first line has 2; .* in quotes/],
    ['to\n"Ada\nBen', 2, /never closed/],
    ['to,to\nAda,1', 1, /two columns are named "to"/],
    ['to,\nAda,1', 1, /each with a name/],
    ['to', 1, /and rows/],
    ['', 1, /and rows/],
  ])('%j is refused on line %d', (text, line, message) => {
    const read = readCsv(text);
    expect(read).toMatchObject({ line });
    expect('message' in read && read.message).toMatch(message);
  });
});

const job = (decoration: string, count = '') => ({
  file: 'fair.yaml',
  text: `job: fair\nunits: in\nboxes:\n  - style: crate\n    inside: 6 x 4 x 2\n${count}    decorations:\n      - { on: lid, motif: badge, ${decoration} }\n`,
});
const forty = Array.from({ length: 40 }, (_, i) => `Guest ${i + 1},${(i % 8) + 1}`);
const library = {
  ...standIns,
  readList: (path: string) =>
    path === 'guests.csv'
      ? ['to,table', ...forty].join('\n')
      : { why: 'there is no such file', advice: 'look again' },
};
const read = (decoration: string, count = '') => readJob(job(decoration, count), library);

describe('a list of names in a job', () => {
  it('from a file gives forty boxes, one piece each, without being told how many', () => {
    const made = read('params: { text: "{to}, no. {table}" }, to: guests.csv');
    if ('faults' in made) throw new Error(JSON.stringify(made.faults));
    const [item] = made.design.items;
    expect(item!.count).toBe(40);
    const { each } = item!.decorations[0]!;
    expect(each).toHaveLength(40);
    expect(each![9]).toEqual({ text: 'Guest 10, no. 2' });
  });

  it('may stand in the job, and must be as long as the count', () => {
    const made = read('params: { text: "for {to}" }, to: [Ada, Ben]', '    count: 2\n');
    expect('design' in made && made.design.items[0]!.decorations[0]!.each).toEqual([
      { text: 'for Ada' },
      { text: 'for Ben' },
    ]);
    const short = read('params: { text: "for {to}" }, to: [Ada, Ben]', '    count: 3\n');
    expect('faults' in short && short.faults[0]!.message).toMatch(/2 names, and there are 3/);
  });

  it('tells the name that its face cannot write, with its line', () => {
    const other = { ...library, readList: () => 'to\nAda\nJanusz Żak\nKrzyż' };
    const made = readJob(job('params: { text: "{to}" }, to: g.csv'), other);
    const faults = 'faults' in made ? made.faults : [];
    expect(faults).toHaveLength(1);
    expect(faults[0]!.message).toMatch(/^g\.csv, line 4: text of badge/);
  });
});
