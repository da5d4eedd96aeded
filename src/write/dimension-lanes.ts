/**
 * Dimension lines about a drawing (after ISO 129-1): chains of distances in lanes outside it. A text
 * stands over its line where it fits; else it stands across the lane, moved along just so far that no two
 * texts touch, with a leader to its line.
 */
import type { Measure, PatternWords } from '../guide-model.js';
import type { Affine, Bounds, Point } from '../model.js';
import { type Line, type Mark, stroke } from './figure.js';
import type { TextMetrics } from './text-metrics.js';

const EM = 2.7;
/** From the paper to the first line, and from a line to the next one beyond its text. */
const FIRST = 3.4;
const LANE = EM + 1.7;
/** Between a line and its text, and between texts that stand side by side. */
const GAP = 0.7;
const APART = 1.22;
/** Texts across a lane may stand out so far past the drawing; where that is not enough they get smaller. */
const PAST = 6;
const LEAST_EM = 1.6;
/** From a line to texts that stand across. */
const LEADER = 3.2;
const ARROW = 1.2;
const HAIR: Line = { colour: 'hair', width: 0.13 };
const THIN: Line = { colour: 'faint', width: 0.18 };

/** One chain on one side of the drawing. */
interface Lane {
  readonly list: readonly {
    readonly measure: Measure;
    readonly text: string;
    readonly long: number;
  }[];
  /** Distance of its line from the paper. */
  readonly out: number;
  /** Where the texts that stand across are, along the axis and in the drawing's scale; nothing for those
   *  over their line. */
  readonly across: readonly (number | undefined)[];
  /** Size of those texts. */
  readonly em: number;
}
export interface Lanes {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly all: readonly (Lane & { readonly axis: 'x' | 'y'; readonly side: 'low' | 'high' })[];
}

/** The lanes of a drawing at a scale, and the margins that they take. */
export function lanesOf(words: PatternWords, scale: number, metrics: TextMetrics): Lanes {
  const list = words.pattern.of.measures.map((measure, i) => {
    const text = words.measures[i]!;
    return { measure, text, long: metrics.width(text, EM) };
  });
  const all: Lanes['all'][number][] = [];
  const margin = (axis: 'x' | 'y', side: 'low' | 'high'): number => {
    let out = FIRST;
    let end = 2;
    for (const whole of [false, true]) {
      const own = list.filter(
        ({ measure: m }) => m.axis === axis && m.side === side && m.whole === whole,
      );
      if (own.length === 0) continue;
      const { across, em } = acrossOf(own, scale);
      all.push({ axis, side, list: own, out, across, em });
      const long = (i: number) => (across[i] === undefined ? 0 : (own[i]!.long * em) / EM + LEADER);
      const longest = Math.max(0, ...own.map((_, i) => long(i)));
      out += Math.max(LANE, longest + 1.2);
      end = out;
    }
    return end;
  };
  return {
    bottom: margin('x', 'low'),
    top: margin('x', 'high'),
    left: margin('y', 'low'),
    right: margin('y', 'high'),
    all,
  };
}

/** Middles of the texts that do not fit over their line, pushed apart as little as can be: least squares
 *  by pooling neighbours that meet (Ayer et al., Ann. Math. Statist. 26, 1955). */
function acrossOf(list: Lane['list'], scale: number): Pick<Lane, 'across' | 'em'> {
  const out = list.map((): number | undefined => undefined);
  const narrow = list.flatMap(({ measure: { from, to }, long }, i) =>
    long + 2 * GAP + 1 <= (to - from) * scale ? [] : [i],
  );
  const low = list[0]!.measure.from * scale - PAST;
  const high = list.at(-1)!.measure.to * scale + PAST;
  const em = Math.max(LEAST_EM, Math.min(EM, (high - low) / (narrow.length * APART)));
  const apart = em * APART;
  const pools: { sum: number; n: number; members: number[] }[] = [];
  for (const [k, i] of narrow.entries()) {
    const { from, to } = list[i]!.measure;
    // In steps of one text: the k-th wishes to stand k texts before its own place.
    pools.push({ sum: ((from + to) / 2) * scale - k * apart, n: 1, members: [i] });
    while (pools.length > 1) {
      const [a, b] = [pools.at(-2)!, pools.at(-1)!];
      if (a.sum / a.n <= b.sum / b.n) break;
      pools.splice(-2, 2, {
        sum: a.sum + b.sum,
        n: a.n + b.n,
        members: [...a.members, ...b.members],
      });
    }
  }
  // Not past the ends, which leaves their order and their distances as they are.
  const [least, most] = [low + apart / 2, high - apart / 2 - (narrow.length - 1) * apart];
  let k = 0;
  for (const { sum, n, members } of pools) {
    const place = Math.max(least, Math.min(most, sum / n));
    for (const i of members) out[i] = place + k++ * apart;
  }
  return { across: out, em };
}

