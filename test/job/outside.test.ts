/** Sizes over all against what paper walls must take, layer by layer. */
import { describe, expect, it } from 'vitest';
import { insideFor, outsideOf } from '../../src/job/outside.js';
import { readJob } from '../../src/job/read-job.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { realLibrary } from './real-library.js';

const style = (id: string) => STYLES.find(s => s.id === id)!;
const t = 0.3;

describe('the size over all', () => {
  // Layers counted on the folded box: the walls in the way, on both sides, with what is glued to them.
  it.each([
    [
      'flip-lid',
      'two end walls, two tabs; two long walls; base, dust flap, two lid flaps',
      [4, 2, 4],
    ],
    [
      'straight-tuck',
      'side, glue flap, side; front, tuck flap, back; two closures, two dust flaps',
      [3, 3, 4],
    ],
  ] as const)('%s: %s', (id, _, layers) => {
    const { example, params } = style(id);
    const over = outsideOf(style(id), { inside: example, thickness: t }, fillParams(params, {}));
    expect(over.length - example.length).toBeCloseTo(layers[0] * t, 6);
    expect(over.width - example.width).toBeCloseTo(layers[1] * t, 6);
    expect(over.height - example.height).toBeCloseTo(layers[2] * t, 6);
  });

  it('lid-and-base: walls of both trays with tabs and the ease, and both bottoms', () => {
    const { example, params } = style('lid-and-base');
    const values = fillParams(params, { ease: 0.5 });
    const over = outsideOf(style('lid-and-base'), { inside: example, thickness: t }, values);
    expect(over.length - example.length).toBeCloseTo(8 * t + 1, 6);
    expect(over.width - example.width).toBeCloseTo(4 * t + 1, 6);
    expect(over.height - example.height).toBeCloseTo(2 * t, 6);
  });

  /** What stands on a table and holds something; an envelope lies flat, a divider is a strip. */
  const isBox = (s: (typeof STYLES)[number]) => s.room !== undefined;

  it('is tried for most styles', () => expect(STYLES.filter(isBox).length).toBeGreaterThan(15));

  it.each(STYLES.map(s => s.id))('%s: the inside for a size over all gives that size', id => {
    const { example, params } = style(id);
    const values = fillParams(params, {});
    const spec = { inside: example, thickness: t };
    const wanted = outsideOf(style(id), spec, values);
    const found = insideFor(wanted, style(id), values, t);
    if (!found) {
      expect(isBox(style(id)), 'no inside found').toBe(false);
      return;
    }
    expect(found.inside.length).toBeCloseTo(example.length, 1);
    expect(found.inside.width).toBeCloseTo(example.width, 1);
    expect(found.inside.height).toBeCloseTo(example.height, 1);
  });

  it('of a gable top, whose roof runs along the longer side, is that of the box either way round', () => {
    const { params } = style('gable-top');
    const values = fillParams(params, {});
    const inside = { length: 80, width: 50, height: 70 };
    const over = outsideOf(style('gable-top'), { inside, thickness: t }, values);
    const across = { ...over, length: over.width, width: over.length };
    const found = [over, across].map(o => insideFor(o, style('gable-top'), values, t)!.inside);
    expect(found[0]!.length).toBeCloseTo(80, 1);
    expect(found[0]!.width).toBeCloseTo(50, 1);
    expect(found[1]!.length).toBeCloseTo(50, 1);
    expect(found[1]!.width).toBeCloseTo(80, 1);
  });

  it('of a round box has one free measure: a width of its own cannot be', () => {
    const { example, params } = style('prism');
    const values = fillParams(params, {});
    const over = outsideOf(style('prism'), { inside: example, thickness: t }, values);
    expect(
      insideFor({ ...over, width: over.width + 1 }, style('prism'), values, t),
    ).toBeUndefined();
  });

  it('is refused in words for what lies flat', () => {
    const text = 'job: fair\nboxes:\n  - style: envelope\n    outside: 100mm x 5mm x 70mm\n';
    const read = readJob({ file: 'fair.yaml', text }, realLibrary());
    const [fault] = 'faults' in read ? read.faults : [];
    expect(fault!.message).toContain('outside: envelope is no closed box');
    expect(fault).toMatchObject({ line: 4, hint: 'give its inside' });
  });

  it('is nothing where paper leaves no room', () => {
    const { params } = style('flip-lid');
    const tiny = { length: 50, width: 50, height: 0.5 };
    expect(insideFor(tiny, style('flip-lid'), fillParams(params, {}), t)).toBeUndefined();
  });
});
