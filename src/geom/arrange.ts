/**
 * Booleans and offsets from one construction: cut all loops where they meet, ask of each piece how often
 * every operand runs round its left and its right side, keep the pieces that part the inside from
 * the outside, and chain them. Lines, arcs and cubics stay what they are; nothing is flattened.
 */
import { ON_PATH_MM } from '../units/tolerances.js';
import { chain, type Piece } from './chain.js';
import { boxesMeet, stepCrossings } from './crossing.js';
import { stepLength } from './measure.js';
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
    const cell = 4 * ON_PATH_MM;
    const [i, j] = [Math.floor(p[0] / cell), Math.floor(p[1] / cell)];
    for (let di = -1; di <= 1; di++) {
      for (let dj = -1; dj <= 1; dj++) {
        for (const id of this.#cells.get(this.#key(i + di, j + dj)) ?? []) {
          if (samePoint(this.points[id]!, p, ON_PATH_MM)) return id;
        }
      }
    }
    const id = this.points.length;
    this.points.push(p);
    const key = this.#key(i, j);
    const here = this.#cells.get(key);
    if (here) here.push(id);
    else this.#cells.set(key, [id]);
    return id;
  }
}

interface Element {
  readonly origin: Step;
  readonly t0: number;
  readonly t1: number;
  readonly part: Step;
  readonly box: Bounds;
  readonly operand: number;
  readonly cuts: number[];
}

/** The loops' steps in parts that never turn back, each cut where it meets another; with `across`, only
 *  where it meets another operand. */
function cutElements(loops: readonly Loop[], across: boolean): Element[] {
  const elements: Element[] = [];
  for (const { path, operand } of loops) {
    for (const origin of steps(path)) {
      if (!(stepLength(origin) > 0)) continue;
      const ends = [0, ...extremeParams(origin), 1];
      for (let i = 1; i < ends.length; i++) {
        const [t0, t1] = [ends[i - 1]!, ends[i]!];
        const part = partOfStep(origin, t0, t1);
        elements.push({ origin, t0, t1, part, box: endsBox(part), operand, cuts: [] });
      }
    }
  }
  elements.sort((p, q) => p.box.minX - q.box.minX);
  for (let i = 0; i < elements.length; i++) {
    const a = elements[i]!;
    for (let j = i + 1; j < elements.length; j++) {
      const b = elements[j]!;
      if (b.box.minX > a.box.maxX + ON_PATH_MM) break;
      if (across && a.operand === b.operand) continue;
      // Parts of one step that follow each other turn by less than a half turn: they cannot meet.
      if (a.origin === b.origin && (a.t1 === b.t0 || b.t1 === a.t0)) continue;
      if (!boxesMeet(a.box, b.box)) continue;
      for (const { ta, tb } of stepCrossings(a.part, b.part)) {
        a.cuts.push(ta);
        b.cuts.push(tb);
      }
    }
  }
  return elements;
}

function piecesOf(elements: readonly Element[], nodes: Nodes): Piece[] {
  // Corners that were given keep their places to the bit.
  for (const { origin } of elements) nodes.idOf(origin.from);
  const pieces: Piece[] = [];
  for (const { origin, t0, t1, part, operand, cuts } of elements) {
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

function bundlesOf(pieces: readonly Piece[], operands: number): Bundle[] {
  const byEnds = new Map<string, Bundle[]>();
  const all: Bundle[] = [];
  for (const piece of pieces) {
    const { a, b } = piece;
    const key = a < b ? `${a},${b}` : `${b},${a}`;
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

/** Pieces by bands across one axis, so that a ray along the other meets few of them. */
class Bands {
  readonly #bands: number[][];
  readonly #least: number;
  readonly #width: number;

  constructor(pieces: readonly Piece[], axis: 0 | 1) {
    const spans = pieces.map(({ part: { from, segment } }) => [from[axis], segment.to[axis]]);
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    for (const [a, b] of spans) {
      least = Math.min(least, a!, b!);
      most = Math.max(most, a!, b!);
    }
    const count = Math.max(1, Math.min(1024, pieces.length));
    this.#least = least;
    this.#width = (most - least) / count || 1;
    this.#bands = Array.from({ length: count + 1 }, () => []);
    for (const [i, [a, b]] of spans.entries()) {
      const last = this.#index(Math.max(a!, b!));
      for (let k = this.#index(Math.min(a!, b!)); k <= last; k++) this.#bands[k]!.push(i);
    }
  }

  #index = (level: number): number => Math.floor((level - this.#least) / this.#width);

  /** Every piece that may cross the level, and some that do not. */
  at(level: number): readonly number[] {
    return this.#bands[this.#index(level)] ?? [];
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
 * which means that the loops meet in a way the rounding does not resolve. `across` leaves out the search
 * for meetings within one operand, for operands that are known to have none.
 */
export function arrange(
  loops: readonly Loop[],
  operands: number,
  inside: (windings: readonly number[]) => boolean,
  across = false,
): Path[] | undefined {
  const nodes = new Nodes();
  const pieces = piecesOf(cutElements(loops, across), nodes);
  const bands = [new Bands(pieces, 0), new Bands(pieces, 1)];
  const kept: { piece: Piece; forward: boolean }[] = [];
  for (const bundle of bundlesOf(pieces, operands)) {
    const { left, right } = sidesOf(bundle, pieces, bands);
    const [inLeft, inRight] = [inside(left), inside(right)];
    if (inLeft !== inRight) kept.push({ piece: bundle.first, forward: inLeft });
  }
  return chain(kept);
}
