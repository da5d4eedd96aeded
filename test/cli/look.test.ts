import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseManifest } from '../../src/write/index.js';
import { filesBelow, foldwright, inFolder } from '../support/command.js';

const JOB = `job: seen
units: mm
formats: [svg, preview]
boxes:
  - { name: pear, style: flip-lid, inside: 60x40x20 }
  - { name: apple, style: lid-and-base, inside: 50x50x25 }
`;

describe('foldwright look', () => {
  it('makes the contact sheet, says where it is, and leaves alone what is as it was', () =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'seen.yaml'), JOB);
      const first = await foldwright(['look', 'seen.yaml'], folder);
      expect(first.code, first.err).toBe(0);
      expect(first.out).toContain('out/seen/index.html: 2 items');
      const before = filesBelow(folder);
      expect([...before.keys()]).toContain('out/seen/index.png');
      const again = await foldwright(['look', 'seen.yaml'], folder);
      expect(again.out).toContain('nothing had changed');
      expect(filesBelow(folder)).toEqual(before);
      // What a batch makes is the same.
      rmSync(join(folder, 'out'), { recursive: true });
      expect((await foldwright(['batch', 'seen.yaml'], folder)).code).toBe(0);
      expect(filesBelow(folder)).toEqual(before);
    }));

  it('shows every item of the job after one of them was made again', () =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'seen.yaml'), JOB);
      await foldwright(['batch', 'seen.yaml'], folder);
      const all = filesBelow(folder);
      await foldwright(['batch', 'seen.yaml', '--only', 'apple'], folder);
      const page = readFileSync(join(folder, 'out/seen/index.html'), 'utf8');
      expect([...page.matchAll(/id="item-(.*?)"/g)].map(m => m[1])).toEqual(['pear', 'apple']);
      expect(filesBelow(folder).get('out/seen/index.png')).toBe(all.get('out/seen/index.png'));
      const manifest = parseManifest(readFileSync(join(folder, 'out/seen/manifest.json'), 'utf8'));
      expect(manifest.items.map(i => i.name)).toEqual(['pear', 'apple']);
      for (const { path } of manifest.files) {
        expect(existsSync(join(folder, 'out/seen', path)), path).toBe(true);
      }
    }));

  it('tells what is wrong with a job, and writes nothing', () =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'seen.yaml'), JOB.replace('60x40x20', '60x40'));
      const ran = await foldwright(['look', 'seen.yaml'], folder);
      expect(ran.code).toBe(2);
      expect(ran.err).toContain('60x40');
      expect(existsSync(join(folder, 'out'))).toBe(false);
      expect((await foldwright(['look', 'no-such-job'], folder)).code).toBe(2);
    }));
});
