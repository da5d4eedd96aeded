/** Written nets: their schema, and a folder of its own that closes them. */
import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { gluedFaces, proveNet } from '../../src/fold/index.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { writeNetJson } from '../../src/write/net-json.js';
import { folded, type JsonNet, joinGaps, offPanel, pointsOf } from '../support/fold-json.js';

const schema = JSON.parse(
  readFileSync(new URL('../../presets/schemas/net.schema.json', import.meta.url), 'utf8'),
);
const validate = new Ajv2020({ strict: true, allErrors: true }).compile(schema);

/** Folds close within this, mm: the promise of the closed box. */
const CLOSE = 0.05;
/** Styles whose every join is of paper that bends: a rigid folder closes none. */
const BENT = ['pillow', 'drum', 'heart-box'];

function written(id: string, thickness = 0.3): { nets: JsonNet[] } {
  const style = STYLES.find(s => s.id === id)!;
  const nets = style.build({ inside: style.example, thickness }, fillParams(style.params, {}));
  const glue = gluedFaces(nets);
  const proven = nets.map(net => ({ ...proveNet(net), glue: glue.get(net.id)! }));
  return JSON.parse(writeNetJson({ style: id, nets: proven }));
}

describe.each(STYLES.map(s => s.id))('%s', id => {
  const file = written(id);
  it('is written as the schema says', () => {
    validate(file);
    expect(validate.errors ?? []).toEqual([]);
  });
  it('closes for a folder that knows only the schema', () => {
    for (const net of file.nets) {
      const gaps = joinGaps(net);
      if (net.joins.length > 0 && !BENT.includes(id)) expect(gaps.length).toBeGreaterThan(0);
      expect(Math.max(0, ...gaps), net.id).toBeLessThan(CLOSE);
    }
  });
});

describe('where glue goes', () => {
  const glued = STYLES.map(s => s.id).filter(id => written(id).nets.some(n => n.glue.length > 0));
  it('is said of most styles, and of none that only tucks', () => {
    expect(glued.length).toBeGreaterThan(20);
    for (const id of ['pyramid', 'divider', 'platform', 'bag-topper'])
      expect(glued).not.toContain(id);
  });
  it.each(glued)('lies on the panel that it is said to, in the folder of these tests: %s', id => {
    for (const net of written(id).nets) {
      const own = net.joins.filter(j => j.kind === 'glue');
      const gap = (a: string, b: string) =>
        own.find(j => [a, b].includes(j.a.panel) && [a, b].includes(j.b.panel))?.gap;
      for (const { panel, onto, area } of net.glue) {
        const due = gap(panel, onto);
        // What is glued to another part, or curls, no rigid folder of one net can follow.
        const off = due === undefined ? undefined : offPanel(net, panel, onto, pointsOf(area));
        if (off === undefined) continue;
        for (const d of off) expect(Math.abs(d - due!), `${panel} on ${onto}`).toBeLessThan(CLOSE);
      }
      for (const j of own)
        expect(net.glue.map(g => g.panel)).toEqual(expect.arrayContaining([j.a.panel, j.b.panel]));
    }
  });
});

describe('the folder of these tests', () => {
  const [box] = written('flip-lid').nets as [JsonNet];
  it('knows a hinge that is out', () => {
    const off = box.hinges.map(h => (h.child === 'front' ? { ...h, angle: h.angle - 0.03 } : h));
    expect(Math.max(...joinGaps({ ...box, hinges: off }))).toBeGreaterThan(CLOSE);
  });
  it('knows one that turns the wrong way', () => {
    const off = box.hinges.map(h => (h.child === 'front' ? { ...h, angle: -h.angle } : h));
    expect(Math.max(...joinGaps({ ...box, hinges: off }))).toBeGreaterThan(10);
  });
  it('leaves flat what a later step folds', () => {
    const lid = box.steps.find(s => s.hinges.includes('lid'))!;
    const height = (steps?: number) => {
      const { outline } = box.panels.find(p => p.id === 'lid')!;
      const at = folded(box, steps).get('lid')!;
      return Math.max(...outline.segments.map(s => at(s.to)[2]));
    };
    expect(height(0)).toBeCloseTo(0, 9);
    // 1 in deep inside and the third layer of 0.3 mm, then 2 in of lid upright on it.
    expect(height(lid.step - 1)).toBeCloseTo(25.4 + 0.9 + 50.8, 6);
    expect(height()).toBeCloseTo(25.4 + 0.9, 6);
  });
});

describe('the schema', () => {
  const file = written('flip-lid');
  const change = (edit: (net: Record<string, unknown>) => void) => {
    const copy = structuredClone(file);
    edit(copy.nets[0] as unknown as Record<string, unknown>);
    return validate(copy);
  };
  it('refuses what is not a net', () => {
    expect(change(() => {})).toBe(true);
    expect(change(net => delete net.root)).toBe(false);
    expect(change(net => Object.assign(net, { owner: 1 }))).toBe(false);
    expect(change(net => Object.assign(net, { thickness: -1 }))).toBe(false);
    expect(change(net => Object.assign(net, { panels: [] }))).toBe(false);
    expect(change(net => Object.assign((net.hinges as object[])[0]!, { angle: '90' }))).toBe(false);
  });
});

it('refuses NaN', () => {
  const style = STYLES[0]!;
  const [net] = style.build(
    { inside: style.example, thickness: 0.3 },
    fillParams(style.params, {}),
  );
  const bad = { ...net!, thickness: Number.NaN };
  expect(() => writeNetJson({ style: 'x', nets: [{ net: bad, steps: [], glue: [] }] })).toThrow(
    'NaN',
  );
});
