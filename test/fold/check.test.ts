/** The fold check notices what is broken: every law has nets that break it, and no other law. */
import { describe, expect, it } from 'vitest';
import { checkNet, collisionFindings } from '../../src/fold/check.js';
import { LAWS, type Law } from '../../src/fold/finding.js';
import { pose } from '../../src/fold/pose.js';
import { togetherFindings } from '../../src/fold/together.js';
import {
  line,
  openPath,
  polygon,
  rectangle,
  transform,
  translation,
  vertices,
} from '../../src/geom/index.js';
import type { Affine, Hinge, Net, Panel, ParamValue, Path, Point } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { newNet, part } from '../../src/styles/build.js';
import { STYLES } from '../../src/styles/index.js';
import { flap, rect } from '../../src/styles/shapes.js';

function built(id: string, thickness = 0.3, given: Record<string, ParamValue> = {}, part = 0): Net {
  const style = STYLES.find(s => s.id === id)!;
  return style.build({ inside: style.example, thickness }, fillParams(style.params, given))[part]!;
}
const seg = (a: Point, b: Point): Path => openPath(a, [line(b)]);
const laws = (net: Net) => [...new Set(checkNet(net).map(f => f.law))];

const withPanel = (net: Net, id: string, change: (p: Panel) => Partial<Panel>): Net => ({
  ...net,
  panels: net.panels.map(p => (p.id === id ? { ...p, ...change(p) } : p)),
});
const withHinge = (net: Net, child: string, change: (h: Hinge) => Partial<Hinge>): Net => ({
  ...net,
  hinges: net.hinges.map(h => (h.child === child ? { ...h, ...change(h) } : h)),
});
/** A panel and its hinge shifted along, as if drawn in the wrong place. */
function shifted(net: Net, id: string, dx: number, dy: number): Net {
  const m = translation(dx, dy);
  const moved = withPanel(net, id, p => ({ outline: transform(p.outline, m) }));
  return withHinge(moved, id, h => ({ along: transform(h.along, m) }));
}
/** The first edge that must meet another, moved. */
const withEdge = (net: Net, m: Affine): Net => {
  const first = net.joins.findIndex(j => j.kind === 'edge');
  return {
    ...net,
    joins: net.joins.map((j, i) =>
      i === first && j.kind === 'edge'
        ? { ...j, a: { ...j.a, along: transform(j.a.along, m) } }
        : j,
    ),
  };
};
const withGap = (net: Net, gap: number): Net => ({
  ...net,
  joins: net.joins.map(j => (j.kind === 'glue' ? { ...j, gap } : j)),
});
const turn = (net: Net, child: string, deg: number) =>
  withHinge(net, child, h => ({ angle: h.angle + (deg * Math.PI) / 180 }));

const box = built('flip-lid');
const carton = built('straight-tuck');
const cushion = built('pillow');

