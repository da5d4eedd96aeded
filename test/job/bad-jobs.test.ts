/** Each bad job beside the words that a person gets for it. `BLESS=1` writes them: read them again. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Fault, formatFaults } from '../../src/job/fault.js';
import { readJob } from '../../src/job/read-job.js';
import { standIns } from './stand-ins.js';

const folder = new URL('bad/', import.meta.url);
const names = readdirSync(folder)
  .filter(name => name.endsWith('.yaml'))
  .map(name => name.slice(0, -5));

function faultsOf(text: string, file = 'job.yaml'): readonly Fault[] {
  const read = readJob({ file, text }, standIns);
  return 'faults' in read ? read.faults : [];
}

describe('bad jobs', () => {
  it.each(names)('%s', name => {
    const text = readFileSync(new URL(`${name}.yaml`, folder), 'utf8');
    const faults = faultsOf(text, `${name}.yaml`);
    const told = `${formatFaults(faults)}\n`;
    const golden = new URL(`${name}.txt`, folder);
    if (process.env.BLESS) writeFileSync(golden, told);
    expect(told).toBe(readFileSync(golden, 'utf8'));
    expect(faults.length).toBeGreaterThan(0);
    for (const fault of faults) {
      expect(fault.line).toBeGreaterThan(0);
      expect(fault.column).toBeGreaterThan(0);
      expect(text.replaceAll('\r', '').split('\n')[fault.line - 1]).toBe(fault.source);
    }
  });
});
