/**
 * A printed grid taken out of a flat page. What a line adds is learnt from the page itself, line by line, in
 * each row of pixels along it: no two lines of a print are alike, nor do they fall alike on a scan's pixels.
 */
import type { Darkness } from './darkness.js';

/** Half the width over which a printed line is spread, mm; the paper beside it is looked at as far again. */
const LINE_MM = 0.6;
/** Darker than this is ink, and tells nothing of the grid. */
const PALE = 60;
/** Bare paper is darker than the page's by no more than this, of 255: pale ink hides lines, and its edges
 *  may run along them. */
const ALIKE = 10;
/** This share of a page, the least dark, tells its paper. */
const PAPER = 0.3;
/** A line is learnt over so many of its fields each way: it may bend, as in photos. */
const FIELDS = 2;
/** In fewer places than this nothing is learnt. */
const LEAST_PLACES = 40;
/** Of 255: less than this a line does not add. */
const LEAST = 1;
/** Ink is as dark on a line that it hides as beside it, to so much of 255: between two shapes of ink a line
 *  on the paper is lighter. */
const HIDDEN = 8;
/** What pixels of a line may be lighter than the paper beside them, of 255: grain. */
const BELOW = 20;

/** The pixels of a page by where they are along lines of one direction and across them. */
interface Ways {
  readonly long: number;
  readonly wide: number;
  at(along: number, across: number): number;
}
/** How often what was added, by pixels across the line and by value. */
type Counts = readonly Uint32Array[];

/** Takes out the lines at every `pitch` mm of the sheet both ways. Where none are printed nothing changes. */
export function withoutGrid(dark: Darkness, pitch: number): Darkness {
  const { width, height, perMm, minX, maxY } = dark;
  const field = pitch * perMm;
  const upright = middles(-minX * perMm, field, width);
  const level = middles(maxY * perMm, field, height);
  const data = new Uint8Array(dark.data);
  const bare = paperOf(data) + ALIKE;
  const down: Ways = { long: height, wide: width, at: (along, across) => along * width + across };
  const over: Ways = { long: width, wide: height, at: (along, across) => across * width + along };
  for (const middle of upright) takeOut(data, down, middle, level, perMm, bare);
  for (const middle of level) takeOut(data, over, middle, upright, perMm, bare);
  return { ...dark, data };
}

/** Where lines lie, in pixels, one of them at `first`. */
function middles(first: number, field: number, within: number): number[] {
  const begin = first - Math.floor(first / field) * field;
  const count = Math.max(0, Math.ceil((within - begin) / field));
  return Array.from({ length: count }, (_, i) => begin + i * field);
}

/** A line by the pixels across it: so many from `low` on, and so many of paper before and after them. */
interface Line {
  readonly low: number;
  readonly count: number;
  readonly before: number;
  readonly after: number;
}

/** One line out of the page, between its crossings with others. */
function takeOut(
  data: Uint8Array,
  ways: Ways,
  middle: number,
  crossings: readonly number[],
  perMm: number,
  bare: number,
): void {
  const spread = LINE_MM * perMm;
  const low = Math.max(0, Math.floor(middle - spread));
  const count = Math.min(ways.wide, Math.ceil(middle + spread)) - low;
  const wide = Math.ceil(spread);
  // At the area's edge there is paper on one side only.
  const before = Math.min(wide, low);
  const after = Math.min(wide, ways.wide - low - count);
  if (count <= 0 || before + after < wide) return;
  const line = { low, count, before, after };
  const ends = [0, ...crossings, ways.long];
  const fields = ends.slice(1).map((to, i) => {
    const from = ends[i]!;
    const seen = Array.from({ length: count }, () => new Uint32Array(BELOW + PALE));
    for (let u = Math.ceil(from + spread); u < to - spread; u++) {
      look(data, v => ways.at(u, v), line, bare, seen);
    }
    return { from: Math.round(from), to: Math.round(to), seen };
  });
  const learnt = (near: typeof fields) =>
    Array.from({ length: count }, (_, k) => middleOf(sumOf(near.map(f => f.seen[k]!))));
  const placesIn = (near: typeof fields) =>
    near.reduce((n, f) => n + f.seen[0]!.reduce((a, b) => a + b, 0), 0);
  if (placesIn(fields) < LEAST_PLACES) return;
  const whole = learnt(fields);
  fields.forEach(({ from, to }, i) => {
    const near = fields.slice(Math.max(0, i - FIELDS), i + FIELDS + 1);
    const added = placesIn(near) < LEAST_PLACES ? whole : learnt(near);
    if (Math.max(...added) < LEAST) return;
    for (let u = from; u < to; u++) lighten(data, v => ways.at(u, v), line, added);
  });
}

/** The mean of the pixels before a line, and of those after it. */
function besides(
  data: Uint8Array,
  at: (across: number) => number,
  { low, count, before, after }: Line,
): [number, number] {
  let [sumBefore, sumAfter] = [0, 0];
  for (let v = 1; v <= before; v++) sumBefore += data[at(low - v)]!;
  for (let v = 0; v < after; v++) sumAfter += data[at(low + count + v)]!;
  const [a, b] = [sumBefore / before, sumAfter / after];
  return [before > 0 ? a : b, after > 0 ? b : a];
}

/** What pixels across a line are darker than the paper beside it, where it is no darker than `bare`. */
function look(
  data: Uint8Array,
  at: (across: number) => number,
  line: Line,
  bare: number,
  seen: Counts,
): void {
  const [a, b] = besides(data, at, line);
  if (a > bare || b > bare) return;
  for (let k = 0; k < line.count; k++) if (data[at(line.low + k)]! >= PALE) return;
  for (let k = 0; k < line.count; k++) {
    const more = Math.round(data[at(line.low + k)]! - (a + b) / 2) + BELOW;
    seen[k]![Math.max(0, more)]!++;
  }
}

/** Takes from the pixels across a line what it added. Ink lies on the line and light passes both; where it
 *  does not, the ink is no lighter on the line than on both sides of it. */
function lighten(
  data: Uint8Array,
  at: (across: number) => number,
  line: Line,
  added: readonly number[],
): void {
  const [a, b] = besides(data, at, line);
  const beside = Math.min(a, b);
  for (const [k, more] of added.entries()) {
    if (more <= 0) continue;
    const px = at(line.low + k);
    const value = data[px]!;
    const left = 255 * (1 - (1 - value / 255) / (1 - more / 255));
    const hidden = value > beside - HIDDEN;
    data[px] = Math.max(0, left, hidden ? Math.min(value, beside) : 0) + 0.5;
  }
}

/** How dark the page's paper is, of 255. */
function paperOf(data: Uint8Array): number {
  const counts = new Uint32Array(256);
  for (const v of data) counts[v]!++;
  let [below, v] = [0, 0];
  while (v < 255 && below + counts[v]! < PAPER * data.length) below += counts[v++]!;
  return v;
}

function sumOf(all: Counts): Uint32Array {
  const sum = new Uint32Array(BELOW + PALE);
  for (const counts of all) for (let v = 0; v < sum.length; v++) sum[v]! += counts[v]!;
  return sum;
}

/** The median, within its level by parts. */
function middleOf(counts: Uint32Array): number {
  const half = counts.reduce((s, n) => s + n, 0) / 2;
  let [below, v] = [0, 0];
  while (v < counts.length - 1 && below + counts[v]! < half) below += counts[v++]!;
  return v - 0.5 + (half - below) / Math.max(1, counts[v]!) - BELOW;
}
