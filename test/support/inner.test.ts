import { expect, it } from 'vitest';
import { fillParams } from '../../src/params.js';
import { cup } from '../../src/styles/cup.js';
import { lidAndBase } from '../../src/styles/lid-and-base.js';
import { acrossAt, innerFaces, roundAt, uprightAt } from './inner.js';

const t = 0.4;
const tray = lidAndBase.build(
  { inside: { length: 80, width: 60, height: 30 }, thickness: t },
  fillParams(lidAndBase.params, {}),
)[0]!;
const faces = innerFaces([tray], [0, 0, 15]);

it('measures a tray with upright walls: the round is as wide as it, its floor half a paper up', () => {
  expect(roundAt(faces, 15)).toBeCloseTo(60, 9);
  const [low, high] = acrossAt(faces, [0, 0, 15], 0);
  expect(high - low).toBeGreaterThan(79.9);
  expect(uprightAt(faces, [0, 0], 15)).toEqual([
    expect.closeTo(t / 2, 9),
    Number.POSITIVE_INFINITY,
  ]);
});

it('knows paper that is in the way, and paper that is too far off', () => {
  const nearer = faces.map(f =>
    f.id === 'front' ? { ...f, at: [f.at[0], f.at[1] + 0.2, 0] as const } : f,
  );
  expect(roundAt(nearer, 15)).toBeCloseTo(59.8, 6);
  const without = faces.filter(f => !['front', 'front-left-tab', 'front-right-tab'].includes(f.id));
  expect(acrossAt(without, [0, 0, 15], 1)[0]).toBe(Number.NEGATIVE_INFINITY);
});

it('sees a wall that leans, and none at a height where it is not', () => {
  const [net] = cup.build(
    { inside: { length: 60, width: 60, height: 80 }, thickness: 0 },
    fillParams(cup.params, { floor: 40, scoop: 0, back: 0 }),
  );
  const walls = innerFaces([net!], [0, 0, 40]);
  expect(roundAt(walls, 20)).toBeCloseTo(45, 6);
  expect(roundAt(walls, 90)).toBe(0);
});
