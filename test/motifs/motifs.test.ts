import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  apply,
  arcShape,
  bounds,
  circle,
  clockwise,
  flatten,
  isFinitePath,
  pathLength,
  rectangle,
  scaling,
  selfMeeting,
  signedArea,
  steps,
  tangentAt,
  transform,
  uniteRegions,
} from '../../src/geom/index.js';
import type { Layer, Path, Point } from '../../src/model.js';
import { narrowPlace } from '../../src/motifs/least-width.js';
import { MOTIFS } from '../../src/motifs/list.js';
import { makeMotifTools } from '../../src/motifs/tools.js';
import { fillParams, ParamError, type ParamTable } from '../../src/params.js';
import { LEAST_WIDTH_MM } from '../../src/units/tolerances.js';
import { allFonts } from '../support/fonts.js';
import { samples } from '../support/param-samples.js';

const fonts = allFonts();
const tools = () => makeMotifTools({ fonts });

interface Built {
  readonly values: Readonly<Record<string, number | string | boolean>>;
  readonly layers: readonly Layer[];
}

/** Every sample of the table that the motif accepts; what it refuses must be a ParamError. */
function sweep(id: string): Built[] {
  const motif = MOTIFS.find(m => m.id === id)!;
  const built: Built[] = [];
  const texts: Record<string, string>[] = [{}];
  if ('text' in motif.params) texts.push({ text: 'Fig & plum' });
  const tried = samples(motif.params as ParamTable, 12);
  for (const given of texts.flatMap(text => tried.map(t => ({ ...t, ...text })))) {
    const values = fillParams(motif.params as ParamTable, given);
    try {
      built.push({ values, layers: motif.build(values, tools()) });
    } catch (error) {
      expect(error, JSON.stringify(given)).toBeInstanceOf(ParamError);
    }
  }
  return built;
}

/** These look one way, lean, or carry something on one side. */
const ONE_SIDED = new Set([
  ...['rolled-flower', 'branch', 'pebble', 'greeting'],
  ...['apple', 'pear', 'mushroom', 'cloud', 'moon', 'drop', 'flame'],
  ...['house', 'tree', 'candle', 'cake-slice', 'balloon', 'key'],
  ...['bee', 'bird', 'fish', 'hedgehog', 'snail'],
]);

const mirror = (p: Path) => transform(p, scaling(-1, 1));

/** The furthest that a point of one outline lies from the other's points; at once for outlines whose
 *  bounds differ. */
function apart(a: Path, b: Path): number {
  const [m, n] = [bounds(a), bounds(b)];
  const sides = ['minX', 'minY', 'maxX', 'maxY'] as const;
  const beside = Math.max(...sides.map(s => Math.abs(m[s] - n[s])));
  if (beside > 1e-6) return beside;
  const [p, q] = [flatten(a, 0.1), flatten(b, 0.1)];
  const near = ([x, y]: Point) => Math.min(...q.map(([u, v]) => Math.hypot(x - u, y - v)));
  return Math.max(...p.map(near));
}

describe('the list of motifs', () => {
  it('has unique kebab-case names, a family and a line about each', () => {
    expect(new Set(MOTIFS.map(m => m.id)).size).toBe(MOTIFS.length);
    for (const m of MOTIFS) {
      expect(m.id).toMatch(/^[a-z]+(-[a-z]+)*$/);
      expect(m.family).toMatch(/^[a-z]+$/);
      expect(m.summary.length).toBeGreaterThan(10);
      expect(m.summary.length).toBeLessThan(80);
    }
  });
});

