/** Boxes of curled paper: their walls measured on the folded nets. */
import { describe, expect, it } from 'vitest';
import { type PanelPose, place } from '../../src/fold/pose.js';
import { standing } from '../../src/fold/stand.js';
import {
  distance,
  distanceToPath,
  pathLength,
  signedArea,
  transform,
  translation,
} from '../../src/geom/index.js';
import type { Net, ParamValue, Point } from '../../src/model.js';
import { fillParams, ParamError } from '../../src/params.js';
import { drum } from '../../src/styles/drum.js';
import { heartBox } from '../../src/styles/heart-box.js';
import { grown, heartParts, heartPath } from '../../src/styles/heart-outline.js';

const partOf = (nets: readonly Net[], id: string) => nets.find(n => n.id === id)!;
const girthOf = (net: Net) =>
  net.panels
    .flatMap(p => (p.bend && p.role === 'wall' ? p.bend.stretches : []))
    .reduce((sum, s) => sum + s.length, 0);

/** Points of a standing panel on a line across its strip, as seen from above. */
function plan(p: PanelPose, n = 400): Point[] {
  const xs = p.panel.outline.segments.map(s => s.to);
  const { bend } = p.panel;
  const u = bend?.across ?? ([1, 0] as const);
  const reach = xs.map(q => q[0] * u[0] + q[1] * u[1]);
  const cross = xs.map(q => -q[0] * u[1] + q[1] * u[0]);
  const [from, to] = [Math.min(...reach), Math.max(...reach)];
  const v = (Math.min(...cross) + Math.max(...cross)) / 2;
  return Array.from({ length: n + 1 }, (_, i): Point => {
    const s = from + ((to - from) * i) / n;
    const [x, y] = place(p, [s * u[0] - v * u[1], s * u[1] + v * u[0]]);
    return [x, y];
  });
}
const wallsOf = (net: Net) => standing(net).filter(p => p.panel.role === 'wall');
const panelIn = (net: Net, id: string) => standing(net).find(p => p.panel.id === id)!;

describe.each([0, 0.2, 0.3, 0.6])('a drum of 70 × 40 mm in paper of %s mm', t => {
  const build = (given: Record<string, ParamValue> = {}) =>
    drum.build(
      { inside: { length: 70, width: 70, height: 40 }, thickness: t },
      fillParams(drum.params, given),
    );
  const nets = build({ ease: 0.4 });
  const far = (ps: readonly Point[]) => ps.map(p => Math.hypot(p[0], p[1]));

  it('has strips as long as their mid-surface, which ends a thickness inside its beginning', () => {
    // A circle's length, its radius half a thickness more on one half, and a thickness on the other.
    const girth = (inner: number) => Math.PI * (inner + t) + (Math.PI * t) / 2;
    expect(girthOf(partOf(nets, 'base-wall'))).toBeCloseTo(girth(70), 9);
    expect(girthOf(partOf(nets, 'lid-wall'))).toBeCloseTo(girth(70 + 4 * t + 0.8), 9);
  });
  it('is as wide inside as asked, within 0.1 mm on each side, lap and all', () => {
    const wall = partOf(nets, 'base-wall');
    const radii = [...wallsOf(wall), panelIn(wall, 'lap')].flatMap(p => far(plan(p)));
    // The clear round stands half a thickness to one side of where the wall began.
    expect(Math.min(...radii) - t / 2).toBeGreaterThan(35 - t / 2 - 0.1);
    expect(Math.max(...radii) - t / 2).toBeLessThan(35 + t / 2 + 0.1);
  });
  it('is as high inside as asked, from its lining to the lid', () => {
    const heights = (id: string) =>
      standing(partOf(nets, id)).flatMap(p => p.panel.outline.segments.map(s => place(p, s.to)[2]));
    const floor = Math.max(...heights('base-lining')) + t / 2;
    expect(Math.max(...heights('base-wall')) - floor).toBeCloseTo(40, 9);
    expect(Math.min(...heights('lid-lining')) - t / 2 - floor).toBeCloseTo(40, 9);
  });
  it('has a lid that clears the base by its ease', () => {
    const outer =
      Math.max(...wallsOf(partOf(nets, 'base-wall')).flatMap(p => far(plan(p)))) + t / 2;
    const lid = partOf(nets, 'lid-wall');
    const inner = Math.min(...far(plan(panelIn(lid, 'lap')))) - t / 2;
    expect(inner - outer).toBeGreaterThan(0.4 - t / 2 - 0.02);
    expect(inner - outer).toBeLessThan(0.4 + t / 2 + 0.02);
  });
  it('has teeth side by side that leave each other room, as narrow as the curl asks', () => {
    const wall = partOf(build({ tooth: 20 }), 'base-wall');
    const feet = wall.hinges.filter(h => h.child.startsWith('tooth')).map(h => pathLength(h.along));
    expect(feet.reduce((a, b) => a + b)).toBeCloseTo(girthOf(wall), 9);
    // The arc over a straight foot of w mm is longer by w³ / 24 R² (series of 2 R sin (w / 2 R)).
    for (const w of feet) expect(w - 2 * 35 * Math.sin(w / 70)).toBeLessThan(0.05);
    expect(feet[0]!).toBeGreaterThan(9);
  });
});

