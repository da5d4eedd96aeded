/** Jobs that are too much: refused in words, and soon. */
import { describe, expect, it } from 'vitest';
import { faultOfSize, MOST_BYTES } from '../../src/job/document.js';
import { type Fault, formatFaults } from '../../src/job/fault.js';
import { readJob } from '../../src/job/read-job.js';
import { standIns } from './stand-ins.js';

const read = (text: string) => readJob({ file: 'job.yaml', text }, standIns);
function faultsOf(text: string): readonly Fault[] {
  const out = read(text);
  return 'faults' in out ? out.faults : [];
}
const box = (i: number) => `  - { name: b${i}, style: crate, inside: 60 x 40 x 20 }\n`;

describe('limits', () => {
  it('refuses a file of 50 MB by its size alone, before it is read', () => {
    expect(formatFaults([faultOfSize('big.yaml', 50_000_000)!])).toBe(
      'big.yaml: the file is too large to be a job or a preset: 50.0 MB\n' +
        '  allowed: at most 1 MB\n' +
        '  use a size table for many sizes, or several jobs',
    );
    expect(faultOfSize('job.yaml', MOST_BYTES)).toBeUndefined();
    expect(faultOfSize('job.yaml', MOST_BYTES + 1)).toBeDefined();
  });

  it('refuses the text of such a file too', () => {
    expect(faultsOf('#'.repeat(MOST_BYTES + 1))[0]!.message).toMatch(/too large/);
  });

  it('reads 5000 boxes and refuses 5001', () => {
    const head = 'job: fair\ntables:\n  - name: b-{row}\n    style: crate\n    rows:\n';
    const many = (n: number) => head + '      - 60 x 40 x 20\n'.repeat(n);
    const good = read(many(5000));
    expect('design' in good && good.design.items.length).toBe(5000);
    const [fault] = faultsOf(many(5001));
    expect(fault).toMatchObject({ message: 'rows has 5001 entries', allowed: 'at most 5000' });
    const two = faultsOf(`${many(4999)}boxes:\n${box(1)}${box(2)}`);
    expect(two).toMatchObject([{ message: 'the job has 5001 boxes and decorations' }]);
  });

  it('tells a thousand faults apart from one, and shows the first fifty', () => {
    const boxes = Array.from({ length: 1200 }, (_, i) => box(i).replace('crate', 'crat'));
    const text = `job: fair\nboxes:\n${boxes.join('')}`;
    const faults = faultsOf(text);
    expect(faults.length).toBe(1000);
    const told = formatFaults(faults);
    expect(told.match(/there is no box style/g)).toHaveLength(50);
    expect(told).toContain('… and 950 more.');
  });

  // Each of these took the library alone minutes or overflowed its stack; a timeout is the fault.
  it.each([
    ['many keys', `job: fair\n${Array.from({ length: 90_000 }, (_, i) => `k${i}: 1`).join('\n')}`],
    ['deep brackets', `job: ${'['.repeat(100_000)}`],
    ['deep closed brackets', `job: ${'['.repeat(5000)}${']'.repeat(5000)}`],
    ['deep dashes', `job: fair\nboxes:\n${'- '.repeat(30_000)}x`],
    ['many aliases', `job: &a fair\nboxes: [${'*a,'.repeat(200_000)}]`],
    ['long line', `job: ${'x'.repeat(900_000)}`],
    ['a comma each', `job: [${','.repeat(100)}]`],
    ['colons', ': '.repeat(2000)],
    ['quotes', '"'.repeat(10_001)],
  ])(
    '%s',
    (_, text) => {
      const faults = faultsOf(text);
      expect(faults.length).toBeGreaterThan(0);
      expect(formatFaults(faults).length).toBeLessThan(20_000);
    },
    60_000,
  );

  it('does not follow a bomb that is under the bound into 5000 long lists', () => {
    const list = `&d [${'{ on: lid, overlay: 1 }, '.repeat(40)}]`;
    const boxes = Array.from({ length: 2000 }, (_, i) =>
      box(i).replace(' }', `, decorations: ${i === 0 ? list : '*d'} }`),
    );
    const faults = faultsOf(`job: fair\nboxes:\n${boxes.join('')}`);
    expect(faults.map(f => f.message).join()).toMatch(/multiply to more than a job can hold/);
  });
});
