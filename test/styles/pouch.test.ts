/**
 * What a pouch holds. It is shown pressed flat; here its paper is folded round a block, crease by crease, and
 * what it encloses is worked out from the facets.
 */
import { describe, expect, it } from 'vitest';
import { bounds } from '../../src/geom/index.js';
import type { Net, Point, Triple } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { pouch } from '../../src/styles/pouch.js';

const build = (inside: Triple, thickness: number, gusset: boolean): Net => {
  const [length, width, height] = inside;
  const values = fillParams(pouch.params, { top: 'straight', gusset });
  return pouch.build({ inside: { length, width, height }, thickness }, values)[0]!;
};
const sizeOf = (net: Net, id: string): Point => {
  const b = bounds(net.panels.find(p => p.id === id)!.outline);
  return [b.maxX - b.minX, b.maxY - b.minY];
};

/** The tube that the net is glued to: how far it is round, and how deep down to its bottom fold. */
function tubeOf(net: Net): { readonly girth: number; readonly tall: number } {
  const walls = net.panels.filter(p => p.role === 'wall' || p.role === 'gusset');
  // The seam of a gusseted pouch is on the last half of its gussets, which it does not make wider.
  const girth = walls.reduce((sum, p) => sum + sizeOf(net, p.id)[0], 0);
  return { girth, tall: sizeOf(net, 'front')[1] };
}

interface Facet {
  readonly flat: readonly Point[];
  readonly solid: readonly Triple[];
}

/**
 * The tube, `u` along its girth and `v` up from its bottom fold, round a block w deep: the bottom fold comes
 * to lie in the middle of the block's bottom, and an ear at either end of it folds under, as paper is
 * folded round a parcel. `l` and `h` are what the paper leaves.
 */
function round(
  { girth, tall }: ReturnType<typeof tubeOf>,
  w: number,
): { l: number; h: number; facets: Facet[] } {
  const half = girth / 2;
  const [l, h, e] = [half - w, tall - w / 2, w / 2];
  const [x, y] = [l / 2, w / 2];
  const side = (from: number, to: number, a: Point, b: Point): Facet => ({
    flat: [
      [from, e],
      [to, e],
      [to, tall],
      [from, tall],
    ],
    solid: [
      [...a, 0],
      [...b, 0],
      [...b, h],
      [...a, h],
    ],
  });
  /** On the bottom, from a wall's foot to the fold in the middle. */
  const strip = (from: number, to: number, a: Point, b: Point): Facet => ({
    flat: [
      [from, 0],
      [to, 0],
      [to, e],
      [from, e],
    ],
    solid: [
      [a[0], 0, 0],
      [b[0], 0, 0],
      [...b, 0],
      [...a, 0],
    ],
  });
  const ear = (middle: number, way: 1 | -1): Facet[] => {
    const [a, b]: [Triple, Triple] = [
      [way * x, -way * y, 0],
      [way * x, way * y, 0],
    ];
    const [end, tip]: [Triple, Triple] = [
      [way * x, 0, 0],
      [way * (x - e), 0, 0],
    ];
    const [left, right, point]: Point[] = [
      [middle - e, e],
      [middle + e, e],
      [middle, 0],
    ] as Point[];
    return [
      { flat: [point!, right!, left!], solid: [tip, b, a] },
      { flat: [[middle - e, 0], point!, left!], solid: [end, tip, a] },
      { flat: [point!, [middle + e, 0], right!], solid: [tip, end, b] },
    ];
  };
  const [p, q, r, s]: Point[] = [
    [-x, -y],
    [x, -y],
    [x, y],
    [-x, y],
  ];
  return {
    l,
    h,
    facets: [
      side(e, half - e, p!, q!),
      side(half - e, half + e, q!, r!),
      side(half + e, girth - e, r!, s!),
      side(girth - e, girth + e, s!, p!),
      strip(e, half - e, p!, q!),
      strip(half + e, girth - e, r!, s!),
      ...ear(half, 1),
      ...ear(girth, -1),
    ],
  };
}

const sub = (a: Triple, b: Triple): Triple => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const dot = (a: Triple, b: Triple) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const far = (a: readonly number[], b: readonly number[]) =>
  Math.hypot(...a.map((v, i) => v - b[i]!));
const fan = <T>(list: readonly T[]) =>
  list.slice(2).map((c, i) => [list[0]!, list[i + 1]!, c] as const);

