/**
 * Stamped images out of a sheet laid flat: where ink ends, then the outline at a margin round it. The edge
 * of ink is where it is half as dark as just inside, so that pale and dark ink, blur and blotches do not
 * move it.
 */
import { contains, fitCubics, growPolygons, polygon } from '../geom/index.js';
import type { Path, Point } from '../model.js';
import { contoursOf } from './contours.js';
import type { Darkness } from './darkness.js';

export interface TraceOptions {
  /** Share of black from which on there is ink; found from the page itself where not given. */
  readonly threshold?: number;
  /** Images with less ink are dirt, mm². */
  readonly leastArea: number;
  /** From the edge of the ink to the cut, mm. */
  readonly margin: number;
  /** Openings are cut out as well. */
  readonly holes: boolean;
  /** Parts of an image that are this near to each other are cut as one, mm. Those nearer than twice the
   *  margin always are. */
  readonly merge: number;
  /** The cut stays this near to the outline as traced, mm. */
  readonly smooth: number;
}

export interface TracedImage {
  /** Where the ink ends, as found: loops on the sheet, holes clockwise. */
  readonly ink: readonly (readonly Point[])[];
  /** At the margin, before it is smoothed. */
  readonly grown: readonly (readonly Point[])[];
  readonly outline: Path;
  readonly holes: readonly Path[];
  /** Of ink, mm². */
  readonly area: number;
}
export interface Traced {
  readonly images: readonly TracedImage[];
  /** Share of black from which on there was ink. */
  readonly threshold: number;
}

/** Loops of ink smaller than this are dust, whatever they belong to, mm². */
const DUST_MM2 = 0.15;
/** A hole in paper that is not worth a cut, mm². */
const LEAST_HOLE_MM2 = 4;
/** Points of a loop are thinned by this, mm. */
const THIN_MM = 0.01;

export function trace(dark: Darkness, options: TraceOptions): Traced {
  const threshold = options.threshold ?? foundThreshold(dark);
  const { perMm, minX, maxY } = dark;
  const level = 255 * threshold;
  const dust = (loop: readonly Point[]) => Math.abs(areaOf(loop)) < DUST_MM2;
  const loops = contoursOf(dark, level)
    // Twice: what the paper's grain leaves must not grow into ink.
    .filter(loop => !dust(loop.map(([x, y]): Point => [x / perMm, y / perMm])))
    .map(loop => (options.threshold === undefined ? halfWay(dark, loop, level) : loop))
    .map(loop => loop.map(([x, y]): Point => [minX + x / perMm, maxY - y / perMm]))
    .filter(loop => !dust(loop))
    .map(loop => thinned(loop, THIN_MM));
  const solid = options.holes ? loops : loops.filter(loop => areaOf(loop) > 0);
  const images = grownImages(solid, loops, options)
    .filter(image => image.area >= options.leastArea)
    .sort(inReadingOrder);
  return { images, threshold };
}

/** Ink stands out of the paper's own grain by this many of its standard deviations. */
const OUT = 7;
const LEAST_THRESHOLD = 0.06;
const MOST_THRESHOLD = 0.3;
/** Side of the squares in which the paper's grain is measured, mm; a fifth of them at least is bare. */
const GRAIN_MM = 4;
const BARE = 0.2;

function foundThreshold({ width, height, data, perMm }: Darkness): number {
  const side = Math.max(8, Math.round(GRAIN_MM * perMm));
  const squares: number[] = [];
  for (let y = 0; y + side <= height; y += side) {
    for (let x = 0; x + side <= width; x += side) {
      let [sum, square] = [0, 0];
      for (let j = y; j < y + side; j++) {
        for (let i = x; i < x + side; i++) {
          const v = data[j * width + i]!;
          sum += v;
          square += v * v;
        }
      }
      const n = side * side;
      squares.push(sum / n + OUT * Math.sqrt(Math.max(0, square / n - (sum / n) ** 2)));
    }
  }
  // By both: the inside of even ink has no more grain than paper has.
  squares.sort((a, b) => a - b);
  const found = (squares[Math.floor(BARE * squares.length)] ?? 0) / 255;
  return Math.min(MOST_THRESHOLD, Math.max(LEAST_THRESHOLD, found));
}

