/**
 * Pictures of treats in their box: the box cut open and seen from above in front, and beside it the
 * same from straight above and from the front, with the inside measured.
 */
import type { Container, Svg } from '@svgdotjs/svg.js';
import { transform } from '../geom/index.js';
import {
  type Arrangement,
  type Path,
  type Place,
  type Point,
  SIDES,
  type Triple,
} from '../model.js';
import { num } from './number.js';
import type { Letter } from './picture.js';
import { pathData } from './svg.js';
import { composeSvg } from './svg-document.js';
import { project, type Solid, solidsOf } from './treat-solids.js';

export interface TreatSubject {
  readonly arrangement: Arrangement;
  /** Of the box's paper, `#rrggbb`. */
  readonly paper: string;
  /** A line over the picture, and one below it. */
  readonly title: string;
  readonly note: string;
  /** A length as it is shown. */
  readonly mm: (length: number) => string;
}

const [WIDTH, HEIGHT] = [1000, 600];
const MARGIN = 40;
const TABLE = '#efe8dc';
const INK = '#4b4038';
const FAINT = '#8d7f70';
/** Colours of the pieces, by shape. */
const COLOUR = {
  block: '#c98a47',
  round: '#d9ab5e',
  ball: '#94506e',
  pouch: '#a7b26b',
  stick: '#bd8145',
} as const;

/** An SVG document 1000 px wide; the same subject gives the same bytes. */
export function treatPicture(subject: TreatSubject, letter: Letter): Promise<string> {
  const a = standing(subject.arrangement);
  return composeSvg(root => {
    root.size(WIDTH, HEIGHT);
    root.viewbox(0, 0, WIDTH, HEIGHT);
    root.rect(WIDTH, HEIGHT).fill(TABLE);
    const write = writer(root, letter);
    write(subject.title, [MARGIN, 50], 17, { colour: INK });
    write(subject.note, [MARGIN, HEIGHT - 32], 11, { colour: FAINT });
    drawOpen(root, a, subject.paper, { left: MARGIN, top: 78, width: 540, height: 452 });
    const names = sideNames(subject.arrangement);
    drawFlat(root, write, a, subject, names, { left: 640, top: 90, width: 320, height: 440 });
  });
}

/** The box turned so that what is up for the pieces is up in the picture. */
function standing(a: Arrangement): Arrangement {
  const up = SIDES.indexOf(a.up);
  if (up === 2) return a;
  const order = [0, 1, 2].filter(k => k !== up);
  const { length, width, height } = a.inside;
  const turn = (t: Triple): Triple => [t[order[0]!]!, t[order[1]!]!, t[up]!];
  const [l, w, h] = turn([length, width, height]);
  const sides = [...order, up];
  return {
    ...a,
    up: 'height',
    inside: { length: l, width: w, height: h },
    places: a.places.map(p => ({
      ...p,
      at: turn(p.at),
      size: turn(p.size),
      ...(p.axis && { axis: SIDES[sides.indexOf(SIDES.indexOf(p.axis))]! }),
    })),
  };
}

/** What the box calls the sides that lie along the picture's length, width and height. */
const sideNames = ({ up }: Arrangement): readonly [string, string, string] => {
  const [x, y] = SIDES.filter(s => s !== up);
  return [x!, y!, up];
};

