/**
 * The scores by which a bag is pressed flat, and the way that each folds. Here it is pressed flat: its facets
 * are mirrored over, crease by crease, and stacked from its back up. A crease that leaves a facet whose inner
 * face looks up is a valley of that face, for what follows comes to lie on it; otherwise it is a mountain.
 */
import { describe, expect, it } from 'vitest';
import {
  type Affine,
  apply,
  bounds,
  compose,
  distance,
  lerp,
  type Point,
  steps,
} from '../../src/geom/index.js';
import type { FoldWay, Net, Panel } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { gussetBag } from '../../src/styles/gusset-bag.js';

const THICK = 0.3;
const build = (): Net =>
  gussetBag.build(
    { inside: gussetBag.example, thickness: THICK },
    fillParams(gussetBag.params, {}),
  )[0]!;

/** The place of each facet in the stack. */
const LEVELS = ['back', 'rear half', 'fore half', 'front', 'strip', 'ear', 'foot', 'base'] as const;
type Facet = (typeof LEVELS)[number];
const faceUp = (facet: Facet) => LEVELS.indexOf(facet) % 2 === 0;

/** The facet at a point of a panel in the flat net, whose walls stand near y = 0. The gusset meets the back
 *  along `rear`, and folds up to half of its own depth above its foot. */
function facetAt(panel: Panel, [x, y]: Point, deep: number, rear: 'minX' | 'maxX'): Facet {
  if (panel.id === 'back' || panel.id === 'base') return panel.id;
  if (panel.id === 'front') return y > deep / 2 ? 'front' : 'strip';
  const b = bounds(panel.outline);
  const fromBack = rear === 'minX' ? x - b.minX : b.maxX - x;
  const fromFront = b.maxX - b.minX - fromBack;
  if (y < Math.min(fromBack, fromFront)) return 'foot';
  if (fromBack < fromFront) return 'rear half';
  return y > deep / 2 ? 'fore half' : 'ear';
}

interface Crease {
  readonly facets: readonly [Facet, Facet];
  readonly ends: readonly [Point, Point];
  readonly way: FoldWay;
}

/** The creases of the tube's half with the side wall `side`, hinges and scores, with what lies beside them. */
function creasesOf(net: Net, side: 'right' | 'left'): Crease[] {
  const panel = (id: string) => net.panels.find(p => p.id === id)!;
  const wall = bounds(panel(side).outline);
  const deep = bounds(panel('base').outline).maxY - bounds(panel('base').outline).minY;
  const rear = side === 'right' ? 'minX' : 'maxX';
  expect(Math.abs(wall.minY)).toBeLessThanOrEqual(THICK + 1e-9);
  const beside = (on: readonly [Panel, Panel], from: Point, to: Point) => {
    const middle = lerp(from, to, 0.5);
    const [nx, ny] = [
      (to[1] - from[1]) / distance(from, to),
      (from[0] - to[0]) / distance(from, to),
    ];
    // Left of a hinge lies its parent, on which it runs counter-clockwise; 2 mm are clear of the thickness.
    return [-2, 2].map((d, i) =>
      facetAt(on[i]!, [middle[0] + d * nx, middle[1] + d * ny], deep, rear),
    ) as [Facet, Facet];
  };
  const scores = ['front', side].flatMap(id =>
    panel(id).strokes.flatMap(s =>
      steps(s.path).map(({ from, segment: { to } }): Crease => {
        const facets = beside([panel(id), panel(id)], from, to);
        return { facets, ends: [from, to], way: s.fold! };
      }),
    ),
  );
  // A corner is creased twice: above the strip and along it.
  const hinges = net.hinges
    .filter(h => ['back', 'front', side].includes(h.parent))
    .filter(h => ['front', side, 'base'].includes(h.child))
    .flatMap(h => {
      const { start } = h.along;
      const { to } = h.along.segments[0]!;
      const up = deep / 2;
      const cut = start[0] === to[0] && h.child !== 'base';
      const at: Point = [start[0], up];
      return (cut ? [[start, at] as const, [at, to] as const] : [[start, to] as const]).map(
        (ends): Crease => ({
          facets: beside([panel(h.parent), panel(h.child)], ...ends),
          ends,
          way: h.angle > 0 ? 'valley' : 'mountain',
        }),
      );
    });
  return [...scores, ...hinges];
}

function mirror([[x, y], b]: Crease['ends']): Affine {
  const angle = 2 * Math.atan2(b[1] - y, b[0] - x);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [c, s, s, -c, x - c * x - s * y, y - s * x + c * y];
}

/** Where each facet comes to lie, from the front on, whose inner face looks down. */
function pressed(creases: readonly Crease[]): Map<Facet, Affine> {
  const lies = new Map<Facet, Affine>([['front', [-1, 0, 0, 1, 0, 0]]]);
  for (let grown = true; grown; ) {
    grown = false;
    for (const { facets, ends } of creases) {
      for (const [known, next] of [facets, [facets[1], facets[0]] as const]) {
        if (!lies.has(known) || lies.has(next)) continue;
        lies.set(next, compose(lies.get(known)!, mirror(ends)));
        grown = true;
      }
    }
  }
  return lies;
}

describe.each(['right', 'left'] as const)('a bag pressed flat, %s', side => {
  const creases = creasesOf(build(), side);
  const between = creases.filter(
    ({ facets: [a, b] }) => a !== b && (side === 'right' || ![a, b].includes('base')),
  );

  it('has its facets where they meet along every crease, each with the face up that the stack says', () => {
    const lies = pressed(between);
    // The left wall is glued to the back, and hangs on the front alone.
    const hanging = LEVELS.filter(l => side === 'right' || (l !== 'back' && l !== 'base'));
    expect([...lies.keys()].sort()).toEqual([...hanging].sort());
    for (const [facet, [a, b, c, d]] of lies) expect(a * d - b * c > 0, facet).toBe(faceUp(facet));
    for (const { facets, ends } of between) {
      for (const p of ends) {
        const [one, other] = facets.map(f => apply(lies.get(f)!, p));
        expect(distance(one!, other!), facets.join(' | ')).toBeLessThan(4 * THICK);
      }
    }
  });
  it('folds each score the way that the stack asks for', () => {
    const found = between.map(({ facets, way }) => {
      const [lower] = [...facets].sort((f, g) => LEVELS.indexOf(f) - LEVELS.indexOf(g));
      return { facets, way, asked: faceUp(lower!) ? 'valley' : 'mountain' };
    });
    expect(found.length).toBeGreaterThan(6);
    expect(found.filter(f => f.way !== f.asked)).toEqual([]);
  });
  it('folds the cuff with the wall that it is glued to, so the other way of its own face', () => {
    const cuff = build().panels.find(p => p.id === `${side}-cuff`)!;
    expect(cuff.strokes.map(s => s.fold)).toEqual(['valley']);
    const middle = between.find(
      c => c.facets.includes('rear half') && c.facets.includes('fore half'),
    );
    expect(middle!.way).toBe('mountain');
  });
});
