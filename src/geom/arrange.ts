/**
 * Booleans and offsets from one construction: cut all loops where they meet, ask of each piece how often
 * every operand runs round its left and its right side, keep the pieces that part the inside from
 * the outside, and chain them. Lines, arcs and cubics stay what they are; nothing is flattened.
 */
import { ON_PATH_MM } from '../units/tolerances.js';
import { chain, type Piece } from './chain.js';
import { boxesMeet, stepCrossings } from './crossing.js';
import { crossingAt, endsBox, extremeParams } from './monotone.js';
import { partOfStep, pointAt, type Step, steps, tangentAt } from './step.js';
import type { Bounds, Path, Point, Segment } from './types.js';
import { samePoint } from './vec.js';

/** A closed path as one of several operands, by number. */
export interface Loop {
  readonly path: Path;
  readonly operand: number;
}

/** Points nearer than `ON_PATH_MM` to one that is known become that one. */
class Nodes {
  readonly points: Point[] = [];
  readonly #cells = new Map<number, number[]>();

  /** Cells that share a key only mean more points to compare. */
  #key = (i: number, j: number): number => Math.imul(i, 73856093) ^ Math.imul(j, 19349663);

  idOf(p: Point): number {
    const [x, y] = [p[0] / CELL_MM, p[1] / CELL_MM];
    const [i, j] = [Math.floor(x), Math.floor(y)];
    // A point this near may lie in the next cell only where p is at the edge of its own.
    const [di, dj] = [besideOf(x - i), besideOf(y - j)];
    const found =
      this.#inCell(i, j, p) ??
      (di === 0 ? undefined : this.#inCell(i + di, j, p)) ??
      (dj === 0 ? undefined : this.#inCell(i, j + dj, p)) ??
      (di === 0 || dj === 0 ? undefined : this.#inCell(i + di, j + dj, p));
    if (found !== undefined) return found;
    const id = this.points.length;
    this.points.push(p);
    const key = this.#key(i, j);
    const here = this.#cells.get(key);
    if (here) here.push(id);
    else this.#cells.set(key, [id]);
    return id;
  }

  #inCell(i: number, j: number, p: Point): number | undefined {
    return this.#cells.get(this.#key(i, j))?.find(id => samePoint(this.points[id]!, p, ON_PATH_MM));
  }
}

/** Cells are wide, so that few points lie at an edge, and narrow, so that few share one. */
const CELL_MM = 64 * ON_PATH_MM;
const EDGE = ON_PATH_MM / CELL_MM;
const besideOf = (part: number): -1 | 0 | 1 => (part <= EDGE ? -1 : part >= 1 - EDGE ? 1 : 0);

interface Element {
  readonly origin: Step;
  readonly t0: number;
  readonly t1: number;
  readonly part: Step;
  readonly box: Bounds;
  readonly operand: number;
  readonly buried: boolean;
  readonly cuts: number[];
}

/** What is known of the loops beforehand, which saves looking for it. */
interface Known {
  /** The loops of one operand meet nothing of each other. */
  readonly across?: boolean;
  /** Whether all of a step lies off the borders, so that where it meets others does not matter. */
  readonly isBuried?: (step: Step) => boolean;
}

/** The loops' steps in parts that never turn back, each cut where it meets another. */
function cutElements(loops: readonly Loop[], { across, isBuried }: Known): Element[] {
  const elements: Element[] = [];
  for (const { path, operand } of loops) {
    for (const origin of steps(path)) {
      if (isPoint(origin)) continue;
      const buried = isBuried?.(origin) ?? false;
      const ends = [0, ...extremeParams(origin), 1];
      for (let i = 1; i < ends.length; i++) {
        const [t0, t1] = [ends[i - 1]!, ends[i]!];
        const part = partOfStep(origin, t0, t1);
        elements.push({ origin, t0, t1, part, box: endsBox(part), operand, buried, cuts: [] });
      }
    }
  }
  elements.sort((p, q) => p.box.minX - q.box.minX);
  const met = isBuried ? elements.filter(e => !e.buried) : elements;
  for (let i = 0; i < met.length; i++) {
    const a = met[i]!;
    for (let j = i + 1; j < met.length; j++) {
      const b = met[j]!;
      if (b.box.minX > a.box.maxX + ON_PATH_MM) break;
      if (across && a.operand === b.operand) continue;
      // Parts of one step that follow each other turn by less than a half turn: they cannot meet.
      if (a.origin === b.origin && (a.t1 === b.t0 || b.t1 === a.t0)) continue;
      if (!boxesMeet(a.box, b.box) || meetInCorner(a, b)) continue;
      for (const { ta, tb } of stepCrossings(a.part, b.part)) {
        a.cuts.push(ta);
        b.cuts.push(tb);
      }
    }
  }
  return elements;
}

const isPoint = ({ from, segment }: Step): boolean =>
  samePoint(from, segment.to, 0) &&
  (segment.kind !== 'cubic' || (samePoint(from, segment.c1, 0) && samePoint(from, segment.c2, 0)));

/** Whether two parts share an end, and their boxes nothing but that corner: as most neighbours do. */
function meetInCorner({ part: p, box: a }: Element, { part: q, box: b }: Element): boolean {
  if (Math.min(a.maxX, b.maxX) > Math.max(a.minX, b.minX)) return false;
  if (Math.min(a.maxY, b.maxY) > Math.max(a.minY, b.minY)) return false;
  return samePoint(p.segment.to, q.from, 0) || samePoint(q.segment.to, p.from, 0);
}

function piecesOf(elements: readonly Element[], nodes: Nodes): Piece[] {
  // Corners that were given keep their places to the bit.
  for (const { origin } of elements) nodes.idOf(origin.from);
  const pieces: Piece[] = [];
  for (const { origin, t0, t1, part, operand, buried, cuts } of elements) {
    let last = 0;
    let a = nodes.idOf(part.from);
    for (const t of [...cuts.sort((x, y) => x - y), 1]) {
      if (!(t > last)) continue;
      const b = nodes.idOf(t === 1 ? part.segment.to : pointAt(part, t));
      if (b === a) continue;
      const piece = partOfStep(part, last, t);
      const segment = { ...piece.segment, to: nodes.points[b]! } as Segment;
      const at = (s: number) => (s === 1 ? t1 : t0 + (t1 - t0) * s);
      pieces.push({
        origin,
        t0: at(last),
        t1: at(t),
        part: { from: nodes.points[a]!, segment },
        a,
        b,
        operand,
        buried,
      });
      [last, a] = [t, b];
    }
  }
  return pieces;
}

/** Pieces that lie on each other, with how often each operand runs along the first of them. */
interface Bundle {
  readonly first: Piece;
  readonly middle: Point;
  readonly members: Set<Piece>;
  readonly net: number[];
}

function bundlesOf(pieces: readonly Piece[], operands: number, nodes: number): Bundle[] {
  const byEnds = new Map<number, Bundle[]>();
  const all: Bundle[] = [];
  for (const piece of pieces) {
    const { a, b } = piece;
    const key = Math.min(a, b) * nodes + Math.max(a, b);
    const near = byEnds.get(key) ?? [];
    const middle = pointAt(piece.part, 0.5);
    let bundle = near.find(other => samePoint(other.middle, middle, 2 * ON_PATH_MM));
    if (!bundle) {
      bundle = { first: piece, middle, members: new Set(), net: new Array(operands).fill(0) };
      near.push(bundle);
      byEnds.set(key, near);
      all.push(bundle);
    }
    bundle.members.add(piece);
    bundle.net[piece.operand]! += bundle.first.a === a ? 1 : -1;
  }
  return all;
}

/** Pieces by bands across one axis, so that a ray along the other meets few of them: in one list, those
 *  of a band after those of the band before. */
class Bands {
  readonly #list: Int32Array;
  readonly #starts: Int32Array;
  readonly #least: number;
  readonly #width: number;

  constructor(pieces: readonly Piece[], axis: 0 | 1) {
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    for (const { part } of pieces) {
      const [a, b] = [part.from[axis], part.segment.to[axis]];
      least = Math.min(least, a, b);
      most = Math.max(most, a, b);
    }
    const count = Math.max(1, Math.min(1024, pieces.length));
    this.#least = least;
    this.#width = (most - least) / count || 1;
    // The last band holds what lies on the very edge.
    this.#starts = new Int32Array(count + 2);
    const each = (see: (band: number, piece: number) => void) => {
      for (const [i, { part }] of pieces.entries()) {
        const [a, b] = [this.#index(part.from[axis]), this.#index(part.segment.to[axis])];
        for (let k = Math.min(a, b); k <= Math.max(a, b); k++) see(k, i);
      }
    };
    each(k => this.#starts[k + 1]!++);
    for (let k = 0; k <= count; k++) this.#starts[k + 1]! += this.#starts[k]!;
    this.#list = new Int32Array(this.#starts[count + 1]!);
    const next = this.#starts.slice();
    each((k, i) => {
      this.#list[next[k]!++] = i;
    });
  }

  #index = (level: number): number => Math.floor((level - this.#least) / this.#width);

  /** Every piece that may cross the level, and some that do not. */
  at(level: number): Int32Array {
    const k = this.#index(level);
    return this.#list.subarray(this.#starts[k] ?? 0, this.#starts[k + 1] ?? 0);
  }
}

/** How often the operands run round the two sides of a bundle. */
function sidesOf(bundle: Bundle, pieces: readonly Piece[], bands: readonly Bands[]) {
  const { first, middle, members, net } = bundle;
  const tangent = tangentAt(first.part, 0.5);
  // A ray along x where the piece runs steeply, along y where it runs level.
  const across = Math.abs(tangent[1]) >= Math.abs(tangent[0]) ? 1 : 0;
  const along = across === 1 ? 0 : 1;
  const [level, here] = [middle[across], middle[along]];
  const others = net.map(() => 0);
  for (const i of bands[across]!.at(level)) {
    const piece = pieces[i]!;
    const { from, segment } = piece.part;
    const { to } = segment;
    const [p, q] = [from[across], to[across]];
    // Half open, so that a ray through a corner counts it once.
    if (!(Math.min(p, q) <= level && level < Math.max(p, q))) continue;
    if (here > Math.max(from[along], to[along]) || members.has(piece)) continue;
    const ahead =
      here < Math.min(from[along], to[along]) || here < crossingAt(piece.part, across, level);
    if (ahead) others[piece.operand]! += q > p === (across === 1) ? 1 : -1;
  }
  // The ray leaves to the right of the piece, or to its left, where it has not met the bundle.
  const right = across === 1 ? tangent[1] > 0 : tangent[0] < 0;
  return right
    ? { right: others, left: others.map((w, k) => w + net[k]!) }
    : { left: others, right: others.map((w, k) => w - net[k]!) };
}

/**
 * The borders of what `inside` says is in, given how often each operand runs round a point: closed paths
 * with the inside on their left, none crossing another. `undefined` when the pieces do not chain,
 * which means that the loops meet in a way the rounding does not resolve.
 */
export function arrange(
  loops: readonly Loop[],
  operands: number,
  inside: (windings: readonly number[]) => boolean,
  known: Known = {},
): Path[] | undefined {
  const nodes = new Nodes();
  const pieces = piecesOf(cutElements(loops, known), nodes);
  const bands = [new Bands(pieces, 0), new Bands(pieces, 1)];
  const kept: { piece: Piece; forward: boolean }[] = [];
  const asked = known.isBuried ? pieces.filter(p => !p.buried) : pieces;
  for (const bundle of bundlesOf(asked, operands, nodes.points.length)) {
    const { left, right } = sidesOf(bundle, pieces, bands);
    const [inLeft, inRight] = [inside(left), inside(right)];
    if (inLeft !== inRight) kept.push({ piece: bundle.first, forward: inLeft });
  }
  return chain(kept);
}
