import { describe, expect, it } from 'vitest';
import { seenParts } from '../../src/fold/index.js';
import type { Point, SeenPart } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { bandsOf, wholeFaces } from '../../src/write/whole-faces.js';

const square = (x: number, y: number, side = 10): Point[] => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
];
const part = (panel: string, polygon: Point[], more: Partial<SeenPart> = {}): SeenPart => ({
  net: 'box',
  panel,
  side: 'outside',
  polygon,
  edges: polygon.map(() => true),
  light: 1,
  at: [1, 0, 0, 1, 0, 0],
  ...more,
});
const told = (parts: readonly SeenPart[]) =>
  wholeFaces(parts).map(run => `${run[0]!.panel} ${run.length}`);

describe('parts of one face', () => {
  const [left, right] = [part('lid', square(0, 0)), part('lid', square(10, 0))];
  it('are painted at once past what only touches them', () => {
    const wall = part('wall', square(10, -10));
    expect(told([left, wall, right])).toEqual(['wall 1', 'lid 2']);
  });
  it('stay apart where something between hides the first', () => {
    const tab = part('tab', square(5, 5));
    expect(told([left, tab, right])).toEqual(['lid 1', 'tab 1', 'lid 1']);
    const seenFromBehind = part('tab', square(5, 5).reverse());
    expect(told([left, seenFromBehind, right])).toEqual(['lid 1', 'tab 1', 'lid 1']);
  });
  it('are of one panel, one side and one plane', () => {
    const inside = part('lid', square(10, 0), { side: 'inside' });
    const curled = part('lid', square(10, 0), { at: [0.9, 0, 0, 1, 0, 0] });
    expect(told([left, inside])).toEqual(['lid 1', 'lid 1']);
    expect(told([left, curled])).toEqual(['lid 1', 'lid 1']);
  });
});

describe('strips of one curled panel', () => {
  const lit = {
    turning: { from: [0, 0], to: [1, 0], lights: [0, 1] },
    height: [0, 1, 0],
    shadows: [],
  } as const;
  const strip = (panel: string, x: number, y = 0) =>
    part(panel, square(x, y), { at: [1, x, 0, 1, 0, 0], lit });
  const bands = (parts: readonly SeenPart[]) =>
    bandsOf(parts.map(p => [p])).map(b => `${b[0]![0]!.panel} ${b.length}`);

  it('are brought together past what lies beside them', () => {
    const tooth = part('tooth', square(0, -10));
    expect(bands([strip('wall', 0), tooth, strip('wall', 10)])).toEqual(['tooth 1', 'wall 2']);
  });
  it('go before what hides only strips that were painted', () => {
    // A lid's strips over the wall's, turn by turn.
    const all = [strip('wall', 0), strip('lid', 0, 5), strip('wall', 10), strip('lid', 10, 5)];
    expect(bands(all)).toEqual(['wall 2', 'lid 2']);
  });
  it('stay apart where one hides another, or what lies between', () => {
    expect(bands([strip('wall', 0), strip('wall', 5)])).toEqual(['wall 1', 'wall 1']);
    const tab = part('tab', square(5, 5));
    expect(bands([strip('wall', 0), tab, strip('wall', 10)])).toEqual([
      'wall 1',
      'tab 1',
      'wall 1',
    ]);
    expect(bands([strip('wall', 0), strip('lid', 10), strip('wall', 20)])).toEqual([
      'lid 1',
      'wall 2',
    ]);
  });
  it('are curled: flat faces are no band', () => {
    expect(bands([part('wall', square(0, 0)), part('wall', square(10, 0))])).toEqual([
      'wall 1',
      'wall 1',
    ]);
  });
});

describe.each(['four-wall-burst', 'house', 'gable', 'prism'])('a closed %s', id => {
  const style = STYLES.find(s => s.id === id)!;
  const nets = style.build({ inside: style.example, thickness: 0.3 }, fillParams(style.params, {}));
  const parts = seenParts(
    nets.map(net => ({ net })),
    { azimuth: -1.08, elevation: 0.46 },
  );
  const faces = wholeFaces(parts);
  it('keeps every part, in no more pieces than before', () => {
    const inRow = parts.filter((p, i) => i === 0 || told([parts[i - 1]!, p]).length === 2).length;
    expect(faces.flat()).toHaveLength(parts.length);
    expect(new Set(faces.flat())).toEqual(new Set(parts));
    expect(faces.length).toBeLessThan(inRow);
  });
});
