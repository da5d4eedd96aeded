/** The hand-scoring recipe against a blank that every papercrafter knows, and against the net itself. */
import { describe, expect, it } from 'vitest';
import { drawNet } from '../../src/fold/index.js';
import { signedArea } from '../../src/geom/index.js';
import { noRecipeWords, type Recipe, recipeFor, recipeLines } from '../../src/guide/index.js';
import type { Net, ParamValue } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { newNet } from '../../src/styles/build.js';
import { STYLES } from '../../src/styles/index.js';
import { flap, rect } from '../../src/styles/shapes.js';

const inch = (v: number) => Number((v / 25.4).toFixed(6));

function net(
  id: string,
  inside: [number, number, number],
  given: Record<string, ParamValue> = {},
): Net {
  const style = STYLES.find(s => s.id === id)!;
  const [length, width, height] = inside.map(v => v * 25.4) as [number, number, number];
  const spec = { inside: { length, width, height }, thickness: 0 };
  return style.build(spec, fillParams(style.params, given))[0]!;
}
const recipe = (n: Net): Recipe => {
  const r = recipeFor(n, drawNet(n));
  if ('none' in r) throw new Error(r.none.why);
  return r;
};

describe('the flip-lid box of 6 x 2 x 1 in', () => {
  // Common practice, no source: a 9 x 8 in blank, scored at 1/2, 1 1/2, 7 1/2, 8 1/2 and 2, 3, 5, 6.
  const r = recipe(net('flip-lid', [6, 2, 1]));
  it('is cut from 9 x 8 in', () => {
    expect([r.blank.width, r.blank.height].map(inch)).toEqual([9, 8]);
  });
  it('is scored at 1/2, 1 1/2, 7 1/2, 8 1/2 along the 9 in side, at 2, 3, 5, 6 along the other', () => {
    expect([r.first.side, r.second.side].map(inch)).toEqual([9, 8]);
    expect(r.first.scores.map(m => inch(m.at))).toEqual([0.5, 1.5, 7.5, 8.5]);
    expect(r.second.scores.map(m => inch(m.at))).toEqual([2, 3, 5, 6]);
    expect(r.first.scores.every(m => m.fold === 'valley')).toBe(true);
  });
  it('has its end walls scored between the side walls only', () => {
    expect(r.first.scores[0]!.runs.map(run => run.map(inch))).toEqual([[3, 5]]);
    expect(r.first.scores[1]!.runs.map(run => run.map(inch))).toEqual([[2, 6]]);
  });
  it('loses its corners: what is left is the net and what the mitres take', () => {
    const paper = net('flip-lid', [6, 2, 1]).panels.reduce((a, p) => a + signedArea(p.outline), 0);
    const away = r.away.reduce((a, c) => a + (c.x[1] - c.x[0]) * (c.y[1] - c.y[0]), 0);
    const mitres = r.mitres.reduce((a, m) => a + (m.depth * (m.left + m.right)) / 2, 0);
    const rest = r.blank.width * r.blank.height - away - mitres - paper;
    // Only the round corners of lids and dust flaps are left: (1 − π/4) r² each.
    const lidCorner = Math.min(6, 50.8 / 10);
    const most = (1 - Math.PI / 4) * (4 * lidCorner ** 2 + 4 * 3 ** 2) + 1;
    expect(rest).toBeGreaterThan(0);
    expect(rest).toBeLessThan(most);
    expect(r.mitres).toHaveLength(6);
    expect(r.mitres[0]!.left).toBeCloseTo(12.7 * Math.tan(Math.PI / 12), 9);
  });
  it('is told in words', () => {
    const lines = recipeLines(r, 'in');
    expect(lines[0]).toContain('a blank of 9 x 8 in');
    expect(lines).toContain(
      'Lay its 9 in side along the fence. Score at 1/2, 1 1/2, 7 1/2, 8 1/2 in.',
    );
    expect(lines).toContain('Turn it a quarter clockwise. Score at 2, 3, 5, 6 in.');
    expect(lines).toContain('  0 to 1 1/2 in across, 0 to 2 in up');
    expect(lines.join('\n')).toContain('1/8 in on either side');
  });
});

