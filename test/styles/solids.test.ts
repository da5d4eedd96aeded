/**
 * Boxes that are solids of geometry, folded from their nets without thickness, against the closed forms
 * of the check-values, section 8 (figures worked out there; formulas from memory: elementary geometry).
 */
import { describe, expect, it } from 'vitest';
import type { BoxStyle } from '../../src/contracts.js';
import { type PanelPose, place, pose } from '../../src/fold/pose.js';
import {
  cross3,
  distance3,
  dot3,
  length3,
  type Point3,
  scale3,
  sub3,
} from '../../src/fold/space.js';
import { distance, endOf, pathLength, startTangent } from '../../src/geom/index.js';
import type { Inside, Net, PanelRole, ParamValue, Path, Point } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { cone } from '../../src/styles/cone.js';
import { cup } from '../../src/styles/cup.js';
import { gableTop } from '../../src/styles/gable-top.js';
import { prism } from '../../src/styles/prism.js';
import { pyramid } from '../../src/styles/pyramid.js';
import { slice } from '../../src/styles/slice.js';
import { tetraPouch } from '../../src/styles/tetra-pouch.js';

const ideal = (style: BoxStyle, inside: Inside, given: Record<string, ParamValue> = {}): Net =>
  style.build({ inside, thickness: 0 }, fillParams(style.params, given))[0]!;
const round = (diameter: number, height: number): Inside => ({
  length: diameter,
  width: diameter,
  height,
});

/** Corners of straight-sided panels in the closed box, each seen from the inside, counter-clockwise. */
function facesOf(net: Net, roles: readonly PanelRole[]): Point3[][] {
  const flat = [...pose(net).values()].filter(p => roles.includes(p.panel.role));
  return flat.map(p => cornersOf(p.panel.outline).map(at => place(p, at)));
}
const cornersOf = ({ start, segments }: Path): Point[] =>
  [start, ...segments.map(s => s.to)]
    .filter((p, i, all) => i === 0 || distance(p, all[i - 1]!) > 1e-9)
    .slice(0, -1);

/** Newell's: twice the area, along the normal. */
const sweep = (face: readonly Point3[]): Point3 =>
  face.reduce<Point3>(
    (sum, p, i) => {
      const c = cross3(sub3(p, face[0]!), sub3(face[(i + 1) % face.length]!, face[0]!));
      return [sum[0] + c[0], sum[1] + c[1], sum[2] + c[2]];
    },
    [0, 0, 0],
  );
const areaOf = (face: readonly Point3[]): number => length3(sweep(face)) / 2;
const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
/** The divergence theorem; normals look inside. */
const volumeOf = (faces: readonly (readonly Point3[])[]): number =>
  -sum(faces.map(f => dot3(f[0]!, sweep(f)) / 6));

/** V − E + F of faces that share corners and edges, and how many edges have two faces. */
function euler(faces: readonly (readonly Point3[])[]) {
  const corners: Point3[] = [];
  const named = (p: Point3) => {
    const found = corners.findIndex(q => distance3(p, q) < 1e-6);
    return found >= 0 ? found : corners.push(p) - 1;
  };
  const edges = new Map<string, number>();
  for (const face of faces) {
    const ids = face.map(named);
    ids.forEach((a, i) => {
      const b = ids[(i + 1) % ids.length]!;
      const key = [a, b].sort((x, y) => x - y).join(' ');
      edges.set(key, (edges.get(key) ?? 0) + 1);
    });
  }
  const closed = [...edges.values()].every(n => n === 2);
  return { characteristic: corners.length - edges.size + faces.length, closed };
}

describe('the measures themselves', () => {
  const p = (x: number, y: number, z: number): Point3 => [x, y, z];
  const [o, x, y, z] = [p(0, 0, 0), p(6, 0, 0), p(0, 6, 0), p(0, 0, 6)] as const;
  const corner = [
    [o, x, y],
    [o, y, z],
    [o, z, x],
    [x, z, y],
  ];
  it('know the corner of a cube, and see what is open', () => {
    expect(volumeOf(corner)).toBeCloseTo(36, 9);
    expect(euler(corner)).toEqual({ characteristic: 2, closed: true });
    expect(euler(corner.slice(1)).closed).toBe(false);
    expect(volumeOf(corner.slice(0, 3).map(f => f.map(q => sub3(q, p(1, 1, 1)))))).not.toBeCloseTo(
      36,
      0,
    );
  });
});

