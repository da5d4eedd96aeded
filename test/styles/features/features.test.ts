/** What each feature cuts and draws, measured on the net and on the folded box. */
import { describe, expect, it } from 'vitest';
import { netFacts } from '../../../src/fold/index.js';
import { normalAt, place, pose } from '../../../src/fold/pose.js';
import { dot3, sub3 } from '../../../src/fold/space.js';
import { standing } from '../../../src/fold/stand.js';
import {
  bounds,
  contains,
  distance,
  distanceToPath,
  endOf,
  pathLength,
  signedArea,
  transform,
} from '../../../src/geom/index.js';
import type { Net, ParamValues } from '../../../src/model.js';
import { fillParams } from '../../../src/params.js';
import { STYLES } from '../../../src/styles/index.js';
import { sampled } from '../../support/clearance.js';
import { expectSound } from '../../support/nets.js';
import { flip, make, panelOf, sizeOf, spec, T, tried, tuck, typicalPanels } from './taken.js';

describe('window', () => {
  it.each([
    [{ shape: 'round', size: 30 }, [30, 30]],
    [{ shape: 'rectangle', size: 30, height: 12 }, [30, 12]],
    [{ shape: 'rounded', size: 30, height: 20, corner: 4 }, [30, 20]],
  ] as const)('%o is as large as asked, in the middle of its panel', (values, size) => {
    const { nets } = make(flip(), spec('window', 'lid', values));
    const lid = panelOf(nets, 'lid');
    const [hole] = lid.holes;
    expect(sizeOf(hole!).map(n => Math.round(n * 1e9) / 1e9)).toEqual(size);
    const [h, p] = [bounds(hole!), bounds(lid.outline)];
    expect(h.minX + h.maxX).toBeCloseTo(p.minX + p.maxX, 9);
    expect(h.minY + h.maxY).toBeCloseTo(p.minY + p.maxY, 9);
    expect(signedArea(hole!)).toBeLessThan(0);
  });

  it('moves to the right as seen on the outside, where the net is mirrored', () => {
    const at = (x: number) => {
      const asked = spec('window', 'lid', { shape: 'round', size: 20 }, { at: [x, 0] });
      const b = bounds(panelOf(make(flip(), asked).nets, 'lid').holes[0]!);
      return (b.minX + b.maxX) / 2;
    };
    expect(at(10) - at(0)).toBeCloseTo(-10, 9);
  });

  // Of the shapes with corners the rounds and mitres reach further: nowhere less.
  const shapes: readonly (ParamValues & { size: number })[] = [
    { shape: 'round', size: 24 },
    { shape: 'rectangle', size: 40, height: 20 },
    { shape: 'rounded', size: 40, height: 20, corner: 8 },
  ];
  it.each(shapes.flatMap(s => [3, 6].map(overlap => ({ ...s, overlap }))))(
    'film covers %o by its overlap everywhere',
    values => {
      const made = make(flip(), spec('window', 'lid', values, { film: 'film' }));
      const [film] = made.pieces;
      const patch = transform(film!.outline, film!.at);
      const hole = panelOf(made.nets, 'lid').holes[0]!;
      const away = sampled(hole).map(p => {
        expect(contains(patch, p)).toBe('in');
        return distanceToPath(p, patch);
      });
      expect(Math.min(...away)).toBeGreaterThan(values.overlap - 0.002);
      expect(Math.min(...away)).toBeLessThan(values.overlap + 0.002);
      expect(film).toMatchObject({ face: 'inside', panel: 'lid' });
      // Centred on its own origin.
      const b = bounds(film!.outline);
      expect(b.minX + b.maxX).toBeCloseTo(0, 9);
    },
  );

  it('film gives way where the panel ends, and is refused where too little is left', () => {
    const wide = (size: number, overlap?: number) =>
      spec('window', 'front', { shape: 'round', size, ...(overlap && { overlap }) }, { film: 'f' });
    // The front is 25.4 + 2·0.3 = 26 mm high: (26 − 16) / 2 = 5, less 1 for the fold.
    const [film] = make(flip(), wide(16)).pieces;
    expect(sizeOf(film!.outline)[0]).toBeCloseTo(16 + 2 * 4, 1);
    expect(tried(flip(), wide(16, 6)).refused).toMatchObject({ param: 'overlap' });
    expect(tried(flip(), wide(22)).refused).toMatchObject({ param: 'overlap' });
  });

  it('takes the outline it is handed', () => {
    const asked = spec('window', 'lid', {}, { outline: { motif: 'any', values: {} } });
    expect(sizeOf(panelOf(make(flip(), asked).nets, 'lid').holes[0]!)).toEqual([8, 8]);
  });

  it('warns of what lies behind it, until that has a window too', () => {
    const lid = spec('window', 'lid', { size: 40 });
    const under = spec('window', 'lid-under', { size: 40 });
    expect(make(flip(), lid).warnings).toEqual([expect.stringContaining('lid-under')]);
    expect(make(flip(), lid, under).warnings).toEqual([]);
  });
});

