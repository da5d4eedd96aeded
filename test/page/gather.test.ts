/** Parts of a box come together without passing through each other, tried on the polygons of the stage. */
import { describe, expect, it } from 'vitest';
import { proveFold } from '../../src/fold/assembly.js';
import { gathering } from '../../src/fold/gather.js';
import { moved, type Point3 } from '../../src/fold/space.js';
import { loopNormal } from '../../src/fold/view.js';
import type { Gathering, Net } from '../../src/model.js';
import { Stage } from '../../src/page/stage.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';

const dot = (a: Point3, b: Point3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
/** Crossings nearer than this to an end of the edge are touches: paper, play and strips of curls, mm. */
const TOUCH_MM = 1.5;
const RIM_MM = 0.5;

type Polygon = readonly Point3[];

function pierced(p: Point3, q: Point3, polygon: Polygon): boolean {
  const n = loopNormal(polygon);
  const [hp, hq] = [p, q].map(v => dot(n, v) - dot(n, polygon[0]!)) as [number, number];
  if (hp * hq >= 0 || Math.min(Math.abs(hp), Math.abs(hq)) < TOUCH_MM) return false;
  const k = hp / (hp - hq);
  const at = p.map((v, i) => v + (q[i]! - v) * k) as unknown as Point3;
  // Seen along the axis that the plane faces most.
  const drop = [0, 1, 2].reduce((a, b) => (Math.abs(n[b]!) > Math.abs(n[a]!) ? b : a));
  const [u, v] = [0, 1, 2].filter(i => i !== drop) as [number, number];
  let odd = false;
  let rim = Number.POSITIVE_INFINITY;
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length]!;
    const [dx, dy] = [b[u]! - a[u]!, b[v]! - a[v]!];
    const t = ((at[u]! - a[u]!) * dx + (at[v]! - a[v]!) * dy) / (dx * dx + dy * dy || 1);
    const s = Math.min(1, Math.max(0, t));
    rim = Math.min(rim, Math.hypot(at[u]! - a[u]! - s * dx, at[v]! - a[v]! - s * dy));
    if (a[v]! > at[v]! === b[v]! > at[v]!) return;
    if (at[u]! < a[u]! + ((at[v]! - a[v]!) * dx) / dy) odd = !odd;
  });
  return odd && rim > RIM_MM;
}

/** Lines over a polygon: its sides, and from the middle of a convex one to its corners. */
function linesOf(polygon: Polygon): [Point3, Point3][] {
  const mean = [0, 1, 2].map(i => polygon.reduce((s, p) => s + p[i]!, 0) / polygon.length);
  const sides = polygon.map((p, i): [Point3, Point3] => [p, polygon[(i + 1) % polygon.length]!]);
  const rays = polygon.map((p): [Point3, Point3] => [mean as unknown as Point3, p]);
  return polygon.length === 4 ? [...sides, ...rays] : sides;
}

const netsOf = (id: string): readonly Net[] => {
  const style = STYLES.find(s => s.id === id)!;
  return style.build({ inside: style.example, thickness: 0.3 }, fillParams(style.params, {}));
};
function stageOf(nets: readonly Net[], gathered: readonly Gathering[]) {
  return new Stage({
    nets: nets.map(net => {
      const { steps } = proveFold(net);
      return { net, steps, told: steps.map(s => `step ${s.step}`) };
    }),
    placing: Object.fromEntries(nets.slice(1).map(n => [n.id, 'there'])),
    gathering: gathered,
  });
}

/** The moments at which a part that is carried goes through another. */
function strikes(stage: Stage): string[] {
  const first = stage.phases.findIndex(p => p.kind === 'place');
  const out: string[] = [];
  for (let phase = first; phase < stage.length; phase++) {
    for (const share of [0.1, 0.3, 0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95]) {
      const stood = stage
        .at(phase + share)
        .map(({ facets, world }) => facets.map(f => f.loops[0]!.map(p => moved(world, p))));
      const before = stage.at(phase);
      const goes = stage
        .at(phase + share)
        .map(({ world }, i) =>
          world.at.some((v, k) => Math.abs(v - before[i]!.world.at[k]!) > 1e-6),
        );
      stood.forEach((a, i) => {
        stood.forEach((b, k) => {
          if (i === k || goes[i] === goes[k]) return;
          const through = a.some(p => linesOf(p).some(([s, e]) => b.some(g => pierced(s, e, g))));
          if (through) out.push(`${stage.phases[phase]!.part} at ${share}: ${i} through ${k}`);
        });
      });
    }
  }
  return out;
}

describe.each(['lid-and-base', 'sleeve-and-tray', 'four-wall-burst', 'drum', 'heart-box'])(
  'the parts of %s',
  id => {
    const nets = netsOf(id);
    const moves = gathering(nets);

    it('come together without passing through each other', () => {
      expect(strikes(stageOf(nets, moves))).toEqual([]);
    });

    it('are all moved, what is glued first', () => {
      expect(
        moves
          .filter(m => !m.onto)
          .flatMap(m => m.nets)
          .sort(),
      ).toEqual(nets.map(n => n.id).sort());
      const seated = nets.filter(n => n.seats).map(n => n.id);
      expect(moves.flatMap(m => (m.onto ? m.nets : [])).sort()).toEqual(seated.sort());
      const last = moves.findLastIndex(m => m.onto);
      expect(moves.slice(0, last + 1).every(m => m.onto)).toBe(true);
    });
  },
);

it('slides a sleeve on from its end, since from above it would go through the tray', () => {
  const nets = netsOf('sleeve-and-tray');
  const moves = gathering(nets);
  const sleeve = moves.find(m => m.nets[0] === 'sleeve')!;
  expect([Math.abs(sleeve.way[0]), sleeve.way[1], sleeve.way[2]]).toEqual([1, 0, 0]);
  const dropped = moves.map((m): Gathering => ({ ...m, way: [0, 0, 1] }));
  expect(strikes(stageOf(nets, dropped)).length).toBeGreaterThan(0);
});

it('glues the wall to a lid before it turns both over and puts them on', () => {
  const nets = netsOf('drum');
  const stage = stageOf(nets, gathering(nets));
  const told = stage.phases.filter(p => p.kind === 'place').map(p => nets[p.part]!.id);
  expect(told.indexOf('lid')).toBe(told.length - 1);
  const glued = stage.phases.findIndex(p => p.kind === 'place' && nets[p.part]!.id === 'lid-wall');
  const [disc, wall] = ['lid', 'lid-wall'].map(
    id => stage.at(glued + 1)[nets.findIndex(n => n.id === id)]!,
  );
  // The lid lies on its back: its inside looks up, and its wall stands on it.
  expect(disc!.world.z[2]).toBeCloseTo(1, 9);
  const heights = wall!.facets.flatMap(f => f.loops[0]!.map(p => moved(wall!.world, p)[2]));
  expect(Math.min(...heights)).toBeGreaterThan(0);
  expect(stage.at(stage.length)[nets.findIndex(n => n.id === 'lid')]!.world.z[2]).toBeCloseTo(
    -1,
    9,
  );
});
