import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { formatFaults } from '../../src/job/fault.js';
import { type ReadJob, readJob } from '../../src/job/read-job.js';
import { standIns } from './stand-ins.js';

const IN = 25.4;

function read(text: string): ReadJob {
  const out = readJob({ file: 'job.yaml', text }, standIns);
  if ('faults' in out) throw new Error(formatFaults(out.faults));
  return out;
}
const everything = () =>
  read(readFileSync(new URL('everything.yaml', import.meta.url), 'utf8')).design;
const item = (name: string) => everything().items.find(i => i.name === name)!;

describe('a job with one of everything', () => {
  it('keeps what it says of itself', () => {
    const { name, title, unit, formats, bleed, printMargin, guidePaper } = everything();
    expect({ name, title, unit, formats, bleed, printMargin, guidePaper }).toEqual({
      name: 'everything',
      title: 'Everything, once',
      unit: 'in',
      formats: ['svg', 'pdf'],
      bleed: 2,
      printMargin: 6.35,
      guidePaper: 'a4',
    });
  });

  it('takes presets and changes what it changes', () => {
    const { cutter, convention, stocks } = everything();
    expect(cutter.width).toBe(304.8);
    expect(cutter.blade).toEqual({ offset: 0.25, overcut: 0.5, compensatedBy: 'file' });
    expect(convention.operations.score).toEqual({ colour: '#DD5500', aci: 7, dash: [3, 1] });
    expect(convention.operations.cut.colour).toBe('#000000');
    expect(stocks.brown).toMatchObject({ id: 'brown', summary: 'Kraft', caliper: 0.4 });
    // Half the weight of one make is half as thick.
    expect(stocks.plum).toMatchObject({ caliper: 0.2, caliperFrom: 'bulk', price: 0.35 });
    expect(stocks.own).toMatchObject({ width: 254, height: 203.2, grain: 'width' });
    // 80 lb cover is 216.33 g/m² (check-values 1.2).
    expect(stocks.own!.gsm).toBeCloseTo(216.33, 2);
  });

  it('fills in every parameter, in mm', () => {
    expect(item('decorated').box!.values).toEqual({
      tab: 6.35,
      mitreDeg: 20,
      slats: 4,
      ratio: 0.25,
      closing: 'ribbon',
      handle: true,
      brand: '2024',
    });
    expect(item('Plain.box_1').box!.values).toMatchObject({ tab: 'auto', slats: 3, handle: false });
    expect(item('Plain.box_1').title).toBe('Plain.box 1');
  });

  it('takes a size as inside, outside or crease to crease', () => {
    expect(item('Plain.box_1').box!.spec).toEqual({
      inside: { length: 76.2, width: 50.8, height: 25.4 },
      thickness: 0.4,
    });
    const { spec } = item('decorated').box!;
    // The stand-in has no end walls; its other walls and its lid take half a thickness outward.
    expect(spec.inside.length).toBeCloseTo(80, 6);
    expect(spec.inside.width).toBeCloseTo(60 - 0.2, 6);
    expect(spec.inside.height).toBeCloseTo(40 - 0.2, 6);
    expect(item('crate-2.5x2x1').box!.spec.thickness).toBe(0);
  });

  it('puts decorations on panels in the order of the list', () => {
    const all = item('decorated').decorations;
    expect(all.map(d => [d.name, d.panel, d.face])).toEqual([
      ['dotted', 'lid', 'outside'],
      ['dotted-2', 'lid', 'outside'],
      ['greeting', 'front', 'outside'],
      ['eyes', 'back', 'inside'],
      ['base-overlay', 'base', 'outside'],
    ]);
    expect(all[0]!.art).toEqual({
      pattern: 'specks',
      values: { spacing: 3 },
      palette: ['#FBF3E4', '#B93A2B', '#EDA93F'],
      seed: 7,
    });
    expect(all[2]).toMatchObject({ at: [IN / 2, -IN / 4], turn: -Math.PI / 2 });
    expect(all[2]!.what).toMatchObject({ values: { size: 2 * IN, text: 'Hello' } });
    expect(all[3]!.stocks).toEqual({ main: 'brown', eye: 'own' });
    expect(all[3]!.at).toEqual([3, 0]);
    expect(all[3]!.backings.map(b => [b.reveal, b.stock, b.art?.pattern])).toEqual([
      [IN / 8, 'brown', undefined],
      [IN / 4, 'own', 'specks'],
    ]);
    expect(all[3]!.backings[1]).toMatchObject({ join: 'soft', lift: 1 });
    expect(all[3]).toMatchObject({ shadow: { by: [1, -1], stock: 'plum' }, lift: 2 });
    // The job's own least width, and one of this decoration's.
    expect([all[2]!.leastWidth, all[3]!.leastWidth]).toEqual([1, 0.8]);
    expect(all[4]!.art!.palette).toEqual(['#FFFFFF', '#000000']);
  });

  it('makes a box of every row', () => {
    const rows = everything().items.filter(i => /^(?:row|cell)/.test(i.name));
    expect(rows.map(i => [i.name, i.title, i.count])).toEqual([
      ['row-1-2.5x2x1-crate', '2 1/2 by 2, 2 of them', 2],
      ['row-2-3x2x1-crate', '3 by 2, 9 of them', 9],
      ['cell-5mm-1', 'Sixty', 3],
      ['cell-auto-2', 'Three', 4],
    ]);
    expect(rows.map(i => i.box!.spec.thickness)).toEqual([
      0,
      0.4,
      everything().stocks.own!.caliper,
      0.4,
    ]);
    expect(rows.map(i => i.box!.values.slats)).toEqual([5, 6, 3, 3]);
    expect(rows.map(i => i.decorations.length)).toEqual([1, 0, 0, 0]);
  });

  it('makes decorations without a box', () => {
    expect(item('badge')).toMatchObject({ count: 30, title: 'Badge' });
    expect(item('badge').decorations[0]).toMatchObject({ name: 'badge', panel: '' });
    expect(item('badge-2').decorations[0]!.turn).toBeCloseTo(Math.PI / 12, 12);
  });

  it('holds nothing twice and changes nothing when read again', () => {
    expect(everything()).toEqual(everything());
  });
});

