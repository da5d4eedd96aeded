import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Curl } from '../../src/fold/bend.js';
import {
  foldOrder,
  nearestOn,
  normalAt,
  type PanelPose,
  place,
  pose,
} from '../../src/fold/pose.js';
import { distance3, STILL } from '../../src/fold/space.js';
import { distance, rectangle, rotation, transform } from '../../src/geom/index.js';
import type { Bend, Net, Panel, Point } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { newNet } from '../../src/styles/build.js';
import { flipLid } from '../../src/styles/flip-lid.js';
import { pillow } from '../../src/styles/pillow.js';
import { rect } from '../../src/styles/shapes.js';

const SEED = 411;

describe('pose', () => {
  const b = newNet('n', 'N', 0);
  const base = b.root('base', 'base', rect(40, 30));
  const wall = b.fold(base.side('foot'), 'wall', 'wall', w => rect(w, 10));
  b.fold(wall.side('head'), 'lid', 'lid', w => rect(w, 30));
  b.fold(base.side('right'), 'out', 'wall', w => rect(w, 10), { angle: -Math.PI / 2 });
  const net = b.done();
  const corner = (id: string, at: Point, folding: Parameters<typeof pose>[1] = 1) =>
    place(pose(net, folding).get(id)!, at).map(v => Math.round(v * 1e9) / 1e9 + 0);

  it('lifts a child toward the viewer by a positive angle, and away by a negative one', () => {
    expect(corner('wall', [0, -10])).toEqual([0, 0, 10]);
    expect(corner('out', [50, 0])).toEqual([40, 0, -10]);
  });
  it('folds along the tree: the lid comes to lie over the base', () => {
    expect(corner('lid', [0, -40])).toEqual([0, 30, 10]);
    expect(normalAt(pose(net).get('lid')!, [0, -20])[2]).toBeCloseTo(-1, 12);
  });
  it('is the net itself at fraction 0, and goes half the way at a half', () => {
    expect(corner('lid', [7, -33], 0)).toEqual([7, -33, 0]);
    const [, y, z] = corner('wall', [0, -10], 0.5);
    expect(y).toBeCloseTo(-10 / Math.SQRT2, 8);
    expect(z).toBeCloseTo(10 / Math.SQRT2, 8);
  });
  it('folds each hinge as far as it is told', () => {
    const only = (child: string) => (h: { child: string }) => (h.child === child ? 1 : 0);
    expect(corner('wall', [0, -10], only('lid'))).toEqual([0, -10, 0]);
    expect(corner('lid', [0, -40], only('lid'))).toEqual([0, -10, 30]);
  });
  it('measures heights toward the inside', () => {
    const { at, height } = nearestOn(pose(net).get('wall')!, [5, 3, 4]);
    expect(at[0]).toBeCloseTo(5, 12);
    expect(at[1]).toBeCloseTo(-4, 12);
    expect(height).toBeCloseTo(3, 12);
  });
  it('refuses a net that is no tree', () => {
    const [first] = net.hinges;
    const twice = { ...net, hinges: [...net.hinges, { ...first!, child: 'lid' }] };
    expect(() => foldOrder(twice)).toThrow('panel lid has two parents');
    expect(() => foldOrder({ ...net, hinges: net.hinges.slice(1) })).toThrow(
      'no hinge leads to wall, lid',
    );
  });
});

describe('a fold right over what lies between', () => {
  const lift = 0.9;
  const roll = (Math.PI / 2) * lift;
  /** The same strip, 40 mm to the fold, with a sharp hinge and with its rolled paper as a curl. */
  const rolled = (over: 1 | -1, fraction: number, s: number) => {
    const b = newNet('n', 'N', 0.3);
    const half = b.root('half', 'base', rect(40, 10));
    b.fold(half.side('right'), 'over', 'flap', w => rect(w, 40), { angle: over * Math.PI, lift });
    const bend: Bend = {
      from: [40 - roll / 2, 0],
      across: [1, 0],
      stretches: [{ length: roll, turn: over * Math.PI }],
    };
    const curl = new Curl(bend, fraction);
    const strip: PanelPose = {
      panel: {
        id: 's',
        role: 'base',
        outline: rectangle(0, 0, 80, 10),
        holes: [],
        strokes: [],
        bend,
      },
      frame: STILL,
      curl,
    };
    return distance3(place(pose(b.done(), fraction).get('over')!, [s, 3]), place(strip, [s, 3]));
  };
  it('stands where paper of that length rolls, at every moment', () => {
    for (const over of [1, -1] as const) {
      for (const fraction of [0, 1e-9, 0.2, 0.5, 0.8, 1]) {
        for (const s of [42, 60, 80]) expect(rolled(over, fraction, s)).toBeLessThan(1e-9);
      }
    }
  });
  it('ends as far from the fold as in the flat, the lift away', () => {
    const b = newNet('n', 'N', 0.3);
    const half = b.root('half', 'base', rect(40, 10));
    b.fold(half.side('right'), 'over', 'flap', w => rect(w, 30), { angle: Math.PI, lift });
    const [x, y, z] = place(pose(b.done()).get('over')!, [70, 4]);
    expect([x, y, z].map(v => Math.round(v * 1e9) / 1e9)).toEqual([10, 4, lift]);
  });
});