describe('a blank', () => {
  /** A strip that is taller than wide: a wall of 10 above, one of 20 below, a flap on the right. */
  const strip = () => {
    const n = newNet('strip', 'Strip', 0);
    const base = n.root('base', 'base', rect(30, 40));
    n.fold(base.side('head'), 'high', 'wall', w => rect(w, 10));
    n.fold(base.side('foot'), 'low', 'wall', w => rect(w, 20), { angle: -1 });
    n.fold(base.side('right'), 'flap', 'flap', w => flap(w, 5, { mitre: [0.1, 0.2] }));
    return n.done();
  };
  it('that is taller than wide is turned, its left end up, and then back', () => {
    const r = recipe(strip());
    expect(r.blank).toEqual({ width: 70, height: 35 });
    // Along the 70 mm side from the net's lower end: the low wall's fold, then the high one's.
    expect(r.first.scores.map(m => [m.at, m.fold])).toEqual([
      [20, 'mountain'],
      [60, 'valley'],
    ]);
    // The flap on the net's right is now below: its fold is 5 from the bottom.
    expect(r.second.scores.map(m => m.at)).toEqual([5]);
    expect(r.second.scores[0]!.runs).toEqual([[20, 60]]);
    expect(r.away).toEqual([
      { x: [0, 20], y: [0, 5] },
      { x: [60, 70], y: [0, 5] },
    ]);
    const [m] = r.mitres;
    expect(m!.left).toBeCloseTo(5 * Math.tan(0.1), 9);
    expect(m!.right).toBeCloseTo(5 * Math.tan(0.2), 9);
  });
  it('with a wall that slopes says where to cut aslant; what is told is its paper', () => {
    const r = recipe(net('display-tray', [4, 2.4, 1.6], { arch: 0 }));
    const paper = net('display-tray', [4, 2.4, 1.6], { arch: 0 }).panels;
    expect(r.slants).toHaveLength(2);
    const [a, b] = r.slants;
    // Mirror images: the ends of a tray.
    expect(a!.to[0] - a!.from[0]).toBeCloseTo(b!.to[0] - b!.from[0], 9);
    expect(a!.from[1]).toBeCloseTo(b!.to[1], 9);
    const sizes = [
      r.blank.width * r.blank.height,
      ...r.away.map(c => -(c.x[1] - c.x[0]) * (c.y[1] - c.y[0])),
      ...r.mitres.map(m => (-m.depth * (m.left + m.right)) / 2),
      ...r.slants.map(s => -Math.abs((s.to[0] - s.from[0]) * (s.to[1] - s.from[1])) / 2),
      ...paper.map(p => -signedArea(p.outline)),
    ];
    expect(sizes.reduce((s, v) => s + v, 0)).toBeCloseTo(0, 0);
    expect(recipeLines(r, 'mm').join('\n')).toMatch(/Cut straight.*\n {2}from [\d.]+ across, /);
  });
  it('of a rolled cone, or a heart, has none', () => {
    for (const id of ['cone', 'heart-box']) {
      const n = net(id, [3, 3, 3]);
      expect(recipeFor(n, drawNet(n))).toMatchObject({ none: { why: 'curved' } });
    }
  });
  it('with a slanted fold, or paper that curls, has no recipe, and it is said why', () => {
    const n = newNet('slant', 'Slant', 0);
    const base = n.root('base', 'base', flap(40, 20, { mitre: 0.3 }));
    n.fold(base.side('left'), 'left', 'wall', w => rect(w, 10));
    const slant = n.done();
    const why = (n: Net) => {
      const none = recipeFor(n, drawNet(n));
      return 'none' in none ? noRecipeWords(none.none) : '';
    };
    expect(why(slant)).toBe('1 of its score is not parallel to the edges of the blank');
    expect(why(net('pillow', [4, 3, 1]))).toMatch(/curled/);
  });
});