const BROKEN: readonly (readonly [string, Law, Net])[] = [
  ['a number that is none', 'finite', withHinge(box, 'front', () => ({ angle: Number.NaN }))],
  [
    'a corner at infinity',
    'finite',
    withPanel(box, 'lid', () => ({ outline: rectangle(0, 0, Number.POSITIVE_INFINITY, 1) })),
  ],
  ['a panel that no hinge leads to', 'tree', { ...box, hinges: box.hinges.slice(1) }],
  ['a hinge to a panel that is not there', 'tree', withHinge(box, 'lid', () => ({ child: 'lod' }))],
  [
    'a join with a panel that is not there',
    'tree',
    {
      ...box,
      joins: [{ kind: 'glue', a: { panel: 'front' }, b: { panel: 'nothing' } }],
    },
  ],
  [
    'a ring of hinges',
    'tree',
    {
      ...box,
      hinges: [...box.hinges, { ...box.hinges[0]!, parent: 'lid', child: 'base' }],
    },
  ],
  [
    'a hinge beside its panels',
    'hinge',
    withHinge(box, 'lid', h => ({
      along: transform(h.along, translation(0, 0.01)),
    })),
  ],
  [
    'a hinge the wrong way round',
    'hinge',
    withHinge(box, 'lid', h => ({
      along: seg(h.along.segments[0]!.to, h.along.start),
    })),
  ],
  [
    'a hinge longer than its panels’ edge',
    'hinge',
    withHinge(box, 'front-left-tab', h => ({
      along: seg(h.along.start, [h.along.segments[0]!.to[0], h.along.segments[0]!.to[1] - 60]),
    })),
  ],
  [
    'a tab whose head is crossed',
    'outline',
    withPanel(box, 'front-left-tab', p => {
      const [a, b, c, d] = vertices(p.outline);
      return { outline: polygon([a!, b!, d!, c!]) };
    }),
  ],
  ['a tab turned too little', 'join', turn(box, 'front-left-tab', 1)],
  ['a wall turned too far', 'join', turn(box, 'front', 2)],
  ['an end wall drawn 0.2 mm aside', 'hinge', shifted(box, 'right', 0, 0.2)],
  ['walls whose edges meet 0.3 mm too high', 'join', withEdge(box, translation(0, -0.3))],
  ['walls whose edges are beside them', 'join', withEdge(box, translation(0.1, 0))],
  ['a glue flap for twice the paper', 'join', withGap(carton, 0.6)],
  ['a pillow glued without the paper between', 'join', withGap(cushion, 0)],
  ['a glue flap on a carton whose side is turned', 'join', turn(carton, 'left', 1)],
  ['a pillow’s side crease half a degree off', 'join', turn(cushion, 'back', 0.5)],
  ['a flap of a pillow half a degree off', 'curve', turn(cushion, 'back-top', 0.5)],
  [
    'a flap of a pillow that stays flat',
    'curve',
    withPanel(cushion, 'front-top', p => {
      const { bend: _, ...flat } = p;
      return { ...flat, bend: { ...p.bend!, stretches: [{ length: 1, turn: 0 }] } };
    }),
  ],
  [
    'a closure dot over the edge',
    'closure',
    {
      ...box,
      closures: [{ ...box.closures[0]!, at: [3, box.closures[0]!.at[1]] }],
    },
  ],
  ['a foot that does not lie on the floor', 'join', turn(built('platform'), 'left-foot', 1)],
  ['a lid that stays open', 'closure', turn(box, 'lid', -20)],
  ['a lid pressed through the one below', 'through', turn(box, 'lid', 3)],
  ['a dust flap that sticks up through the lid', 'through', turn(box, 'left-dust', -10)],
  ['a box of thicker paper than it was built for', 'crowded', { ...box, thickness: 0.5 }],
];

describe('checkNet', () => {
  it.each(BROKEN)('notices %s (%s)', (_, law, net) => {
    expect(laws(net)).toContain(law);
  });
  it('has a broken net for every law but overlaps, rings and ways, which have their own', () => {
    const shown = new Set(BROKEN.map(b => b[1]));
    expect(LAWS.filter(l => !shown.has(l))).toEqual(['overlap', 'ring', 'way']);
  });
  it('finds nothing in what it broke', () => {
    expect([box, carton, cushion].flatMap(n => checkNet(n))).toEqual([]);
  });
  it('says where and how much', () => {
    const [f] = checkNet(turn(box, 'front-left-tab', 1));
    expect(f!.panels).toEqual(['front-left-tab', 'left']);
    // A tab of 12.7 mm turned by 1° comes away by 12.7 · sin 1° at its head.
    expect(f!.measured).toBeCloseTo(12.7 * Math.sin(Math.PI / 180), 2);
    expect(f!.message).toBe(
      'front-left-tab is to be glued onto left, 0.3 mm away, and is out by 0.222 mm',
    );
  });
});

describe('panels that ask for the same paper', () => {
  it('are found in the flat, by how much', () => {
    const b = newNet('n', 'N', 0);
    const base = b.root('base', 'base', rect(40, 30));
    b.fold(base.side('right'), 'a', 'wall', w => rect(w, 20), { inset: [10, 0] });
    const head = b.fold(base.side('head'), 'b', 'wall', w => rect(w, 10));
    const on = b.fold(head.side('right'), 'c', 'flap', w => rect(w, 10));
    b.fold(on.side('right'), 'd', 'flap', w => rect(w, 10.5), { angle: 0 });
    const found = checkNet(b.done()).filter(f => f.law === 'overlap');
    expect(found.map(f => f.panels)).toEqual([['a', 'd']]);
    expect(found[0]!.measured).toBeCloseTo(0.5, 9);
  });
  it('are found where one covers the other', () => {
    const b = newNet('n', 'N', 0);
    const base = b.root('base', 'base', rect(40, 30));
    const wall = b.fold(base.side('right'), 'a', 'wall', w => rect(w, 20));
    const net = b.done();
    const copy = { ...net.panels.find(p => p.id === 'a')!, id: 'twin' };
    const twin = {
      ...net,
      panels: [...net.panels, copy],
      hinges: [...net.hinges, { ...net.hinges[0]!, child: 'twin' }],
    };
    expect(wall.id).toBe('a');
    expect(laws(twin)).not.toEqual([]);
  });
});

