import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseManifest } from '../../src/write/index.js';
import { filesBelow, foldwright, inFolder } from '../support/command.js';

const SMALL_JOB = `job: windfall
units: mm
stock: cardstock-65lb-12x12
boxes:
  - name: russet
    style: flip-lid
    inside: 60 x 40 x 20
  - name: bramley
    style: pillow
    inside: 90 x 60 x 20
    decorations:
      - on: front
        motif: heart
        params: { size: 30 }
        stock: printable-65lb-letter
        art: { pattern: dots, palette: windfall }
`;

const writeJob = (folder: string, text = SMALL_JOB) =>
  writeFileSync(join(folder, 'job.yaml'), text);

describe('a batch', () => {
  it('writes every format under its name, lists all of it, and says so', () =>
    inFolder(async folder => {
      writeJob(folder);
      const ran = await foldwright(['batch', 'job.yaml'], folder);
      expect(ran.err.replace(/^(checking|making).*$/gm, '').trim()).toBe('');
      expect(ran.code).toBe(0);
      const files = filesBelow(join(folder, 'out', 'windfall'));
      const print = 'bramley/printable-65lb-letter-1';
      for (const name of ['.cut.svg', '.cut.dxf', '.print.pdf', '.drawing.json']) {
        expect([...files.keys()]).toContain(`${print}${name}`);
      }
      expect([...files.keys()]).toContain('russet/cardstock-65lb-12x12-1.cut.svg');
      expect([...files.keys()]).not.toContain('russet/cardstock-65lb-12x12-1.print.pdf');
      const manifest = parseManifest(files.get('manifest.json')!);
      expect(manifest.files.map(f => f.path).sort()).toEqual(
        [...files.keys()].filter(f => f !== 'manifest.json').sort(),
      );
      expect(ran.out).toContain('NOT allowed for');
      expect(ran.out).toContain('Every fold closes');
    }));

  it('gives the same bytes every time, and touches nothing that is the same', () =>
    inFolder(async folder => {
      writeJob(folder);
      await foldwright(['batch', 'job.yaml', '--out', 'a'], folder);
      await foldwright(['batch', 'job.yaml', '--out', 'b'], folder);
      expect(filesBelow(join(folder, 'a'))).toEqual(filesBelow(join(folder, 'b')));
      const again = await foldwright(['batch', 'job.yaml', '--out', 'a'], folder);
      expect(again.out).toMatch(/ 0 written, \d+ were the same already/);
    }));

  it('makes one item again and keeps the others listed', () =>
    inFolder(async folder => {
      writeJob(folder);
      await foldwright(['batch', 'job.yaml'], folder);
      const before = filesBelow(join(folder, 'out'));
      const ran = await foldwright(['batch', 'job.yaml', '--only', 'russet'], folder);
      expect(ran.code).toBe(0);
      const after = filesBelow(join(folder, 'out'));
      expect([...after.keys()]).toEqual([...before.keys()]);
      const listed = parseManifest(after.get('windfall/manifest.json')!).files.map(f => f.path);
      expect(listed.some(p => p.startsWith('bramley/'))).toBe(true);
      const unknown = await foldwright(['batch', 'job.yaml', '--only', 'ruset'], folder);
      expect(unknown.code).toBe(2);
      expect(unknown.err).toContain('did you mean russet');
    }));

  it('writes nothing with --check', () =>
    inFolder(async folder => {
      writeJob(folder);
      const ran = await foldwright(['batch', 'job.yaml', '--check'], folder);
      expect(ran.code).toBe(0);
      expect([...filesBelow(folder).keys()]).toEqual(['job.yaml']);
    }));

  it('makes only the formats asked for', () =>
    inFolder(async folder => {
      writeJob(folder);
      await foldwright(['batch', 'job.yaml', '--formats', 'svg'], folder);
      const names = [...filesBelow(join(folder, 'out')).keys()];
      expect(names.some(n => n.endsWith('.dxf') || n.endsWith('.pdf'))).toBe(false);
      expect(names.some(n => n.endsWith('.svg'))).toBe(true);
      const wrong = await foldwright(['batch', 'job.yaml', '--formats', 'svg,doc'], folder);
      expect(wrong.code).toBe(2);
      expect(wrong.err).toContain('svg, dxf, pdf');
    }));

  it('says as JSON what it said in words', () =>
    inFolder(async folder => {
      writeJob(folder);
      const ran = await foldwright(['batch', 'job.yaml', '--json'], folder);
      const result = JSON.parse(ran.out);
      expect(result.items).toBe(2);
      expect(result.failures).toEqual([]);
    }));
});

