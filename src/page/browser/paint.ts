/** A scene on a canvas, farthest first: no graphics processor is asked for. */
import type { Point3 } from '../../fold/space.js';
import { moved } from '../../fold/space.js';
import { type Fragment, project, type ViewPoint } from '../../fold/view.js';
import type { Point } from '../../model.js';
import type { PreviewFacts } from '../../preview-model.js';
import type { Scene, Source } from '../scene.js';
import type { Standee } from '../stage.js';
import type { Papers } from './papers.js';
import { edgeLight, grown, type Px, shaded, trace } from './shade.js';

/** From the picture plane (mm) to the canvas: pixels to the mm, and where the plane's origin goes. */
export interface Frame {
  readonly k: number;
  readonly x: number;
  readonly y: number;
}

/** The lamp goes with the eye: over its left shoulder. */
const LAMP = { turn: -0.95, rise: 0.82, out: 0.57 };

const lampFor = ({ azimuth }: ViewPoint): Point3 => [
  LAMP.out * Math.cos(azimuth + LAMP.turn),
  LAMP.out * Math.sin(azimuth + LAMP.turn),
  LAMP.rise,
];

export function paintScene(
  ctx: CanvasRenderingContext2D,
  scene: Scene,
  view: ViewPoint,
  frame: Frame,
  facts: PreviewFacts,
  papers: Papers,
  dpr: number,
): number {
  const to = ([x, y]: readonly [number, number]): Px => [
    frame.x + x * frame.k,
    frame.y - y * frame.k,
  ];
  const fragments = scene.seen(view, lampFor(view));
  for (const group of grouped(fragments)) {
    const [first] = group;
    const source = scene.sources[Number(first!.face)]!;
    const polygons = group.map(f => f.polygon.map(to));
    ctx.setTransform(1, 0, 0, 1, 0, 0);
    if (source.kind === 'paper') paintPaper(group, polygons, source);
    else paintDecal(first!, polygons, source);
  }
  ctx.setTransform(1, 0, 0, 1, 0, 0);
  return fragments.length;

  function paintPaper(
    group: readonly Fragment[],
    polygons: readonly Px[][],
    source: Extract<Source, { kind: 'paper' }>,
  ) {
    const { light, side } = group[0]!;
    const colour = shaded(facts.paper, light);
    ctx.beginPath();
    for (const p of polygons) trace(ctx, p);
    ctx.fillStyle = colour;
    ctx.strokeStyle = colour;
    ctx.lineWidth = 0.7 * dpr;
    ctx.lineJoin = 'round';
    // A hair of its own colour closes the seams between fragments.
    ctx.fill();
    ctx.stroke();
    const face = side === 'front' ? 'inside' : 'outside';
    const upon = source.decals.filter(d => d.side === face);
    if (upon.length > 0) {
      ctx.save();
      ctx.beginPath();
      for (const p of polygons) trace(ctx, grown(p, 0.6 * dpr));
      ctx.clip();
      for (const d of upon) {
        setAffine(source.solid, d.at);
        papers.front(ctx, d.piece, light, scaleOf(ctx), 0);
      }
      ctx.restore();
    }
    ctx.strokeStyle = shaded(facts.paper, edgeLight(light));
    ctx.lineWidth = 1.1 * dpr;
    ctx.lineCap = 'round';
    ctx.beginPath();
    group.forEach(({ edges }, i) => {
      const corners = polygons[i]!;
      corners.forEach((corner, k) => {
        if (!edges[k]) return;
        const next = corners[(k + 1) % corners.length]!;
        ctx.moveTo(corner[0], corner[1]);
        ctx.lineTo(next[0], next[1]);
      });
    });
    ctx.stroke();
  }

  function paintDecal(
    { side, light }: Fragment,
    polygons: readonly Px[][],
    source: Extract<Source, { kind: 'decal' }>,
  ) {
    const { decal, fall } = source;
    ctx.save();
    ctx.beginPath();
    for (const p of polygons) trace(ctx, grown(p, 0.6 * dpr));
    ctx.clip();
    setAffine(source.solid, decal.at);
    const scale = frame.k;
    const falls = Math.min(9, 0.9 + 0.7 * fall) * dpr;
    if (side === 'front') papers.front(ctx, decal.piece, light, scale, falls);
    else papers.back(ctx, decal.piece, light, scale);
    ctx.restore();
  }

  /** A flat part is seen as an affine image: path data, y down, to pixels. */
  function setAffine(solid: (p: Point) => Point3, at: readonly number[]) {
    const see = (p: Point) => to(project(solid(p), view));
    const on = (x: number, y: number): Point => [
      at[0]! * x + at[2]! * y + at[4]!,
      at[1]! * x + at[3]! * y + at[5]!,
    ];
    const [o, x, y] = [see(on(0, 0)), see(on(1, 0)), see(on(0, -1))];
    ctx.setTransform(x[0] - o[0], x[1] - o[1], y[0] - o[0], y[1] - o[1], o[0], o[1]);
  }
}

const scaleOf = (ctx: CanvasRenderingContext2D): number => {
  const { a, b, c, d } = ctx.getTransform();
  return Math.max(Math.hypot(a, b), Math.hypot(c, d));
};

/** Fragments of one face that follow each other are painted as one: between them nothing shows. */
function grouped(fragments: readonly Fragment[]): Fragment[][] {
  const groups: Fragment[][] = [];
  for (const f of fragments) {
    const last = groups.at(-1)?.[0];
    if (last && last.face === f.face && last.side === f.side) groups.at(-1)!.push(f);
    else groups.push([f]);
  }
  return groups;
}

/** What falls on the table: the papers' outlines along the light, soft at the rim. */
export function paintShadow(
  ctx: CanvasRenderingContext2D,
  stood: readonly Standee[],
  view: ViewPoint,
  frame: Frame,
  strength: number,
): void {
  const lamp = lampFor(view);
  const [sx, sy] = [-lamp[0] / lamp[2], -lamp[1] / lamp[2]];
  const path = new Path2D();
  for (const { facets, world } of stood) {
    for (const facet of facets) {
      const ground = facet.loops[0]!.map((p): Px => {
        const [x, y, z] = moved(world, p);
        const [u, v] = project([x + sx * z * 0.45, y + sy * z * 0.45, 0], view);
        return [frame.x + u * frame.k, frame.y - v * frame.k];
      });
      // All one way round, so that they add up.
      trace(path, area(ground) < 0 ? [...ground].reverse() : ground);
    }
  }
  // Painted small and enlarged: that makes it soft.
  shadow.width = Math.ceil(ctx.canvas.width / SOFT);
  shadow.height = Math.ceil(ctx.canvas.height / SOFT);
  const small = shadow.getContext('2d')!;
  small.setTransform(1 / SOFT, 0, 0, 1 / SOFT, 0, 0);
  small.lineJoin = 'round';
  small.lineWidth = SOFT;
  small.fillStyle = small.strokeStyle = '#1e1208';
  small.fill(path);
  small.stroke(path);
  ctx.setTransform(1, 0, 0, 1, 0, 0);
  ctx.globalAlpha = strength;
  ctx.imageSmoothingQuality = 'high';
  ctx.drawImage(shadow, 0, 0, shadow.width * SOFT, shadow.height * SOFT);
  ctx.globalAlpha = 1;
}

const SOFT = 8;
const shadow = document.createElement('canvas');

const area = (points: readonly Px[]): number =>
  points.reduce((s, [x, y], i) => {
    const [u, v] = points[(i + 1) % points.length]!;
    return s + x * v - u * y;
  }, 0);