describe('faults found after reading', () => {
  const job = read(
    'job: fair\nboxes:\n  - name: a\n    style: crate\n    inside: 60 x 40 x 20\n' +
      '    decorations:\n      - { on: lid, overlay: 2, name: o }\n',
  );
  it.each([
    ['name', 3, 11],
    ['size', 5, 13],
    ['stock', 3, 11],
    [{ decoration: 'o' }, 7, 9],
    [{ decoration: 'gone' }, 3, 11],
  ] as const)('%j is told at its place', (part, line, column) => {
    expect(job.faultOf('a', part, 'too large', { hint: 'turn it' })).toMatchObject({
      file: 'job.yaml',
      line,
      column,
      message: 'too large',
      hint: 'turn it',
    });
  });
  it('an item that is not there is told at the top', () => {
    expect(job.faultOf('b', 'size', 'x')).toMatchObject({ line: 1, column: 1 });
  });
});

describe('defaults', () => {
  const { design } = read('job: fair\nboxes:\n  - { style: crate, inside: 60x40x20 }\n');
  it('make a job of three lines whole', () => {
    expect(design).toMatchObject({
      title: 'Fair',
      formats: ['svg', 'dxf', 'pdf', 'guide', 'preview'],
      // A job in millimetres is printed on A4.
      guidePaper: 'a4',
      unit: 'mm',
      bleed: 3,
      printMargin: 5,
      cutter: { id: 'mat-12x12' },
      convention: { id: 'okabe-ito' },
    });
    expect(design.items).toMatchObject([
      { name: 'crate-60x40x20', count: 1, box: { stock: 'cardstock-65lb-12x12' } },
    ]);
    expect(Object.keys(design.stocks)).toEqual(['cardstock-65lb-12x12']);
  });
});