describe('pyramid: A h / 3', () => {
  const net = ideal(pyramid, round(60, 50), { sides: 4, hole: 0 });
  const faces = facesOf(net, ['base', 'wall']);
  it('on a square of 60 mm, 50 mm high, has the volume and the surface', () => {
    expect(volumeOf(faces)).toBeCloseTo(60000, 6);
    expect(sum(faces.map(areaOf))).toBeCloseTo(10597.142274, 5);
  });
  it('has the slant, the lateral edge and the angle at the tip', () => {
    const [tip, ...others] = faces.flat().sort((a, b) => b[2] - a[2]);
    const floor = others.filter(p => Math.abs(p[2] - others.at(-1)![2]) < 1e-9);
    for (const q of floor) expect(distance3(tip!, q)).toBeCloseTo(65.574385, 5);
    expect(floor).toHaveLength(others.length - 3);
    const wall = faces.find(f => f.length === 3)!;
    const high = wall.find(q => distance3(q, tip!) < 1e-6)!;
    const [a, b] = wall.filter(q => q !== high).map(q => sub3(q, high));
    const cosine = dot3(a!, b!) / (length3(a!) * length3(b!));
    expect((Math.acos(cosine) * 180) / Math.PI).toBeCloseTo(54.451256, 5);
    expect((2 * areaOf(wall)) / 60).toBeCloseTo(58.309519, 5);
  });
  it.each([3, 4, 5, 6, 8, 12])('of %s sides closes: V − E + F = 2', sides => {
    const made = facesOf(ideal(pyramid, round(60, 50), { sides, hole: 0 }), ['base', 'wall']);
    expect(made).toHaveLength(sides + 1);
    expect(euler(made)).toEqual({ characteristic: 2, closed: true });
  });
});

describe('cup: the frustum, h / 3 (A1 + A2 + √(A1 A2))', () => {
  // Moscow papyrus, problem 14: squares of 4 and 2, 6 high, hold 56; here in centimetres.
  const net = ideal(cup, round(40, 60), { sides: 4, floor: 20, scoop: 0, back: 0 });
  it('holds what problem 14 of the Moscow papyrus says', () => {
    // Open above; from the height of the mouth nothing is added there.
    const faces = facesUp(net);
    const mouth = Math.max(...faces.flat().map(p => p[2]));
    const level = faces.map(f => f.map((q): Point3 => [q[0], q[1], q[2] - mouth]));
    expect(faces).toHaveLength(5);
    expect(volumeOf(level)).toBeCloseTo(56000, 6);
  });
});

describe('prism of six sides: 3√3/2 a² h', () => {
  it('with sides of 30 mm, 40 mm high, has the volume and the surface', () => {
    const net = ideal(prism, round(30 * Math.sqrt(3), 40), { sides: 6, dust: 0 });
    const faces = facesOf(net, ['base', 'lid', 'wall']);
    expect(volumeOf(faces)).toBeCloseTo(93530.7436, 4);
    expect(sum(facesOf(net, ['wall']).map(areaOf))).toBeCloseTo(7200, 8);
    expect(sum(faces.map(areaOf))).toBeCloseTo(11876.5372, 4);
    expect(euler(faces)).toEqual({ characteristic: 2, closed: true });
  });
});

describe('tetra-pouch: the regular tetrahedron, a³ / 6√2 and √3 a²', () => {
  it('with edges of 80 mm has the volume and the surface', () => {
    // Opposite edges lie a / √2 apart.
    const net = ideal(tetraPouch, { length: 80, width: 80, height: 80 / Math.SQRT2 });
    const faces = facesOf(net, ['wall']);
    for (const f of faces) {
      for (const [i, p] of f.entries()) {
        expect(distance3(p, f[(i + 1) % f.length]!)).toBeCloseTo(80, 8);
      }
    }
    expect(volumeOf(faces)).toBeCloseTo(60339.778661, 5);
    expect(sum(faces.map(areaOf))).toBeCloseTo(11085.125168, 5);
    expect(euler(faces)).toEqual({ characteristic: 2, closed: true });
  });
});

