import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { foldwright, inFolder } from '../support/command.js';

it('box --net writes the nets of the box, with --check and nothing else', () =>
  inFolder(async folder => {
    const argv = ['box', 'lid-and-base', '--inside', '90x70x35mm', '--check', '--net', 'net.json'];
    const ran = await foldwright(argv, folder);
    expect([ran.code, ran.err]).toEqual([0, '']);
    const { format, style, nets } = JSON.parse(readFileSync(join(folder, 'net.json'), 'utf8'));
    expect([format, style]).toEqual(['foldwright net 1', 'lid-and-base']);
    expect(nets.map((n: { id: string }) => n.id)).toEqual(['base', 'lid']);
    expect(nets[0].steps.length).toBeGreaterThan(0);
    expect(existsSync(join(folder, 'out'))).toBe(false);
  }));

it('box --net makes the folder of its file, and tells a file that cannot be written', () =>
  inFolder(async folder => {
    const ask = ['box', 'flip-lid', '--inside', '6x2x1in', '--check', '--net'];
    expect((await foldwright([...ask, 'new/folder/net.json'], folder)).code).toBe(0);
    expect(existsSync(join(folder, 'new/folder/net.json'))).toBe(true);
    const within = 'new/folder/net.json/net.json';
    const ran = await foldwright([...ask, within], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toContain(`--net ${within}: cannot be written`);
  }));

it('box --round --recipe prints the recipe of a box whose folds are all on marks', () =>
  inFolder(async folder => {
    const argv = ['box', 'flip-lid', '--creases', '6x2x1in', '--round', '1/16in', '--check'];
    const ran = await foldwright([...argv, '--recipe'], folder);
    expect([ran.code, ran.err]).toEqual([0, '']);
    expect(ran.out).toContain('rounded to marks of 1/16 in: 6 x 2 x 1 in crease to crease');
    expect(ran.out).toContain('a blank of 9 x 8 in');
    expect(ran.out).toContain('Score at 1/2, 1 1/2, 7 1/2, 8 1/2 in.');
    const json = await foldwright([...argv, '--recipe', '--json'], folder);
    expect(JSON.parse(json.out).failures).toEqual([]);
    expect(json.err).toContain('Score at 2, 3, 5, 6 in.');
  }));

it('box --round points at the mark that cannot be', () =>
  inFolder(async folder => {
    const argv = ['box', 'pillow', '--inside', '90x70x28mm', '--round', '1mm', '--check'];
    const ran = await foldwright(argv, folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('round of pillow cannot be 1 mm');
    const fine = await foldwright([...argv.slice(0, -2), '1/64in', '--check'], folder);
    expect(fine.code).toBe(2);
    expect(fine.err).toContain('round cannot be 0.4 mm');
  }));

it('a table of a job is rounded, and one of its rows is not', () =>
  inFolder(async folder => {
    const rows = '      - 61 x 41 x 21\n      - { inside: 62 x 42 x 22, round: no }\n';
    const table = `  - name: box-{row}\n    style: flip-lid\n    round: 1mm\n    rows:\n${rows}`;
    writeFileSync(join(folder, 'job.yaml'), `job: marks\nunits: mm\ntables:\n${table}`);
    const ran = await foldwright(['batch', 'job.yaml', '--check'], folder);
    expect(ran.code).toBe(0);
    expect(ran.out).toContain('box-1: rounded to marks of 1 mm');
    expect(ran.out).not.toContain('box-2: rounded');
  }));