describe.each(MOTIFS.map(m => m.id))('every %s', id => {
  const all = sweep(id);

  it('can be built from most samples of its table', () => {
    expect(all.length).toBeGreaterThan(6);
  });

  it('is as wide as asked, exactly', () => {
    for (const { values, layers } of all) {
      const b = bounds(...layers.map(l => l.outline));
      expect(b.maxX - b.minX, JSON.stringify(values)).toBeCloseTo(values.size as number, 9);
      expect(b.maxX + b.minX).toBeCloseTo(0, 9);
    }
  });

  it.skipIf(ONE_SIDED.has(id))('is its own mirror image, each layer alone or with another', () => {
    for (const { values, layers } of all) {
      for (const { outline } of layers) {
        const image = mirror(outline);
        const nearest = Math.min(...layers.map(l => apart(image, l.outline)));
        expect(nearest, JSON.stringify(values)).toBeLessThan(1e-9);
      }
    }
  });

  it('is closed, finite, counter-clockwise, with clockwise holes inside', () => {
    for (const { layers } of all) {
      for (const layer of layers) {
        expect(layer.outline.closed).toBe(true);
        expect(signedArea(layer.outline)).toBeGreaterThan(0);
        const b = bounds(layer.outline);
        for (const hole of layer.holes) {
          expect(signedArea(hole)).toBeLessThan(0);
          const h = bounds(hole);
          expect(h.minX > b.minX && h.maxX < b.maxX && h.minY > b.minY && h.maxY < b.maxY).toBe(
            true,
          );
        }
        const paths = [layer.outline, ...layer.holes, ...layer.strokes.map(s => s.path)];
        expect(paths.every(isFinitePath)).toBe(true);
      }
    }
  });

  it('does not cross or touch itself', () => {
    for (const { values, layers } of all) {
      for (const { outline, holes } of layers) {
        for (const path of [outline, ...holes]) {
          expect(selfMeeting(path), JSON.stringify(values)).toBeUndefined();
        }
      }
    }
  });

  it(`has no neck, hole or slot narrower than ${LEAST_WIDTH_MM} mm`, () => {
    for (const { values, layers } of all) {
      for (const { outline, holes } of layers) {
        // Cut letters are warned about instead (decorate.test.ts): they are the person's own.
        if (values.text && values.lettering === 'cut') continue;
        const said = `${id} ${JSON.stringify(values)}`;
        const place = narrowPlace({ outline, holes }, LEAST_WIDTH_MM);
        // Letters may stand near each other: a slot is no paper that could tear.
        if (id === 'greeting') expect([undefined, 'slot'], said).toContain(place);
        else expect(place, said).toBeUndefined();
      }
    }
  });

  it('holds together: all its layers lie on one piece when it gets a backing', () => {
    for (const { values, layers } of all) {
      const parts = uniteRegions(layers.map(l => ({ outer: l.outline, holes: [] })));
      expect(parts, JSON.stringify(values)).toHaveLength(1);
    }
  });

  it('keeps its lines on its paper', () => {
    for (const { values, layers } of all) {
      for (const { outline, strokes } of layers) {
        const b = bounds(outline);
        for (const { path } of strokes) {
          const s = bounds(path);
          const inside = s.minX > b.minX && s.maxX < b.maxX && s.minY > b.minY && s.maxY < b.maxY;
          expect(inside, JSON.stringify(values)).toBe(true);
        }
      }
    }
  });

  it('is the same every time', () => {
    const motif = MOTIFS.find(m => m.id === id)!;
    const values = fillParams(motif.params as ParamTable, {});
    expect(motif.build(values, tools())).toEqual(motif.build(values, tools()));
  });
});

describe('a narrow place', () => {
  const box = (x: number, y: number, w: number, h: number) => rectangle(x, y, w, h);
  const weld = (...outers: Path[]) => uniteRegions(outers.map(outer => ({ outer, holes: [] })))[0]!;
  const of = (r: { outer: Path; holes: readonly Path[] }) =>
    narrowPlace({ outline: r.outer, holes: r.holes }, 1);

  it('is a neck, a hole or a slot under the least width, and none over it', () => {
    const dumbbell = (wide: number) =>
      weld(box(-10, -5, 8, 10), box(2, -5, 8, 10), box(-4, -wide / 2, 8, wide));
    expect([of(dumbbell(0.9)), of(dumbbell(1.1))]).toEqual(['neck', undefined]);
    const pierced = (d: number) => ({
      outer: circle([0, 0], 10),
      holes: [clockwise(circle([0, 0], d / 2))],
    });
    expect([of(pierced(0.9)), of(pierced(1.1))]).toEqual(['hole', undefined]);
    // Two bars that nearly touch enclose a bay: closed, it is a hole.
    const clasp = (gap: number) =>
      weld(
        box(-10, 0, 20, 2),
        box(-10, 0, 3, 12),
        box(7, 0, 3, 12),
        box(-10, 10, 10, 2),
        box(gap, 10, 8, 2),
      );
    expect([of(clasp(0.9)), of(clasp(1.1))]).toEqual(['slot', undefined]);
    const rim = { outer: circle([0, 0], 5), holes: [clockwise(circle([0, 0], 4.1))] };
    expect(of(rim)).toBe('neck');
  });
});

