import { describe, expect, it } from 'vitest';
import { drawNet, netPiece } from '../../src/fold/outline.js';
import {
  arcTo,
  circle,
  closedPath,
  endOf,
  line,
  openPath,
  pathLength,
  polygon,
  rectangle,
  signedArea,
} from '../../src/geom/index.js';
import type { Hinge, Net, Panel, Path, Point } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { newNet } from '../../src/styles/build.js';
import { STYLES } from '../../src/styles/index.js';
import { flap, rect } from '../../src/styles/shapes.js';

const panel = (id: string, outline: Path, holes: Path[] = []): Panel => ({
  id,
  role: 'wall',
  outline,
  holes,
  strokes: [],
});
const seg = (a: Point, b: Point): Path => openPath(a, [line(b)]);
const hinge = (parent: string, child: string, along: Path, angle = Math.PI / 2): Hinge => ({
  parent,
  child,
  along,
  angle,
});
const net = (panels: Panel[], hinges: Hinge[]): Net => ({
  id: 'test',
  title: 'Test',
  thickness: 0,
  root: panels[0]!.id,
  panels,
  hinges,
  joins: [],
  closures: [],
});
const corners = (p: Path) => [p.start, ...p.segments.map(s => s.to)].map(q => q.join(' '));

describe('the outline', () => {
  it('crosses at hinges, and lines that run on are one', () => {
    const d = drawNet(
      net(
        [panel('a', rectangle(0, 0, 10, 10)), panel('b', rectangle(10, 0, 5, 10))],
        [hinge('a', 'b', seg([10, 0], [10, 10]))],
      ),
    );
    expect(corners(d.outline)).toEqual(['0 0', '15 0', '15 10', '0 10', '0 0']);
    expect(d.scores).toHaveLength(1);
    expect(d.slits).toEqual([]);
  });

  it('keeps an arc one arc where a neighbour’s corner divides it', () => {
    // A half disc on b's right, hinged over the lower half of the chord only: the upper half is cut.
    const disc = closedPath([10, 0], [arcTo([10, 10], Math.PI), line([10, 0])]);
    const d = drawNet(
      net(
        [panel('a', rectangle(0, 0, 10, 10)), panel('b', disc)],
        [hinge('a', 'b', seg([10, 0], [10, 5]))],
      ),
    );
    expect(d.outline.segments.filter(s => s.kind === 'arc')).toHaveLength(1);
    expect(signedArea(d.outline)).toBeCloseTo(100 + (Math.PI * 25) / 2, 9);
    // The uncut half lies between two panels: one slit, in from the outside.
    expect(d.slits.map(corners)).toEqual([['10 10', '10 5']]);
  });

  it('joins the halves of an arc again that lie on two panels', () => {
    const round = (from: Point, to: Point) =>
      closedPath([0, 0], [line(from), arcTo(to, Math.PI / 2)]);
    const d = drawNet(
      net(
        [panel('a', round([10, 0], [0, 10])), panel('b', round([0, 10], [-10, 0]))],
        [hinge('b', 'a', seg([0, 0], [0, 10]))],
      ),
    );
    expect(d.outline.segments).toHaveLength(2);
    expect(pathLength(d.outline)).toBeCloseTo(20 + Math.PI * 10, 9);
  });

  it('makes one cut of edges that touch without a hinge, round a corner too', () => {
    // b fills the notch of a, hinged on one of three sides.
    const notched: Point[] = [
      [0, 0],
      [30, 0],
      [30, 20],
      [20, 20],
      [20, 10],
      [10, 10],
      [10, 20],
      [0, 20],
    ];
    const d = drawNet(
      net(
        [panel('a', polygon(notched)), panel('b', rectangle(10, 10, 10, 10))],
        [hinge('a', 'b', seg([20, 20], [20, 10]))],
      ),
    );
    expect(corners(d.outline)).toEqual(['0 0', '30 0', '30 20', '0 20', '0 0']);
    expect(d.slits).toHaveLength(1);
    expect(corners(d.slits[0]!).sort()).toEqual(['10 10', '10 20', '20 10']);
    expect(pathLength(d.slits[0]!)).toBeCloseTo(20, 12);
  });

  it('sees a gap between panels as a hole, even one that touches the outside in a corner', () => {
    const ring = net(
      [
        panel('s', rectangle(0, 0, 30, 10)),
        panel('e', rectangle(20, 10, 10, 10)),
        panel('n', rectangle(0, 20, 30, 10)),
        panel('w', rectangle(0, 10, 10, 10)),
      ],
      [
        hinge('s', 'e', seg([30, 10], [20, 10])),
        hinge('e', 'n', seg([30, 20], [20, 20])),
        hinge('s', 'w', seg([10, 10], [0, 10])),
      ],
    );
    const d = drawNet(ring);
    expect(d.holes).toHaveLength(1);
    expect(signedArea(d.holes[0]!)).toBeCloseTo(-100, 9);
    expect(d.slits.map(corners)).toEqual([['10 20', '0 20']]);
    // Without w, and with a square that touches e in one corner only.
    const pinch = net(
      [...ring.panels.slice(0, 3), panel('w', rectangle(10, 10, 10, 10))].map(p =>
        p.id === 's' ? panel('s', rectangle(20, 0, 10, 10)) : p,
      ),
      [
        hinge('s', 'e', seg([30, 10], [20, 10])),
        hinge('e', 'n', seg([30, 20], [20, 20])),
        hinge('n', 'w', seg([10, 20], [20, 20])),
      ],
    );
    expect(signedArea(drawNet(pinch).outline)).toBeCloseTo(600, 9);
  });

  it('refuses a net that falls apart, and a hinge off its panels', () => {
    const apart = net([panel('a', rectangle(0, 0, 5, 5)), panel('b', rectangle(9, 0, 5, 5))], []);
    expect(() => drawNet(apart)).toThrow('2 outlines');
    const off = net(
      [panel('a', rectangle(0, 0, 5, 5)), panel('b', rectangle(5, 0, 5, 5))],
      [hinge('a', 'b', seg([5, 0], [5, 5.01]))],
    );
    expect(() => drawNet(off)).toThrow('hinge a–b is not on the outline of a');
  });
});