describe('one bad item stops the batch before anything is written', () => {
  const bad = (change: (text: string) => string) =>
    inFolder(async folder => {
      writeJob(folder, change(SMALL_JOB));
      const ran = await foldwright(['batch', 'job.yaml'], folder);
      expect([...filesBelow(folder).keys()]).toEqual(['job.yaml']);
      expect(ran.code).toBe(2);
      return ran.err;
    });

  it('tells all faults at once, each with its place', async () => {
    const told = await bad(t =>
      t.replace('60 x 40 x 20', '60 x 0 x 20').replace('pillow', 'pilow'),
    );
    expect(told).toContain('job.yaml:7:13');
    expect(told).toContain('did you mean pillow');
    expect(told).toContain('^');
  });

  it('tells a box too large for its sheet by how much, and what would fit', async () => {
    const told = await bad(t => t.replace('60 x 40 x 20', '260 x 140 x 60'));
    expect(told).toMatch(/job\.yaml:7:\d+/);
    expect(told).toContain('too wide');
    expect(told).toContain('it would fit');
  });

  it.each(['../russet', 'a/b', 'con', '.hidden', 'x:y'])('refuses the name %s', async name => {
    const told = await bad(t => t.replace('name: russet', `name: "${name}"`));
    expect(told).toContain('job.yaml:5');
  });

  it('refuses two items of one name, and an empty job', async () => {
    expect(await bad(t => t.replace('bramley', 'Russet'))).toContain('job.yaml:');
    expect(await bad(() => 'job: nothing\n')).toContain('job.yaml:');
    expect(await bad(() => '')).toContain('empty');
  });
});

describe('the out folder', () => {
  it('keeps a file of the person’s own', () =>
    inFolder(async folder => {
      writeJob(folder);
      const own = join(folder, 'out', 'windfall', 'russet');
      mkdirSync(own, { recursive: true });
      writeFileSync(join(own, 'cardstock-65lb-12x12-1.cut.svg'), 'mine');
      const ran = await foldwright(['batch', 'job.yaml'], folder);
      expect(ran.code).toBe(2);
      expect(ran.err).toContain('not written by foldwright');
      const files = filesBelow(join(folder, 'out'));
      expect([...files.values()]).toEqual(['mine']);
    }));

  it('that is a file is told before the work', () =>
    inFolder(async folder => {
      writeJob(folder);
      writeFileSync(join(folder, 'out'), '');
      const ran = await foldwright(['batch', 'job.yaml'], folder);
      expect(ran.code).toBe(2);
      expect(ran.err).toContain('Cannot write');
    }));
});

describe('box and decor', () => {
  it('write as a batch does, and keep what stands beside', () =>
    inFolder(async folder => {
      const box = ['box', 'flip-lid', '--inside', '6x2x1in'];
      expect((await foldwright([...box, '--out', 'try'], folder)).code).toBe(0);
      const other = ['box', 'pillow', '--inside', '110x70x25mm', '--out', 'try'];
      expect((await foldwright(other, folder)).code).toBe(0);
      const heart = ['decor', 'heart', '--size', '40mm', '--backing', '3mm', '--out', 'try'];
      expect((await foldwright(heart, folder)).code).toBe(0);
      const names = [...filesBelow(join(folder, 'try')).keys()];
      expect(names.filter(n => n.endsWith('manifest.json'))).toHaveLength(2);
      expect(names.filter(n => n.endsWith('.cut.svg'))).toHaveLength(3);
      const manifest = filesBelow(join(folder, 'try')).get('box/manifest.json')!;
      expect(new Set(parseManifest(manifest).sheets.map(s => s.item)).size).toBe(2);
    }));

  it('point into the command where it is wrong', () =>
    inFolder(async folder => {
      const ran = await foldwright(['box', 'flip-lid', '--inside', '6xx1in'], folder);
      expect(ran.code).toBe(2);
      expect(ran.err).toContain('foldwright box flip-lid --inside');
      const param = await foldwright(
        ['box', 'flip-lid', '--inside', '60x40x20mm', '--set', 'tabb=5'],
        folder,
      );
      expect(param.code).toBe(2);
      expect(param.err).toContain('did you mean tab');
      expect([...filesBelow(folder).keys()]).toEqual([]);
    }));
});

