/** `motif: ./drawing.svg`: where it may lie, what is told of it, and what is made of it. */
import { mkdirSync, readFileSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseManifest } from '../../src/write/index.js';
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
    ['../secret.svg', /files of its own folder and below it/],
    ['art/../../secret.svg', /files of its own folder and below it/],
    ['/etc/passwd.svg', /files of its own folder and below it/],
    ['link.svg', /a link out of it/],
    ['up/secret.svg', /a link out of it/],
    ['"art\\\\..\\\\secret.svg"', /files of its own folder and below it/],
    ['gone.svg', /there is no such file/],
    ['art/', /a drawing whose name ends in \.svg/],
    ['/etc/passwd', /a drawing whose name ends in \.svg/],
    ['large.svg', /at most 8\.0 MB, and this has 50 MB/],
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

  it('that had to be mended says what was done, in the summary and in the manifest', () =>
    inFolder(async folder => {
      // A square open by 0.01 mm, one corner of it rounded in steps of 0.01 mm; a fold drawn twice, a slit
      // drawn there and back, and a line that goes on over the end of another.
      const corner = Array.from({ length: 78 }, (_, i) => {
        const a = ((i + 1) / 78) * (Math.PI / 2);
        return `L${(49.5 + Math.sin(a) * 0.5).toFixed(5)} ${(10.5 - Math.cos(a) * 0.5).toFixed(5)}`;
      });
      const body =
        `<path id="cut" d="M10 10.01V50H50V10.5${[...corner].reverse().slice(1).join('')}L49.5 10H10"/>` +
        '<path id="score" d="M20 30H40M20 30H40"/><path id="cut-2" d="M20 20H30"/>' +
        '<path id="cut-3" d="M30 20H20"/><path id="draw" d="M20 40H30M25 40H35"/>';
      writeFileSync(join(folder, 'x.svg'), LEAF.replace(/<path[\s\S]*<\/svg>/, `${body}</svg>`));
      writeFileSync(
        join(folder, 'job.yaml'),
        `${job('./x.svg')}    params: { lines: "cut: cut, cut-2: cut, cut-3: cut, score: score, draw: draw" }\n`,
      );
      const made = await foldwright(['batch', 'job.yaml', '--out', 'out'], folder);
      expect([made.code, made.err]).toEqual([0, '']);
      const { warnings, sheets } = parseManifest(
        readFileSync(join(folder, 'out/own/manifest.json'), 'utf8'),
      );
      const cut = '1 gap of up to 0.010 mm closed, 1 doubled line dropped, \\d\\d segments shorter';
      for (const told of [made.out, warnings.join('\n')]) {
        expect(told).toMatch(new RegExp(`x\\.svg, cut: ${cut} than 0\\.025 mm merged`));
        expect(told).toContain('x.svg, score: 1 doubled line dropped');
        expect(told).toContain('x.svg, draw: 1 line cut short where it lay on another');
      }
      // And is worked once: four sides, with a corner of 0.5 mm, and the slit.
      const [sheet] = sheets;
      expect(sheet!.lengthsMm.score).toBeCloseTo(20, 1);
      expect(sheet!.lengthsMm.draw).toBeCloseTo(15, 1);
      expect(sheet!.lengthsMm.cut).toBeCloseTo(160 - (2 - Math.PI / 2) * 0.5 + 10, 1);
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

describe("a drawing of one's own, wherever a motif may stand", () => {
  it('is a window, a cut-out and a piece for each name of a list', () =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'leaf.svg'), LEAF.replace(/<path id="score"[^>]*>/, ''));
      const tag = '<path d="M5 5H55V35H5z"/><rect id="text" x="10" y="10" width="40" height="20"/>';
      writeFileSync(join(folder, 'tag.svg'), LEAF.replace(/<path[\s\S]*<\/svg>/, `${tag}</svg>`));
      writeFileSync(
        join(folder, 'party.yaml'),
        `job: party
formats: [svg]
boxes:
  - name: gift
    style: flip-lid
    inside: 4 x 3 x 1 in
    features:
      - window: { on: base, motif: ./leaf.svg, params: { size: 30mm }, film: clear-film-a4 }
    decorations:
      - on: front
        motif: scalloped-oval
        params: { size: 44mm, proportion: 0.5 }
        cut-outs: [{ motif: leaf.svg, params: { size: 8mm }, at: [-11mm, 0mm] }]
      - { on: lid, motif: tag.svg, params: { text: "For {to}" }, to: [Ada, Ben] }
`,
      );
      const ran = await foldwright(['batch', 'party.yaml', '--out', 'out'], folder);
      expect(ran.code, ran.err).toBe(0);
      const manifest = parseManifest(
        readFileSync(join(folder, 'out', 'party', 'manifest.json'), 'utf8'),
      );
      const pieces = manifest.sheets.flatMap(s => s.placements.map(p => p.piece));
      expect(pieces.filter(p => /tag/.test(p))).toEqual(['lid-tag-1-front', 'lid-tag-2-front']);
      expect(pieces.join(' ')).toMatch(/film/);
      expect(pieces).toContain('front-scalloped-oval-front');
    }));

  it('is named on the command line as a window', () =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'leaf.svg'), LEAF.replace(/<path id="score"[^>]*>/, ''));
      const window = 'window on=front motif=leaf.svg film=clear-film-a4';
      const ran = await foldwright(
        ['box', 'straight-tuck', '--inside', '60x40x120mm', '--feature', window, '--out', 'out'],
        folder,
      );
      expect([ran.code, ran.err]).toEqual([0, '']);
    }));
});

