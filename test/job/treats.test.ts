/** Boxes of a job that are sized by their treat. */
import { describe, expect, it } from 'vitest';
import { formatFaults } from '../../src/job/index.js';
import { readJob } from '../../src/job/read-job.js';
import type { Item } from '../../src/model.js';
import { faultsOf } from '../fit/laws.js';
import { realLibrary, realPresets } from './real-library.js';
import { standIns } from './stand-ins.js';

const real = { ...realLibrary() };

function items(text: string, library = real): readonly Item[] {
  const read = readJob({ file: 'job.yaml', text: `job: t\n${text}` }, library);
  if ('faults' in read) throw new Error(formatFaults(read.faults));
  return read.design.items;
}
const boxOf = (text: string, library = real) => items(text, library)[0]!.box!;

describe('a treat with an insert', () => {
  const round = 'round: { diameter: 44mm, height: 52mm }, count: 6';
  const made = (insert: string, more = '') =>
    items(
      `boxes:\n  - { name: jars, style: lid-and-base, count: 3, treat: { ${round}, insert: ${insert} } ${more}}`,
    );

  it.each(['divider', 'platform'])('is a box and a %s of the same paper and count', insert => {
    const [box, inner, ...more] = made(insert);
    expect(more).toEqual([]);
    expect(inner).toMatchObject({
      name: `jars-${insert}`,
      title: `Jars: ${insert}`,
      count: 3,
      box: { style: insert, stock: box!.box!.stock, spec: box!.box!.spec },
    });
    const { arrangement } = box!.box!;
    expect(arrangement!.places).toHaveLength(6);
    expect(inner!.box!.values).toMatchObject({
      columns: arrangement!.columns,
      rows: arrangement!.rows,
    });
    expect(faultsOf(arrangement!)).toEqual([]);
  });
  it('stands its rounds in the holes of a platform', () => {
    const [box] = made('platform');
    const { places, layers } = box!.box!.arrangement!;
    expect(layers).toBe(1);
    for (const { axis } of places) expect(axis).toBe('height');
  });

  const told = (box: string) => {
    const text = `job: t\nboxes:\n  - ${box}\n`;
    const read = readJob({ file: 'job.yaml', text }, real);
    return 'faults' in read ? read.faults : [];
  };
  it.each([
    ['{ style: lid-and-base, treat: { block: 30x20x10mm, insert: platform } }', /round holes/],
    [
      '{ style: drum, treat: { ball: 30mm, count: 4, insert: divider } }',
      /no insert goes into drum/,
    ],
    ['{ style: lid-and-base, treat: { ball: 2mm, count: 400, insert: platform } }', /platform/],
    ['{ style: flip-lid, treat: { ball: 20mm, insert: tray } }', /insert/],
  ])('%s is refused with what would do', (box, message) => {
    const [fault, ...more] = told(box);
    expect(more).toEqual([]);
    expect(fault!.message).toMatch(message);
    expect(`${fault!.allowed ?? ''}${fault!.hint ?? ''}`.length).toBeGreaterThan(5);
  });
});

describe('a box with a treat', () => {
  it('gets the inside that its arrangement needs, rounded up to a tenth of a millimetre', () => {
    const six = 'round: { diameter: 40mm, height: 20mm }, count: 6, clearance: 1mm, lie: flat';
    const { spec, arrangement } = boxOf(
      `boxes:\n  - { style: flip-lid, treat: { ${six}, layers: 1, straight: yes, rows: 2 } }`,
    );
    // Three by two, 1 mm round each: 3 · 40 + 4 · 1, 2 · 40 + 3 · 1, 20 + 1.
    expect(spec.inside).toEqual({ length: 124, width: 83, height: 21 });
    expect(arrangement).toMatchObject({
      pattern: 'grid',
      columns: 3,
      rows: 2,
      layers: 1,
      spare: 0,
    });
    expect(arrangement?.inside).toEqual(spec.inside);
    expect(faultsOf(arrangement!)).toEqual([]);
  });

  it.each(realPresets.ids('treat'))('%s fits into boxes of several styles', id => {
    const made = items(
      `stock: cardstock-80lb-12x24\ncutter: mat-12x24\nboxes:\n${[
        'flip-lid',
        'lid-and-base',
        'straight-tuck',
        'pillow',
        'drum',
      ]
        .map(style => `  - { name: ${style}, style: ${style}, treat: ${id} }`)
        .join('\n')}`,
    );
    for (const { name, box } of made) {
      const { arrangement, spec } = box!;
      expect(faultsOf(arrangement!, spec.inside), name).toEqual([]);
      expect(arrangement!.inside, name).toEqual(spec.inside);
    }
  });

  it('takes a preset as it is, or with what differs', () => {
    const [plain, more] = items(
      'boxes:\n  - { name: a, style: crate, treat: caramel }\n  - { name: b, style: crate, treat: { like: caramel, count: 9, block: { height: 22mm } } }',
      standIns,
    );
    expect(plain!.box!.arrangement!.treat).toMatchObject({
      id: 'caramel',
      count: 4,
      shape: { kind: 'block', length: 32, width: 20, height: 18 },
    });
    expect(more!.box!.arrangement!.treat).toMatchObject({
      count: 9,
      lie: 'flat',
      shape: { kind: 'block', length: 32, width: 20, height: 22 },
    });
  });

  it('is named after its treat where the template says so, and in a row of a table', () => {
    const made = items(
      'tables:\n  - style: crate\n    name: "{treat}-{pieces}-{length}"\n    rows:\n      - { treat: caramel }\n      - { treat: { like: caramel, count: 6, layers: 1, columns: 3 } }',
      standIns,
    ).map(i => i.name);
    expect(made).toEqual(['caramel-4-43', 'caramel-6-100']);
  });

  it('is rounded up to 1/32 in where the job is in inches', () => {
    const { spec } = boxOf('units: in\nboxes:\n  - { style: crate, treat: caramel }', standIns);
    for (const side of Object.values(spec.inside)) {
      expect((side / 25.4) * 32 - Math.round((side / 25.4) * 32)).toBeCloseTo(0, 3);
    }
  });

  it('takes the paper thickness of its own stock into account only in the net', () => {
    const [thin, thick] = ['cardstock-65lb-12x12', 'kraft-a4'].map(
      stock =>
        boxOf(`boxes:\n  - { style: crate, stock: ${stock}, treat: caramel }`, standIns).spec,
    );
    expect(thin!.thickness).not.toBe(thick!.thickness);
    expect(thin!.inside).toEqual(thick!.inside);
  });
});
