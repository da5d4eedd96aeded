/** What lies in the box, as seen through it: the things, and the room that is kept for them. */
import { moved, type Point3, type Rigid } from '../../fold/space.js';
import { project, type ViewPoint } from '../../fold/view.js';
import { convexHull } from '../../geom/index.js';
import type { PreviewTreat } from '../../preview-model.js';
import type { Frame } from './paint.js';
import { type Px, trace } from './shade.js';

const ROUND = 28;
type Thing = PreviewTreat['things'][number];

/** `room` takes the lower left front corner of the clear space, and its sides, to the table. */
export function paintGhost(
  ctx: CanvasRenderingContext2D,
  { inside, things }: PreviewTreat,
  room: Rigid,
  view: ViewPoint,
  frame: Frame,
  dpr: number,
  ink: string,
): void {
  ctx.setTransform(1, 0, 0, 1, 0, 0);
  const see = (p: Point3): Px => {
    const [u, v] = project(moved(room, p), view);
    return [frame.x + u * frame.k, frame.y - v * frame.k];
  };
  const depth = ({ at }: Thing) => {
    const [x, y, z] = moved(room, at);
    const { azimuth: a, elevation: e } = view;
    return Math.cos(e) * (Math.cos(a) * x + Math.sin(a) * y) + Math.sin(e) * z;
  };
  ctx.lineJoin = 'round';
  for (const thing of [...things].sort((a, b) => depth(a) - depth(b))) {
    ctx.beginPath();
    trace(ctx, convexHull(rimOf(thing).map(see)));
    ctx.globalAlpha = 0.3;
    ctx.fillStyle = ink;
    ctx.fill();
    ctx.globalAlpha = 0.85;
    ctx.strokeStyle = ink;
    ctx.lineWidth = 1.2 * dpr;
    ctx.stroke();
    ctx.beginPath();
    for (const ring of ringsOf(thing)) trace(ctx, ring.map(see));
    ctx.globalAlpha = 0.4;
    ctx.lineWidth = 0.9 * dpr;
    ctx.stroke();
  }
  ctx.globalAlpha = 0.8;
  ctx.strokeStyle = ink;
  ctx.lineWidth = 1.1 * dpr;
  ctx.setLineDash([4 * dpr, 3.5 * dpr]);
  ctx.beginPath();
  for (const [p, q] of boxEdges(inside)) {
    const [a, b] = [see(p), see(q)];
    ctx.moveTo(a[0], a[1]);
    ctx.lineTo(b[0], b[1]);
  }
  ctx.stroke();
  ctx.setLineDash([]);
  ctx.globalAlpha = 1;
}

function boxEdges([l, w, h]: Point3): [Point3, Point3][] {
  const ends = [0, 1] as const;
  return ends.flatMap(i =>
    ends.flatMap((j): [Point3, Point3][] => [
      [
        [0, i * w, j * h],
        [l, i * w, j * h],
      ],
      [
        [i * l, 0, j * h],
        [i * l, w, j * h],
      ],
      [
        [i * l, j * w, 0],
        [i * l, j * w, h],
      ],
    ]),
  );
}

/** Points whose hull is its silhouette. */
function rimOf(thing: Thing): Point3[] {
  const { at, size, shape } = thing;
  if (shape !== 'ball') return ringsOf(thing).flat();
  return Array.from({ length: 12 }, (_, i) => (Math.PI * (i + 0.5)) / 12).flatMap(t =>
    Array.from({ length: 24 }, (_, j): Point3 => {
      const p = (2 * Math.PI * j) / 24;
      return [
        at[0] + (size[0] / 2) * Math.sin(t) * Math.cos(p),
        at[1] + (size[1] / 2) * Math.sin(t) * Math.sin(p),
        at[2] + (size[2] / 2) * Math.cos(t),
      ];
    }),
  );
}

/** The two ends of a block or a cylinder. */
function ringsOf({ at, size, shape, axis }: Thing): Point3[][] {
  if (shape === 'ball') return [];
  const along = shape === 'cylinder' ? axis : 2;
  const [u, v] = [(along + 1) % 3, (along + 2) % 3];
  const corners =
    shape === 'block'
      ? [
          [-1, -1],
          [1, -1],
          [1, 1],
          [-1, 1],
        ]
      : Array.from({ length: ROUND }, (_, i) => {
          const t = (2 * Math.PI * i) / ROUND;
          return [Math.cos(t), Math.sin(t)];
        });
  return [-1, 1].map(end =>
    corners.map(([a, b]): Point3 => {
      const p: [number, number, number] = [...at];
      p[along]! += (end * size[along]!) / 2;
      p[u]! += (a! * size[u]!) / 2;
      p[v]! += (b! * size[v]!) / 2;
      return p;
    }),
  );
}
