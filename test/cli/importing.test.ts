/** A job for software that wants a file an operation, with a square to measure by. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { filesBelow, foldwright, inFolder } from '../support/command.js';

const JOB = `job: parted
cutter: gantry
import: { files: by-operation, scale-square: 20mm, svg-units: 96, origin: middle, y: down }
boxes: [{ name: lid-box, style: flip-lid, inside: 60mm x 40mm x 20mm }]
`;

it.each(['r12', 'r2000', 'r2000-splines'])(
  'writes a file an operation, DXF %s, each of which inspect finds good',
  kind =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'job.yaml'), JOB.replace('import: {', `import: { dxf: ${kind},`));
      const made = await foldwright(['batch', 'job.yaml'], folder);
      expect(made.code, made.err).toBe(0);
      const cut = [...filesBelow(folder).keys()].filter(name => /\.cut\./.test(name));
      const version = kind === 'r12' ? 'AC1009' : 'AC1015';
      for (const name of cut.filter(n => n.endsWith('.dxf'))) {
        expect(readFileSync(join(folder, name), 'utf8')).toContain(`\n${version}\n`);
      }
      const operations = ['cut', 'draw', 'score'];
      const ends = cut.map(name => /\.cut\.(\w+)\.(svg|dxf)$/.exec(name)!.slice(1, 3).join('.'));
      expect(ends.sort()).toEqual(operations.flatMap(o => [`${o}.dxf`, `${o}.svg`]).sort());
      const seen = await foldwright(['inspect', ...cut], folder);
      expect(seen.code, seen.out).toBe(0);
      expect(seen.out).toContain(`${cut.length} of ${cut.length} files good`);
      // The cut layer's tip is followed, against its own layer of the drawing.
      expect(seen.out).toMatch(/tip within 0\.00\d\d mm/);
    }),
);

it.each([
  ['{ svg-units: 300 }', 'svg-units'],
  ['{ origin: nowhere }', 'nowhere'],
  ['{ scale-square: 3mm }', 'scale-square'],
  ['{ files: each }', 'each'],
  ['{ dxf: r14 }', 'r12, r2000, r2000-splines'],
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

it('writes a file for each colour of stock', () =>
  inFolder(async folder => {
    const job = `job: coloured
stocks:
  red: { like: cardstock-65lb-12x12, colour: "#B5432F" }
  green: { like: cardstock-65lb-12x12, colour: "#6F8A4B" }
stock: red
import: { dxf: r2000 }
formats: [dxf]
decorations:
  apple:
    on: lid
    motif: apple
    params: { size: 30mm }
    stocks: { main: red, leaf: green, stem: red, shine: green }
boxes: [{ name: lid-box, style: flip-lid, inside: 60mm x 40mm x 20mm, decorations: [apple] }]
`;
    writeFileSync(join(folder, 'job.yaml'), job);
    const made = await foldwright(['batch', 'job.yaml'], folder);
    expect(made.code, made.err).toBe(0);
    const cut = [...filesBelow(folder).keys()].filter(name => name.endsWith('.cut.dxf'));
    expect(cut.sort().map(name => /(\w+)-1\.cut/.exec(name)![1])).toEqual(['green', 'red']);
  }));

it.each([
  ['box', 'flip-lid', '--inside', '60x40x20mm', '--formats', 'dxf'],
  ['decor', 'apple'],
  ['testcard', 'scale'],
])('%s %s takes --dxf', (...command) =>
  inFolder(async folder => {
    const made = await foldwright([...command, '--dxf', 'r2000', '--out', 'out'], folder);
    expect(made.code, made.err).toBe(0);
    const files = [...filesBelow(folder).keys()].filter(name => name.endsWith('.dxf'));
    expect(files.length).toBeGreaterThan(0);
    for (const name of files) {
      expect(readFileSync(join(folder, name), 'utf8')).toContain('\nAC1015\n');
    }
    const wrong = await foldwright([...command, '--dxf', 'r14', '--out', 'other'], folder);
    expect(wrong.code).toBe(2);
    expect(wrong.err).toContain('r2000-splines');
  }),
);