/** How far inward the ink just behind an edge is looked for, mm; coarse scans blur over more, pixels. */
const BEHIND_MM = 0.4;
const BEHIND_PX = 4.5;
/** An edge is moved by no more than this, mm or pixels: what lens and scanner blur. */
const MOST_MOVE_MM = 0.3;
const MOST_MOVE_PX = 2.5;
const STEP_PX = 0.5;
/** The corner that an edge makes is measured over this far on both sides, mm: past what is blurred. */
const CORNER_MM = 0.35;
/** From where it is half as dark a corner is no farther than this, mm: ends of thin and of rounded lines
 *  look like corners, and blur takes less off them. */
const MOST_TIP_MM = 0.1;
/** Sharper corners are taken for this one, degrees: their tips drown in the paper's grain. */
const LEAST_CORNER_DEG = 30;

/**
 * Each point moved to where it is half as dark as the darkest just behind it; at a corner, to where it is
 * as dark as the corner's part of a full turn: a blur that is the same all round leaves that at the corner
 * of a wedge, as it leaves half at a straight edge.
 */
function halfWay(dark: Darkness, loop: readonly Point[], level: number): Point[] {
  const { width, height, data, perMm } = dark;
  const at = (x: number, y: number): number => {
    const u = Math.min(Math.max(x - 0.5, 0), width - 1.001);
    const v = Math.min(Math.max(y - 0.5, 0), height - 1.001);
    const [i, j] = [Math.floor(u), Math.floor(v)];
    const [p, q] = [u - i, v - j];
    const k = j * width + i;
    const top = data[k]! + p * (data[k + 1]! - data[k]!);
    const low = data[k + width]! + p * (data[k + width + 1]! - data[k + width]!);
    return top + q * (low - top);
  };
  const n = loop.length;
  const ways = loop.map((_, i): Point => {
    // Across the line over a few points, into the ink: it lies on the left with y up.
    const [a, b] = [loop[(i + n - 2) % n]!, loop[(i + 2) % n]!];
    const [x, y] = [b[0] - a[0], b[1] - a[1]];
    const l = Math.hypot(x, y) || 1;
    return [y / l, -x / l];
  });
  const behind = Math.ceil(Math.max(BEHIND_MM * perMm, BEHIND_PX) / STEP_PX);
  const farthest = Math.max(MOST_MOVE_MM * perMm, MOST_MOVE_PX);
  const wide = Math.max(2, CORNER_MM * perMm);
  const parts = loop.map((_, i) => cornerPart(loop, i, wide));
  const moves = loop.map(([x, y], i) => {
    const [u, v] = ways[i]!;
    const inward = (k: number) => at(x + k * STEP_PX * u, y + k * STEP_PX * v);
    const values: number[] = [];
    let darkest = level;
    for (let k = 0; k <= behind; k++) {
      const value = inward(k);
      values.push(value);
      if (value > darkest) darkest = value;
      // Out at the other side of a thin line.
      else if (value < darkest * 0.8) break;
    }
    /** How far inward it is as dark as `edge`, in pixels; less than nothing outside of the line. */
    const reaches = (edge: number): number => {
      if (edge <= level) return -outward(k => inward(-k), edge) * STEP_PX;
      const k = values.findIndex(value => value >= edge);
      if (k <= 0) return 0;
      return (k - 1 + (edge - values[k - 1]!) / (values[k]! - values[k - 1]!)) * STEP_PX;
    };
    const [half, corner] = [reaches(darkest / 2), reaches(darkest * parts[i]!)];
    const [least, most] = [half - MOST_TIP_MM * perMm, half + MOST_TIP_MM * perMm];
    return Math.min(farthest, Math.max(least, Math.min(most, corner)));
  });
  /** Steps to where it is no darker than `edge`. */
  function outward(darkAt: (k: number) => number, edge: number): number {
    const last = Math.floor(farthest / STEP_PX);
    let [k, value] = [0, darkAt(0)];
    while (k < last && value > edge) value = darkAt(++k);
    if (k === 0) return 0;
    const before = darkAt(k - 1);
    return value > edge ? k : k - 1 + (before - edge) / (before - value);
  }
  return loop.map(([x, y], i) => {
    // The mean of five neighbours: grain must not roughen the edge.
    let move = 0;
    for (let k = -2; k <= 2; k++) move += moves[(i + k + n) % n]! / 5;
    return [x + move * ways[i]![0], y + move * ways[i]![1]];
  });
}

