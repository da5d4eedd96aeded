/**
 * The drawing of a net, derived from its facts: panel edges are walked and crossed at hinges. Exact:
 * lines stay lines and arcs stay arcs; no polygon is united with another.
 */
import { circle, clockwise, reverse, samePoint, signedArea, steps } from '../geom/index.js';
import type { Closure, Net, Path, Piece, Point, Stock, Stroke } from '../model.js';
import { SAME_ANGLE } from '../units/tolerances.js';
import { joined, lines, loops } from './chain.js';
import { creasesOf, edgesOf } from './edges.js';
import { nearestOn, type Pose, place, pose } from './pose.js';

/** A line to fold about. `angle` as in `Hinge`: positive is a valley seen from the inside. A fold
 *  that is flat in the closed box has the one it has when the box is packed. */
export interface Score {
  readonly path: Path;
  readonly angle: number;
}

export interface NetDrawing {
  /** The outside, counter-clockwise. */
  readonly outline: Path;
  /** Gaps between panels and holes in them, clockwise. */
  readonly holes: readonly Path[];
  /** Cuts between two panels that touch, each once. */
  readonly slits: readonly Path[];
  readonly scores: readonly Score[];
  /** Lines inside the panels. */
  readonly strokes: readonly Stroke[];
}

/** Throws for a net whose hinges do not lie on its panels' outlines, or that falls apart: `checkNet`
 *  tells first. */
export function drawNet(net: Net): NetDrawing {
  const edges = edgesOf(net);
  const lost = edges.astray[0];
  if (lost) {
    const { parent, child } = lost.hinge;
    throw new Error(`${net.id}: hinge ${parent}–${child} is not on the outline of ${lost.panel}`);
  }
  const all = loops(edges.open);
  const outer = all.filter(l => signedArea(l) > 0);
  const [outline] = outer;
  if (!outline || outer.length > 1) {
    throw new Error(`${net.id}: ${outer.length} outlines where one is due`);
  }
  const gaps = all.filter(l => l !== outline);
  return {
    outline,
    holes: [...gaps, ...net.panels.flatMap(p => p.holes.map(clockwise))],
    slits: lines(edges.shared),
    scores: runOn(
      creasesOf(net)
        .filter(h => !h.soft)
        .map(h => ({ path: h.along, angle: h.angle || (h.packed ?? 0) })),
    ),
    strokes: net.panels.flatMap(p => p.strokes),
  };
}

/** Scores of one line and one angle that touch become one. */
function runOn(scores: readonly Score[]): Score[] {
  const out: Score[] = [];
  for (const score of scores) {
    let grown = score;
    // Each joining takes one score off the list, so the search ends.
    for (let i = 0; i < out.length; i++) {
      const one = together(out[i]!, grown);
      if (!one) continue;
      grown = one;
      out.splice(i, 1);
      i = -1;
    }
    out.push(grown);
  }
  return out;
}

function together(a: Score, b: Score): Score | undefined {
  if (!(Math.abs(a.angle - b.angle) <= SAME_ANGLE)) return undefined;
  for (const p of [a.path, reverse(a.path)]) {
    for (const q of [b.path, reverse(b.path)]) {
      const [s, t] = [[...steps(p)], [...steps(q)]];
      if (s.length !== 1 || t.length !== 1 || !samePoint(s[0]!.segment.to, t[0]!.from)) continue;
      const one = joined(s[0]!, t[0]!);
      if (one) return { angle: a.angle, path: { ...p, segments: [one.segment] } };
    }
  }
  return undefined;
}

/** Where the second half of a closure goes: the point of panel b that meets `at` on panel a. */
export function closureMate(closure: Closure, folded: Pose): Point {
  const a = folded.get(closure.a);
  const b = folded.get(closure.b);
  if (!a || !b)
    throw new Error(`a closure names panel ${a ? closure.b : closure.a}: no such panel`);
  return nearestOn(b, place(a, closure.at)).at;
}

/** Which way a fold goes that is flat in the end is not known. */
const scored = ({ path, angle }: Score): Stroke => ({
  operation: 'score',
  path,
  ...(angle !== 0 && { fold: angle > 0 ? 'valley' : 'mountain' }),
});

/** The net as a piece to cut: draw the closures' places, score the hinges, cut the slits. */
export function netPiece(net: Net, stock: Stock, count: number): Piece {
  const { outline, holes, slits, scores, strokes } = drawNet(net);
  const folded = pose(net);
  const dots = net.closures.flatMap(c =>
    [c.at, closureMate(c, folded)].map(at => circle(at, c.diameter / 2)),
  );
  return {
    id: net.id,
    title: net.title,
    name: { part: { title: net.title, ...(net.portion && { portion: net.portion }) } },
    stock: stock.id,
    count,
    outline,
    holes,
    strokes: [
      ...dots.map((path): Stroke => ({ operation: 'draw', path })),
      ...scores.map(scored),
      ...slits.map((path): Stroke => ({ operation: 'cut', path })),
      ...strokes,
    ],
  };
}