/** The divergence theorem, from a point of the open mouth: the mouth itself adds nothing. */
const volume = (facets: readonly Facet[], h: number) =>
  facets
    .flatMap(f => fan(f.solid))
    .reduce((sum, t) => {
      const [a, b, c] = t.map(p => sub(p, [0, 0, h])) as [Triple, Triple, Triple];
      return sum + dot(a, cross(b, c)) / 6;
    }, 0);
const flatArea = (facets: readonly Facet[]) =>
  facets
    .flatMap(f => fan(f.flat))
    .reduce(
      (s, [a, b, c]) => s + ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2,
      0,
    );

const SIZES: readonly Triple[] = [
  [60, 20, 90],
  [80, 12, 120],
  [50, 30, 110],
  [90, 8, 60],
  [40, 40, 150],
];

describe.each([false, true])('a pouch with gussets: %s', gusset => {
  // Gussets that are as wide as the faces would meet.
  const sizes = SIZES.filter(([l, w]) => !gusset || w < l - 2);
  it.each(sizes)(
    'filled, holds %s × %s × %s mm, to the bit of its paper',
    (length, width, height) => {
      const net = build([length, width, height], 0, gusset);
      const tube = tubeOf(net);
      const { l, h, facets } = round(tube, width);
      expect([l, h]).toEqual([expect.closeTo(length, 9), expect.closeTo(height, 9)]);
      // The paper is neither stretched nor torn, and all of it is used.
      const corners = new Map<string, Triple>();
      for (const { flat, solid } of facets) {
        flat.forEach((a, i) => {
          flat.forEach((b, k) => {
            expect(far(solid[i]!, solid[k]!)).toBeCloseTo(far(a, b), 9);
          });
          const key = [(a[0] + tube.girth) % tube.girth, a[1]].map(v => v.toFixed(6)).join();
          const known = corners.get(key) ?? solid[i]!;
          corners.set(key, known);
          expect(far(known, solid[i]!), key).toBeLessThan(1e-9);
        });
      }
      expect(flatArea(facets)).toBeCloseTo(tube.girth * tube.tall, 6);
      expect(volume(facets, h)).toBeCloseTo(length * width * height, 4);
    },
  );
  it.each([0.1, 0.2, 0.3])('of paper of %s mm is clear within it', t => {
    const [length, width, height] = [60, 20, 90];
    // Mid-surfaces stand half a thickness outside what is filled in.
    const { l, h } = round(tubeOf(build([length, width, height], t, gusset)), width + t);
    expect(l - t).toBeCloseTo(length, 9);
    expect(h - t / 2).toBeCloseTo(height, 9);
  });
});

describe('the measure', () => {
  it('knows a block that the paper does not go round', () => {
    const tube = tubeOf(build([60, 20, 90], 0, false));
    const { h, facets } = round(tube, 25);
    expect(volume(facets, h)).not.toBeCloseTo(60 * 20 * 90, 0);
    const torn = facets.map((f, i) =>
      i === 0 ? { ...f, solid: f.solid.map((p): Triple => [p[0] * 1.1, p[1], p[2]]) } : f,
    );
    expect(far(torn[0]!.solid[0]!, torn[0]!.solid[1]!)).not.toBeCloseTo(
      far(torn[0]!.flat[0]!, torn[0]!.flat[1]!),
      3,
    );
  });
});

/**
 * A. C. Robin, Mathematics Today, June 2004, 104–107 (as seen in check-values, section 8): what a sealed
 * flat bag holds at the most, w its shorter side, crimping ignored.
 */
const robin = (a: number, b: number): number => {
  const [w, h] = [Math.min(a, b), Math.max(a, b)];
  return w ** 3 * (h / (Math.PI * w) - 0.142 * (1 - 10 ** (-h / w)));
};

describe('sealed', () => {
  it('Robin’s formula gives the figures worked out beside it', () => {
    expect(robin(1, 1)).toBeCloseTo(0.19051, 5);
    expect(robin(1, 2)).toBeCloseTo(0.49604, 5);
    expect(robin(80, 120)).toBeCloseTo(174057.095, 2);
    expect(robin(60, 100)).toBeCloseTo(84580.367, 2);
  });
  it.each(SIZES)(
    'it would hold no less than is promised: %s × %s × %s mm',
    (length, width, height) => {
      const [wide, tall] = sizeOf(build([length, width, height], 0, false), 'front');
      expect(length * width * height).toBeLessThan(robin(wide, tall));
    },
  );
});
