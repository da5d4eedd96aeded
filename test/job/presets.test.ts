/** The presets that come with the program, and the reading of presets in general. */
import { describe, expect, it } from 'vitest';
import { formatFaults } from '../../src/job/fault.js';
import {
  listPresets,
  openPresets,
  parseConvention,
  parseCutter,
  parsePalette,
  parsePreset,
  parseStock,
  parseTreat,
  type Result,
} from '../../src/job/presets.js';
import type { Convention, Cutter, Stock } from '../../src/model.js';
import { letteringParams } from '../../src/motifs/lettered.js';
import { contrast, difference, SIGHTS } from './colour-sight.js';
import { presetText, realPresets } from './real-library.js';

function value<T>(result: Result<T>): T {
  if ('faults' in result) throw new Error(formatFaults(result.faults));
  return result.value;
}
const stock = (id: string): Stock => value(realPresets.get('stock', id));
const cutter = (id: string): Cutter => value(realPresets.get('cutter', id));
const convention = (id: string): Convention => value(realPresets.get('convention', id));

const KINDS = ['stock', 'cutter', 'convention', 'palette', 'treat'] as const;

describe('presets that come with the program', () => {
  it.each(KINDS)('every %s is read without a fault', kind => {
    const lines = listPresets(realPresets, kind);
    expect(lines.length).toBeGreaterThan(2);
    expect(formatFaults(lines.flatMap(l => l.faults))).toBe('');
    for (const { id, summary } of lines) {
      expect(id).toMatch(/^[a-z0-9]+(?:-[a-z0-9]+)*$/);
      expect(summary.length, id).toBeLessThan(80);
    }
  });

  // Grammage: check-values 1.2. Sheets: 1 in = 25.4 mm; ISO 216; ANSI Y14.1 Letter.
  it.each([
    ['cardstock-65lb-12x12', 304.8, 304.8, 175.77],
    ['cardstock-80lb-12x24', 304.8, 609.6, 216.33],
    ['cardstock-110lb-12x12', 304.8, 304.8, 297.45],
    ['cardstock-220gsm-a4', 210, 297, 220],
    ['printable-65lb-letter', 215.9, 279.4, 175.77],
    ['printable-32lb-letter', 215.9, 279.4, 120.3],
    ['patterned-80lb-text-12x12', 304.8, 304.8, 118.4],
  ])('%s is %f × %f mm of %f g/m²', (id, width, height, gsm) => {
    expect(stock(id)).toMatchObject({ width, height, caliperFrom: 'bulk' });
    expect(Math.abs(stock(id).gsm - gsm)).toBeLessThan(0.05);
  });

  it('papers are as thick as craft papers are (check-values 1.3, from memory)', () => {
    const between = (id: string, least: number, most: number) => {
      expect(stock(id).caliper, id).toBeGreaterThan(least);
      expect(stock(id).caliper, id).toBeLessThan(most);
    };
    between('cardstock-65lb-12x12', 0.21, 0.28);
    between('cardstock-80lb-12x12', 0.26, 0.35);
    between('cardstock-110lb-12x12', 0.36, 0.48);
  });

  it('cutters say who compensates, and hold the sheets they are named for', () => {
    for (const id of realPresets.ids('cutter')) {
      const { blade, margin } = cutter(id);
      expect(margin, id).toBeGreaterThan(0);
      if (blade.kerf !== undefined) {
        expect(blade, id).toMatchObject({ offset: 0, compensatedBy: 'file' });
        expect(presetText('cutter', id), id).toMatch(/catches fire[\s\S]*local rules/);
        continue;
      }
      expect(blade.offset, id).toBe(0.25);
      // A closed cut should run on by 0.5 to 1 mm (check-values 5, from memory).
      expect(blade.overcut, id).toBeGreaterThanOrEqual(0.5);
      expect(presetText('cutter', id), id).toMatch(/Changing the blade/);
    }
    expect(cutter('mat-12x12').folds).toBeUndefined();
    expect(cutter('mat-12x12-blade-only').folds).toEqual({
      by: 'perforation',
      dash: 2,
      gap: 2,
      passes: 1,
      setback: 0,
      sides: 'face',
    });
    expect(cutter('mat-12x24')).toMatchObject({ width: 304.8, height: 609.6 });
    expect(cutter('a4-mat')).toMatchObject({ width: 210, height: 297 });
    expect(cutter('gantry').blade.compensatedBy).toBe('file');
  });

  it("the standard convention has Okabe and Ito's colours and ISO 128 line types", () => {
    const { operations } = convention('okabe-ito');
    const colours = Object.entries(operations).map(([o, s]) => [o, s.colour]);
    // The colours stand in design section 5.
    expect(Object.fromEntries(colours)).toEqual({
      cut: '#000000',
      score: '#D55E00',
      perforate: '#CC79A7',
      draw: '#0072B2',
      register: '#009E73',
    });
    const d = 0.25;
    // Dash 12 d, gap 3 d, long dash 24 d, dot 1/2 d (ISO 128-2; check-values 2.5, from memory).
    expect(operations.cut.dash).toEqual([]);
    expect(operations.score.dash).toEqual([12 * d, 3 * d]);
    expect(operations.perforate.dash).toEqual([d / 2, 3 * d]);
    expect(operations.draw.dash).toEqual([24 * d, 3 * d, d / 2, 3 * d, d / 2, 3 * d]);
  });

  it('no two operations of a convention look alike', () => {
    for (const id of realPresets.ids('convention')) {
      const looks = Object.values(convention(id).operations).map(s => s.colour + s.dash.join());
      expect(new Set(looks).size, id).toBe(5);
    }
  });

  it('colours of a palette are told apart by every eye', () => {
    for (const id of realPresets.ids('palette')) {
      const { colours } = value(realPresets.get('palette', id));
      for (const [name, sight] of Object.entries(SIGHTS)) {
        for (const [i, a] of colours.entries())
          for (const b of colours.slice(i + 1))
            expect(difference(a, b, sight), `${id}: ${a} ${b}, ${name}`).toBeGreaterThan(15);
      }
    }
  });

  it('each has an ink that text can be read in on its ground, and letters are such an ink', () => {
    // WCAG 2.2, success criterion 1.4.3: at least 4.5 to 1 for text; contrast as it defines it.
    const letters = letteringParams.ink.default;
    for (const id of realPresets.ids('palette')) {
      const [ground, ...inks] = value(realPresets.get('palette', id)).colours as [string];
      const best = Math.max(...inks.map(ink => contrast(ground, ink)));
      expect(best, id).toBeGreaterThanOrEqual(4.5);
      expect(contrast(ground, letters), id).toBeGreaterThanOrEqual(4.5);
    }
    expect(contrast('#ffffff', '#000000')).toBeCloseTo(21, 9);
    // The greys that stand on either side of the bound in WCAG's own advice (from memory).
    expect(contrast('#ffffff', '#767676')).toBeGreaterThan(4.5);
    expect(contrast('#ffffff', '#777777')).toBeLessThan(4.5);
  });

  it('the measure of that sees colours that are not told apart', () => {
    expect(difference('#FFFFFF', '#000000', SIGHTS.full!)).toBeCloseTo(100, 1);
    // A red and a green of one lightness: far apart to most, near to a protanope.
    expect(difference('#B93A2B', '#5B7A3A', SIGHTS.full!)).toBeGreaterThan(60);
    expect(difference('#C8452F', '#5B7A3A', SIGHTS.protan!)).toBeLessThan(15);
    for (const sight of Object.values(SIGHTS))
      for (const row of sight) expect(row.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 5);
  });
});

