import { describe, expect, it } from 'vitest';
import { netFacts } from '../../src/fold/index.js';
import { pathLength, pathsApart, rectangle, signedArea } from '../../src/geom/index.js';
import { fillParams } from '../../src/params.js';
import { flipLid } from '../../src/styles/flip-lid.js';
import { straightTuck } from '../../src/styles/straight-tuck.js';

const t = 0.3;
const [flip] = flipLid.build(
  { inside: flipLid.example, thickness: t },
  fillParams(flipLid.params, { corner: 0 }),
);
const [tuck] = straightTuck.build(
  { inside: straightTuck.example, thickness: t },
  fillParams(straightTuck.params, { notch: 0 }),
);
const lengths = (panel: string) =>
  netFacts.freeEdges(flip!, panel).map(p => Number(pathLength(p).toFixed(6)));

describe('free edges', () => {
  it('of a lid are three sides in one run: the fourth is its fold', () => {
    const [run, ...more] = netFacts.freeEdges(flip!, 'lid');
    expect(more).toEqual([]);
    expect(run!.segments).toHaveLength(3);
    // 50.8 mm deep, 152.4 + t wide.
    expect(pathLength(run!)).toBeCloseTo(2 * 50.8 + 152.4 + t, 9);
    expect(run!.closed).toBe(false);
  });
  it('of a wall leave out what must meet another', () => {
    // Uprights meet the end walls, but for the layers by which one wall is higher.
    expect(lengths('front').every(n => n <= 2 * t + 1e-6)).toBe(true);
  });
  it('of a panel without hinges are all of it, closed', () => {
    const alone = { ...flip!, root: 'lid', hinges: [], joins: [], closures: [] };
    const net = { ...alone, panels: flip!.panels.filter(p => p.id === 'lid') };
    const [run] = netFacts.freeEdges(net, 'lid');
    expect(run!.closed).toBe(true);
    expect(pathLength(run!)).toBeCloseTo(pathLength(net.panels[0]!.outline), 9);
  });
});

describe('areas of glue', () => {
  it('are as large on both panels, and on faces that look at each other', () => {
    const areas = netFacts.glueAreas(flip!);
    expect(areas).toHaveLength(8);
    for (const tab of areas.filter(a => a.panel.endsWith('-tab'))) {
      const there = areas.find(a => a.panel === tab.onto && a.onto === tab.panel)!;
      expect(tab.face).toBe('outside');
      expect(there.face).toBe('inside');
      expect(signedArea(there.area)).toBeCloseTo(signedArea(tab.area), 6);
    }
  });
  it('of what is tucked are told apart', () => {
    const tucks = netFacts.tuckAreas(tuck!);
    expect(tucks.filter(a => a.panel === 'front').map(a => a.onto)).toEqual([
      'top-tuck',
      'bottom-tuck',
    ]);
    expect(netFacts.glueAreas(tuck!).map(a => a.panel)).toEqual(['glue-flap', 'left']);
  });
});

it('what lies over a lid is the flap under it, one thickness to its inside', () => {
  const lid = flip!.panels.find(p => p.id === 'lid')!;
  const [first, ...rest] = netFacts.over(flip!, 'lid', flip!.closures[0]!.at);
  expect(lid.role).toBe('lid');
  expect(first!.panel).toBe('lid-under');
  expect(first!.toInside).toBeCloseTo(t, 9);
  expect(rest).toEqual([]);
});

it('panels are laid on each other by a turn and a shift, or not at all', () => {
  const m = netFacts.lay(tuck!, 'glue-flap', 'left')!;
  expect(Math.abs(m[0] * m[3] - m[1] * m[2])).toBeCloseTo(1, 12);
  expect(netFacts.lay(tuck!, 'front', 'left')).toBeUndefined();
});

describe('the distance of two lines', () => {
  it('is that of the nearest points, inside or outside; nothing where they cross', () => {
    const square = rectangle(0, 0, 10, 10);
    expect(pathsApart(square, rectangle(13, 0, 5, 5))).toBeCloseTo(3, 12);
    expect(pathsApart(square, rectangle(3, 4, 5, 5))).toBeCloseTo(1, 12);
    expect(pathsApart(square, rectangle(9, 9, 5, 5))).toBe(0);
    // From corner to corner, 3-4-5.
    expect(pathsApart(square, rectangle(13, 14, 5, 5))).toBeCloseTo(5, 12);
  });
});
