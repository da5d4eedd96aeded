/** `inspect` on files of ours and of others: what it tells and how it ends. */
import { copyFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { parseManifest } from '../../src/write/index.js';
import { filesBelow, foldwright, inFolder } from '../support/command.js';

const JOB = `job: lids
cutter: { like: mat-12x12, blade: { offset: 0.25mm, overcut: 0.5mm, compensated-by: file } }
boxes: [{ name: lid-box, style: flip-lid, inside: 60mm x 40mm x 20mm }]
`;
const SVG = (inside: string, root = 'width="100mm" height="80mm" viewBox="0 0 100 80"') =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${root}><g id="cut" stroke="#000">${inside}</g></svg>`;
const DXF = (entities: string, header = '') =>
  `0 SECTION 2 HEADER ${header} 0 ENDSEC 0 SECTION 2 ENTITIES ${entities} 0 ENDSEC 0 EOF`
    .split(' ')
    .filter(Boolean)
    .join('\n');
const SQUARE = '<rect x="10" y="10" width="40" height="40"/>';

const inspected = async (folder: string, file: string, ...flags: string[]) => {
  const ran = await foldwright(['inspect', file, '--json', ...flags], folder);
  return { code: ran.code, told: JSON.parse(ran.out)[0] };
};
const kindsOf = (told: { report: { findings: { kind: string }[] } }) =>
  told.report.findings.map(f => f.kind);

describe('a file of ours', () => {
  it('is judged for the cutter that it was made for: time and travel as in the manifest', () =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'job.yaml'), JOB);
      expect((await foldwright(['batch', 'job.yaml'], folder)).code).toBe(0);
      const files = filesBelow(folder);
      const path = [...files.keys()].find(name => name.endsWith('.cut.svg'))!;
      const manifest = parseManifest(files.get(join('out', 'lids', 'manifest.json'))!);
      const { code, told } = await inspected(folder, path);
      expect(code).toBe(0);
      expect(told.report.seconds).toBeCloseTo(manifest.sheets[0]!.seconds, -0.5);
      const { travelMm, travelAsDrawnMm } = manifest.sheets[0]!;
      expect(told.report.travel).toBeCloseTo(travelMm, -0.5);
      expect(travelAsDrawnMm).toBeGreaterThan(1.2 * travelMm);
      expect(told.report.narrow).toEqual({ least: 0.5, places: 0 });
      const slow = await inspected(folder, path, '--cutter', 'gantry');
      expect(slow.told.report.seconds).not.toBe(told.report.seconds);
    }));

  it('away from its manifest its swings are no fault, and no narrow places', () =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'job.yaml'), JOB);
      await foldwright(['batch', 'job.yaml'], folder);
      for (const path of filesBelow(folder).keys()) {
        if (!/\.cut\.(svg|dxf)$/.test(path)) continue;
        const away = basename(path);
        copyFileSync(join(folder, path), join(folder, away));
        const { code, told } = await inspected(folder, away, '--blade', '0.25mm');
        expect(code, away).toBe(0);
        expect(told.report.tip).toBeUndefined();
        expect(told.report.findings.every((f: { severity: string }) => f.severity === 'note')).toBe(
          true,
        );
      }
    }));
});

describe('a file of others', () => {
  it('tells the sizes that software may take it in, where it does not say one', () =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'points.svg'), SVG(SQUARE, 'width="612" height="792"'));
      const { code, told } = await inspected(folder, 'points.svg');
      expect(code).toBe(0);
      expect(told.readAs).toBe('96');
      expect(kindsOf(told)).toContain('size');
      const words = (await foldwright(['inspect', 'points.svg'], folder)).out;
      expect(words).toContain(
        '161.9 × 209.6 mm at 96 units to the inch, 172.7 × 223.5 mm at 90, 215.9 × 279.4 mm at 72 (Letter)',
      );
      const points = await inspected(folder, 'points.svg', '--import-as', '72');
      expect(points.told.report.width).toBeCloseTo(215.9, 9);
      expect(kindsOf(points.told)).not.toContain('size');
    }));

  it('of a DXF in inches that does not say so, too', () =>
    inFolder(async folder => {
      const entities = '0 LWPOLYLINE 8 cut 90 4 70 1 10 0 20 0 10 8.5 20 0 10 8.5 20 11 10 0 20 11';
      writeFileSync(join(folder, 'inches.dxf'), DXF(entities));
      const ran = await foldwright(['inspect', 'inches.dxf'], folder);
      expect(ran.code).toBe(0);
      expect(ran.out).toContain('8.5 × 11 mm in millimetres, 215.9 × 279.4 mm in inches (Letter)');
      const { told } = await inspected(folder, 'inches.dxf', '--import-as', 'in');
      expect(told.report.operations[0].length).toBeCloseTo(25.4 * 39, 6);
      writeFileSync(join(folder, 'said.dxf'), DXF(entities, '9 $INSUNITS 70 1'));
      const said = await inspected(folder, 'said.dxf');
      expect(said.told.readAs).toBe('size');
      expect(kindsOf(said.told)).toContain('size');
    }));

  it('is good with warnings, unless they are to count', () =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'small.svg'), SVG('<circle cx="9" cy="9" r="1"/>'));
      expect((await foldwright(['inspect', 'small.svg'], folder)).code).toBe(0);
      expect((await foldwright(['inspect', 'small.svg', '--strict'], folder)).code).toBe(1);
      const told = ['inspect', 'small.svg', '--strict', '--small', '1.5mm'];
      expect((await foldwright(told, folder)).code).toBe(0);
    }));

  it('tells places in the text, numbered as in the JSON', () =>
    inFolder(async folder => {
      const crossing = '<path d="M0 40H100"/>';
      writeFileSync(join(folder, 'x.svg'), SVG(SQUARE + crossing));
      const ran = await foldwright(['inspect', 'x.svg'], folder);
      expect(ran.code).toBe(1);
      expect(ran.out).toMatch(
        /1 fault: cuts cross at 2 places.*\n\s+at 50\.0, 40\.0; 10\.0, 40\.0/,
      );
      expect(kindsOf((await inspected(folder, 'x.svg')).told)[0]).toBe('crossing');
    }));
});

describe('a file that is no drawing', () => {
  it('is called by its name, in text and JSON, and ends with 2', () =>
    inFolder(async folder => {
      for (const [name, bytes, words] of [
        ['a.svg', gzipSync(SVG(SQUARE)), /gzip/],
        ['b.svg', Buffer.from(SVG(SQUARE), 'utf16le'), /UTF-16/],
        ['c.dxf', Buffer.from('AC1032\0\0'), /DWG/],
        ['d.svg', Buffer.from('<!doctype html><p>'), /HTML/],
        ['e.svg', Buffer.alloc(0), /empty/],
        ['f.dxf', Buffer.from('AutoCAD Binary DXF\r\n\x1a\0'), /binary DXF/],
        ['g.dwg', Buffer.from('AC1032\0\0'), /ends in \.dwg: allowed are \.svg and \.dxf/],
        ['h', Buffer.from(SVG(SQUARE)), /no ending: allowed/],
      ] as const) {
        writeFileSync(join(folder, name), bytes);
        const { code, told } = await inspected(folder, name);
        expect([name, code]).toEqual([name, 2]);
        expect(told.unreadable).toMatch(words);
        const { out } = await foldwright(['inspect', name], folder);
        expect(out).toContain(`cannot be read: ${told.unreadable}`);
      }
    }));
});

describe('a picture', () => {
  it('is drawn of one file, as SVG or PNG, and changes nothing that is told', () =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'x.svg'), SVG(`${SQUARE}<path d="M0 40H100"/>`));
      const plain = await foldwright(['inspect', 'x.svg'], folder);
      for (const picture of ['look.svg', 'deep/look.png']) {
        const flags = ['--picture', picture, '--width', '300'];
        const ran = await foldwright(['inspect', 'x.svg', ...flags], folder);
        expect([ran.code, ran.out]).toEqual([plain.code, plain.out]);
      }
      const files = filesBelow(folder);
      expect([...files.keys()].sort()).toEqual(['deep/look.png', 'look.svg', 'x.svg']);
      expect(files.get('look.svg')).toContain('1 fault: cuts cross at 2 places');
      // PNG, third edition, 11.2.1: the width stands in the bytes 16 to 19.
      expect(Buffer.from(files.get('deep/look.png')!, 'latin1').readUInt32BE(16)).toBe(300);
    }));

  it.each([
    [['x.svg', '--picture', 'look.gif'], 'ends in .svg or .png'],
    [['x.svg', 'x.svg', '--picture', 'look.png'], '2 files; it is of one'],
    [['x.svg', '--picture', 'x.svg/look.png'], 'Give another name with --picture'],
    [['x.svg', '--picture', 'a.png', '--width', '2'], 'from 16 to 8000'],
  ])('is refused: %s', (argv, words) =>
    inFolder(async folder => {
      writeFileSync(join(folder, 'x.svg'), SVG(SQUARE));
      const ran = await foldwright(['inspect', ...argv], folder);
      expect(ran.code).toBe(2);
      expect(ran.err).toContain(words);
      expect([...filesBelow(folder).keys()]).toEqual(['x.svg']);
    }),
  );
});

it.each([
  [['--cutter', 'mat-12x21'], 'Did you mean mat-12x12?'],
  [['--blade', '9mm'], 'allowed is 0 mm to 5 mm'],
  [['--small', 'tiny'], '--small tiny'],
  [['--import-as', 'ells'], 'size, 96, 90, 72, mm, in'],
])('refuses %s', (flags, words) =>
  inFolder(async folder => {
    writeFileSync(join(folder, 'x.svg'), SVG(SQUARE));
    const ran = await foldwright(['inspect', 'x.svg', ...flags], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toContain(words);
  }),
);

it('refuses a way to take it that the file does not have', () =>
  inFolder(async folder => {
    writeFileSync(join(folder, 'x.svg'), SVG(SQUARE));
    const ran = await foldwright(['inspect', 'x.svg', '--import-as', 'in'], folder);
    expect(ran.code).toBe(2);
    expect(ran.out).toContain('this file can be taken as size, 96, 90, 72');
  }));
