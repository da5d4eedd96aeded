/** The table in DEVELOPERS.md is what its script makes, is whole, and keeps the promise of `TIP_MM`. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { MOTIFS } from '../../src/motifs/index.js';
import { STYLES } from '../../src/styles/index.js';
import { TIP_MM } from '../../src/units/tolerances.js';
import { DEVELOPERS, tipRows, withRows } from './rows.js';

it('the table of tip errors has every style and family, and keeps the promise', () => {
  const text = readFileSync(DEVELOPERS, 'utf8');
  const rows = [
    ...text.matchAll(
      /^\| ([a-z: -]+) \| ([\d.]+) \| ([\d.]+) \| ([\d.]+) \| ([\d.]+) \| (\d+) \|$/gm,
    ),
  ];
  const families = [...new Set(MOTIFS.map(m => `motifs: ${m.family}`))];
  expect(rows.map(r => r[1])).toEqual([...STYLES.map(s => s.id), ...families]);
  for (const [, what, ...figures] of rows) {
    const [most, p99, uncut, uncut99, without] = figures.map(Number);
    expect(Math.max(most!, p99!, uncut!, uncut99!), what).toBeLessThanOrEqual(TIP_MM * 1000);
    // Without help every one of them is spoilt.
    expect(without!, what).toBeGreaterThan(10 * TIP_MM * 1000);
  }
});

it('is as `npm run tip-table` makes it: run that when a style, a motif or the way of the blade has changed', () => {
  const rows = tipRows();
  const text = readFileSync(DEVELOPERS, 'utf8');
  const stale = rows.filter(row => !text.includes(`\n${row}\n`));
  expect(stale).toEqual([]);
  expect(withRows(text, rows)).toBe(text);
});
