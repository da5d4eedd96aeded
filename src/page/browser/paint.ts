/** A scene on a canvas, farthest first: no graphics processor is asked for. */
import type { Point3 } from '../../fold/space.js';
import { dot3, moved } from '../../fold/space.js';
import { squareFrom } from '../../fold/turn.js';
import { type Fragment, project, type ViewPoint, viewAxes } from '../../fold/view.js';
import type { Point } from '../../model.js';
import type { PreviewFacts, PreviewMark } from '../../preview-model.js';
import { edgeLight, FILM, LOW, LOW_SHARE, markLook, shaded } from '../../shading.js';
import type { Scene, Source } from '../scene.js';
import type { Standee } from '../stage.js';
import type { Papers } from './papers.js';
import { grown, type Px, trace } from './shade.js';

/** From the picture plane (mm) to the canvas: pixels to the mm, and where the plane's origin goes. */
export interface Frame {
  readonly k: number;
  readonly x: number;
  readonly y: number;
}

/** The lamp goes with the eye: over its left shoulder. */
const LAMP = { turn: -0.95, rise: 0.82, out: 0.57 };

const lampFor = ({ azimuth }: ViewPoint): Point3 => {
  const [x, y] = [Math.cos(azimuth + LAMP.turn), Math.sin(azimuth + LAMP.turn)];
  const long = Math.hypot(LAMP.out, LAMP.rise);
  return [(LAMP.out * x) / long, (LAMP.out * y) / long, LAMP.rise / long];
};

/** Faces that rise less than this to the millimetre of the picture are level. */
const STEEP = 1e-4;