describe('reading presets', () => {
  const told = (result: Result<unknown>) =>
    'faults' in result ? formatFaults(result.faults) : 'no fault';

  it('asks a stock for all that it needs', () => {
    const text = told(parseStock('x', 'x.yaml', 'colour: "#fff"\n'));
    for (const key of ['summary', 'width', 'height', 'weight', 'caliper'])
      expect(text).toContain(`needs ${key}`);
  });
  it('takes bare lengths as millimetres unless the file says otherwise', () => {
    const text = (units: string) =>
      `${units}summary: s\nwidth: 12\nheight: 12in\nweight: 200 gsm\ncaliper: 0.3mm\ncolour: "#fff"\n`;
    expect(value(parseStock('x', 'x.yaml', text('units: in\n')))).toMatchObject({
      id: 'x',
      width: 304.8,
      caliper: 0.3,
      caliperFrom: 'measured',
      grain: 'unknown',
    });
    expect(told(parseStock('x', 'x.yaml', text('')))).toContain(
      'x.yaml:2:8: width cannot be 12 mm',
    );
  });
  it('refuses what it does not know in each kind', () => {
    const parsers = [parseStock, parseCutter, parseConvention, parsePalette, parseTreat];
    for (const parse of parsers) {
      expect(told(parse('x', 'x.yaml', 'sumary: s\n'))).toContain('did you mean summary?');
      expect(told(parse('x', 'x.yaml', ''))).toContain('must be a map');
      expect(told(parse('x', 'x.yaml', ': :\n- {'))).toMatch(/x\.yaml:\d+:\d+/);
    }
  });
  it('tells a preset that is gone or faulty where a job names it', () => {
    const presets = openPresets({
      ids: () => ['gone', 'bad'],
      text: (_, id) => (id === 'bad' ? 'summary: s\n' : undefined),
    });
    expect(told(presets.get('palette', 'gone'))).toBe(
      'presets/palettes/gone.yaml: the palette preset cannot be read',
    );
    expect(listPresets(presets, 'palette').map(l => [l.id, l.faults.length])).toEqual([
      ['gone', 1],
      ['bad', 2],
    ]);
    expect(presets.get('palette', 'bad')).toBe(presets.get('palette', 'bad'));
  });
  it('reads a treat in the units of its file, its squash as a share', () => {
    const text = 'units: in\nsummary: s\npouch: { size: 4 x 3 x 1, squash: 20% }\nlie: side\n';
    expect(value(parseTreat('x', 'x.yaml', text))).toEqual({
      id: 'x',
      summary: 's',
      shape: { kind: 'pouch', length: 101.6, width: 76.2, height: 25.4, squash: 0.2 },
      count: 1,
      clearance: 1,
      apart: 0,
      stack: 500,
      lie: 'side',
    });
  });
  it('gives a parsed preset no more than its kind holds', () => {
    const palette = value(
      parsePreset('palette', 'p', 'p.yaml', 'summary: s\nground: fff\ninks: "#102030"\n'),
    );
    expect(palette).toEqual({ id: 'p', summary: 's', colours: ['#FFFFFF', '#102030'] });
  });
});

