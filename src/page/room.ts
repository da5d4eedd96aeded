/** Where the clear space of a closed box lies, measured on the inner faces of its paper. */
import { isOn } from '../fold/face.js';
import {
  add3,
  after,
  dot3,
  moved,
  movedBack,
  type Point3,
  type Rigid,
  STILL,
  scale3,
  turned,
  undone,
} from '../fold/space.js';
import type { Stage, Standee } from './stage.js';

/** Of the panels: they hold the treat; inserts lie beside it. */
const HOLDS = (role: string) => role !== 'insert' && role !== 'handle';
const WALLS = (role: string) => ['base', 'wall', 'lid', 'roof'].includes(role);
/** Where on the clear space's sides it is measured: shares of its sides and of its height. */
const ACROSS = [-0.49, 0, 0.49] as const;
const HEIGHTS = [0.05, 0.5, 0.9] as const;
/** A space that reaches less into the paper is where it should be, mm. */
const NEAR_MM = 0.1;
/** Steps of the search for a better place: halves, from a quarter of the longer side. */
const HALVINGS = 10;

interface Hit {
  readonly far: number;
  readonly part: number;
}
type Cast = (from: Point3, way: Point3) => Hit | undefined;

export interface ClearSpace {
  /** The part that its floor belongs to. */
  readonly part: number;
  /** From its lower left front corner and its sides to the table, closed. */
  readonly frame: Rigid;
}

/** `inside` is the clear space's length, width and height, `within` the box's own inside. */
export function clearSpace(stage: Stage, inside: Point3, within = inside): ClearSpace {
  const end = stage.at(stage.length);
  const cast = caster(end);
  const corners = end.flatMap(s =>
    s.facets
      .filter(f => WALLS(f.face.panel.role))
      .flatMap(f => f.loops[0]!.map(p => moved(s.world, p))),
  );
  const [x, y, z] = ([0, 1, 2] as const).map(i => {
    const values = corners.map(p => p[i]);
    return [Math.min(...values), Math.max(...values)] as const;
  }) as [readonly [number, number], readonly [number, number], readonly [number, number]];
  const [l, w, h] = inside;
  const middle: Point3 = [(x[0] + x[1]) / 2, (y[0] + y[1]) / 2, (z[0] + z[1]) / 2];
  const along = Math.abs(x[1] - x[0] - within[0]) + Math.abs(y[1] - y[0] - within[1]);
  const across = Math.abs(x[1] - x[0] - within[1]) + Math.abs(y[1] - y[0] - within[0]);
  const [a, b] = along <= across ? [l, w] : [w, l];
  const floorAt = (at: Point3): Hit | undefined => {
    const below = ACROSS.flatMap(i =>
      ACROSS.flatMap(j => cast([at[0] + i * a, at[1] + j * b, at[2]], [0, 0, -1]) ?? []),
    );
    return below.length > 0 ? below.reduce((p, q) => (q.far < p.far ? q : p)) : undefined;
  };
  const levels = (floor: number) => HEIGHTS.map(k => floor + k * h);
  let floor = floorAt(middle);
  let low = floor ? middle[2] - floor.far : z[0];
  const first = centred(cast, middle, [a, b], levels(low));
  const best = better(cast, first, [a, b], levels(low));
  floor = floorAt([best[0], best[1], middle[2]]) ?? floor;
  low = floor ? middle[2] - floor.far : low;
  const [cx, cy] = best;
  const turn: Rigid =
    along <= across
      ? { ...STILL, at: [cx - l / 2, cy - w / 2, low] }
      : { ...STILL, x: [0, 1, 0], y: [-1, 0, 0], at: [cx + w / 2, cy - l / 2, low] };
  return { part: floor?.part ?? 0, frame: turn };
}

/** Where it goes with the part that holds it; `end` is the part in the closed box. */
export const carried = ({ frame }: ClearSpace, end: Standee, now: Standee): Rigid =>
  after(after(now.world, undone(end.world)), frame);

/** To the nearest inner face on a line, half a thickness before the paper's middle. */
function caster(end: readonly Standee[]): Cast {
  return (from, way) => {
    let nearest: Hit | undefined;
    end.forEach(({ net, facets, world }, part) => {
      const own = movedBack(world, from);
      const go = turned(undone(world), way);
      for (const { face, normal, offset, flat } of facets) {
        if (!HOLDS(face.panel.role)) continue;
        const steep = dot3(normal, go);
        if (!(Math.abs(steep) > 1e-6)) continue;
        const t = (offset - dot3(normal, own)) / steep;
        const far = t - net.thickness / 2 / Math.abs(steep);
        if (!(t > 0) || (nearest && far >= nearest.far)) continue;
        if (isOn(face, flat(add3(own, scale3(go, t))))) nearest = { far, part };
      }
    });
    return nearest;
  };
}

type Sides = readonly [number, number];

/** What is free on each side of a rectangle about a middle: −x, +x, −y, +y, mm; negative in the paper. */
function free(cast: Cast, [cx, cy]: Sides, [a, b]: Sides, levels: readonly number[]): number[] {
  const least = (way: Point3, half: number, from: (k: number) => Sides) =>
    Math.min(
      ...levels.flatMap(z =>
        ACROSS.flatMap(k => {
          const hit = cast([...from(k), z], way);
          return hit ? [hit.far - half] : [];
        }),
      ),
    );
  const [onX, onY] = [
    (k: number): Sides => [cx, cy + k * b],
    (k: number): Sides => [cx + k * a, cy],
  ];
  return [
    least([-1, 0, 0], a / 2, onX),
    least([1, 0, 0], a / 2, onX),
    least([0, -1, 0], b / 2, onY),
    least([0, 1, 0], b / 2, onY),
  ];
}

/** As far from the walls on either side; where there is none on a side, in the middle. */
function centred(cast: Cast, [cx, cy]: Point3, sides: Sides, levels: readonly number[]): Sides {
  const [left, right, front, back] = free(cast, [cx, cy], sides, levels) as [
    number,
    number,
    number,
    number,
  ];
  const shift = (p: number, q: number) => (Number.isFinite(q - p) ? (q - p) / 2 : 0);
  return [cx + shift(left, right), cy + shift(front, back)];
}

/** Out of the paper, where it reaches into it: in a heart the middle is no place for a block. */
function better(cast: Cast, from: Sides, sides: Sides, levels: readonly number[]): Sides {
  const worth = (at: Sides) => Math.min(...free(cast, at, sides, levels));
  let [best, most] = [from, worth(from)];
  let step = Math.max(...sides) / 4;
  for (let i = 0; i < HALVINGS && most < -NEAR_MM; step /= 2, i++) {
    for (const [dx, dy] of [
      [step, 0],
      [-step, 0],
      [0, step],
      [0, -step],
    ] as const) {
      const at: Sides = [best[0] + dx, best[1] + dy];
      const value = worth(at);
      if (value > most) [best, most] = [at, value];
    }
  }
  return best;
}