/** Extension lines, dimension lines and their texts. `at` takes the net to the figure; `box` is its
 *  bounds. */
export function axisMarks(lanes: Lanes, at: Affine, box: Bounds): Mark[] {
  const scale = at[0];
  const reach = new Map<string, [from: Point, to: Point]>();
  const marks = lanes.all.flatMap(({ axis, side, list, out, across, em }): Mark[] => {
    const away = side === 'low' ? -1 : 1;
    const shift = axis === 'x' ? at[4] : at[5];
    const edge =
      axis === 'x'
        ? (side === 'low' ? box.minY : box.maxY) * scale + at[5]
        : (side === 'low' ? box.minX : box.maxX) * scale + at[4];
    /** A place along the axis, and so far out from the paper. */
    const point = (along: number, off: number): Point =>
      axis === 'x' ? [along, edge + away * off] : [edge + away * off, along];
    return list.flatMap(({ measure, text }, i): Mark[] => {
      const [a, b] = [measure.from * scale + shift, measure.to * scale + shift];
      for (const [k, along] of [a, b].entries()) {
        const other = axis === 'x' ? at[5] : at[4];
        const begin = measure.reach[k as 0 | 1] * scale + other;
        const from: Point = axis === 'x' ? [along, begin] : [begin, along];
        const key = `${axis} ${side} ${along.toFixed(3)}`;
        reach.set(key, [from, point(along, out + 1)]);
      }
      const middle = (a + b) / 2;
      const own = across[i];
      const line = arrows(point(a, out), point(b, out), b - a);
      if (own === undefined) {
        // Text over its line: away from the paper above and at the right; below, under the line.
        const off = axis === 'x' ? (side === 'low' ? out + GAP + 0.72 * EM : out + GAP) : out;
        const [x, y] = point(middle, off);
        const foot: Point =
          axis === 'x' ? [x, y] : side === 'low' ? [x - GAP, y] : [x + GAP + 0.72 * EM, y];
        return [
          ...line,
          {
            kind: 'words',
            text,
            at: foot,
            size: EM,
            anchor: 'middle',
            turned: axis === 'y',
            colour: 'ink',
          },
        ];
      }
      const along = own + shift;
      const begin = point(along, out + LEADER);
      const low = side === 'low';
      // Across the lane: turned for lengths along x, level for those along y.
      const foot: Point =
        axis === 'x' ? [begin[0] + 0.33 * em, begin[1]] : [begin[0], begin[1] - 0.33 * em];
      return [
        ...line,
        stroke([point(middle, out), point(along, out + LEADER - 0.5)], HAIR),
        {
          kind: 'words',
          text,
          at: foot,
          size: em,
          anchor: low ? 'end' : 'start',
          turned: axis === 'x',
          colour: 'ink',
        },
      ];
    });
  });
  return [...[...reach.values()].map(([from, to]) => stroke([from, to], HAIR)), ...marks];
}

/** A dimension line with an arrow at each end; with ticks where it is short. */
function arrows(a: Point, b: Point, long: number): Mark[] {
  const [ux, uy] = long > 0 ? [(b[0] - a[0]) / long, (b[1] - a[1]) / long] : [1, 0];
  const main = stroke([a, b], THIN);
  const head = ([x, y]: Point, way: 1 | -1): Mark => {
    const [bx, by] = [x + way * ARROW * ux, y + way * ARROW * uy];
    const [nx, ny] = [-uy * 0.3 * ARROW, ux * 0.3 * ARROW];
    return {
      kind: 'shape',
      paths: [
        {
          start: [x, y],
          segments: [
            { kind: 'line', to: [bx + nx, by + ny] },
            { kind: 'line', to: [bx - nx, by - ny] },
            { kind: 'line', to: [x, y] },
          ],
          closed: true,
        },
      ],
      fill: 'faint',
    };
  };
  const tick = ([x, y]: Point): Mark => {
    const t = 0.6;
    return stroke(
      [
        [x - t, y - t],
        [x + t, y + t],
      ],
      THIN,
    );
  };
  return long > 3 * ARROW ? [main, head(a, 1), head(b, -1)] : [main, tick(a), tick(b)];
}
