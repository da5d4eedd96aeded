/** Whether anything passes through anything while a part of a net folds. */
import { distanceToPath, flatten } from '../geom/index.js';
import type { Net, Panel, Spring } from '../model.js';
import { FOLD_FACET_MM, SPRING_RADIUS_MM } from '../units/tolerances.js';
import { faceOf, faceWithin } from './face.js';
import { type Facet, facetsOf } from './facets.js';
import {
  afterMove,
  type Move,
  onTheWay,
  type Progress,
  resting,
  type Tree,
  treeOf,
} from './motion.js';
import { isStraight, type Partwise, pose } from './pose.js';
import { type Hit, worstHit } from './through.js';

/** Moments of a move that are looked at; the last is its end. */
const MOMENTS = 20;
/** The end first, then ever finer between: what strikes is found early. */
const SHARES: readonly number[] = spread(MOMENTS);

/** Two panels that strike each other on the way. */
export interface Strike extends Hit {
  readonly a: string;
  readonly b: string;
  /** Share of the move that is done. */
  readonly share: number;
}

/** Curled panels on the way stand as facets this near to them, mm: where two of them cross is then
 *  measured on the curled papers themselves. */
const COARSE_MM = 0.1;

export interface Sweep {
  readonly strike?: Strike;
  readonly springs: readonly Spring[];
}

/** A net looked at once, for many moves. */
export interface Sweeper {
  readonly tree: Tree;
  sweep(from: Progress, move: Move): Sweep;
}

export function sweeperOf(net: Net): Sweeper {
  const tree = treeOf(net);
  const faces = net.panels.map(p => (p.bend ? faceWithin(p, COARSE_MM) : faceOf(p)));
  const gives = givesOf(tree);
  const lying = new Set(
    net.joins
      .filter(j => j.kind === 'glue' || j.kind === 'tuck')
      .flatMap(j => [`${j.a.panel} ${j.b.panel}`, `${j.b.panel} ${j.a.panel}`]),
  );

  const curved = (panel: string) => !isStraight(tree.above.get(panel)!.along);
  return {
    tree,
    sweep(from, move) {
      const before = resting(tree, from);
      const parts = partsOf(tree, before, onTheWay(tree, from, move, 0.5));
      const moved = faces.map(f => parts.get(f.panel.id) !== net.root);
      const still: readonly Shape[] = shapesAt(before, []);
      const snapping = new Set(move.panels.filter(p => tree.above.has(p) && curved(p)));
      const worst = new Map<string, number>();
      for (const share of SHARES) {
        const shapes = share === 1 ? shapesAt(resting(tree, afterMove(from, move))) : at(share);
        const strike = strikeOf(shapes, share);
        if (strike) return { strike, springs: [] };
      }
      return { springs: [...worst].map(([panel, by]) => ({ panel, by })) };

      function at(share: number): Shape[] {
        return shapesAt(onTheWay(tree, from, move, share));
      }

      /** What does not move is taken from `rest`. */
      function shapesAt(folding: Partwise, rest: readonly Shape[] = still): Shape[] {
        const placed = pose(net, folding);
        return faces.map((f, i) => {
          const stays = moved[i] ? undefined : rest[i];
          return stays ?? shapeOf(facetsOf(f, placed.get(f.panel.id)!, COARSE_MM));
        });
      }

      function strikeOf(shapes: readonly Shape[], share: number): Strike | undefined {
        for (let i = 0; i < shapes.length; i++) {
          for (let j = i + 1; j < shapes.length; j++) {
            const [p, q] = [shapes[i]!, shapes[j]!];
            const [a, b] = [faces[i]!.panel.id, faces[j]!.panel.id];
            if (parts.get(a) === parts.get(b) || apart(p, q, net.thickness)) continue;
            if (share < 1 && (hangs(a, b) || hangs(b, a))) continue;
            const hit = worstHit(p.facets, q.facets, net.thickness);
            if (!hit || excused(a, b, hit, share)) continue;
            return { a, b, share, ...hit };
          }
        }
        return undefined;
      }

      /** What snaps over a curved crease is not looked at beside the panel it hangs on. */
      function hangs(a: string, b: string): boolean {
        return snapping.has(a) && tree.above.get(a)!.parent === b;
      }

      function excused(a: string, b: string, hit: Hit, share: number): boolean {
        if (lying.has(`${a} ${b}`) && (share === 1 || hit.kind === 'crowded')) return true;
        if (share === 1) return false;
        const [giveA, giveB] = [gives.get(a) ?? 0, gives.get(b) ?? 0];
        const by = hit.kind === 'through' ? hit.measured : hit.allowed - hit.measured;
        const panel = giveB > giveA ? b : a;
        if (!(by <= Math.max(giveA, giveB))) return false;
        worst.set(panel, Math.max(worst.get(panel) ?? 0, by));
        return true;
      }
    },
  };
}