/** Of a full turn, what the ink fills at point `i`, its edges measured over `wide` pixels. */
function cornerPart(loop: readonly Point[], i: number, wide: number): number {
  const n = loop.length;
  const [x, y] = loop[i]!;
  const reach = (way: 1 | -1): Point => {
    for (let k = 1; k < n / 2; k++) {
      const [u, v] = loop[(i + way * k + n) % n]!;
      if (Math.hypot(u - x, v - y) >= wide) return [u - x, v - y];
    }
    return [0, 0];
  };
  const [[ax, ay], [bx, by]] = [reach(-1), reach(1)];
  // Pixels count y downward, so that ink lies to the right of the line as it runs in them.
  const turn = Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  const ink = turn < 0 ? turn + 2 * Math.PI : turn;
  const least = LEAST_CORNER_DEG / 360;
  return Math.min(1 - least, Math.max(least, ink / (2 * Math.PI) || 0.5));
}

function areaOf(loop: readonly Point[]): number {
  let twice = 0;
  loop.forEach(([x, y], i) => {
    const [u, v] = loop[(i + 1) % loop.length]!;
    twice += x * v - y * u;
  });
  return twice / 2;
}

/** Points left out that are within `most` of the chord between those kept (D. Douglas and T. Peucker 1973,
 *  from memory). */
function thinned(loop: readonly Point[], most: number): Point[] {
  const keep = new Uint8Array(loop.length);
  const far = Math.floor(loop.length / 2);
  const spans: [number, number][] = [
    [0, far],
    [far, loop.length],
  ];
  keep[0] = 1;
  keep[far] = 1;
  for (let span = spans.pop(); span; span = spans.pop()) {
    const [i, j] = span;
    const [[ax, ay], [bx, by]] = [loop[i]!, loop[j % loop.length]!];
    const [ux, uy] = [bx - ax, by - ay];
    const l = Math.hypot(ux, uy);
    let [off, at] = [most, -1];
    for (let k = i + 1; k < j; k++) {
      const [x, y] = [loop[k]![0] - ax, loop[k]![1] - ay];
      const d = l > 0 ? Math.abs(ux * y - uy * x) / l : Math.hypot(x, y);
      if (d > off) [off, at] = [d, k];
    }
    if (at < 0) continue;
    keep[at] = 1;
    spans.push([i, at], [at, j]);
  }
  return loop.filter((_, i) => keep[i] === 1);
}

/** The margin round all ink at once, so that images whose margins meet are cut as one; then parts that are
 *  to be one are bridged, by growing farther and coming back. */
function grownImages(
  solid: readonly (readonly Point[])[],
  ink: readonly (readonly Point[])[],
  { margin, merge, holes, smooth }: TraceOptions,
): TracedImage[] {
  const further = Math.max(0, merge / 2 - margin);
  const far = growPolygons(solid, margin + further);
  const grown = further > 0 ? growPolygons(far, -further) : far;
  const outers = grown.filter(loop => areaOf(loop) > 0);
  const inner = grown.filter(loop => areaOf(loop) < -LEAST_HOLE_MM2);
  return outers.map(outer => {
    const around = polygon(outer);
    const isIn = (loop: readonly Point[]) => contains(around, loop[0]!) === 'in';
    const own = holes ? inner.filter(isIn) : [];
    const mine = ink.filter(isIn);
    return {
      ink: mine,
      grown: [outer, ...own],
      outline: fitCubics(outer, true, smooth),
      holes: own.map(loop => fitCubics(loop, true, smooth)),
      area: mine.reduce((sum, loop) => sum + areaOf(loop), 0),
    };
  });
}

/** Rows this near to each other are one, mm. */
const ROW_MM = 12;

/** As one reads: from the top, and from the left within a row. */
function inReadingOrder(a: TracedImage, b: TracedImage): number {
  const place = ({ grown: [outer] }: TracedImage) => ({
    x: Math.min(...outer!.map(p => p[0])),
    y: Math.round(-Math.max(...outer!.map(p => p[1])) / ROW_MM),
  });
  const [p, q] = [place(a), place(b)];
  return p.y - q.y || p.x - q.x;
}