describe('closures', () => {
  const boxes = STYLES.flatMap(style =>
    [0.1, T, 0.6].map(t => {
      const spec = { inside: style.example, thickness: t };
      return { id: style.id, t, nets: style.build(spec, fillParams(style.params, {})) };
    }),
  );
  let made = 0;
  it.each(boxes)('halves land on each other in $id of $t mm', ({ nets, t }) => {
    for (const panel of typicalPanels(nets)) {
      const result = tried(nets, spec('closure', panel, { diameter: 5 })).made;
      for (const net of result?.nets ?? []) {
        const folded = pose(net);
        const halves = netFacts.closureHalves(net);
        for (let i = 0; i < halves.length; i += 2) {
          const [a, b] = [halves[i]!, halves[i + 1]!];
          const [p, q] = [a, b].map(h => place(folded.get(h.panel)!, h.at));
          const n = normalAt(folded.get(a.panel)!, a.at);
          const way = sub3(q!, p!);
          const apart = dot3(way, n);
          // Beside each other by no more than the laws allow; one over the other by a few papers.
          expect(Math.hypot(...way) ** 2 - apart ** 2).toBeLessThan(0.05 ** 2);
          expect(Math.abs(apart)).toBeLessThanOrEqual(2 * t + 0.05);
          // The faces that the halves are on look at each other.
          expect(a.face).toBe(apart > 0 ? 'inside' : 'outside');
          const back = dot3(way, normalAt(folded.get(b.panel)!, b.at));
          expect(b.face).toBe(back < 0 ? 'inside' : 'outside');
          made++;
        }
      }
    }
  });
  it('were made at all', () => expect(made).toBeGreaterThan(50));

  it('are spread along the edge, their rims as far in as asked', () => {
    const asked = { means: 'magnet', count: 3, inset: 4 };
    const { nets } = make(flip(), spec('closure', 'lid', asked));
    const { closures } = nets[0]!;
    const b = bounds(panelOf(nets, 'lid').outline);
    // The lid's corners are rounded by 5.08 mm, so its straight edge is 152.7 − 2·5.08 mm long.
    const free = b.maxX - b.minX - 2 * 5.08;
    const xs = closures.map(c => c.at[0]).sort((p, q) => p - q);
    expect(xs[1]! - xs[0]!).toBeCloseTo(free / 3, 6);
    for (const c of closures) {
      expect(b.maxY - c.at[1]).toBeCloseTo(4 + 3, 9);
      expect(c).toMatchObject({ a: 'lid', b: 'lid-under', diameter: 6, means: 'magnet' });
    }
  });
  it('of a notched edge keep to the whole edge', () => {
    const notched = make(flip(), spec('thumb-notch', 'lid'), spec('closure', 'lid', { count: 2 }));
    const whole = make(flip(), spec('closure', 'lid', { count: 2 }));
    expect(notched.nets[0]!.closures).toEqual(whole.nets[0]!.closures);
  });
});

describe('slit lock', () => {
  const { nets } = make(tuck(), spec('slit-lock', 'glue-flap'));
  const [net] = nets;
  const slits = panelOf(nets, 'left').holes;
  it('is sound, and nothing is glued any more', () => {
    expectSound(nets);
    expect(net!.joins.filter(j => j.kind === 'glue')).toEqual([]);
    expect(netFacts.glueAreas(net!)).toEqual([]);
  });
  it('has a slit for each 45 mm, wider than the paper and longer than the neck', () => {
    expect(slits).toHaveLength(2);
    for (const slit of slits) {
      const [wide, long] = sizeOf(slit);
      expect(wide).toBeCloseTo(T + 0.2, 9);
      const locks = net!.joins.filter(j => j.kind === 'lock' && j.a.panel === 'glue-flap');
      const [p, q] = locks.slice(0, 2).map(j => ('along' in j.a ? j.a.along.start : undefined)!);
      expect(long - distance(p!, q!)).toBeCloseTo(1, 9);
    }
  });
  it('has ears that catch: the tongue is wider than the slit is long', () => {
    const flap = panelOf(nets, 'glue-flap').outline;
    const longest = sizeOf(slits[0]!)[1];
    const tips = flap.segments.map(s => s.to[1]).sort((a, b) => a - b);
    // Of the upper tongue: from its highest ear down to its lowest, past the flap's shoulders.
    const middle = (tips[0]! + tips.at(-1)!) / 2;
    const head = Math.min(...flap.segments.map(s => s.to[0]));
    const ears = flap.segments
      .map(s => s.to)
      .filter(p => p[1] > middle && p[0] < head + 5)
      .map(p => p[1]);
    expect(Math.max(...ears) - Math.min(...ears)).toBeGreaterThan(longest + 2);
  });
});

