/** A job for thick card that is scored from both sides: its files, and what the person is told of them. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { bounds, transform } from '../../src/geom/index.js';
import { turnedOver } from '../../src/tool/sides.js';
import { readDrawingJson } from '../../src/write/drawing-json.js';
import { parseManifest } from '../../src/write/manifest.js';
import { filesBelow, foldwright, inFolder } from '../support/command.js';

const job = (folds: string) => `job: sides
cutter: { like: gantry, folds: ${folds} }
formats: [svg, dxf, guide]
boxes: [{ name: basket, style: gable, inside: 60mm x 40mm x 40mm }]
`;

const made = async (folder: string, folds: string) => {
  writeFileSync(join(folder, 'job.yaml'), job(folds));
  const ran = await foldwright(['batch', 'job.yaml'], folder);
  expect(ran.code, ran.err).toBe(0);
  const files = [...filesBelow(folder).keys()];
  const text = (ending: string) =>
    readFileSync(join(folder, files.find(f => f.endsWith(ending))!), 'utf8');
  return { ran, files, text, manifest: parseManifest(text('manifest.json')) };
};

it('writes the turned sheet beside the other, and both are good; the words say how to lay it', () =>
  inFolder(async folder => {
    const both = await made(folder, '{ by: light-cut, sides: both }');
    const cut = both.files.filter(name => /\.cut\./.test(name));
    expect(cut.map(f => /(\.back)?\.cut\.\w+$/.exec(f)![0]).sort()).toEqual([
      '.back.cut.dxf',
      '.back.cut.svg',
      '.cut.dxf',
      '.cut.svg',
    ]);
    const seen = await foldwright(['inspect', ...cut], folder);
    expect(seen.code, seen.out).toBe(0);
    // Each side's own blade is followed, along its own drawing.
    expect(seen.out.match(/tip within 0\.00\d\d mm/g)).toHaveLength(4);
    expect(both.ran.out).toContain('Turned over first: 1 sheet with a .back file');
    expect(both.ran.out).toContain('304.8 mm wide, within 0.2 mm');
    const guide = both.text('.guide.html');
    expect(guide.includes('score the .back file')).toBe(true);
    expect(/Score back,( draw,)? score, cut/.test(guide)).toBe(true);
    const [sheet] = both.manifest.sheets;
    const back = readDrawingJson(both.text('.back.drawing.json'));
    const score = back.layers.find(l => l.operation === 'score')!;
    expect(back.layers).toHaveLength(1);
    // Turned back, all of them lie on the cut piece: within its outline's reach.
    const face = readDrawingJson(both.text(`${sheet!.id}.drawing.json`));
    const cuts = bounds(...face.layers.find(l => l.operation === 'cut')!.paths);
    const [, ...here] = score.paths.map(p => transform(p, turnedOver(sheet!.widthMm)));
    const lies = bounds(...here);
    expect([lies.minX > cuts.minX - 1e-3, lies.maxX < cuts.maxX + 1e-3]).toEqual([true, true]);
    // As they lie in the file they do not.
    expect(bounds(...score.paths.slice(1)).maxX).toBeGreaterThan(cuts.maxX);
    expect(sheet!.fromBackMm).toBeGreaterThan(100);
    expect(sheet!.lengthsMm.score!).toBeGreaterThan(sheet!.fromBackMm);
    const one = await made(folder, '{ by: light-cut }');
    expect(one.files.some(f => f.includes('.back.'))).toBe(false);
    expect(one.ran.out).not.toContain('Turned over');
    expect(one.text('.guide.html').includes('.back file')).toBe(false);
    // Both sides together score what one does, and wake their blades with 5 mm each.
    const all = one.manifest.sheets[0]!;
    expect(sheet!.lengthsMm.score!).toBeCloseTo(all.lengthsMm.score! + 5, 1);
    expect(all.fromBackMm).toBe(0);
  }));

it.each([
  ['{ by: perforation, sides: both }', 'from the face alone'],
  ['{ by: pen, sides: both }', 'from the face alone'],
  ['{ by: tool, sides: back }', 'face, both'],
])('refuses folds: %s', (folds, word) =>
  inFolder(async folder => {
    writeFileSync(join(folder, 'job.yaml'), job(folds));
    const ran = await foldwright(['batch', 'job.yaml'], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toContain(word);
    expect([...filesBelow(folder).keys()]).toEqual(['job.yaml']);
  }),
);
