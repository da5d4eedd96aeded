import svgpath from 'svgpath';
import { describe, expect, it } from 'vitest';
import { pageProgram } from '../../src/cli/page-files.js';
import { openSession } from '../../src/cli/session.js';
import { proveNet } from '../../src/fold/index.js';
import { apply, vertices } from '../../src/geom/index.js';
import { itemPreview } from '../../src/item-preview.js';
import type { Affine, Point } from '../../src/model.js';
import { makeSheet, planItem } from '../../src/pipeline.js';
import type { PreviewFacts, PreviewSheet } from '../../src/preview-model.js';
import { readDrawingJson } from '../../src/write/drawing-json.js';
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
  return { ...session, plan, facts: itemPreview(plan, session.design, plan.nets.map(proveNet)) };
}

/** Where lines of the pieces on a sheet begin, bend and end, mm, in the sheet's frame. */
function ends({ pieces }: PreviewFacts, { placed }: PreviewSheet, which: 'score' | 'back') {
  return placed.flatMap(({ piece, at }) => {
    const { lines, back = '' } = pieces[piece]!;
    const points: Point[] = [];
    svgpath(which === 'back' ? back : (lines.score ?? ''))
      .abs()
      .iterate(([command, ...numbers], _, x, y) => {
        const [a, b] = numbers.slice(-2) as [number, number];
        const to = command === 'H' ? [a, y] : command === 'V' ? [x, a] : [a ?? x, b ?? y];
        points.push(apply(at as Affine, [to[0]!, -to[1]!]));
      });
    return points;
  });
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

  it('says in words what lies on each face and on each sheet; long lists end in a number', () => {
    const { facts } = factsOf(`{ name: pear, style: lid-and-base, inside: 60x40x20, count: 3,
      decorations: [{ name: badge, on: lid, motif: heart, params: { size: 18 } }] }`);
    expect(facts.decorated).toBe('Lid: Base, on the outside: Badge, front.');
    const kinds = facts.sheets.map(s => s.holds).join(' ');
    expect(kinds).toContain('3 × Base; 3 × Lid');
    expect(kinds).toContain('3 × Badge, front');
    const rows = Array.from({ length: 14 }, (_, i) => {
      const at = `[${((i % 7) - 3) * 20}, ${i < 7 ? -15 : 15}]`;
      return `{ name: seed-${i}, on: lid, motif: heart, params: { size: 12 }, at: ${at} }`;
    });
    const many = factsOf(
      `{ name: many, style: flip-lid, inside: 160x80x20, decorations: [${rows.join(', ')}] }`,
    ).facts;
    expect(many.decorated).toContain('Seed 11, front; and 2 more.');
    expect(many.sheets.map(s => s.holds).join(' ')).toMatch(/; and \d+ more kinds/);
  });

  it('shows both sides of a sheet that is scored from both, each as its file has it', async () => {
    const { plan, facts, design, kit } = factsOf(
      '{ name: basket, style: gable, inside: 60x40x40 }',
      'cutter: { like: gantry, folds: { by: tool, sides: both } }\n',
    );
    const [back, face] = facts.sheets;
    expect(facts.sheets).toHaveLength(2);
    expect([back!.side, face!.side]).toEqual(['back', 'face']);
    expect(back!.title).toContain(`${face!.id}, its back, scored first`);
    expect(face!.title).toContain(`${face!.id}, its face, done next`);
    const made = await makeSheet(plan.item, plan.sheets[0]!, design, kit);
    const scored = (ending: string) => {
      const file = made.files.find(f => f.path.endsWith(`${face!.id}${ending}`))!;
      const layers = readDrawingJson(new TextDecoder().decode(file.bytes)).layers;
      return layers.find(l => l.operation === 'score')!.paths.flatMap(vertices);
    };
    const inTurned = scored('.back.drawing.json');
    const onFace = scored('.drawing.json');
    // A stretch that wakes the blade lies beside the pieces; all else is a line of the preview.
    const strays = (points: Point[], shown: Point[]) =>
      points.filter(p => !shown.some(q => Math.hypot(p[0] - q[0], p[1] - q[1]) < 0.01)).length;
    expect(inTurned.length).toBeGreaterThan(12);
    expect(strays(inTurned, ends(facts, back!, 'back'))).toBeLessThanOrEqual(2);
    expect(strays(onFace, ends(facts, face!, 'score'))).toBeLessThanOrEqual(2);
    // They would be noticed if they were not mirrored, or of the other side.
    expect(strays(inTurned, ends(facts, face!, 'back'))).toBeGreaterThan(6);
    expect(strays(onFace, ends(facts, face!, 'back'))).toBeGreaterThan(2);
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
