/**
 * How a printed sheet's marks lie on its paper, out of a picture: the paper's own frame, origin at its lower
 * left corner as it was printed, true millimetres. In a flat scan millimetres come from the resolution; in
 * a photo from the paper's size, which all four edges must show.
 */
import type { Point, PrintedMark } from '../model.js';
import {
  cornerOf,
  type Edge,
  type EdgeLine,
  type PaperEdges,
  paperEdges,
  pixelsPerMm,
} from './edges.js';
import type { SeenSheet, Unseen } from './find-marks.js';
import { fitPlane, inverse, onto, type Plane } from './plane.js';
import type { Grey } from './raster.js';

export interface LiesOptions {
  /** The sheet, mm. */
  readonly width: number;
  readonly height: number;
  /** Of the scan, by its file or by the person. */
  readonly dpi?: readonly [number, number];
}
export interface Lies {
  /** The paper's edges were seen; the picture's edges are the paper's, for they are as far apart; or
   *  neither, and the place on the paper is not known: only size and lean are. */
  readonly from: 'paper' | 'picture' | 'marks';
  readonly kind: 'scan' | 'photo';
  readonly seen: readonly { readonly mark: PrintedMark; readonly at: Point }[];
  /** Standard deviation of a coordinate, mm. */
  readonly precision: number;
}

/** Of a mark in a scan: several times what spoilt test pages show, for a scanner's own unevenness. */
const SCAN_MM = 0.05;
/** Lenses bend straight lines, and paper does not lie flat. */
const PHOTO_MM = 0.25;
/** A resolution is believed if the marks agree with it so well: no printer is further off. */
const SAME_SCALE = 0.04;
/** Near and far ends of a flat scan differ by less. */
const FLAT = 0.006;
/** A picture of the whole sheet has its size by this, mm. */
const SAME_SIZE_MM = 1.5;
const MM_PER_INCH = 25.4;

export function howItLies(grey: Grey, sheet: SeenSheet, options: LiesOptions): Lies | Unseen {
  const { width, height, dpi } = options;
  const { plane } = sheet;
  const edges = paperEdges(grey, plane, width, height);
  const depth = Math.abs(plane[6]) * width + Math.abs(plane[7]) * height;
  const perMm = pixelsPerMm(plane, [width / 2, height / 2]);
  const scale = dpi && Math.sqrt(dpi[0] * dpi[1]) / MM_PER_INCH / perMm;
  const isScan = depth < FLAT && scale !== undefined && Math.abs(scale - 1) < SAME_SCALE;
  if (isScan) return scanLies(grey, sheet, edges, { ...options, dpi: dpi! });
  const corners = fourCorners(edges);
  if (corners) {
    const sides: Point[] = [
      [0, 0],
      [width, 0],
      [width, height],
      [0, height],
    ];
    const paper = fitPlane(
      'projective',
      sides.map((from, i) => ({ from, to: corners[i]! })),
    );
    if (paper) return { from: 'paper', kind: 'photo', precision: PHOTO_MM, seen: on(paper, sheet) };
  }
  if (dpi && depth < FLAT) {
    const is = (perMm * MM_PER_INCH).toFixed(0);
    return {
      unseen: `at ${dpi[0].toFixed(0)} dpi the marks would be ${(100 / scale!).toFixed(1)} % of their distances; they look like ${is} dpi. Give the scan's resolution with --dpi, and print at actual size.`,
    };
  }
  const hidden = (['left', 'right', 'bottom', 'top'] as const).filter(e => !edges[e]);
  const what = dpi ? '' : 'the file does not say its resolution (give --dpi for a flat scan), and ';
  return {
    unseen: `${what}for a photo the paper's size tells millimetres, but its ${hidden.join(', ')} edge cannot be seen. Photograph the whole sheet on a dark table, or scan it.`,
  };
}

const on = (paper: Plane, { marks }: SeenSheet): Lies['seen'] => {
  const back = inverse(paper);
  return marks.map(({ mark, at }) => ({ mark, at: onto(back, at) }));
};

function fourCorners({ left, right, bottom, top }: PaperEdges): Point[] | undefined {
  if (!left || !right || !bottom || !top) return undefined;
  return [
    cornerOf(left, bottom),
    cornerOf(right, bottom),
    cornerOf(right, top),
    cornerOf(left, top),
  ];
}