// Cylinder: lateral area π D h, volume π D² h / 4 (elementary).
it('a drum without thickness has the surface and the volume of a cylinder', () => {
  const nets = drum.build(
    { inside: { length: 60, width: 60, height: 25 }, thickness: 0 },
    fillParams(drum.params, {}),
  );
  const wall = partOf(nets, 'base-wall');
  expect(signedArea(wall.panels[0]!.outline)).toBeCloseTo(Math.PI * 60 * 25, 6);
  const loop = plan(wallsOf(wall)[0]!, 4000);
  let twice = 0;
  loop.forEach((p, i) => {
    const q = loop[(i + 1) % loop.length]!;
    twice += p[0] * q[1] - p[1] * q[0];
  });
  // 4000 chords lose (2/3) (π / 4000)² of the area: 2.9 × 10⁻⁷ of it.
  expect((Math.abs(twice) / 2) * 25).toBeCloseTo((Math.PI * 60 * 60 * 25) / 4, 0);
});

// A square of side 2 r with a half circle on two of its sides: 4 r² + π r², 4 r + 2 π r (elementary).
describe('the heart of a square and two half circles', () => {
  const r = 20;
  const heart = { radius: r, apart: r / Math.SQRT2, tip: (3 * r) / Math.SQRT2 };
  it('has their area and length, and right angles in tip and cleft', () => {
    const path = heartPath(heart);
    expect(signedArea(path)).toBeCloseTo(4 * r * r + Math.PI * r * r, 9);
    expect(pathLength(path)).toBeCloseTo(4 * r + 2 * Math.PI * r, 9);
    const { half, cleft, sweep, straight } = heartParts(heart);
    expect(2 * half).toBeCloseTo(Math.PI / 2, 12);
    expect(cleft).toBeCloseTo(-Math.PI / 2, 12);
    expect(sweep).toBeCloseTo(Math.PI, 12);
    expect(straight).toBeCloseTo(2 * r, 9);
  });
  it('grows evenly', () => {
    const inner = heartPath(heart);
    const outer = heartPath(grown(heart, 1.2));
    // Points of sides and lobes; tip and cleft are further apart.
    for (const { to } of outer.segments.slice(0, 1))
      expect(distanceToPath(to, inner)).toBeCloseTo(1.2, 9);
    expect(heartParts(grown(heart, 1.2)).half).toBeCloseTo(Math.PI / 4, 12);
  });
  it('asks for a wall of its length when the paper has no thickness', () => {
    const inside = {
      length: 2 * r * (1 + Math.SQRT1_2),
      width: r * (1 + 3 * Math.SQRT1_2),
      height: 30,
    };
    const nets = heartBox.build(
      { inside, thickness: 0 },
      fillParams(heartBox.params, { lobes: Math.SQRT1_2 }),
    );
    const sides = wallsOf(partOf(nets, 'base-wall')).map(p => signedArea(p.panel.outline) / 30);
    expect(sides[0]! + sides[1]!).toBeCloseTo(4 * r + 2 * Math.PI * r, 6);
  });
});

describe.each([0, 0.3, 0.6])('a heart box of 80 × 74 mm in paper of %s mm', t => {
  const nets = heartBox.build(
    { inside: heartBox.example, thickness: t },
    fillParams(heartBox.params, {}),
  );
  const radius = 80 / (2 * 1.72);
  const clear = { radius, apart: 0.72 * radius, tip: 74 - radius };
  // The box's middle is the middle of the base's bounds; the heart's lobes lie on y = 0.
  const [base] = nets;
  const ys = standing(base!)[0]!;
  const lobes = place(ys, [0, 0])[1];
  const outline = transform(heartPath(clear), translation(0, lobes));
  it('has walls a thickness and a half outside the clear heart, and the lap half of one', () => {
    const wall = partOf(nets, 'base-wall');
    for (const p of wallsOf(wall)) {
      const off = plan(p).map(q => distanceToPath(q, outline));
      expect(Math.min(...off)).toBeGreaterThan(1.5 * t - 0.02);
    }
    // At the tip the lap is nearer to the other side.
    const tip = [0, lobes - clear.tip] as const;
    for (const q of plan(panelIn(wall, 'lap'), 50).filter(q => distance(q, tip) > 2)) {
      expect(Math.abs(distanceToPath(q, outline) - t / 2)).toBeLessThan(0.02);
    }
  });
});

it.each([
  [drum, { length: 70, width: 60, height: 40 }, {}, 'width: 60 is not possible'],
  [drum, drum.example, { lap: 59 }, 'a quarter of the round'],
  [drum, drum.example, { depth: 25 }, 'where the teeth run to a point'],
  [drum, drum.example, { lidHeight: 41 }, 'the height of the base'],
  [heartBox, { length: 80, width: 45, height: 30 }, {}, 'or the tip is too blunt for a heart'],
  [heartBox, { length: 80, width: 190, height: 30 }, {}, 'or the tip is too sharp to glue'],
  [heartBox, { length: 8, width: 7.4, height: 30 }, { lobes: 0.9 }, 'two loose lobes'],
] as const)('%#: refused', (style, inside, given, told) => {
  const make = () =>
    style.build({ inside, thickness: 0.3 }, fillParams(style.params as never, given) as never);
  expect(make).toThrow(ParamError);
  expect(make).toThrow(told);
});
