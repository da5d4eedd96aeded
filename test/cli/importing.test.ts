/** A job for software that wants a file an operation, with a square to measure by. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { filesBelow, foldwright, inFolder } from '../support/command.js';

const JOB = `job: parted
cutter: gantry
import: { files: by-operation, scale-square: 20mm, svg-units: 96, origin: middle, y: down }
boxes: [{ name: lid-box, style: flip-lid, inside: 60mm x 40mm x 20mm }]
`;

it('writes a file an operation, each of which inspect finds good', () =>
  inFolder(async folder => {
    writeFileSync(join(folder, 'job.yaml'), JOB);
    const made = await foldwright(['batch', 'job.yaml'], folder);
    expect(made.code, made.err).toBe(0);
    const cut = [...filesBelow(folder).keys()].filter(name => /\.cut\./.test(name));
    const operations = ['cut', 'draw', 'score'];
    const ends = cut.map(name => /\.cut\.(\w+)\.(svg|dxf)$/.exec(name)!.slice(1, 3).join('.'));
    expect(ends.sort()).toEqual(operations.flatMap(o => [`${o}.dxf`, `${o}.svg`]).sort());
    const seen = await foldwright(['inspect', ...cut], folder);
    expect(seen.code, seen.out).toBe(0);
    expect(seen.out).toContain(`${cut.length} of ${cut.length} files good`);
    // The cut layer's tip is followed, against its own layer of the drawing.
    expect(seen.out).toMatch(/tip within 0\.00\d\d mm/);
  }));

it.each([
  ['{ svg-units: 300 }', 'svg-units'],
  ['{ origin: nowhere }', 'nowhere'],
  ['{ scale-square: 3mm }', 'scale-square'],
  ['{ files: each }', 'each'],
  ['96', 'import'],
])('refuses import: %s', (text, word) =>
  inFolder(async folder => {
    writeFileSync(join(folder, 'job.yaml'), JOB.replace(/import: .*/, `import: ${text}`));
    const ran = await foldwright(['batch', 'job.yaml'], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toContain(word);
    expect([...filesBelow(folder).keys()]).toEqual(['job.yaml']);
  }),
);
