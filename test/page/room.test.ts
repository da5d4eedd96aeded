/** The clear space that the preview shows, against the inner faces of the folded paper measured another way
 *  (test/support/inner). */
import { describe, expect, it } from 'vitest';
import { moved, type Point3 } from '../../src/fold/space.js';
import type { Net, Point } from '../../src/model.js';
import { clearSpace } from '../../src/page/room.js';
import { Stage } from '../../src/page/stage.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { acrossAt, innerFaces, uprightAt } from '../support/inner.js';

const T = 0.3;
/** Half of what a hand can place. */
const NEAR_MM = 0.1;
const stageOf = (nets: readonly Net[]) =>
  new Stage({ nets: nets.map(net => ({ net, steps: [], told: [] })), placing: {}, gathering: [] });

/** Boxes that are clear to their corners and whose walls are flat. */
const BLOCKS = STYLES.filter(
  s => s.room && !s.room.insideFor && s.plan !== 'round' && s.id !== 'gusset-bag',
);

describe.each(BLOCKS.map(s => s.id))('the clear space of %s', id => {
  const style = STYLES.find(s => s.id === id)!;
  const nets = style.build({ inside: style.example, thickness: T }, fillParams(style.params, {}));
  const { length, width, height } = style.example;
  const inside: Point3 = [length, width, height];
  const { frame } = clearSpace(stageOf(nets), inside);
  const [low, high] = [moved(frame, [0, 0, 0]), moved(frame, inside)];
  const middle = moved(frame, [length / 2, width / 2, height / 2]);
  const faces = innerFaces(nets, middle);

  const shares = Array.from({ length: 9 }, (_, i) => -0.48 + (0.96 * i) / 8);
  const span = [0, 1].map(i => Math.abs(high[i]! - low[i]!)) as [number, number];

  it('lies on the highest paper of the floor, and reaches no lid', () => {
    const at = shares.flatMap(x =>
      shares.map((y): Point => [middle[0] + x * span[0], middle[1] + y * span[1]]),
    );
    const all = at.map(p => uprightAt(faces, p, middle[2]));
    expect(low[2]).toBeCloseTo(Math.max(...all.map(([floor]) => floor)), 6);
    expect(low[2]).toBeGreaterThan(T / 2 - 1e-9);
    expect(high[2]).toBeLessThan(uprightAt(faces, [middle[0], middle[1]], middle[2])[1] + NEAR_MM);
  });

  it('is as far from the walls on either side', () => {
    for (const axis of [0, 1] as const) {
      // Where the walls lean they are nearest at one height; where flaps lie on them, at one place.
      const gaps = [0.05, 0.5, 0.9].flatMap(k =>
        [-0.49, 0, 0.49].map(share => {
          const at: [number, number, number] = [middle[0], middle[1], low[2] + k * height];
          at[1 - axis]! += share * span[1 - axis]!;
          const [from, to] = acrossAt(faces, at, axis);
          return [
            Math.min(low[axis], high[axis]) - from,
            to - Math.max(low[axis], high[axis]),
          ] as const;
        }),
      );
      const [left, right] = [0, 1].map(side => Math.min(...gaps.map(g => g[side]!)));
      if (!Number.isFinite(left! + right!)) continue;
      expect(Math.abs(left! - right!)).toBeLessThan(NEAR_MM);
      expect(Math.min(left!, right!)).toBeGreaterThan(-NEAR_MM);
    }
  });
});

it('is where a tray of thick card has it, to the thickness', () => {
  const style = STYLES.find(s => s.id === 'lid-and-base')!;
  const [l, w, h] = [80, 60, 25];
  for (const t of [0, 0.4, 1]) {
    const nets = style.build(
      { inside: { length: l, width: w, height: h }, thickness: t },
      fillParams(style.params, {}),
    );
    const { frame, part } = clearSpace(stageOf(nets), [l, w, h]);
    // The tray stands on the middle of its paper; its walls are half a thickness outside.
    expect(frame.at[2]).toBeCloseTo(t / 2, 6);
    expect(Math.abs(frame.at[0])).toBeCloseTo(l / 2, 6);
    expect(Math.abs(frame.at[1])).toBeCloseTo(w / 2, 6);
    expect(nets[part]!.up?.[2] ?? 1).toBeGreaterThan(0);
  }
});

it('finds a place for a block in a heart, beside its cleft', () => {
  const style = STYLES.find(s => s.id === 'heart-box')!;
  const block = { length: 40, width: 30, height: 20 };
  const inside = style.room!.insideFor!(block)!;
  const nets = style.build({ inside, thickness: T }, fillParams(style.params, {}));
  const { frame } = clearSpace(stageOf(nets), [block.length, block.width, block.height]);
  const walls = innerFaces(nets, moved(frame, [20, 15, 10]));
  for (const [x, y] of [
    [0.01, 0.01],
    [1, 0],
    [1, 1],
    [0, 1],
  ] as const) {
    const corner = moved(frame, [x * 40, y * 30, 10]);
    const [fx, tx] = acrossAt(walls, corner, 0);
    expect(corner[0]).toBeGreaterThan(fx - 0.3);
    expect(corner[0]).toBeLessThan(tx + 0.3);
  }
});

it('floats a block in the middle of a pillow, whose sides curve up to it', () => {
  const style = STYLES.find(s => s.id === 'pillow')!;
  const block = { length: 80, width: 50, height: 16 };
  const inside = style.room!.insideFor!(block)!;
  const nets = style.build({ inside, thickness: T }, fillParams(style.params, {}));
  const stage = stageOf(nets);
  const within: Point3 = [inside.length, inside.width, inside.height];
  const { frame } = clearSpace(stage, [block.length, block.width, block.height], within);
  expect(Math.abs(frame.x[0])).toBeCloseTo(0, 9);
  const { low, high } = stage.extent(stage.length);
  const middle = moved(frame, [block.length / 2, block.width / 2, block.height / 2]);
  for (const k of [0, 1] as const) expect(middle[k]).toBeCloseTo((low[k] + high[k]) / 2, 0);
  // The space is a little wider than the block that was asked for.
  expect(Math.abs(middle[2] - (low[2] + high[2]) / 2)).toBeLessThan(1);
  expect(moved(frame, [0, 0, 0])[2]).toBeGreaterThan(low[2] + 1);
});
