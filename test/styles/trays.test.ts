/** Trays and what goes round them: the clear space measured on the folded panels, and what a box
 *  maker expects (common practice, no published source). */
import { describe, expect, it } from 'vitest';
import type { BoxStyle } from '../../src/contracts.js';
import { checkNet } from '../../src/fold/check.js';
import { place, pose } from '../../src/fold/pose.js';
import { bounds, polygon, vertices } from '../../src/geom/index.js';
import type { BoxSpec, Net, ParamValue, Point } from '../../src/model.js';
import { fillParams, ParamError } from '../../src/params.js';
import { displayTray } from '../../src/styles/display-tray.js';
import { sleeveAndTray } from '../../src/styles/sleeve-and-tray.js';
import { tuckTray } from '../../src/styles/tuck-tray.js';
import { clearInside, expectSides } from '../support/nets.js';

const THICKNESSES = [0, 0.2, 0.3, 0.6];
const SIZES = [
  { length: 90, width: 55, height: 25 },
  { length: 61, width: 43, height: 32 },
  { length: 30, width: 50, height: 20 },
];
const cases = SIZES.flatMap(inside => THICKNESSES.map(thickness => ({ inside, thickness })));

const build = (style: BoxStyle, spec: BoxSpec, given: Record<string, ParamValue> = {}) =>
  style.build(spec, fillParams(style.params, given));

const highest = (net: Net, id: string) => {
  const panel = pose(net).get(id)!;
  return Math.max(...vertices(panel.panel.outline).map(p => place(panel, p)[2]));
};

describe.each(cases)(
  'inside $inside.length × $inside.width × $inside.height, paper $thickness',
  spec => {
    const { length, width, height } = spec.inside;
    const t = spec.thickness;
    it('sleeve-and-tray: the tray as asked, the sleeve larger than it outside by the ease', () => {
      const [drawer, sleeve] = build(sleeveAndTray, spec, { ease: 0.4 });
      expectSides(drawer!, [length, width, height]);
      // Outside the tray has a wall and a tab at each end, a wall on each side, and its base.
      const ends = length + 4 * t;
      expectSides(sleeve!, [ends, width + 2 * t + 0.8, height + t + 0.8]);
    });
    it('display-tray: between tabs and walls, and up to the rim of the front', () => {
      const [net] = build(displayTray, spec);
      const [along, across, up] = clearInside(net!);
      expect(along).toBeCloseTo(length, 9);
      expect(across).toBeCloseTo(width, 9);
      expect(highest(net!, 'front') - t / 2).toBeCloseTo(height, 9);
      // The corners of the back, from the table: the base's outer face.
      expect(up + t).toBeCloseTo(2 * height, 9);
      const back = bounds(net!.panels.find(p => p.id === 'back')!.outline);
      expect(back.maxY - back.minY + t / 2).toBeCloseTo(2 * height + length / 8, 9);
    });
    it('tuck-tray: between ears, back, tuck flap, base and lid', () => {
      expectSides(build(tuckTray, spec)[0]!, [length, width, height]);
    });
    it('tuck-tray without ears: the lid lies on the side walls', () => {
      const [net] = build(tuckTray, spec, { ears: 0 });
      expectSides(net!, [length, width, height]);
    });
  },
);