describe('gable-top: the gusset law', () => {
  const a = 60;
  const s = 45;
  const pitchDeg = (Math.acos(a / 2 / s) * 180) / Math.PI;
  const net = ideal(gableTop, { length: a, width: a, height: 70 }, { pitchDeg });
  const at = pose(net);
  it('rises by √(s² − a² / 4) over walls of 60 mm, its roof 45 mm long', () => {
    const roof = net.hinges.find(h => h.child === 'front-roof')!;
    const fin = net.hinges.find(h => h.child === 'front-fin')!;
    const [low, high] = [roof, fin].map(h => place(at.get('front-roof')!, h.along.start));
    const [wall, back] = [low!, high!];
    expect(distance3(wall, [wall[0], back[1], back[2]])).toBeCloseTo(s, 6);
    // The root is the back wall: its y is upright.
    expect(back[1] - wall[1]).toBeCloseTo(33.54102, 5);
  });
  it('has gusset creases of √(a² / 4 + s²) in the flat, that meet half of a wall further in', () => {
    const creases = net.hinges.filter(h => /-gusset-(left|right)$/.test(h.child));
    expect(creases).toHaveLength(4);
    for (const h of creases) expect(pathLength(h.along)).toBeCloseTo(54.083269, 5);
    const tips = creases.map(h => {
      const p = at.get(h.child)!;
      const ends = [h.along.start, endOf(h.along)].map(q => place(p, q));
      return ends.reduce((x, y) => (y[1] > x[1] ? y : x));
    });
    const [from, to] = [0, a];
    for (const tip of tips) {
      expect(Math.min(Math.abs(tip[0] - from), Math.abs(tip[0] - to))).toBeCloseTo(30, 6);
    }
    // So on a square carton all four meet in the middle.
    for (const tip of tips) expect(distance3(tip, tips[0]!)).toBeLessThan(1e-6);
  });
  it('has the volume of a plain prism under its roof', () => {
    const area = areaOf(facesOf(net, ['roof'])[0]!);
    const rise = Math.sqrt(s * s - (a * a) / 4);
    expect(area).toBeCloseTo(a * s, 6);
    expect((a * rise * (area / s)) / 2).toBeCloseTo(60373.835, 2);
  });
});

describe('cone: the frustum of a cone and its sector', () => {
  // R 40, r 30, h 80. The flats lie about the cone: so their polygon is larger by (n / π) tan (π / n).
  const built = (sides: number) =>
    ideal(cone, round(80, 80), { sides, tip: 60, top: 'straight', wall: 'scored' });
  const share = (n: number) => (n / Math.PI) * Math.tan(Math.PI / n);
  it.each([12, 16, 24])('of %s flats has the radii of the annular sector', sides => {
    const net = built(sides);
    const walls = net.panels.filter(p => p.role === 'wall');
    // Two folds of a flat meet in the sector's middle.
    const [h0, h1] = net.hinges.slice(0, 2).map(h => h.along);
    const apex = crossing(h0!, h1!);
    for (const { outline } of walls) {
      const far = cornersOf(outline)
        .map(p => distance(p, apex))
        .sort((p, q) => p - q);
      // From the middle to a corner; a flat's middle is nearer by the cosine of half its angle.
      const corners = cornersOf(outline);
      const chords = corners.map((p, i) => [p, corners[(i + 1) % 4]!] as const);
      const across = chords.filter(
        ([p, q]) => Math.abs(distance(p, apex) - distance(q, apex)) < 1e-6,
      );
      const middles = across
        .map(([p, q]) => distance([(p[0] + q[0]) / 2, (p[1] + q[1]) / 2], apex))
        .sort((p, q) => p - q);
      expect(middles[0]).toBeCloseTo(241.867732, 5);
      expect(middles[1]).toBeCloseTo(322.49031, 5);
      expect(far[0]).toBeGreaterThan(middles[0]!);
    }
  });
  it.each([12, 16, 24])('of %s flats has the lateral area and the volume', sides => {
    const faces = facesUp(built(sides));
    const area = sum(faces.map(areaOf));
    expect(area / share(sides)).toBeCloseTo(17729.830799, 4);
    // The mouth is left at height 0; the tip's opening is 80 mm below.
    const mouth = Math.max(...faces.flat().map(p => p[2]));
    const level = faces.map(f => f.map((p): Point3 => [p[0], p[1], p[2] - mouth]));
    const tip = (30 * 30 * Math.PI * share(sides) * 80) / 3;
    expect((volumeOf(level) + tip) / share(sides)).toBeCloseTo(309970.4752, 3);
  });
  it('comes to the angle of the sector as its flats grow more', () => {
    const angle = (sides: number) => {
      // Twice atan (tan (π / n) sin lean) for each flat.
      const net = built(sides);
      const along = net.hinges.slice(0, 2).map(h => startTangent(h.along));
      const one = Math.acos(Math.abs(along[0]![0] * along[1]![0] + along[0]![1] * along[1]![1]));
      return (one * sides * 180) / Math.PI;
    };
    const off = [12, 24].map(n => angle(n) - 44.652504);
    expect(off[1]).toBeGreaterThan(0);
    expect(off[1]).toBeLessThan(0.3);
    // The error of a tangent falls with the square of the number.
    expect(off[0]! / off[1]!).toBeCloseTo(4, 0);
  });
});