describe('tear strip', () => {
  it('is two perforated lines from edge to edge, cut where it begins', () => {
    const { nets } = make(flip(), spec('tear-strip', 'lid', { width: 10 }));
    const lid = panelOf(nets, 'lid');
    const by = (op: string) => lid.strokes.filter(s => s.operation === op).map(s => s.path);
    expect(by('cut').map(pathLength)).toEqual([6, 6].map(n => expect.closeTo(n, 9)));
    const wide = sizeOf(lid.outline)[0];
    for (const path of by('perforate')) expect(pathLength(path)).toBeCloseTo(wide - 6, 9);
    const ys = by('perforate').map(p => p.start[1]);
    expect(Math.abs(ys[0]! - ys[1]!)).toBeCloseTo(10, 9);
    // From the left as seen on the outside: the right of the net.
    const b = bounds(lid.outline);
    expect(Math.max(...by('cut').map(p => Math.max(p.start[0], endOf(p)[0])))).toBeCloseTo(
      b.maxX,
      9,
    );
  });
  it('goes round the box over every fold', () => {
    const { nets } = make(tuck(), spec('tear-strip', 'front', { reach: 'around' }));
    const on = nets[0]!.panels.filter(p => p.strokes.length > 0).map(p => p.id);
    expect(on.sort()).toEqual(['back', 'front', 'glue-flap', 'left', 'right']);
    expectSound(nets);
  });
});

it('hinge marks are two ticks a fold, on the fold', () => {
  const { nets } = make(flip(), spec('hinge-marks', '', { length: 4 }));
  const ticks = nets[0]!.panels.flatMap(p => p.strokes).map(s => s.path);
  const scores = netFacts.scores(nets[0]!);
  expect(ticks).toHaveLength(2 * scores.length);
  for (const tick of ticks) {
    expect(pathLength(tick)).toBeCloseTo(4, 9);
    const away = scores.map(s =>
      Math.max(distanceToPath(tick.start, s), distanceToPath(endOf(tick), s)),
    );
    expect(Math.min(...away)).toBeLessThan(1e-9);
  }
});

it('holes go through what lies on their panel, in the same place', () => {
  const asked = spec('ribbon', 'lid', { through: true, shape: 'holes', width: 4 });
  const { nets } = make(flip(), asked);
  const folded = pose(nets[0]!);
  const middles = ['lid', 'lid-under'].map(id => {
    const panel = folded.get(id)!;
    return panel.panel.holes.map(h => {
      const b = bounds(h);
      return place(panel, [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2]);
    });
  });
  expect(middles.map(m => m.length)).toEqual([2, 2]);
  for (const p of middles[0]!) {
    const near = middles[1]!.map(q => Math.hypot(p[0] - q[0], p[1] - q[1]));
    expect(Math.min(...near)).toBeLessThan(1e-9);
  }
});

it('corners are rounded or cut where two free edges meet, and nowhere else', () => {
  const plain = flip({ dots: 0, corner: 0 });
  const area = (nets: readonly Net[]) => signedArea(panelOf(nets, 'lid').outline);
  const lost = (values: ParamValues) =>
    area(plain) - area(make(plain, spec('corners', 'lid', values)).nets);
  // Two corners: each loses (1 − π/4) r², or half of a square.
  expect(lost({ shape: 'round', size: 6 })).toBeCloseTo(2 * (1 - Math.PI / 4) * 36, 9);
  expect(lost({ shape: 'chamfer', size: 6 })).toBeCloseTo(36, 9);
});

it('the shop slot is 32 mm wide, with a hump (common practice, from memory)', () => {
  const { nets } = make(tuck(), spec('hanging-hole', 'back', { shape: 'slot', edge: 'none' }));
  const [wide, high] = sizeOf(panelOf(nets, 'back').holes[0]!);
  expect(wide).toBeCloseTo(32, 9);
  expect(high).toBeCloseTo(6.5 / 2 + 5.5, 9);
});

describe('a part of several stays in its place', () => {
  const boxes = STYLES.flatMap(style => {
    const built = style.build(
      { inside: style.example, thickness: T },
      fillParams(style.params, {}),
    );
    return built.some(n => n.stands) ? [{ id: style.id, nets: built }] : [];
  });
  let made = 0;
  it.each(boxes)('when the edge of a root of $id is cut', ({ nets }) => {
    for (const net of nets) {
      const panel = `${net.id}/${net.root}`;
      for (const feature of ['thumb-notch', 'corners']) {
        const after = tried(nets, spec(feature, panel)).made?.nets;
        if (!after) continue;
        made++;
        for (const [i, now] of after.entries()) {
          const was = standing(nets[i]!);
          standing(now).forEach((p, k) => {
            p.frame.at.forEach((v, axis) => {
              expect(v).toBeCloseTo(was[k]!.frame.at[axis]!, 9);
            });
          });
        }
      }
    }
  });
  it('was tried at all', () => expect(made).toBeGreaterThan(3));
});
