/** Files that a job names beside itself, and decorations that it puts on a box: from the job to the
 *  manifest and the folded picture. */
import { cpSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { ownFiles } from '../../src/cli/own-files.js';
import { parseManifest } from '../../src/write/index.js';
import { foldwright, inFolder, root } from '../support/command.js';

const face = join(root, 'presets', 'fonts', 'sniglet', 'latin.ttf');

describe('files beside a job', () => {
  it('are found from its folder, and not read when they are too large or no text', () =>
    inFolder(async folder => {
      mkdirSync(join(folder, 'fair'));
      writeFileSync(join(folder, 'fair', 'a.csv'), 'to\nAda');
      writeFileSync(join(folder, 'fair', 'big.csv'), 'x'.repeat(1_000_001));
      writeFileSync(join(folder, 'fair', 'latin1.csv'), Buffer.from([0x5a, 0x6f, 0xeb]));
      const own = ownFiles('fair/job.yaml', folder);
      expect(own.text('a.csv', 'list')).toBe('to\nAda');
      expect(own.text('./a.csv', 'list')).toBe('to\nAda');
      expect(own.text('big.csv', 'list')).toMatchObject({ why: /at most 1\.0 MB/ });
      expect(own.text('big.csv', 'face')).toHaveLength(1_000_001);
      expect(own.text('latin1.csv', 'list')).toMatchObject({ why: /UTF-8/ });
      writeFileSync(join(folder, 'fair', 'leaf.svg'), gzipSync('<svg/>'));
      expect(own.text('leaf.svg', 'drawing')).toMatchObject({
        why: expect.stringContaining('gzip'),
        advice: expect.stringContaining('gunzip'),
      });
      expect(own.text('none.csv', 'list')).toMatchObject({ why: /no such file/ });
      expect(own.text('.', 'list')).toMatchObject({ why: /no file/ });
      // A command is typed in a folder of its own.
      expect(ownFiles('command line', join(folder, 'fair')).text('a.csv', 'list')).toBe('to\nAda');
    }));

  it('a list, a face and a drawing are found by one rule: in the folder of the job and below', () =>
    inFolder(async folder => {
      const home = join(folder, 'home');
      mkdirSync(home);
      for (const name of ['x.csv', 'x.ttf', 'x.svg']) {
        writeFileSync(join(folder, name), 'to\nAda');
        symlinkSync(join(folder, name), join(home, `link-${name}`));
      }
      const job = (decoration: string) =>
        `job: a\nboxes:\n  - style: flip-lid\n    inside: 4 x 3 x 1 in\n    decorations:\n      - { on: lid, ${decoration} }\n`;
      for (const [decoration, kind] of [
        ['motif: label, params: { text: "{to}" }, to: FILE.csv', 'list'],
        ['motif: label, params: { text: Hi, font: FILE.ttf }', 'face'],
        ['motif: FILE.svg', 'drawing'],
        ['motif: heart, cut-outs: [FILE.svg]', 'drawing'],
      ] as const) {
        for (const file of ['../x', '/x', 'link-x']) {
          writeFileSync(join(home, 'a.yaml'), job(decoration.replace('FILE', file)));
          const { code, err } = await foldwright(['batch', 'home/a.yaml', '--check'], folder);
          expect([code, kind, file], err).toEqual([2, kind, file]);
          expect(err).toMatch(/a job opens files of its own folder/);
          expect(err).toContain(`copy the ${kind} beside the job file, and name it as ./`);
        }
      }
    }));

  it('a face of the person’s own and a list of guests: one label each, told in the manifest', () =>
    inFolder(async folder => {
      cpSync(face, join(folder, 'mine.ttf'));
      writeFileSync(join(folder, 'guests.csv'), 'to\nAda\n"Ben, the cook"\nZoë\n');
      writeFileSync(
        join(folder, 'party.yaml'),
        `job: party
units: in
formats: [svg]
boxes:
  - name: gift
    style: flip-lid
    inside: 4 x 3 x 1
    decorations:
      - { on: lid, overlay: { strips: [{ width: 5/8 }, { width: 3/4, length: 3, showing: 1/4 }] } }
      - on: lid
        face: inside
        motif: label
        params: { size: 2 1/2, text: "For {to}", font: mine.ttf, lettering: draw }
        to: guests.csv
        at: middle
      - { on: front, motif: heart, params: { size: 1/2 }, repeat: { row: 4, gap: 1/8 } }
`,
      );
      const ran = await foldwright(['batch', 'party.yaml'], folder);
      expect(ran.code, ran.err).toBe(0);
      const text = readFileSync(join(folder, 'out', 'party', 'manifest.json'), 'utf8');
      const { sheets, placed } = parseManifest(text);
      const titles = sheets.flatMap(s => s.placements.map(p => p.title));
      for (const name of ['For Ada', 'For Ben, the cook', 'For Zoë']) {
        expect(
          titles.filter(t => t.includes(`"${name}"`)),
          name,
        ).toHaveLength(1);
      }
      const cutOf = (id: string) =>
        sheets.reduce((n, s) => n + s.copies * s.placements.filter(p => p.piece === id).length, 0);
      // Three boxes, four hearts on each.
      expect(cutOf('front-heart-front')).toBe(12);
      expect(placed.map(p => [p.piece, p.panel, p.face])).toEqual([
        ['lid-overlay-strip-1', 'lid', 'outside'],
        ['lid-overlay-strip-2', 'lid', 'outside'],
        ['lid-label-1-front', 'lid', 'inside'],
        ...Array.from({ length: 4 }, () => ['front-heart-front', 'front', 'outside']),
      ]);
    }));

  it('tells a face that is not there, and a decoration that lies where it must not', () =>
    inFolder(async folder => {
      const job = (decoration: string) =>
        `job: party\nunits: in\nboxes:\n  - style: flip-lid\n    inside: 4 x 3 x 1\n    decorations:\n      - ${decoration}\n`;
      writeFileSync(
        join(folder, 'a.yaml'),
        job('{ on: lid, motif: label, params: { text: Hi, font: gone.ttf } }'),
      );
      const gone = await foldwright(['batch', 'a.yaml', '--check'], folder);
      expect(gone.code).toBe(2);
      expect(gone.err).toMatch(/gone\.ttf[\s\S]*no such file/);
      writeFileSync(
        join(folder, 'b.yaml'),
        job('{ on: lid, motif: heart, params: { size: 2 }, at: [0, -1] }'),
      );
      const over = await foldwright(['batch', 'b.yaml', '--check'], folder);
      expect(over.code).toBe(2);
      expect(over.err).toMatch(
        /b\.yaml:7:9: .*lid-heart reaches \d+ mm over a hinge of panel "lid"/,
      );
      expect(over.err).toMatch(/it fits with at: \[.*\]; or allow it with {2}over: hinge/);
    }));
});

describe('words on a box', () => {
  const job = (decoration: string) =>
    `job: party\nunits: in\nboxes:\n  - style: flip-lid\n    inside: 4 x 3 x 1\n    decorations:\n      - ${decoration}\n`;
  const said = (decoration: string) =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'a.yaml'), job(decoration));
      const ran = await foldwright(['batch', 'a.yaml', '--check'], folder);
      expect(ran.code, ran.err).toBe(0);
      return ran.out;
    });
  const label = 'motif: label, params: { size: 2, height: 3/4, text: Plum }';

  it('that stand on their heads are told, with the turn that rights them', async () => {
    expect(await said(`{ on: front, ${label} }`)).toMatch(/upside down .* turn: 180/);
    expect(await said(`{ on: front, ${label}, turn: 180 }`)).not.toMatch(/upside down/);
    // A lid is looked down on, and what has no words has no head to stand on.
    expect(await said(`{ on: lid, ${label} }`)).not.toMatch(/upside down/);
    expect(await said('{ on: front, motif: heart, params: { size: 1/2 } }')).not.toMatch(
      /upside down/,
    );
  });
});