describe('the heart', () => {
  const motif = MOTIFS.find(m => m.id === 'heart')!;
  const built = (given: Record<string, number>) =>
    motif.build(fillParams(motif.params as ParamTable, given), tools())[0]!.outline;

  it('is smooth but for its point and its cleft: tangent and curvature agree at every joint', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 75, max: 130 }),
        fc.integer({ min: 12, max: 30 }),
        fc.integer({ min: 60, max: 95 }),
        (proportion, cleft, point) => {
          const path = built({ proportion: proportion / 100, cleft: cleft / 100, point });
          const all = [...steps(path)];
          let corners = 0;
          all.forEach((step, i) => {
            const next = all[(i + 1) % all.length]!;
            const [t0, t1] = [tangentAt(step, 1), tangentAt(next, 0)];
            if (Math.hypot(t0[0] - t1[0], t0[1] - t1[1]) > 1e-9) {
              corners++;
              expect(Math.abs(step.segment.to[0])).toBeLessThan(1e-12);
              return;
            }
            expect(curvature(step, 1) / curvature(next, 0)).toBeCloseTo(1, 6);
          });
          expect(corners).toBe(2);
        },
      ),
      { seed: 31, numRuns: 60 },
    );
  });

  it('is as high as its proportion says and points as sharply as asked', () => {
    const path = built({ size: 50, proportion: 1.1, point: 70 });
    const b = bounds(path);
    expect(b.maxY - b.minY).toBeCloseTo(55, 9);
    const [x, y] = tangentAt([...steps(path)][0]!, 0);
    expect((Math.atan2(x, y) * 360) / Math.PI).toBeCloseTo(70, 9);
  });
});

/** Curvature at an end of a cubic from its control points: 2h / 3a². */
function curvature({ from, segment }: ReturnType<typeof steps>[number], t: 0 | 1) {
  if (segment.kind !== 'cubic') throw new Error('the heart is made of cubics');
  const [p, q, r] = t === 0 ? [from, segment.c1, segment.c2] : [segment.to, segment.c2, segment.c1];
  const a: Point = [q[0] - p[0], q[1] - p[1]];
  const b: Point = [r[0] - q[0], r[1] - q[1]];
  return (2 * Math.abs(a[0] * b[1] - a[1] * b[0])) / (3 * Math.hypot(...a) ** 3);
}

describe('the scalloped disc', () => {
  const motif = MOTIFS.find(m => m.id === 'scalloped-disc')!;
  const built = (given: Record<string, number | string>) =>
    motif.build(fillParams(motif.params as ParamTable, given), tools())[0]!;

  it('has the number of equal arcs asked for', () => {
    const { outline } = built({ scallops: 17, sweep: 150 });
    expect(outline.segments).toHaveLength(17);
    const shapes = [...steps(outline)].map(s => arcShape(s.from, s.segment as never));
    for (const s of shapes) {
      expect(s.sweep).toBeCloseTo((150 * Math.PI) / 180, 12);
      expect(s.radius).toBeCloseTo(shapes[0]!.radius, 10);
    }
  });

  it('has the area of its polygon and its segments of circles', () => {
    // Regular n-gon (n/2) R² sin(2π/n) (check-values section 8) and n segments r²(θ − sin θ)/2.
    const { outline } = built({ scallops: 12, sweep: 180, size: 60 });
    const R = Math.hypot(...outline.start);
    const r = R * Math.sin(Math.PI / 12);
    const area = 6 * R * R * Math.sin(Math.PI / 6) + (12 * Math.PI * r * r) / 2;
    expect(signedArea(outline)).toBeCloseTo(area, 9);
  });

  it('turns into itself by one scallop', () => {
    const { outline } = built({ scallops: 9 });
    const a = (2 * Math.PI) / 9;
    const m = [Math.cos(a), Math.sin(a), -Math.sin(a), Math.cos(a), 0, 0] as const;
    const points = flatten(outline, 0.05);
    for (const p of points) {
      const q = apply(m, p);
      expect(Math.min(...points.map(o => Math.hypot(o[0] - q[0], o[1] - q[1])))).toBeLessThan(1e-9);
    }
  });

  it('refuses eyelets that leave less than a millimetre of paper', () => {
    expect(() => built({ size: 30, scallops: 40, eyelet: 2 })).toThrow(ParamError);
    expect(built({ size: 60, eyelet: 2.5 }).holes).toHaveLength(20);
  });
});