describe('a curl', () => {
  const panel = (bend: Bend): Panel => ({
    id: 'p',
    role: 'wall',
    outline: rectangle(-20, -10, 120, 20),
    holes: [],
    strokes: [],
    bend,
  });
  const posed = (bend: Bend, fraction = 1): PanelPose => ({
    panel: panel(bend),
    frame: STILL,
    curl: new Curl(bend, fraction),
  });
  const circleBend: Bend = {
    from: [0, 0],
    across: [1, 0],
    stretches: [{ length: 80, turn: 2 * Math.PI }],
  };

  it('of one whole turn closes on itself, toward the inside', () => {
    const p = posed(circleBend);
    const end = place(p, [80, 3]);
    [0, 3, 0].forEach((v, i) => {
      expect(end[i]).toBeCloseTo(v, 9);
    });
    expect(place(p, [40, 0])[2]).toBeCloseTo(80 / Math.PI, 9);
  });
  it('bends inward by a positive turn and lies flat at fraction 0', () => {
    const quarter = { ...circleBend, stretches: [{ length: 80, turn: -Math.PI / 2 }] };
    expect(place(posed(quarter), [80, 0])[2]).toBeCloseTo(-160 / Math.PI, 9);
    expect(place(posed(quarter, 0), [80, 5])).toEqual([80, 5, 0]);
  });

  const anyBend: fc.Arbitrary<Bend> = fc
    .record({
      x: fc.integer({ min: -20, max: 20 }),
      turn: fc.integer({ min: 0, max: 359 }),
      stretches: fc.array(
        fc.record({
          length: fc.integer({ min: 2, max: 30 }),
          turn: fc.integer({ min: -30, max: 30 }).map(n => n / 20),
        }),
        { minLength: 1, maxLength: 4 },
      ),
    })
    .map(({ x, turn, stretches }) => {
      const a = (turn * Math.PI) / 180;
      return { from: [x, 0], across: [Math.cos(a), Math.sin(a)], stretches };
    });
  const anyPoint = fc.tuple(
    fc.integer({ min: -200, max: 1000 }).map(n => n / 10),
    fc.integer({ min: -100, max: 100 }).map(n => n / 10),
  );

  it('keeps lengths: near points stay as far apart', () => {
    fc.assert(
      fc.property(anyBend, anyPoint, fc.integer({ min: 0, max: 359 }), (bend, at, deg) => {
        const p = posed(bend);
        const d = 1e-4;
        const q: Point = [
          at[0] + d * Math.cos((deg * Math.PI) / 180),
          at[1] + d * Math.sin((deg * Math.PI) / 180),
        ];
        // A chord is shorter than its arc by d³ κ² / 24: 1e-13 here.
        expect(distance3(place(p, at), place(p, q))).toBeCloseTo(distance(at, q), 10);
      }),
      { seed: SEED },
    );
  });
  it('finds its own points again, at the height they were lifted', () => {
    fc.assert(
      fc.property(anyBend, anyPoint, fc.integer({ min: -3, max: 3 }), (bend, at, lift) => {
        const p = posed(bend);
        const { at: back, height } = nearestOn(p, place(p, at, lift / 10));
        // A curl that comes round may have another point as near: then the distance agrees.
        expect(Math.abs(height)).toBeLessThanOrEqual(Math.abs(lift / 10) + 1e-9);
        if (distance(back, at) < 1e-6) expect(height).toBeCloseTo(lift / 10, 9);
        else expect(distance3(place(p, back, height), place(p, at, lift / 10))).toBeLessThan(1e-6);
      }),
      { seed: SEED },
    );
  });
});

describe('turning the net on the table turns the box and no more', () => {
  const turnedNet = (net: Net, angle: number): Net => {
    const m = rotation(angle, [3, 4]);
    const zero = rotation(angle);
    return {
      ...net,
      panels: net.panels.map(p => ({
        ...p,
        outline: transform(p.outline, m),
        ...(p.bend && {
          bend: {
            ...p.bend,
            from: transform({ start: p.bend.from, segments: [], closed: false }, m).start,
            across: transform({ start: p.bend.across, segments: [], closed: false }, zero).start,
          },
        }),
      })),
      hinges: net.hinges.map(h => ({ ...h, along: transform(h.along, m) })),
    };
  };
  it.each([flipLid, pillow])('$id', style => {
    const spec = { inside: style.example, thickness: 0.3 };
    const net = style.build(spec, fillParams(style.params, {}) as never)[0]!;
    const other = turnedNet(net, 1.1);
    const points = (n: Net) =>
      [...pose(n).values()].flatMap(p => p.panel.outline.segments.map(s => place(p, s.to)));
    const [a, b] = [points(net), points(other)];
    for (let i = 1; i < a.length; i++) {
      expect(distance3(b[0]!, b[i]!)).toBeCloseTo(distance3(a[0]!, a[i]!), 8);
      expect(b[i]![2]).toBeCloseTo(a[i]![2], 8);
    }
  });
});