describe('scores', () => {
  it('run on over several hinges of one angle, and keep mountains apart from valleys', () => {
    const row = (angles: number[]) =>
      net(
        [
          panel('base', rectangle(0, 0, 10 * angles.length, 10)),
          ...angles.map((_, i) => panel(`p${i}`, rectangle(10 * i, 10, 10, 10))),
        ],
        angles.map((a, i) => hinge('base', `p${i}`, seg([10 * i + 10, 10], [10 * i, 10]), a)),
      );
    expect(drawNet(row([1, 1, 1])).scores.map(s => pathLength(s.path))).toEqual([30]);
    const mixed = drawNet(row([1, -1, -1])).scores;
    expect(mixed.map(s => [s.angle, pathLength(s.path)])).toEqual([
      [1, 10],
      [-1, 20],
    ]);
  });
});

describe('a piece', () => {
  it('has both halves of a closure where they meet when folded', () => {
    const b = newNet('n', 'N', 0.4);
    const base = b.root('base', 'base', rect(40, 30));
    const wall = b.fold(base.side('head'), 'wall', 'wall', w => rect(w, 0.4));
    const lid = b.fold(wall.side('head'), 'lid', 'lid', w => flap(w, 30));
    b.dot(lid, base, [12, 25], 6);
    const stock = { id: 's' } as Parameters<typeof netPiece>[1];
    const dots = netPiece(b.done(), stock, 1).strokes.filter(s => s.operation === 'draw');
    const middles = dots.map(({ path }) => [
      (path.start[0] + path.segments[0]!.to[0]) / 2,
      path.start[1],
    ]);
    // The lid is turned over the base: 25 up the lid is 25 down from the base's head.
    expect(middles[0]![0]).toBeCloseTo(12, 9);
    expect(middles[0]![1]).toBeCloseTo(30.4 + 25, 9);
    expect(middles[1]![0]).toBeCloseTo(12, 9);
    expect(middles[1]![1]).toBeCloseTo(5, 9);
  });
});

describe.each(STYLES.map(s => [s.id, s] as const))('%s', (_, style) => {
  it.each([0, 0.35])(
    'every edge is cut once or folded once, all paper kept (paper %s)',
    thickness => {
      const nets = style.build({ inside: style.example, thickness }, fillParams(style.params, {}));
      for (const n of nets) {
        const d = drawNet(n);
        const sum = (paths: readonly Path[]) => paths.reduce((l, p) => l + pathLength(p), 0);
        const edges = sum(n.panels.flatMap(p => [p.outline, ...p.holes]));
        const hinges = [...n.hinges, ...(n.ringHinges ?? [])];
        const folds = sum(hinges.map(h => h.along));
        const creases = sum(hinges.filter(h => !h.soft).map(h => h.along));
        expect(sum([d.outline, ...d.holes]) + 2 * sum(d.slits) + 2 * folds).toBeCloseTo(edges, 6);
        expect(sum(d.scores.map(s => s.path))).toBeCloseTo(creases, 6);
        const area = [d.outline, ...d.holes].reduce((a, p) => a + signedArea(p), 0);
        expect(area).toBeCloseTo(
          n.panels.reduce(
            (a, p) =>
              a + signedArea(p.outline) - p.holes.reduce((h, q) => h + Math.abs(signedArea(q)), 0),
            0,
          ),
          6,
        );
      }
    },
  );
});

it('holes of panels run clockwise in the drawing', () => {
  const d = drawNet(net([panel('a', rectangle(0, 0, 9, 9), [circle([4, 4], 2)])], []));
  expect(signedArea(d.holes[0]!)).toBeCloseTo(-4 * Math.PI, 9);
  expect(endOf(d.holes[0]!)).toEqual(d.holes[0]!.start);
});
