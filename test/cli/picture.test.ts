import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { foldwright, inFolder } from '../support/command.js';

const widthOf = (file: string) => readFileSync(file).readUInt32BE(16);

describe('foldwright picture', () => {
  it('draws the box, its net and each of its sheets at the width asked for, and nothing else', () =>
    inFolder(async folder => {
      const drawn: Buffer[] = [];
      for (const [of, width] of [
        ['folded', 320],
        ['net', 400],
        ['cream-1', 500],
      ] as const) {
        const ran = await foldwright(
          [
            'picture',
            'orchard-fair',
            'plum-truffles',
            '--of',
            of,
            '--width',
            `${width}`,
            '--png',
            `${of}.png`,
          ],
          folder,
        );
        expect(ran.code, ran.err).toBe(0);
        expect(ran.out).toContain(`${of}.png: Plum truffles`);
        expect(widthOf(join(folder, `${of}.png`))).toBe(width);
        drawn.push(readFileSync(join(folder, `${of}.png`)));
      }
      expect(new Set(drawn.map(d => d.toString('base64'))).size).toBe(3);
      expect(readdirSync(folder)).toHaveLength(3);
    }));

  it('goes with box and decor', () =>
    inFolder(async folder => {
      const box = ['box', 'flip-lid', '--inside', '60x40x20mm', '--check', '--png', 'pics/box.png'];
      expect((await foldwright([...box, '--width', '300'], folder)).code).toBe(0);
      expect(widthOf(join(folder, 'pics', 'box.png'))).toBe(300);
      const decor = ['decor', 'heart', '--size', '40mm', '--check', '--png', 'heart.png'];
      expect((await foldwright(decor, folder)).code).toBe(0);
      expect(widthOf(join(folder, 'heart.png'))).toBe(1200);
    }));

  it.each([
    [['orchard-fair', 'plum-trufles', '--png', 'a.png'], 'did you mean plum-truffles'],
    [['orchard-fair', 'plum-truffles', '--of', 'crem-1', '--png', 'a.png'], 'cream-1'],
    [['orchard-fair', 'heart-tags', '--of', 'net', '--png', 'a.png'], 'Allowed: folded, '],
    [['orchard-fair', '--png', 'a.jpg'], 'ends in .png'],
    [['orchard-fair', '--png', 'a.png', '--width', '9000'], '16 to 8000'],
    [['orchard-fair', '--png', 'a.png', '--width', '1.5'], '16 to 8000'],
    [['orchard-fair', '--png', 'file/a.png'], 'cannot be written'],
    [['no-such-job', '--png', 'a.png'], 'no-such-job'],
    [['orchard-fair'], '--png'],
  ])('refuses %j in words', (argv, told) =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'file'), '');
      const ran = await foldwright(['picture', ...argv], folder);
      expect(ran.code).toBe(2);
      expect(ran.err).toContain(told);
      expect(readdirSync(folder)).toEqual(['file']);
      expect(existsSync(join(folder, 'a.png'))).toBe(false);
    }),
  );
});
