/** Features in job files and on the command line: what they become, and where their faults are. */
import { describe, expect, it } from 'vitest';
import { boxDocument } from '../../src/job/command-line.js';
import type { Fault } from '../../src/job/fault.js';
import { readJob } from '../../src/job/read-job.js';
import type { FeatureSpec } from '../../src/model.js';
import { realLibrary } from './real-library.js';

const library = realLibrary();

const job = (features: string, more = '') => `job: fair
stocks: { card: cardstock-80lb-12x12, film: clear-film-a4 }
boxes:
  - style: flip-lid
    inside: 152mm x 50mm x 25mm
    params: { dots: 0 }
${more}    features:
${features.replace(/^/gm, '      ')}
`;

function read(text: string): readonly FeatureSpec[] {
  const result = readJob({ file: 'fair.yaml', text }, library);
  if ('faults' in result) throw new Error(result.faults.map(f => f.message).join('\n'));
  return result.design.items[0]!.box!.features ?? [];
}
function faults(text: string): readonly Fault[] {
  const result = readJob({ file: 'fair.yaml', text }, library);
  return 'faults' in result ? result.faults : [];
}
/** What the caret underlines. */
const under = ({ source, column, width }: Fault) => source.slice(column - 1, column - 1 + width);

describe('features of a job', () => {
  it('are read in order, with their defaults', () => {
    const [window, closure, marks] = read(
      job(`- window: { on: lid, shape: round, size: 30mm, at: [5mm, 0], turn: 90, film: film }
- closure: { on: lid-under, diameter: 5mm }
- hinge-marks`),
    );
    expect(window).toMatchObject({
      feature: 'window',
      panel: 'lid',
      at: [5, 0],
      turn: Math.PI / 2,
      film: 'film',
      values: { shape: 'round', size: 30, overlap: 'auto' },
    });
    expect(closure).toMatchObject({ feature: 'closure', panel: 'lid-under' });
    expect(marks).toMatchObject({ feature: 'hinge-marks', panel: '', values: { length: 3 } });
  });
  it("take a motif's outline with its own parameters", () => {
    const [window] = read(job('- window: { on: lid, motif: heart, params: { size: 20mm } }'));
    expect(window!.outline).toMatchObject({ motif: 'heart', values: { size: 20 } });
  });
  it('hold for every row of a table, unless the row has its own', () => {
    const text = `job: fair
tables:
  - style: flip-lid
    params: { dots: 0 }
    features: [{ thumb-notch: lid }]
    rows:
      - 150mm x 50mm x 25mm
      - { inside: 120mm x 50mm x 25mm, features: [hinge-marks] }
`;
    const result = readJob({ file: 'fair.yaml', text }, library);
    if ('faults' in result) throw new Error(result.faults.map(f => f.message).join('\n'));
    const names = result.design.items.map(i => i.box!.features!.map(f => f.feature));
    expect(names).toEqual([['thumb-notch'], ['hinge-marks']]);
  });
  it('split is auto or no', () => {
    const result = readJob({ file: 'f', text: job('- hinge-marks', '    split: auto\n') }, library);
    expect('design' in result && result.design.items[0]!.box!.split).toBe('auto');
    const [fault] = faults(job('- hinge-marks', '    split: yes\n'));
    expect(fault).toMatchObject({ allowed: 'no, auto' });
  });
});

describe('faults stand where they were made', () => {
  it.each([
    ['- windw: { on: lid }', 'windw', /no feature "windw"/, 'did you mean window?'],
    ['- window: { on: lidd }', 'lidd', /no panel "lidd"/, 'did you mean lid?'],
    ['- window: { on: lid, sze: 3mm }', 'sze', /no key "sze"/, 'did you mean size?'],
    ['- window: { shape: round }', 'window', /needs on/, 'window: { on: lid }'],
    ['- window: { on: lid, size: 300mm }', '300mm', /size of window cannot be 300 mm/, 'smaller'],
    ['- window: { on: lid, size: 9mm, at: [0, 40mm] }', '[0, 40mm]', /at of window/, 'move it'],
    ['- window: { on: front-left-tab }', 'front-left-tab', /on of window/, 'another panel'],
    ['- window: { on: lid, motif: hart }', 'hart', /no motif "hart"/, 'did you mean heart?'],
    ['- window: { on: lid, film: glass }', 'glass', /no stock "glass"/, ''],
    ['- window: { on: lid, params: { size: 3mm } }', 'params', /params belong to a motif/, ''],
    ['- closure: { on: lid, to: baze }', 'baze', /no panel "baze"/, 'did you mean base?'],
    ['- thumb-notch: { on: left-dust, radius: 40mm }', '40mm', /radius of thumb-notch/, 'smaller'],
    ['- { window: lid, ribbon: lid }', '{ window: lid, ribbon: lid }', /its name and a map/, ''],
    ['- window: lid\n- hanging-hole: { on: lid, edge: none }', 'hanging-hole', /at of/, 'move it'],
  ])('%s', (features, at, message, hint) => {
    const told = faults(job(features));
    expect(told).toHaveLength(1);
    expect(told[0]!.message).toMatch(message);
    expect(under(told[0]!)).toBe(at);
    expect(told[0]!.hint ?? '').toContain(hint);
  });
  it('each feature is tried on what those before it left, and all faults are told', () => {
    const told = faults(job('- window: { on: lid, size: 300mm }\n- window: { on: lidd }'));
    expect(told.map(f => f.line)).toEqual([8, 9]);
  });
});

describe('on the command line', () => {
  const box = (...feature: string[]) =>
    readJob(
      boxDocument({ style: 'flip-lid', inside: '6x2x1in', set: { dots: '0' }, feature }),
      library,
    );
  it('a feature is its name and settings', () => {
    const result = box('window on=lid shape=round size=1in at=0,1/4in', 'hinge-marks');
    if ('faults' in result) throw new Error(result.faults.map(f => f.message).join('\n'));
    const features = result.design.items[0]!.box!.features!;
    expect(features.map(f => f.feature)).toEqual(['window', 'hinge-marks']);
    expect(features[0]).toMatchObject({ panel: 'lid', at: [0, 6.35], values: { size: 25.4 } });
  });
  it.each([
    ['window on=lidd', 'lidd'],
    ['windw on=lid', 'windw'],
    ['window on=lid size=300mm', '300mm'],
    ['window on=lid size', 'size'],
  ])('%s is told at its word', (feature, at) => {
    const result = box(feature);
    expect('faults' in result && result.faults.map(under)).toEqual([at]);
  });
});