interface Area {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** From the picture plane (mm, y up) into an area, as large as it goes and in its middle. */
function into(area: Area, points: readonly Point[], most = Number.POSITIVE_INFINITY) {
  const [us, vs] = [points.map(p => p[0]), points.map(p => p[1])];
  const [low, high] = [Math.min(...us), Math.max(...us)];
  const [foot, head] = [Math.min(...vs), Math.max(...vs)];
  const scale = Math.min(area.width / (high - low), area.height / (head - foot), most);
  const place = ([u, v]: Point): Point => [
    area.left + area.width / 2 + (u - (low + high) / 2) * scale,
    area.top + area.height / 2 - (v - (foot + head) / 2) * scale,
  ];
  return { scale, place };
}

const data = (points: readonly Point[]): string =>
  `M${points.map(([x, y]) => `${num(x)} ${num(y)}`).join('L')}Z`;

// ---- Cut open, from above in front -------------------------------------------------------------

/** The pixels of a millimetre at most: one small treat need not fill the page. */
const LARGEST = 6;

function drawOpen(root: Svg, a: Arrangement, paper: string, area: Area): void {
  const { length: l, width: w, height: h } = a.inside;
  const corner = (x: 0 | 1, y: 0 | 1, z: 0 | 1): Point => project([x * l, y * w, z * h]);
  const all = ([0, 1] as const).flatMap(x =>
    ([0, 1] as const).flatMap(y => ([0, 1] as const).map(z => corner(x, y, z))),
  );
  const { scale, place } = into(area, all, LARGEST);
  const face = (corners: readonly Point[], colour: string, opacity = 1) =>
    root
      .path(data(corners.map(place)))
      .fill({ color: colour, opacity })
      .stroke({ color: shade(paper, 0.62), width: 1.2, linejoin: 'round', opacity: 0.9 });
  const floor = [corner(0, 0, 0), corner(1, 0, 0), corner(1, 1, 0), corner(0, 1, 0)];
  root
    .path(data(floor.map(place).map(([x, y]): Point => [x + 5, y + 9])))
    .fill({ color: '#3a2c1c', opacity: 0.13 });
  face(floor, shade(paper, 0.86));
  face([corner(0, 1, 0), corner(1, 1, 0), corner(1, 1, 1), corner(0, 1, 1)], shade(paper, 0.8));
  face([corner(1, 0, 0), corner(1, 1, 0), corner(1, 1, 1), corner(1, 0, 1)], shade(paper, 0.95));
  const colour = COLOUR[a.treat.shape.kind];
  shineOf(root, colour);
  for (const solid of solidsOf(a)) drawSolid(root, solid, colour, place, scale);
  // The two walls in front are of glass.
  face([corner(0, 0, 0), corner(1, 0, 0), corner(1, 0, 1), corner(0, 0, 1)], '#ffffff', 0.13);
  face([corner(0, 0, 0), corner(0, 1, 0), corner(0, 1, 1), corner(0, 0, 1)], '#ffffff', 0.13);
}

function drawSolid(
  root: Container,
  { facets, ball }: Solid,
  colour: string,
  place: (p: Point) => Point,
  scale: number,
): void {
  if (ball) {
    const [x, y] = place(ball.at);
    root
      .circle(2 * ball.radius * scale)
      .center(Number(num(x)), Number(num(y)))
      .fill('url(#shine)')
      .stroke({ color: shade(colour, 0.45, FOOD_SHADOW), width: 0.8 });
    return;
  }
  for (const { polygon, light, rim } of facets) {
    const fill = shade(colour, light, FOOD_SHADOW);
    root
      .path(data(polygon.map(place)))
      .fill(fill)
      .stroke({
        color: rim ? shade(colour, light * 0.62, FOOD_SHADOW) : fill,
        width: rim ? 1.3 : 0.6,
        linejoin: 'round',
      });
  }
}

/** The light on a ball. */
function shineOf(root: Svg, colour: string): void {
  root
    .gradient('radial', add => {
      add.stop(0, shade(colour, 1.35));
      add.stop(0.45, colour);
      add.stop(1, shade(colour, 0.45, FOOD_SHADOW));
    })
    .from(0.36, 0.3)
    .to(0.5, 0.5)
    .radius(0.62)
    .id('shine');
}

/** A colour in the shade (below 1) or toward white; shade on food is brown, not grey. */
function shade(colour: string, light: number, shadow = PAPER_SHADOW): string {
  const [from, dark] = [colour, shadow].map(partsOf) as [number[], number[]];
  const parts = from.map((c, k) =>
    light <= 1 ? dark[k]! + (c - dark[k]!) * light : c + (255 - c) * Math.min(1, light - 1),
  );
  return `#${parts.map(c => Math.round(c).toString(16).padStart(2, '0')).join('')}`;
}
const partsOf = (colour: string): number[] => {
  const value = Number.parseInt(colour.slice(1), 16);
  return [value >> 16, (value >> 8) & 255, value & 255];
};
const PAPER_SHADOW = '#2a2018';
const FOOD_SHADOW = '#4a220c';

// ---- Straight from above and from the front -----------------------------------------------------

type Write = ReturnType<typeof writer>;

function drawFlat(
  root: Svg,
  write: Write,
  a: Arrangement,
  { paper, mm }: TreatSubject,
  names: readonly [string, string, string],
  area: Area,
): void {
  const { length: l, width: w, height: h } = a.inside;
  const [label, gap] = [22, 46];
  const scale = Math.min((area.width - 60) / l, (area.height - gap - 2 * label) / (w + h), LARGEST);
  const left = area.left + (area.width - 60 - l * scale) / 2;
  const total = (w + h) * scale + gap + 2 * label;
  const top = area.top + (area.height - total) / 2 + label;
  const colour = COLOUR[a.treat.shape.kind];
  const flat = { root, write, colour, paper, scale, left };
  const above = [...a.places].sort((p, q) => p.at[2] - q.at[2]);
  drawView({ ...flat, top, axes: [0, 1, 2], size: [l, w], title: 'from above' }, a, above, [
    `${names[0]} ${mm(l)}`,
    `${names[1]} ${mm(w)}`,
  ]);
  const front = [...a.places].sort((p, q) => q.at[1] - p.at[1]);
  const below = top + w * scale + gap + label;
  drawView(
    { ...flat, top: below, axes: [0, 2, 1], size: [l, h], title: 'from the front' },
    a,
    front,
    [undefined, `${names[2]} ${mm(h)}`],
  );
}

interface View {
  readonly root: Svg;
  readonly write: Write;
  readonly colour: string;
  readonly paper: string;
  readonly scale: number;
  readonly left: number;
  readonly top: number;
  /** Across the page, up it, and toward the eye. */
  readonly axes: readonly [number, number, number];
  readonly size: readonly [number, number];
  readonly title: string;
}

function drawView(
  view: View,
  a: Arrangement,
  places: readonly Place[],
  labels: readonly [string | undefined, string],
): void {
  const { root, write, colour, paper, scale, left, top, axes, size, title } = view;
  const [w, h] = [size[0] * scale, size[1] * scale];
  write(title, [left, top - 8], 9, { colour: FAINT });
  root
    .rect(Number(num(w)), Number(num(h)))
    .move(Number(num(left)), Number(num(top)))
    .fill(shade(paper, 0.93))
    .stroke({ color: shade(paper, 0.55), width: 2 });
  const stroke = { color: shade(colour, 0.45, FOOD_SHADOW), width: 1 };
  const fill = colour;
  for (const { at, size: s, axis } of places) {
    const [x, y] = [left + at[axes[0]]! * scale, top + h - at[axes[1]]! * scale];
    const [pw, ph] = [s[axes[0]]! * scale, s[axes[1]]! * scale];
    const round = a.treat.shape.kind === 'ball' || (axis && SIDES.indexOf(axis) === axes[2]);
    const shape = round ? root.ellipse(pw, ph) : root.rect(pw, ph);
    if (!round) shape.radius(Math.min(pw, ph) * (a.treat.shape.kind === 'pouch' ? 0.3 : 0.06));
    shape
      .center(Number(num(x)), Number(num(y)))
      .fill(fill)
      .stroke(stroke);
  }
  const line = { color: FAINT, width: 1 };
  if (labels[0]) {
    measure(root, [left, top + h + 9], [left + w, top + h + 9], line);
    write(labels[0], [left + w / 2, top + h + 25], 9.5, { colour: INK, anchor: 'middle' });
  }
  measure(root, [left + w + 9, top], [left + w + 9, top + h], line);
  write(labels[1], [left + w + 20, top + h / 2], 9.5, { colour: INK, anchor: 'turned' });
}

/** A line with a tick at each end. */
function measure(
  root: Svg,
  [x0, y0]: Point,
  [x1, y1]: Point,
  line: { color: string; width: number },
) {
  const [tx, ty] = x0 === x1 ? [4, 0] : [0, 4];
  const tick = (x: number, y: number) =>
    `M${num(x - tx)} ${num(y - ty)}L${num(x + tx)} ${num(y + ty)}`;
  root
    .path(`M${num(x0)} ${num(y0)}L${num(x1)} ${num(y1)}${tick(x0, y0)}${tick(x1, y1)}`)
    .fill('none')
    .stroke(line);
}

const outlinesOf = (letter: Letter, text: string, capital: number): Path[] =>
  letter(text, capital).flatMap(r => [r.outer, ...r.holes]);
const longOf = (paths: readonly Path[]): number =>
  Math.max(...paths.flatMap(p => [p.start[0], ...p.segments.map(s => s.to[0])]));

/** Words as outlines; `at` is where their baseline begins, or its middle. A line that is too
 *  long is set smaller. Turned words read upward. */
const writer =
  (root: Svg, letter: Letter) =>
  (
    text: string,
    [x, y]: Point,
    capital: number,
    { colour, anchor = 'start' }: { colour: string; anchor?: 'start' | 'middle' | 'turned' },
  ): void => {
    let paths = outlinesOf(letter, text, capital);
    if (paths.length === 0) return;
    const room = WIDTH - x - MARGIN;
    const tooLong = anchor === 'start' && longOf(paths) > room;
    if (tooLong) paths = outlinesOf(letter, text, (capital * room) / longOf(paths));
    const long = longOf(paths);
    // Outlines have y up: a sheet whose height is nothing turns them over.
    const at =
      anchor === 'turned'
        ? ([0, 1, -1, 0, x + capital, -(y + long / 2)] as const)
        : ([1, 0, 0, 1, anchor === 'middle' ? x - long / 2 : x, -y] as const);
    root.path(paths.map(p => pathData(transform(p, at), 0)).join('')).fill(colour);
  };