describe('the label', () => {
  const motif = MOTIFS.find(m => m.id === 'label')!;
  const built = (given: Record<string, number | string>) =>
    motif.build(fillParams(motif.params as ParamTable, given), tools())[0]!;

  it.each(['rounded', 'ticket', 'bracket'])('%s: even stitches, inset all round', shape => {
    const { strokes } = built({ shape, inset: 3 });
    expect(strokes.every(s => s.operation === 'draw')).toBe(true);
    const lengths = strokes.map(s => pathLength(s.path));
    // Each side is fitted by itself; the shortest, a ticket's bite, sets the spread.
    expect(Math.max(...lengths) / Math.min(...lengths)).toBeLessThan(1.5);
  });

  it('the area of each shape is that of its rectangle and its corners', () => {
    const area = (given: Record<string, number | string>) =>
      signedArea(built({ size: 80, height: 40, corner: 6, stitch: 'none', ...given }).outline);
    expect(area({ shape: 'rounded' })).toBeCloseTo(3200 - (4 - Math.PI) * 36, 9);
    expect(area({ shape: 'ticket' })).toBeCloseTo(3200 - Math.PI * 36, 9);
  });

  it('fits the text into the room there is', () => {
    for (const text of ['Harvest treats', 'Hi', 'ooooooooooooooooooooooooooooo']) {
      const { fills, outline } = built({ text });
      const b = bounds(...fills[0]!.regions.map(r => r.outer));
      const o = bounds(outline);
      expect(b.minX).toBeGreaterThan(o.minX + 2.4);
      expect(b.maxX).toBeLessThan(o.maxX - 2.4);
      expect(b.minY).toBeGreaterThan(o.minY + 2.4);
      expect(b.maxY).toBeLessThan(o.maxY - 2.4);
      expect(b.minX + b.maxX).toBeCloseTo(0, 9);
    }
    expect(() => built({ text: 'Harvest treats', textHeight: 40 })).toThrow(/at most/);
  });

  it('draws, prints or cuts the same letters', () => {
    const text = 'moon';
    const [draw, print, cut] = ['draw', 'print', 'cut'].map(lettering =>
      built({ text, lettering, stitch: 'none', bridge: 0 }),
    );
    const [word] = print!.fills[0]!.regions;
    expect(draw!.strokes.map(s => s.path)).toEqual([word!.outer, ...word!.holes]);
    expect(cut!.holes.map(h => -signedArea(h))).toEqual(
      [signedArea(word!.outer)].map(a => expect.closeTo(a, 9)),
    );
    expect(cut!.strokes.map(s => [s.operation, s.path])).toEqual(word!.holes.map(h => ['cut', h]));
  });

  it('refuses an ink that is no colour, and a corner that cannot be', () => {
    expect(() => built({ text: 'a', ink: 'brown' })).toThrow(/#rrggbb/);
    expect(() => built({ corner: 17, height: 32 })).toThrow(/at most 16.00 mm/);
    expect(() => built({ shape: 'ticket', corner: 0 })).toThrow(ParamError);
  });
});