/** `top` is how high the closed box stands, mm. */
export function paintScene(
  ctx: CanvasRenderingContext2D,
  scene: Scene,
  view: ViewPoint,
  frame: Frame,
  facts: PreviewFacts,
  papers: Papers,
  dpr: number,
  top: number,
): number {
  const to = ([x, y]: readonly [number, number]): Px => [
    frame.x + x * frame.k,
    frame.y - y * frame.k,
  ];
  const lamp = lampFor(view);
  const fragments = scene.seen(view, lamp);
  for (const group of grouped(fragments)) {
    const [first] = group;
    const source = scene.sources[Number(first!.face)]!;
    const polygons = group.map(f => f.polygon.map(to));
    ctx.setTransform(1, 0, 0, 1, 0, 0);
    if (source.kind === 'film') paintFilm(first!, polygons, source.flat);
    else if (source.kind === 'paper') paintPaper(group, polygons, source);
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
    const colour = source.turn ? turning(source.turn, side) : shaded(facts.paper, light);
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
    const marks = source.marks.filter(m => m.side === face);
    if (upon.length + marks.length > 0) {
      ctx.save();
      ctx.beginPath();
      for (const p of polygons) trace(ctx, grown(p, 0.6 * dpr));
      ctx.clip();
      if (marks.length > 0) setAffine(source.solid, [1, 0, 0, 1, 0, 0]);
      for (const m of marks) paintMark(m, light);
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
      // Inside it, so that no pale one shows beside a face that hides it.
      const corners = grown(polygons[i]!, -0.4 * dpr);
      corners.forEach((corner, k) => {
        if (!edges[k]) return;
        const next = corners[(k + 1) % corners.length]!;
        ctx.moveTo(corner[0], corner[1]);
        ctx.lineTo(next[0], next[1]);
      });
    });
    ctx.stroke();
    const low = lowLight(source, face);
    if (low) {
      ctx.setTransform(1, 0, 0, 1, 0, 0);
      ctx.beginPath();
      // A strip's own hair lies on the one beside it.
      const over = source.turn ? 0.35 * dpr : 0;
      for (const p of polygons) trace(ctx, grown(p, over));
      ctx.fillStyle = low;
      ctx.fill();
    }
  }

  /** Curled paper is as smooth as its light. */
  function turning(
    { from, to: until, ruling, normals }: NonNullable<Extract<Source, { kind: 'paper' }>['turn']>,
    side: Fragment['side'],
  ): CanvasGradient | string {
    const [n, m] = normals.map(v => dot3(v, lamp) * (side === 'front' ? 1 : -1)) as [
      number,
      number,
    ];
    const [a, b] = [project(from, view), project(until, view)];
    const end = squareFrom(a, b, project(ruling, view));
    if (!end) return shaded(facts.paper, (n + m) / 2);
    const [p, q] = [to(a), to(end)];
    const fill = ctx.createLinearGradient(p[0], p[1], q[0], q[1]);
    fill.addColorStop(0, shaded(facts.paper, n));
    fill.addColorStop(1, shaded(facts.paper, m));
    return fill;
  }

  /** Near the table less light comes from around. */
  function lowLight(
    { height }: Extract<Source, { kind: 'paper' }>,
    face: 'inside' | 'outside',
  ): CanvasGradient | undefined {
    const h = height(view);
    const steep = h[0] * h[0] + h[1] * h[1];
    const until = LOW_SHARE * top;
    if (!(steep > STEEP && until > 0)) return undefined;
    const at = (z: number) => to([(h[0] * (z - h[2])) / steep, (h[1] * (z - h[2])) / steep]);
    const [p, q] = [at(0), at(until)];
    const fill = ctx.createLinearGradient(p[0], p[1], q[0], q[1]);
    fill.addColorStop(0, `rgb(43 25 11 / ${LOW[face]})`);
    fill.addColorStop(1, 'rgb(43 25 11 / 0)');
    return fill;
  }

  function paintMark({ kind, d }: PreviewMark, light: number) {
    const { fill, line, width, dash = [] } = markLook(kind, facts.paper, light);
    const path = papers.path(d);
    const px = dpr / frame.k;
    if (fill) {
      ctx.fillStyle = fill;
      ctx.fill(path);
    }
    ctx.strokeStyle = line;
    ctx.lineWidth = width * px;
    ctx.lineCap = dash.length > 0 ? 'butt' : 'round';
    ctx.setLineDash(dash.map(v => v * px));
    ctx.stroke(path);
    ctx.setLineDash([]);
  }

  function paintFilm({ light }: Fragment, polygons: readonly Px[][], flat: boolean) {
    const all = polygons.flat();
    const [xs, ys] = [all.map(p => p[0]), all.map(p => p[1])];
    const [x, y] = [Math.min(...xs), Math.min(...ys)];
    const gleam = ctx.createLinearGradient(
      x,
      y,
      (x + Math.max(...xs)) / 2,
      (y + Math.max(...ys)) / 2,
    );
    gleam.addColorStop(0, `rgb(255 255 255 / ${FILM.gleam})`);
    gleam.addColorStop(1, 'rgb(255 255 255 / 0)');
    ctx.beginPath();
    for (const p of polygons) trace(ctx, p);
    ctx.globalAlpha = FILM.opacity;
    ctx.fillStyle = shaded(FILM.colour, light);
    ctx.fill();
    ctx.globalAlpha = 1;
    ctx.fillStyle = gleam;
    if (flat) ctx.fill();
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

/** What falls on the table: the papers' outlines along the light of a broad lamp, soft at the rim. */
export function paintShadow(
  ctx: CanvasRenderingContext2D,
  stood: readonly Standee[],
  view: ViewPoint,
  frame: Frame,
  strength: number,
): void {
  const [sx, sy] = shadowFall(view);
  const { right, up } = viewAxes(view);
  const loops = stood.flatMap(({ facets, world }) =>
    facets.map(f => f.loops[0]!.map(p => moved(world, p))),
  );
  // Painted small and enlarged: that makes it soft.
  shadow.width = Math.ceil(ctx.canvas.width / SOFT);
  shadow.height = Math.ceil(ctx.canvas.height / SOFT);
  const small = shadow.getContext('2d')!;
  const k = 1 / SOFT;
  small.fillStyle = '#1e1208';
  small.globalAlpha = 1 - (1 - DARK) ** (1 / BROAD.length);
  for (const [bx, by] of BROAD) {
    const path = new Path2D();
    for (const loop of loops) {
      const ground = loop.map(([x, y, z]): Px => {
        const [gx, gy] = [x + (sx + bx) * z, y + (sy + by) * z];
        const u = gx * right[0] + gy * right[1];
        const v = gx * up[0] + gy * up[1];
        return [(frame.x + u * frame.k) * k, (frame.y - v * frame.k) * k];
      });
      // All one way round, so that they add up.
      trace(path, area(ground) < 0 ? ground.reverse() : ground);
    }
    small.fill(path);
  }
  ctx.setTransform(1, 0, 0, 1, 0, 0);
  ctx.globalAlpha = strength;
  ctx.imageSmoothingQuality = 'high';
  ctx.drawImage(shadow, 0, 0, shadow.width * SOFT, shadow.height * SOFT);
  ctx.globalAlpha = 1;
}

/** How far the shadow of a point falls from under it, to the millimetre of height. */
export function shadowFall(view: ViewPoint): Px {
  const lamp = lampFor(view);
  return [(-lamp[0] / lamp[2]) * SHORT, (-lamp[1] / lamp[2]) * SHORT];
}

const SOFT = 5;
/** Shadows are so much shorter than the lamp's height would have them. */
const SHORT = 0.5;
const DARK = 0.9;
/** How far points of the lamp's disc move a shadow, to the millimetre of height. */
const BREADTH = 0.11;
const BROAD: readonly Px[] = [
  [0, 0],
  ...Array.from({ length: 6 }, (_, i): Px => {
    const t = (Math.PI * i) / 3;
    return [BREADTH * Math.cos(t), BREADTH * Math.sin(t)];
  }),
];
const shadow = document.createElement('canvas');

const area = (points: readonly Px[]): number =>
  points.reduce((s, [x, y], i) => {
    const [u, v] = points[(i + 1) % points.length]!;
    return s + x * v - u * y;
  }, 0);
