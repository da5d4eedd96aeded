/** Treats in the box as points and rings: what their silhouettes and their lines are drawn from. */
import type { Point3 } from '../fold/space.js';
import type { PreviewTreat } from '../preview-model.js';

export type Thing = PreviewTreat['things'][number];

/** Points round a circle, and rows of them on a ball. */
const ROUND = 32;
const ROWS = 12;
/** Levels of a pouch from its seam to the middle of its side, as shares of a quarter turn. */
const LEVELS = [0, 0.2, 0.4, 0.6, 0.8, 1] as const;
/** Those of them that are drawn. */
const LINES = [0, 0.6] as const;
/** How square its seam is, and how its side swells: as pouches are drawn in the pictures of treats. */
const SQUARE = 0.35;
const SWELL = 0.6;

const circle = (points: number) =>
  Array.from({ length: points }, (_, i) => {
    const t = (2 * Math.PI * (i + 0.5)) / points;
    return [Math.cos(t), Math.sin(t)] as const;
  });

/** Points whose hull is its silhouette. */
export function rimOf(thing: Thing): Point3[] {
  const { at, size, shape } = thing;
  if (shape === 'pouch')
    return LEVELS.flatMap(l => [pouchRing(thing, l, 1), pouchRing(thing, l, -1)].flat());
  if (shape !== 'ball') return ringsOf(thing).flat();
  return Array.from({ length: ROWS }, (_, i) => (Math.PI * (i + 0.5)) / ROWS).flatMap(t =>
    circle(ROUND).map(
      ([c, s]): Point3 => [
        at[0] + (size[0] / 2) * Math.sin(t) * c,
        at[1] + (size[1] / 2) * Math.sin(t) * s,
        at[2] + (size[2] / 2) * Math.cos(t),
      ],
    ),
  );
}

/** The two ends of a block or a cylinder; a pouch's seam and a line round each of its sides. */
export function ringsOf(thing: Thing): Point3[][] {
  const { at, size, shape, axis } = thing;
  if (shape === 'ball') return [];
  if (shape === 'pouch') {
    return LINES.flatMap(l => (l === 0 ? [1] : [1, -1]).map(side => pouchRing(thing, l, side)));
  }
  const along = shape === 'cylinder' ? axis : 2;
  const [u, v] = [(along + 1) % 3, (along + 2) % 3];
  const corners: readonly (readonly [number, number])[] =
    shape === 'block'
      ? [
          [-1, -1],
          [1, -1],
          [1, 1],
          [-1, 1],
        ]
      : circle(ROUND);
  return [-1, 1].map(end =>
    corners.map(([a, b]): Point3 => {
      const p: [number, number, number] = [...at];
      p[along]! += (end * size[along]!) / 2;
      p[u]! += (a * size[u]!) / 2;
      p[v]! += (b * size[v]!) / 2;
      return p;
    }),
  );
}

/** Round a pouch: level 0 is its seam, a rounded rectangle, 1 the middle of the side. */
function pouchRing({ at, size }: Thing, level: number, side: number): Point3[] {
  const thin = size.indexOf(Math.min(...size));
  const [u, v] = [(thin + 1) % 3, (thin + 2) % 3];
  const quarter = (level * Math.PI) / 2;
  const share = Math.max(0, Math.cos(quarter)) ** SWELL;
  return circle(ROUND).map(([c, s]): Point3 => {
    const p: [number, number, number] = [...at];
    p[u]! += share * (size[u]! / 2) * Math.sign(c) * Math.abs(c) ** SQUARE;
    p[v]! += share * (size[v]! / 2) * Math.sign(s) * Math.abs(s) ** SQUARE;
    p[thin]! += side * Math.sin(quarter) * (size[thin]! / 2);
    return p;
  });
}

/** The lines of the clear space: a box's edges, or a cylinder's two ends and four of its sides. */
export function spaceLines([l, w, h]: Point3, round: boolean): Point3[][] {
  const foot: (readonly [number, number])[] = round
    ? circle(ROUND).map(([c, s]) => [(l / 2) * (1 + c), (w / 2) * (1 + s)])
    : [
        [0, 0],
        [l, 0],
        [l, w],
        [0, w],
      ];
  const ring = (z: number) => [...foot, foot[0]!].map(([x, y]): Point3 => [x, y, z]);
  const sides = foot.filter((_, i) => i % (foot.length / 4) === 0);
  return [
    ring(0),
    ring(h),
    ...sides.map(([x, y]): Point3[] => [
      [x, y, 0],
      [x, y, h],
    ]),
  ];
}
