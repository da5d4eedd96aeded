/** Commands read as jobs: the same checks, and carets under the words of the command. */
import { describe, expect, it } from 'vitest';
import {
  type BoxCommand,
  boxDocument,
  type DecorCommand,
  decorDocument,
} from '../../src/job/command-line.js';
import { formatFaults } from '../../src/job/fault.js';
import { readJob } from '../../src/job/read-job.js';
import type { Design } from '../../src/model.js';
import { standIns } from './stand-ins.js';

const box = (more: Partial<BoxCommand>) =>
  readJob(boxDocument({ style: 'crate', set: {}, ...more }), standIns);
const decor = (more: Partial<DecorCommand>) =>
  readJob(decorDocument({ motif: 'badge', set: {}, backing: [], ...more }), standIns);

function design(read: ReturnType<typeof readJob>): Design {
  if ('faults' in read) throw new Error(formatFaults(read.faults));
  return read.design;
}
const told = (read: ReturnType<typeof readJob>) =>
  'faults' in read ? formatFaults(read.faults) : 'no fault';

describe('box on the command line', () => {
  it('is a job of one box, named by its size in its own unit', () => {
    const { name, unit, items } = design(box({ inside: '6x2x1in', count: '3' }));
    expect({ name, unit }).toEqual({ name: 'box', unit: 'in' });
    expect(items).toMatchObject([
      {
        name: 'crate-6x2x1',
        count: 3,
        box: { style: 'crate', spec: { inside: { length: 152.4, width: 50.8, height: 25.4 } } },
      },
    ]);
  });
  it('takes parameters, paper, cutter and name', () => {
    const read = design(
      box({
        creases: '60 x 40 x 20',
        set: { tab: '5mm', brand: 'Orchard' },
        stock: 'kraft-a4',
        cutter: 'mat-12x12',
        name: 'try',
      }),
    );
    expect(read.unit).toBe('mm');
    expect(read.items[0]).toMatchObject({ name: 'try', box: { stock: 'kraft-a4' } });
    expect(read.items[0]!.box!.values).toMatchObject({ tab: 5, brand: 'Orchard' });
  });
  it('points into the command', () => {
    const command =
      "foldwright box crate --inside 6x2xhigh --set tabs=1/2in --set 'brand=far too long a name'";
    const wrong = box({ inside: '6x2xhigh', set: { tabs: '1/2in', brand: 'far too long a name' } });
    expect(told(wrong)).toBe(
      [
        'command line:1:31: inside: "6x2xhigh": "high" is not a length: write a number with mm, ' +
          'cm or in, such as 63.5mm, 6.35 cm, 2 1/2in or 2-1/2"',
        `  1 | ${command}`,
        `${' '.repeat(36)}^^^^^^^^`,
        '',
        'command line:1:46: crate has no parameter "tabs"',
        `  1 | ${command}`,
        `${' '.repeat(51)}^^^^`,
        '  allowed: tab, mitreDeg, slats, ratio, closing, handle, brand',
        '  did you mean tab?',
        '',
        'command line:1:70: brand of crate is 19 characters long',
        `  1 | ${command}`,
        `${' '.repeat(75)}^^^^^^^^^^^^^^^^^^^`,
        '  allowed: at most 12 characters',
        '',
        '3 faults; nothing was made.',
      ].join('\n'),
    );
  });
  it('tells a size that is missing or given twice', () => {
    expect(told(box({}))).toMatch(/needs a size/);
    expect(told(box({ inside: '6x2x1in', outside: '6x2x1in' }))).toMatch(/both given/);
  });
  it('is not fooled by what a person may type', () => {
    for (const text of ['', ' ', "'", '"', '{', '*x', '# no', '\n', '\u0000', '--', '🍎'])
      expect(told(box({ style: text, inside: text, stock: text, name: text }))).toMatch(
        /command line:\d+:\d+/,
      );
  });
});

describe('decor on the command line', () => {
  it('is a job of one decoration, named by motif and size', () => {
    const { items, unit } = design(
      decor({
        size: '1 1/2in',
        backing: ['1/8in', '3mm'],
        pattern: 'specks',
        palette: 'windfall',
        set: { text: 'Hi' },
      }),
    );
    expect(unit).toBe('in');
    expect(items[0]!.name).toBe('badge-1-1-2in');
    const [decoration] = items[0]!.decorations;
    expect(decoration!.backings.map(b => b.reveal)).toEqual([3.175, 3]);
    expect(decoration!.what).toMatchObject({ values: { size: 38.1, text: 'Hi' } });
    expect(decoration!.art).toMatchObject({ pattern: 'specks', palette: { length: 3 } });
  });
  it('points into the command', () => {
    expect(told(decor({ motif: 'bagde' }))).toMatch(
      /:1:18: there is no motif "bagde"[\s\S]*badge\?/,
    );
    expect(told(decor({ size: '2m' }))).toMatch(/:1:31: size of badge: "2m" has an unknown unit/);
    expect(told(decor({ palette: 'windfall' }))).toMatch(/needs pattern/);
    expect(told(decor({ backing: ['wide'] }))).toMatch(/reveal: "wide" is not a length/);
  });
});