describe('inspect', () => {
  it('follows the tip along files of ours, and fails on one that was changed', () =>
    inFolder(async folder => {
      writeJob(folder);
      await foldwright(['batch', 'job.yaml', '--compensated-by', 'file'], folder);
      const file = join('out', 'windfall', 'russet', 'cardstock-65lb-12x12-1.cut.svg');
      const good = await foldwright(['inspect', file], folder);
      expect(good.out).toMatch(/blade 0\.25 mm: tip within 0\.00\d\d mm/);
      expect(good.code).toBe(0);
      const wrong = await foldwright(['inspect', file, '--blade', '0.5mm'], folder);
      expect(wrong.code).toBe(1);
      expect(wrong.out).toContain('NOT GOOD');
    }));

  it('refuses what is no cut file, in words', () =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'x.svg'), '<svg');
      writeFileSync(join(folder, 'x.png'), 'x');
      for (const file of ['x.svg', 'x.png', 'gone.svg', '.']) {
        const ran = await foldwright(['inspect', file], folder);
        expect(ran.code, file).toBe(2);
        expect(ran.out, file).toContain('cannot be read');
      }
    }));
});

describe('the command line', () => {
  it('lists and shows everything that has a name', () =>
    inFolder(async folder => {
      const { KINDS, singular } = await import('../../src/cli/kinds.js');
      for (const kind of KINDS) {
        const list = await foldwright(['list', kind, '--json'], folder);
        expect(list.code, kind).toBe(0);
        const [first] = JSON.parse(list.out);
        expect(first.summary.length, kind).toBeGreaterThan(5);
        const shown = await foldwright(['show', singular(kind), first.id], folder);
        expect(shown.code, kind).toBe(0);
        expect(shown.out.length, kind).toBeGreaterThan(20);
      }
      const style = await foldwright(['show', 'style', 'flip-lid'], folder);
      expect(style.out).toMatch(/trade: .*ECMA group B\? {2}\(\?: from memory\)/);
      expect(style.out).toMatch(/panels: base, front, /);
      expect(style.out).toContain('to try: foldwright box flip-lid --inside 152.4x50.8x25.4mm');
      const unknown = await foldwright(['show', 'style', 'fliplid'], folder);
      expect(unknown.code).toBe(2);
      expect(unknown.err).toContain('Did you mean flip-lid');
    }));

  it('has help with an example for every command', () =>
    inFolder(async folder => {
      const all = await foldwright(['--help'], folder);
      const names = [...all.out.matchAll(/^ {2}([a-z]+) /gm)].map(m => m[1]!);
      expect(names.length).toBeGreaterThan(5);
      for (const name of names.filter(n => n !== 'help' && n !== 'foldwright')) {
        const help = await foldwright([name, '--help'], folder);
        expect(help.code, name).toBe(0);
        expect(help.out, name).toContain(`foldwright ${name}`);
        expect(help.out, name).toContain('Examples:');
      }
    }));

  it('answers an unknown command or option with 2 and a hint', () =>
    inFolder(async folder => {
      const command = await foldwright(['batsh'], folder);
      expect(command.code).toBe(2);
      expect(command.err).toContain('batch');
      expect((await foldwright(['batch'], folder)).code).toBe(2);
      expect((await foldwright(['box', 'pillow', '--insid', '1'], folder)).code).toBe(2);
      expect((await foldwright([], folder)).code).toBe(2);
    }));
});
