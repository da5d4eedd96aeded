/** `motif: ./drawing.svg`: where it may lie, what is told of it, and what is made of it. */
import { mkdirSync, readFileSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { foldwright, inFolder } from '../support/command.js';

const LEAF =
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60">' +
  '<path id="cut" d="M30 5C55 20 50 45 30 55C10 45 5 20 30 5z"/><path id="score" d="M30 12V50"/></svg>';
const job = (motif: string) =>
  `job: own\nunits: mm\nstock: cardstock-65lb-12x12\nformats: [svg]\ndecor:\n  - name: leaf\n    motif: ${motif}\n`;

/** Checks a job that names a drawing; files are made below the folder first. */
const check = (motif: string, files: Readonly<Record<string, string | Uint8Array>> = {}) =>
  inFolder(async folder => {
    const home = join(folder, 'home');
    mkdirSync(join(home, 'art'), { recursive: true });
    for (const [name, text] of Object.entries(files)) writeFileSync(join(home, name), text);
    writeFileSync(join(folder, 'secret.svg'), LEAF);
    symlinkSync(join(folder, 'secret.svg'), join(home, 'link.svg'));
    symlinkSync(folder, join(home, 'up'));
    writeFileSync(join(home, 'job.yaml'), job(motif));
    writeFileSync(join(home, 'large.svg'), '');
    truncateSync(join(home, 'large.svg'), 50e6);
    return foldwright(['batch', 'home/job.yaml', '--check'], folder);
  });

describe("a drawing of one's own", () => {
  it('is found from the folder of the job file, and below', async () => {
    for (const [motif, file] of [
      ['./leaf.svg', 'leaf.svg'],
      ['leaf.svg', 'leaf.svg'],
      ['art/leaf.SVG', 'art/leaf.SVG'],
    ] as const) {
      const { code, err } = await check(motif, { [file]: LEAF });
      expect([code, err], motif).toEqual([0, '']);
    }
  });

  it.each([
    ['../secret.svg', /folder or below it/],
    ['art/../../secret.svg', /folder or below it/],
    ['/etc/passwd.svg', /folder or below it/],
    ['link.svg', /a link that leads out of it/],
    ['up/secret.svg', /a link that leads out of it/],
    ['"art\\\\..\\\\secret.svg"', /folder or below it/],
    ['gone.svg', /there is no such file/],
    ['art/', /a drawing whose name ends in \.svg/],
    ['/etc/passwd', /a drawing whose name ends in \.svg/],
    ['large.svg', /at most 8 MB; it has 50 MB/],
  ])('%s is refused, at its place', async (motif, told) => {
    const { code, err } = await check(motif);
    expect(code).toBe(2);
    expect(err).toMatch(told);
    expect(err).toContain('home/job.yaml:7:12: motif cannot be');
  });

  it('that is not text, or not sound, is refused with file, line and what to do', async () => {
    const bytes = await check('x.svg', { 'x.svg': Uint8Array.from([0x3c, 0xff, 0xfe]) });
    expect(bytes.err).toMatch(/UTF-8/);
    const script = await check('x.svg', { 'x.svg': LEAF.replace('<path', '\n<script/><path') });
    expect(script.err).toMatch(/x\.svg, <script> in line 2: <script> is not allowed/);
    expect(script.err).toMatch(/save the file as plain SVG/);
  });

  it('is cut and scored as it was drawn, with a backing and printed art', () =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'leaf.svg'), LEAF);
      const more =
        '    params: { size: 30mm }\n    backings: [2mm]\n    art: { pattern: herringbone, palette: frost }\n';
      writeFileSync(join(folder, 'job.yaml'), job('./leaf.svg') + more);
      const made = await foldwright(['batch', 'job.yaml', '--out', 'out'], folder);
      expect([made.code, made.err]).toEqual([0, '']);
      const manifest = JSON.parse(readFileSync(join(folder, 'out/own/manifest.json'), 'utf8'));
      const lengths = manifest.sheets.map(
        (s: { lengthsMm: Record<string, number> }) => s.lengthsMm,
      );
      // The rib is 38 mm of a leaf drawn 40 to 45 mm wide, brought to 30 mm.
      const scored = lengths.map((l: { score?: number }) => l.score ?? 0);
      expect(Math.max(...scored)).toBeGreaterThan(20);
    }));

  it('may be anywhere when its name is typed', () =>
    inFolder(async folder => {
      mkdirSync(join(folder, 'here'));
      writeFileSync(join(folder, 'leaf.svg'), LEAF);
      const typed = await foldwright(
        ['decor', '../leaf.svg', '--size', '40mm', '--out', 'out'],
        join(folder, 'here'),
      );
      expect([typed.code, typed.err]).toEqual([0, '']);
      const files = readFileSync(join(folder, 'here/out/decor/manifest.json'), 'utf8');
      expect(files).toContain('leaf-40mm/');
    }));
});