describe('tuck-tray', () => {
  const t = 0.3;
  const spec = { inside: tuckTray.example, thickness: t };
  const [net] = build(tuckTray, spec);
  const across = (id: string, at?: Point) => {
    const panel = pose(net!).get(id)!;
    return place(panel, at ?? panel.panel.outline.start)[0];
  };
  it('holds the corner tabs between outer and inner side wall', () => {
    expect(across('front-left-tab') - across('left')).toBeCloseTo(t, 9);
    expect(across('left-inner') - across('left')).toBeCloseTo(2 * t, 9);
    expect(across('left-ear') - across('left')).toBeCloseTo(3 * t, 9);
  });
  it('needs no glue', () => {
    expect(net!.joins.filter(j => j.kind === 'glue')).toEqual([]);
    expect(net!.panels.filter(p => p.role === 'glue-flap')).toEqual([]);
  });
  it.each([0, 1, 3])('stands with its feet %s mm through the base', foot => {
    const [made] = build(tuckTray, spec, { foot });
    const wall = pose(made!).get('right-inner')!;
    const lowest = Math.min(...vertices(wall.panel.outline).map(p => place(wall, p)[2]));
    expect(lowest).toBeCloseTo(-t / 2 - foot, 9);
  });
  it('would not close without the corners cut from its base', () => {
    const panels = net!.panels.map(p => {
      if (p.id !== 'base') return p;
      // Corners filled almost to the crease: the base keeps its hinges.
      const b = bounds(p.outline);
      const inner = vertices(p.outline).map((q): Point => {
        const x = Math.min(q[0] - b.minX, b.maxX - q[0]);
        return x > 0 && x < 2 ? [q[0] + (q[0] < 10 ? -x / 2 : x / 2), q[1]] : q;
      });
      return { ...p, outline: polygon(inner) };
    });
    const found = checkNet({ ...net!, panels });
    expect(new Set(found.map(f => f.law))).toEqual(new Set(['through']));
    expect(found.map(f => f.panels.join(' '))).toContain('base left-inner');
  });
});

it('a tuck-tray so high that its side walls cannot roll over is refused', () => {
  const inside = { length: 40, width: 60, height: 49 };
  const make = () => build(tuckTray, { inside, thickness: 0.3 });
  expect(make).toThrow('height: 49 is not possible: at most 48 mm, 1.2 times the length');
});

describe('display-tray', () => {
  const [net] = build(displayTray, { inside: displayTray.example, thickness: 0.3 });
  it('shows what is in it through a window in the front, framed alike on all sides', () => {
    const front = net!.panels.find(p => p.id === 'front')!;
    expect(front.holes).toHaveLength(1);
    const [all, hole] = [bounds(front.outline), bounds(front.holes[0]!)];
    const frame = [
      hole.minX - all.minX,
      all.maxX - hole.maxX,
      hole.minY - all.minY,
      all.maxY - hole.maxY,
    ];
    for (const wide of frame) expect(wide).toBeCloseTo(8, 9);
  });
  it('slopes its ends from the rim of the front to half way up the back', () => {
    for (const side of ['left', 'right']) {
      const panel = pose(net!).get(side)!;
      const points = vertices(panel.panel.outline).map(p => place(panel, p));
      const top = (front: boolean) =>
        Math.max(...points.filter(p => p[1] < 5 === front).map(p => p[2]));
      expect(top(true)).toBeCloseTo(40.15, 9);
      expect(top(false)).toBeCloseTo(60.15, 9);
    }
  });
});

describe('parameters that cannot be', () => {
  const told: readonly (readonly [BoxStyle, Record<string, ParamValue>, string])[] = [
    [sleeveAndTray, { notch: 27 }, 'or the sleeve falls apart'],
    [displayTray, { back: 40 }, 'as high as the front'],
    [displayTray, { ends: 90 }, 'the height of the back'],
    [displayTray, { frame: 19 }, 'or there is no window left'],
    [displayTray, { corner: 13 }, 'or the window has no straight side left'],
    [tuckTray, { tuck: 30 }, 'or it strikes the base'],
    [tuckTray, { ears: 25 }, 'or they strike the base or run to a point'],
    [tuckTray, { tab: 33 }, 'or the tabs meet or run to a point'],
    [tuckTray, { tuck: 10, notch: 9 }, 'or it shows an opening behind the tuck flap'],
    [sleeveAndTray, { glue: 30 }, 'the height of the side'],
  ];
  it.each(told.map(t => [t[0].id, ...t] as const))('%s', (_, style, given, words) => {
    const make = () => build(style, { inside: style.example, thickness: 0.3 }, given);
    expect(make).toThrow(ParamError);
    expect(make).toThrow(words);
  });
});
