/** Whatever is typed into a job, it gives a design or faults with places, and never an exception. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Fault, formatFaults } from '../../src/job/fault.js';
import { type Library, readJob } from '../../src/job/read-job.js';
import { presetText, realLibrary } from './real-library.js';
import { standIns } from './stand-ins.js';

const WORDS = [
  '',
  ' ',
  '\t',
  '\n',
  ':',
  ': ',
  '- ',
  '#',
  '"',
  "'",
  '{',
  '}',
  '[',
  ']',
  '*x',
  '&x ',
  '*dotted',
  '!!binary ',
  '|\n',
  '>-\n',
  '---\n',
  '...\n',
  '%YAML 1.1\n',
  '? ',
  '<<: ',
  '@',
  '`',
  '\u0000',
  '\ufeff',
  'null',
  '~',
  'NaN',
  '.nan',
  '.inf',
  '-1',
  '0',
  '1e999',
  '1/0',
  '1/2',
  '10000000',
  'true',
  'auto',
  '__proto__',
  'constructor',
  'toString',
  '../..',
  'con',
  '{length}',
  '{',
  '🍎',
  '\u202e',
  '\ud800',
  'boxes:',
  'params:',
  'rows:',
  'use: dotted',
  'on: lid',
  'inside: 3 x 2 x 1',
  '6 x 2 x 1',
  'lid/front',
];

/** Up to six changes, each at a place of its own. */
const changes = fc.array(
  fc.record({
    where: fc.double({ min: 0, max: 1, noNaN: true }),
    length: fc.oneof(fc.constant(0), fc.nat(12), fc.nat(300)),
    word: fc.oneof(fc.constantFrom(...WORDS), fc.string({ maxLength: 8 })),
    kind: fc.constantFrom('replace', 'line', 'double', 'indent', 'end'),
  }),
  { minLength: 1, maxLength: 6 },
);
type Change = Parameters<Parameters<typeof changes.map>[0]>[0][number];

function changed(text: string, { where, length, word, kind }: Change): string {
  const at = Math.floor(where * text.length);
  const from = text.lastIndexOf('\n', at) + 1;
  const next = text.indexOf('\n', at);
  const to = next < 0 ? text.length : next + 1;
  const line = text.slice(from, to);
  switch (kind) {
    case 'replace':
      return text.slice(0, at) + word + text.slice(at + length);
    case 'line':
      return text.slice(0, from) + text.slice(to);
    case 'double':
      return text.slice(0, to) + line + text.slice(to);
    case 'indent':
      return `${text.slice(0, from)}${' '.repeat(length % 5)}${line.trimStart()}${text.slice(to)}`;
    default:
      return length > 200 ? text.slice(0, at) : text;
  }
}

/** What is wrong with a fault itself, or nothing. Sees faults without a place, and values of ours. */
function faultOfFault(fault: Fault, text: string): string | undefined {
  const lines = text.split('\n').map(line => line.replace(/\r$/, ''));
  if (!(fault.line >= 1 && fault.line <= lines.length)) return `line ${fault.line}`;
  if (fault.source !== lines[fault.line - 1]) return `source ${fault.source}`;
  if (!(fault.column >= 1 && fault.column <= [...fault.source].length + 1))
    return `column ${fault.column}`;
  if (!(fault.width >= 1)) return `width ${fault.width}`;
  if (fault.message === '') return 'no message';
  const ours = /undefined|\[object|=>|\bnull\b(?!")/.exec(fault.message + (fault.hint ?? ''));
  return ours && !fault.source.includes(ours[0]) ? `message ${fault.message}` : undefined;
}

function numbersOf(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return value && typeof value === 'object' ? Object.values(value).flatMap(numbersOf) : [];
}

function holds(text: string, library: Library) {
  const read = readJob({ file: 'job.yaml', text }, library);
  if ('design' in read) {
    expect(numbersOf(read.design).every(Number.isFinite)).toBe(true);
    return 'design';
  }
  expect(read.faults.length).toBeGreaterThan(0);
  expect(read.faults.flatMap(f => faultOfFault(f, text) ?? [])).toEqual([]);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: no order may reach the terminal
  expect(formatFaults(read.faults)).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202a-\u202e]/);
  return 'faults';
}

describe('a changed job', () => {
  it('of stand-ins gives a design or placed faults (1000 runs)', () => {
    const text = readFileSync(new URL('everything.yaml', import.meta.url), 'utf8');
    const seen = { design: 0, faults: 0 };
    fc.assert(
      fc.property(changes, list => {
        seen[holds(list.reduce(changed, text), standIns)]++;
      }),
      { numRuns: 1000, seed: 20 },
    );
    // Both happen, so neither half of the property is empty.
    expect(seen.design).toBeGreaterThan(50);
    expect(seen.faults).toBeGreaterThan(500);
  });

  it('that is the demo gives a design or placed faults (60 runs)', () => {
    const text = presetText('job', 'orchard-fair');
    const library = realLibrary();
    fc.assert(
      fc.property(changes, list => {
        holds(list.reduce(changed, text), library);
      }),
      { numRuns: 60, seed: 21 },
    );
  }, 120_000);

  it('any text at all gives placed faults', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), text => {
        expect(holds(text, standIns)).toBe('faults');
      }),
      { numRuns: 500, seed: 22 },
    );
  });
});

describe('faultOfFault', () => {
  const good: Fault = {
    file: 'f',
    line: 2,
    column: 1,
    width: 1,
    message: 'm',
    source: 'two',
  };
  it('passes a good fault', () => expect(faultOfFault(good, 'one\ntwo')).toBeUndefined());
  it.each([
    [{ line: 0 }],
    [{ line: 3 }],
    [{ source: 'one' }],
    [{ column: 0 }],
    [{ column: 9 }],
    [{ width: 0 }],
    [{ message: '' }],
    [{ message: 'there is no undefined' }],
  ])('sees %j', wrong => expect(faultOfFault({ ...good, ...wrong }, 'one\ntwo')).toBeDefined());
});
