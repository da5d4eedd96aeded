import { describe, expect, it } from 'vitest';
import { pageProgram } from '../../src/cli/page-files.js';
import { openSession } from '../../src/cli/session.js';
import { proveNet } from '../../src/fold/index.js';
import { itemPreview } from '../../src/item-preview.js';
import { planItem } from '../../src/pipeline.js';
import { previewPage } from '../../src/write/index.js';
import { root } from '../support/command.js';

function factsOf(box: string, more = '') {
  const text = `job: seen\nunits: mm\nboxes:\n  - ${box}\n${more}`;
  const session = openSession(
    { file: 'seen.yaml', text },
    {},
    { presetsDir: `${root}presets`, cwd: root },
  );
  const plan = planItem(session.design.items[0]!, session.design, session.kit);
  return { plan, facts: itemPreview(plan, session.design, plan.nets.map(proveNet)) };
}

describe('what a preview is told', () => {
  it('is every net, every step in words, and every piece of every sheet', () => {
    const { plan, facts } = factsOf(
      '{ name: pear, style: lid-and-base, inside: 60x40x20, count: 3 }',
    );
    expect(facts.nets.map(n => n.net.id)).toEqual(plan.nets.map(n => n.id));
    for (const { steps, told } of facts.nets) {
      expect(told).toHaveLength(steps.length);
      for (const words of told) expect(words).toMatch(/^[A-Z].*\.$/);
    }
    const placed = facts.sheets.flatMap(s => s.placed);
    expect(placed).toHaveLength(plan.sheets.flatMap(s => s.placements).length);
    for (const { piece } of placed) expect(facts.pieces[piece]).toBeDefined();
    expect(facts.placing).toEqual({ lid: 'Put the lid on.' });
  });

  it('takes a box without decorations and one with eighty, and stays small', () => {
    const plain = factsOf('{ name: plain, style: flip-lid, inside: 120x80x30 }');
    expect(plain.facts.decals).toEqual([]);
    const hearts = Array.from({ length: 40 }, (_, i) => {
      const [x, y] = [((i % 5) - 2) * 28, (Math.floor(i / 5) - 3.5) * 12];
      const pair = `at: [${x}, ${y}], repeat: { row: 2, gap: 4 }`;
      return `      - { on: lid, motif: heart, params: { size: 10 }, ${pair} }\n`;
    });
    const { plan, facts } = factsOf(
      'name: dressed\n    style: flip-lid\n    inside: 180x110x20',
      `    decorations:\n${hearts.join('')}`,
    );
    expect(plan.decals.length).toBeGreaterThanOrEqual(80);
    expect(facts.decals).toHaveLength(plan.decals.length);
    for (const f of [plain.facts, facts]) {
      expect(previewPage(f, pageProgram('preview')).length).toBeLessThan(400_000);
    }
  });

  it('folds whole what was cut up to fit its sheets', () => {
    const { plan, facts } = factsOf(
      '{ name: tall, style: straight-tuck, inside: 100x75x150, split: auto }',
    );
    expect(plan.nets.length).toBeGreaterThan(1);
    expect(facts.nets).toHaveLength(1);
    expect(facts.told.join(' ')).toContain('glued to each other');
  });

  it('is the block about the pieces where the inside is not clear to its corners', () => {
    const { facts } = factsOf('{ name: drops, style: pillow, treat: pear-drops }');
    const { inside, within, things } = facts.treat!;
    for (const k of [0, 1, 2] as const) {
      expect(inside[k]).toBeLessThan(within![k] + 1e-9);
      for (const { at, size } of things) {
        // The treat keeps 2 mm clear on every side.
        expect(at[k] - size[k] / 2).toBeGreaterThan(2 - 1e-6);
        expect(at[k] + size[k] / 2).toBeLessThan(inside[k] - 2 + 1e-6);
      }
    }
    expect(things.map(t => t.shape)).toEqual(['pouch']);
    const none = factsOf('{ name: heart, style: heart-box, inside: 80x70x30 }');
    expect(none.facts.treat).toBeUndefined();
    expect(factsOf('{ name: d, style: drum, inside: 60x60x40 }').facts.treat!.round).toBe(true);
  });
});