function scanLies(
  grey: Grey,
  sheet: SeenSheet,
  edges: PaperEdges,
  { width, height, dpi }: Required<LiesOptions>,
): Lies {
  const [kx, ky] = [MM_PER_INCH / dpi[0], -MM_PER_INCH / dpi[1]];
  const mm = ([x, y]: Point): Point => [x * kx, y * ky];
  const found = frameOf(edges, mm, width, height);
  const whole = pictureEdges(grey, sheet.plane, mm, width, height);
  const from = found ? 'paper' : whole ? 'picture' : 'marks';
  const frame = found ?? (whole && frameOf(whole, mm, width, height)) ?? frameByMarks(sheet, mm);
  const [c, s] = [Math.cos(frame.turn), Math.sin(frame.turn)];
  const seen = sheet.marks.map(({ mark, at }) => {
    const [x, y] = mm(at);
    const [dx, dy] = [x - frame.at[0], y - frame.at[1]];
    return { mark, at: [c * dx + s * dy, c * dy - s * dx] as Point };
  });
  return { from, kind: 'scan', precision: SCAN_MM, seen };
}

/** The lower left corner of the paper and the way its lower edge runs, in the scan's millimetres. */
interface Frame {
  readonly at: Point;
  readonly turn: number;
}

/** From one upright edge and one level edge, or more. */
function frameOf(
  edges: PaperEdges,
  mm: (p: Point) => Point,
  width: number,
  height: number,
): Frame | undefined {
  const line = (edge: Edge): EdgeLine | undefined => {
    const found = edges[edge];
    return found && [mm(found[0]), mm(found[1])];
  };
  const [upright, level] = [line('left') ?? line('right'), line('bottom') ?? line('top')];
  if (!upright || !level) return undefined;
  const way = ([p, q]: EdgeLine) => Math.atan2(q[1] - p[1], q[0] - p[0]);
  // Scissors cut square: all edges say the same turn.
  const turns = (['bottom', 'top', 'left', 'right'] as const).flatMap(edge => {
    const found = line(edge);
    const quarter = edge === 'left' || edge === 'right' ? Math.PI / 2 : 0;
    return found ? [way(found) - quarter] : [];
  });
  const [first] = turns as [number];
  const about = turns.map(t => first + Math.atan2(Math.sin(t - first), Math.cos(t - first)));
  const turn = about.reduce((sum, t) => sum + t, 0) / turns.length;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const [x, y] = cornerOf(upright, level);
  const across = edges.left ? 0 : width;
  const up = edges.bottom ? 0 : height;
  return { at: [x - c * across + s * up, y - s * across - c * up], turn };
}

/** The picture's own edges, where they are as far apart as the paper's; which is which the marks tell. */
function pictureEdges(
  { width: w, height: h }: Grey,
  plane: Plane,
  mm: (p: Point) => Point,
  width: number,
  height: number,
): PaperEdges | undefined {
  const [wide, high] = mm([w, h]).map(Math.abs) as [number, number];
  const isNear = (a: number, b: number) => Math.abs(a - b) <= SAME_SIZE_MM;
  const [p, q] = [onto(plane, [0, height / 2]), onto(plane, [width, height / 2])];
  const quarters = Math.round(Math.atan2(p[1] - q[1], q[0] - p[0]) / (Math.PI / 2));
  const [across, up] = quarters % 2 === 0 ? [wide, high] : [high, wide];
  if (!isNear(across, width) || !isNear(up, height)) return undefined;
  // Corners of the picture counter-clockwise from the lower left, then from the sheet's lower left.
  const corners: Point[] = [
    [0, h],
    [w, h],
    [w, 0],
    [0, 0],
  ];
  const [ll, lr, ur, ul] = [0, 1, 2, 3].map(i => corners[(i + quarters + 4) % 4]!) as [
    Point,
    Point,
    Point,
    Point,
  ];
  return { left: [ll, ul], right: [lr, ur], bottom: [ll, lr], top: [ul, ur] };
}

/** As if the sheet lay so that its marks are nearest to their places: turn and shift are not known. */
function frameByMarks({ marks }: SeenSheet, mm: (p: Point) => Point): Frame {
  const n = marks.length;
  const found = marks.map(m => mm(m.at));
  const mean = (points: readonly Point[]): Point => [
    points.reduce((sum, p) => sum + p[0], 0) / n,
    points.reduce((sum, p) => sum + p[1], 0) / n,
  ];
  const [a, b] = [mean(marks.map(m => m.mark.at)), mean(found)];
  let [along, across] = [0, 0];
  marks.forEach(({ mark }, i) => {
    const [x, y] = [mark.at[0] - a[0], mark.at[1] - a[1]];
    const [u, v] = [found[i]![0] - b[0], found[i]![1] - b[1]];
    along += x * u + y * v;
    across += x * v - y * u;
  });
  const turn = Math.atan2(across, along);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return { at: [b[0] - c * a[0] + s * a[1], b[1] - s * a[0] - c * a[1]], turn };
}