describe('one piece with art, lines and words', () => {
  const TAG =
    '<path id="cut" d="M8 2H62L68 8V32L62 38H8L2 32V8z"/><circle id="cut" cx="9" cy="20" r="2.5"/>' +
    '<path id="score" d="M16 2V38"/><rect id="draw" x="20" y="8" width="42" height="24" rx="4"/>' +
    '<rect id="text" x="23" y="12" width="36" height="16"/>';
  const INK = '#4a2c2a';

  it('is printed, drawn, scored and cut in register, each in its file', () =>
    inFolder(async folder => {
      const svg = LEAF.replace('0 0 60 60', '0 0 70 40').replace('width="60mm"', 'width="70mm"');
      writeFileSync(
        join(folder, 'tag.svg'),
        svg
          .replace('height="60mm"', 'height="40mm"')
          .replace(/<path[\s\S]*<\/svg>/, `${TAG}</svg>`),
      );
      writeFileSync(
        join(folder, 'one.yaml'),
        `job: one
formats: [svg, dxf, pdf, print-svg]
stock: printable-32lb-letter
decor:
  - name: tag
    motif: tag.svg
    params: { text: Plum jam, ink: "${INK}" }
    art: { pattern: dots, palette: ["#f6e7c8", "#d9a441"], seed: 2 }
`,
      );
      const ran = await foldwright(['batch', 'one.yaml', '--out', 'out'], folder);
      expect([ran.code, ran.err]).toEqual([0, '']);
      const at = (name: string) => readFileSync(join(folder, 'out/one/tag', name), 'utf8');
      const sheet = 'printable-32lb-letter-1';
      const { lengthsMm } = JSON.parse(readFileSync(join(folder, 'out/one/manifest.json'), 'utf8'))
        .sheets[0];
      // Of the drawing's own sizes, in mm: the crease, the frame with its four corners of 4 mm.
      expect(lengthsMm.score).toBeCloseTo(36, 1);
      expect(lengthsMm.draw).toBeCloseTo(2 * (34 + 16) + 8 * Math.PI, 1);
      expect(lengthsMm.cut).toBeCloseTo(2 * (54 + 24) + 4 * Math.hypot(6, 6) + 5 * Math.PI, 1);

      const cut = at(`${sheet}.cut.svg`);
      const groups = [...cut.matchAll(/<g id="([a-z]+)"/g)].map(m => m[1]);
      expect(groups).toEqual(['draw', 'score', 'cut', 'register']);
      // Nothing printed is in the file to cut, and no line to cut in the art.
      expect(cut).not.toMatch(/fill="#/);
      const print = at(`${sheet}.print.svg`).toLowerCase();
      const order = ['#f6e7c8', '#d9a441', INK].map(colour => print.indexOf(`fill="${colour}"`));
      expect(Math.min(...order)).toBeGreaterThan(0);
      expect(order).toEqual([...order].sort((a, b) => a - b));
      expect(at(`${sheet}.cut.dxf`)).toMatch(/SCORE|score/);
      expect(at(`${sheet}.print.pdf`).startsWith('%PDF-')).toBe(true);
      expect(ran.out).not.toMatch(/in none of the files/);

      // Without a format that prints, the art would be lost: that is told.
      const job = readFileSync(join(folder, 'one.yaml'), 'utf8');
      writeFileSync(join(folder, 'cut.yaml'), job.replace(', pdf, print-svg', ''));
      const lost = await foldwright(['batch', 'cut.yaml', '--check'], folder);
      expect(lost.out).toMatch(/printed on it is in none of the files: add pdf or print-svg/);
    }));
});