interface Shape {
  readonly facets: readonly Facet[];
  readonly low: readonly [number, number, number];
  readonly high: readonly [number, number, number];
}

function shapeOf(facets: readonly Facet[]): Shape {
  const edge = (i: 0 | 1 | 2, pick: (...v: number[]) => number, of: 'low' | 'high') =>
    pick(...facets.map(f => f[of][i]));
  return {
    facets,
    low: [edge(0, Math.min, 'low'), edge(1, Math.min, 'low'), edge(2, Math.min, 'low')],
    high: [edge(0, Math.max, 'high'), edge(1, Math.max, 'high'), edge(2, Math.max, 'high')],
  };
}

function apart(a: Shape, b: Shape, by: number): boolean {
  for (const i of [0, 1, 2] as const) {
    if (a.low[i] > b.high[i] + by || b.low[i] > a.high[i] + by) return true;
  }
  return false;
}

/** Panels that keep their place to each other have one name: that of the first of them. */
function partsOf(tree: Tree, before: Partwise, halfway: Partwise): ReadonlyMap<string, string> {
  const curls = (panel: Panel) =>
    panel.bend !== undefined && before.curl(panel) !== halfway.curl(panel);
  const { root } = tree.net;
  const parts = new Map([[root, curls(tree.panels.get(root)!) ? `${root}, curling` : root]]);
  for (const h of tree.order) {
    const [parent, child] = [tree.panels.get(h.parent)!, tree.panels.get(h.child)!];
    const loose = before.hinge(h) !== halfway.hinge(h) || curls(parent) || curls(child);
    parts.set(h.child, loose ? h.child : parts.get(h.parent)!);
  }
  return parts;
}

/**
 * How far a flap can be bent aside, mm, by its panel: those that are tucked in, lock, or snap over a
 * curved crease, and on which nothing hangs. The free end of a flap of depth d bent to a radius r moves by d²/2r.
 */
function givesOf({ net, order, above }: Tree): ReadonlyMap<string, number> {
  const parents = new Set(order.map(h => h.parent));
  const sprung = [
    ...net.joins.flatMap(j =>
      j.kind === 'tuck' ? [j.a.panel] : j.kind === 'lock' ? [j.a.panel, j.b.panel] : [],
    ),
    ...order.filter(h => !isStraight(h.along)).map(h => h.child),
  ];
  const gives = new Map<string, number>();
  for (const id of sprung) {
    const hinge = above.get(id);
    if (!hinge || parents.has(id)) continue;
    const { outline } = net.panels.find(p => p.id === id)!;
    const depth = Math.max(
      ...flatten(outline, FOLD_FACET_MM).map(p => distanceToPath(p, hinge.along)),
    );
    gives.set(id, Math.min((depth * depth) / (2 * SPRING_RADIUS_MM), depth / 4));
  }
  return gives;
}

/** k/n for k from 1 to n: n/n, then by halves of what is left. */
function spread(n: number): number[] {
  const out = [n];
  for (let step = n / 2; out.length < n; step /= 2) {
    for (let k = step; k < n; k += step) {
      const whole = Math.round(k);
      if (whole > 0 && !out.includes(whole)) out.push(whole);
    }
  }
  return out.map(k => k / n);
}
