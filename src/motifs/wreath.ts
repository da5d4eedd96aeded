/** A wreath of two rings of leaves, with berries. Drawn on a ring of radius 50. */
import { defineMotif } from '../contracts.js';
import { arcTo, circle, clockwise, openPath, polar } from '../geom/index.js';
import type { Layer, Path, Segment } from '../model.js';
import { figure, scored } from './figure.js';
import { layer, mirrored, sizeParam } from './layers.js';
import { type LeafForm, leafFrom } from './leaf-edge.js';
import { flipped } from './shapes.js';

const RING = 50;
/** Half the width of the ring that holds the leaves. */
const BAND = 2.2;
/** Half of a leaf's foot along the ring. */
const FOOT = 3;

/** One edge of a wreath, with leaves on each half that run from its bottom up to its top: the outer
 *  one (`side` 1) or the inner (−1). Leaves stand at `stands`, as parts of a half turn. */
function leafyEdge(
  side: 1 | -1,
  stands: readonly number[],
  lean: number,
  leaf: LeafForm,
): { readonly edge: Path; readonly ribs: readonly Path[] } {
  const r = RING + side * BAND;
  const on = (t: number) => polar(r, Math.PI * (t - 0.5));
  const foot = FOOT / r / Math.PI;
  const segments: Segment[] = [];
  const ribs: Path[] = [];
  let at = 0;
  for (const t of stands) {
    const [a, b] = [on(t - foot), on(t + foot)];
    segments.push(arcTo(a, Math.PI * (t - foot - at)));
    const grown = leafFrom(a, b, Math.PI * t - side * lean, leaf);
    segments.push(...grown.segments);
    ribs.push(grown.rib, flipped(grown.rib));
    at = t + foot;
  }
  segments.push(arcTo([0, r], Math.PI * (1 - at)));
  return { edge: mirrored(openPath([0, -r], segments)), ribs };
}

/** Where leaves stand, of `count` on each half; the last ones end beside the axis, since crossed
 *  leaves would be one piece. `between` puts them between those. */
function standsOf(side: 1 | -1, count: number, long: number, lean: number, between: boolean) {
  const tip = RING + side * (BAND + long * Math.sin(lean));
  const end = 1 - (Math.asin((long * Math.cos(lean)) / tip) + 0.04) / Math.PI;
  const first = 0.055;
  const pitch = (end - first) / (count - 1);
  const shift = between ? 0.5 : 0;
  return Array.from({ length: between ? count - 1 : count }, (_, i) => first + pitch * (i + shift));
}

/** A ring of paper leaves. */
function garland(id: string, paper: string, count: number, between: boolean): Layer {
  // Fewer leaves are no longer than eight, or they would cross each other at the bottom.
  const long = ((between ? 1.06 : 1) * Math.PI * RING) / Math.max(count, 8);
  const edge = (side: 1 | -1, length: number, lean: number) =>
    leafyEdge(side, standsOf(side, count, length, lean, between), lean, {
      long: length,
      wide: 0.42 * length,
      tip: 'pointed',
    });
  const outside = edge(1, long, 0.72);
  const inside = edge(-1, 0.7 * long, 0.76);
  return layer(id, outside.edge, {
    holes: [clockwise(inside.edge)],
    paper,
    strokes: [...outside.ribs, ...inside.ribs].map(scored),
  });
}

/** Three berries that touch, about a point of the ring. */
const cluster = (k: number, angle: number): Layer[] =>
  [0, 1, 2].map(i => {
    const at = polar(4.6, angle + (i * 2 * Math.PI) / 3, polar(RING, angle));
    return layer(`berry-${k}-${i + 1}`, circle(at, 3.8), { paper: 'berry', lift: 1 });
  });

export const wreath = defineMotif({
  id: 'wreath',
  family: 'greenery',
  summary: 'a wreath of leaves in two rings, with clusters of berries',
  params: {
    size: { ...sizeParam(90), least: 60 },
    leaves: { kind: 'count', default: 9, least: 6, most: 11, help: 'leaf pairs on each half' },
    rings: {
      kind: 'count',
      default: 2,
      least: 1,
      most: 2,
      help: 'rings of leaves on each other, of two papers',
    },
    berries: { kind: 'count', default: 5, least: 0, most: 7, help: 'clusters of three berries' },
  },
  build({ size, leaves, rings, berries }) {
    return figure(
      [
        ...(rings > 1 ? [garland('back', 'back', leaves, true)] : []),
        garland('front', 'main', leaves, false),
        ...Array.from({ length: berries }, (_, k) =>
          cluster(k + 1, -Math.PI / 2 + (k * 2 * Math.PI) / berries),
        ).flat(),
      ],
      size,
    );
  },
});