describe('papers that pass through each other', () => {
  /** A base with an upright fin on it and a strip hinged beside, which is laid across the fin. */
  function crossing(slit: number, finHeight = 20, thickness = 0) {
    const b = newNet('n', 'N', thickness);
    const base = b.root('base', 'base', rect(40, 30));
    b.fold(base.side('head'), 'fin', 'wall', w => rect(w, finHeight));
    const post = b.fold(base.side('right'), 'post', 'wall', w => rect(w, 10));
    b.fold(post.side('head'), 'strip', 'flap', () => rect(10, 60), { inset: -5 });
    const net = b.done();
    const fin = net.panels.find(p => p.id === 'fin')!;
    return slit === 0
      ? net
      : withPanel(net, fin.id, () => ({
          strokes: [{ operation: 'cut', path: seg([40 - slit, 40], [40, 40]) }],
        }));
  }
  const through = (net: Net) => checkNet(net).filter(f => f.law === 'through');

  it('are found, by how far they reach past each other', () => {
    // The strip lies at z = 10 over x ≤ 40, y from 25 to 35, the fin stands at y = 30.
    const [f, ...more] = through(crossing(0));
    expect(more).toEqual([]);
    expect(f!.panels).toEqual(['fin', 'strip']);
    expect(f!.measured).toBeCloseTo(5, 9);
  });
  it('may touch: a fin just as high as the strip holds it up', () => {
    expect(through(crossing(0, 10))).toEqual([]);
    expect(through(crossing(0, 10.04))).toEqual([]);
    expect(through(crossing(0, 10.06))).toHaveLength(1);
  });
  it('may pass through a slit, if it is long enough', () => {
    expect(through(crossing(40))).toEqual([]);
    expect(through(crossing(20))).toHaveLength(1);
  });
  it('are found on the way as well, glued pairs too', () => {
    const half = pose(box, h => (h.child.endsWith('tab') ? 1 : h.child === 'left' ? 1.3 : 1));
    const found = collisionFindings(box, half);
    expect(found.map(f => f.panels.join(' '))).toContain('left front-left-tab');
    expect(collisionFindings(box, pose(box, 0))).toEqual([]);
  });
});

describe('a curled wall with flat teeth', () => {
  function drum(teeth: number): Net {
    const girth = 2 * Math.PI * 30;
    const b = newNet('wall', 'Wall', 0);
    const bend = {
      from: [0, 0],
      across: [1, 0],
      stretches: [{ length: girth, turn: 2 * Math.PI }],
    } as const;
    const wall = b.root('wall', 'wall', { ...rect(girth, 25), bend });
    for (let i = 0; i < teeth; i++) {
      const foot = part(wall.side('foot'), (girth * i) / teeth, (girth * (i + 1)) / teeth);
      b.fold(foot, `tooth-${i}`, 'glue-flap', w => flap(w, 6, { mitre: 0.3 }));
    }
    b.meet(wall.side('left'), wall.side('right'));
    return b.done();
  }
  it('is sound when the teeth are narrow', () => expect(checkNet(drum(24))).toEqual([]));
  it('is not when they are so wide that the wall cannot be round', () => {
    const found = checkNet(drum(6)).filter(f => f.law === 'curve');
    expect(found).toHaveLength(6);
    // An arc of 60° and radius 30 mm is 31.416 mm long, its chord 30 mm.
    expect(found[0]!.measured).toBeCloseTo(10 * Math.PI - 30, 9);
  });
});

describe.each(STYLES.map(s => [s.id, s] as const))('%s', (_, style) => {
  const spec = { inside: style.example, thickness: 0.3 };
  const nets = style.build(spec, fillParams(style.params, {}));
  /** What checks the net alone, and beside the other parts that it is glued to or stands in. */
  const sound = (net: Net, part: number) =>
    checkNet(net).length === 0 &&
    !(nets.length > 1 && togetherFindings(nets.map((n, i) => (i === part ? net : n))).length > 0);

  it('is held by its joins, seats and rests: no fold but a dust flap’s can be 3° off', () => {
    expect(nets.map(sound)).not.toContain(false);
    const free = nets.flatMap((net, part) =>
      net.hinges.flatMap(({ child }, i) => {
        // Teeth of a curled wall are alike: every fourth of them.
        if (net.hinges.length > 24 && i % 4 > 0) return [];
        // In the trade a dust flap is the one that lies loose under a closure.
        if (net.panels.find(p => p.id === child)!.role === 'dust-flap') return [];
        return [3, -3].filter(deg => sound(turn(net, child, deg), part)).map(deg => [child, deg]);
      }),
    );
    expect(free).toEqual([]);
  });
});
