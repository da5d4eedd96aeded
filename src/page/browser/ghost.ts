/** What lies in the box, as seen through it: the things, and the room that is kept for them. */
import { moved, type Point3, type Rigid } from '../../fold/space.js';
import { project, type ViewPoint } from '../../fold/view.js';
import { convexHull } from '../../geom/index.js';
import type { PreviewTreat } from '../../preview-model.js';
import { rimOf, ringsOf, spaceLines, type Thing } from '../things.js';
import type { Frame } from './paint.js';
import { type Px, trace } from './shade.js';

/** `room` takes the lower left front corner of the clear space, and its sides, to the table. */
export function paintGhost(
  ctx: CanvasRenderingContext2D,
  { inside, things, round }: PreviewTreat,
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
  for (const line of spaceLines(inside, round === true)) {
    line.map(see).forEach(([x, y], i) => {
      if (i === 0) ctx.moveTo(x, y);
      else ctx.lineTo(x, y);
    });
  }
  ctx.stroke();
  ctx.setLineDash([]);
  ctx.globalAlpha = 1;
}