describe('the tool of a cutter', () => {
  const read = (blade: string, more = '') =>
    parseCutter(
      'own',
      'own.yaml',
      `summary: Own\nwidth: 300\nheight: 200\nmargin: 5\nblade: ${blade}\n` +
        `speed: { draw: 1, score: 1, perforate: 1, cut: 1, register: 1, travel: 1 }\n${more}`,
    );
  const blade = (text: string) => {
    const made = read(text);
    return 'value' in made ? made.value.blade : made.faults.map(f => f.message);
  };
  it('swivels, is fixed, or is a beam', () => {
    expect(blade('{ offset: 0.3mm, overcut: 0.5mm, compensated-by: file }')).toEqual({
      offset: 0.3,
      overcut: 0.5,
      compensatedBy: 'file',
    });
    expect(blade('{ kind: fixed }')).toEqual({ offset: 0, overcut: 0, compensatedBy: 'file' });
    expect(blade('{ kind: beam, kerf: 0.2mm, compensated-by: cutter }')).toEqual({
      offset: 0,
      overcut: 0,
      compensatedBy: 'cutter',
      kerf: 0.2,
    });
  });
  it.each([
    ['{ kind: beam, compensated-by: file }', 'kerf'],
    ['{ kind: beam, kerf: 3mm, compensated-by: file }', 'kerf'],
    ['{ kind: beam, kerf: 0.1mm, offset: 0.2mm, compensated-by: file }', 'offset'],
    ['{ kind: fixed, offset: 0.2mm }', 'a fixed tool has no offset'],
    ['{ kind: saw }', 'kind'],
    ['{ offset: 0.2mm }', 'overcut'],
  ])('is refused as %s', (text, words) => {
    expect(JSON.stringify(blade(text))).toContain(words);
  });
  it.each([
    ['folds: { dash: 2mm }', 'folds needs by'],
    ['folds: { by: hammer }', 'hammer'],
    ['folds: { by: pen, sides: both }', 'face alone'],
    ['folds: { by: perforation, gap: 0.1mm }', 'gap'],
    ['folds: { by: tool, passes: 9 }', 'passes'],
    ['folds: { by: tool, setback: 9mm }', 'setback'],
  ])('and folds as %s', (text, words) => {
    const made = read('{ kind: fixed }', text);
    expect('faults' in made && made.faults.map(f => f.message).join()).toContain(words);
  });
});