describe('slice', () => {
  it.each([3, 4, 5, 6, 8, 10, 12])('%s of them close into a round', ring => {
    const length = 90;
    const width = 2 * length * Math.tan(Math.PI / ring);
    const facing = (t: number) => {
      const net = slice.build(
        { inside: { length, width, height: 40 }, thickness: t },
        fillParams(slice.params, { ring }),
      )[0]!;
      const at = pose(net);
      return ['left', 'right'].map(id => sweep(outlineIn(at.get(id)!)));
    };
    for (const t of [0, 0.3, 0.6]) {
      // The walls' outer faces make the angle of the ring's part: two side by side lie on each other.
      const [a, b] = facing(t);
      const cosine = -dot3(a!, b!) / (length3(a!) * length3(b!));
      expect(ring * Math.acos(cosine)).toBeCloseTo(2 * Math.PI, 9);
    }
  });
  // Regular n-gon about a circle: its area, side 1, from the table.
  it.each([
    [3, 0.433012702],
    [4, 1],
    [5, 1.720477401],
    [6, 2.598076211],
    [8, 4.828427125],
    [10, 7.694208843],
    [12, 11.196152423],
  ])('%s of them cover the polygon', (ring, unit) => {
    const length = 90;
    const width = 2 * length * Math.tan(Math.PI / ring);
    const net = ideal(slice, { length, width, height: 40 }, { ring });
    const [base] = facesOf(net, ['base']);
    expect((ring * areaOf(base!)) / (width * width)).toBeCloseTo(unit, 8);
  });
});

const outlineIn = (p: PanelPose): Point3[] => cornersOf(p.panel.outline).map(at => place(p, at));

/** Walls and base with z up, whatever the root is. */
function facesUp(net: Net): Point3[][] {
  const { up = [0, 0, 1] } = net;
  const ex = Math.abs(up[0]) < 0.9 ? ([1, 0, 0] as const) : ([0, 1, 0] as const);
  const side = cross3(up, ex);
  const x = scale3(side, 1 / length3(side));
  const y = cross3(up, x);
  return facesOf(net, ['base', 'wall']).map(f =>
    f.map((p): Point3 => [dot3(p, x), dot3(p, y), dot3(p, up)]),
  );
}

function crossing(a: Path, b: Path): Point {
  const [p, q] = [a.start, b.start];
  const [d, e] = [startTangent(a), startTangent(b)];
  const k = ((q[0] - p[0]) * e[1] - (q[1] - p[1]) * e[0]) / (d[0] * e[1] - d[1] * e[0]);
  return [p[0] + k * d[0], p[1] + k * d[1]];
}
