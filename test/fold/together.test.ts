/** Parts of a box in their places, and parts that are wrong there. */
import { describe, expect, it } from 'vitest';
import { place } from '../../src/fold/pose.js';
import { standing } from '../../src/fold/stand.js';
import { togetherFindings } from '../../src/fold/together.js';
import type { Net, ParamValue } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { newNet } from '../../src/styles/build.js';
import { divider } from '../../src/styles/divider.js';
import { drum } from '../../src/styles/drum.js';
import { rect } from '../../src/styles/shapes.js';

const T = 0.3;

/** A card of 40 × 30 mm, and one of 20 × 10 mm glued onto it so high and so far to the right. */
function cards(height: number, x: number, gap?: number): Net[] {
  const lower = newNet('lower', 'Lower', T);
  lower.root('card', 'base', rect(40, 30));
  const upper = newNet('upper', 'Upper', T);
  upper.seat(upper.root('card', 'base', rect(20, 10)), 'lower', 'card', gap);
  return [lower.done(), upper.done(undefined, { height, at: [x, 0] })];
}

describe('a card glued onto another', () => {
  it('is sound a thickness higher and within it', () => {
    expect(togetherFindings(cards(T, 10))).toEqual([]);
    expect(togetherFindings(cards(2 * T, 0, 2 * T))).toEqual([]);
  });
  it('is not past its edge', () => {
    const [found] = togetherFindings(cards(T, 12));
    expect(found).toMatchObject({ law: 'join', panels: ['upper/card', 'lower/card'] });
    expect(found!.measured).toBeCloseTo(2, 9);
  });
  it('is not where there is air, or paper, between', () => {
    expect(togetherFindings(cards(3 * T, 0))[0]!.measured).toBeCloseTo(2 * T, 9);
    expect(togetherFindings(cards(0, 0))[0]!.measured).toBeCloseTo(T, 9);
  });
});

it('a part stands by the middle of its root, turned, at its height', () => {
  const net = newNet('wall', 'Wall', 0);
  const wall = net.root('wall', 'wall', rect(40, 10));
  // Its flap is folded forward; the wall stands where it is said to.
  net.fold(wall.side('head'), 'flap', 'flap', w => rect(w, 8));
  const stood = net.done([0, 1, 0], { at: [5, 7], height: 2, turn: Math.PI / 2 });
  const [root] = standing(stood);
  const corners = [
    [0, 0],
    [40, 0],
    [40, 10],
  ] as const;
  const [a, b, c] = corners.map(p => place(root!, p).map(v => Math.round(v * 1e9) / 1e9));
  expect(a).toEqual([5, -13, 2]);
  expect(b).toEqual([5, 27, 2]);
  expect(c).toEqual([5, 27, 12]);
});

describe('styles in several parts', () => {
  const built = (style: typeof drum | typeof divider, given: Record<string, ParamValue> = {}) =>
    style.build(
      { inside: style.example, thickness: T },
      fillParams(style.params as typeof drum.params, given) as never,
    );
  const laws = (nets: readonly Net[]) => new Set(togetherFindings(nets).map(f => f.law));
  it('a divider is, and is not with a strip beside its slots', () => {
    const nets = built(divider);
    expect(laws(nets)).toEqual(new Set());
    const moved = nets.map(n =>
      n.id === 'cross-1' ? { ...n, stands: { ...n.stands!, at: [-20, 0] as const } } : n,
    );
    expect(laws(moved)).toEqual(new Set(['through']));
  });
  it('a drum is, and is not with its lid pushed down or its wall moved', () => {
    const nets = built(drum);
    expect(laws(nets)).toEqual(new Set());
    const stand = (id: string, by: object) =>
      nets.map(n => (n.id === id ? { ...n, stands: { ...n.stands, ...by } } : n));
    const { height } = nets.find(n => n.id === 'lid')!.stands!;
    expect(laws(stand('lid', { height: height! - 1 }))).toContain('through');
    expect(laws(stand('base-wall', { at: [1, 0] }))).toContain('join');
  });
});
