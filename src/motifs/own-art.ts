/** A drawing of the person's own as a motif: its closed cut lines become pieces of paper with holes, all
 *  other lines are worked on them. */
import { defineMotif, type Motif } from '../contracts.js';
import {
  bounds,
  clockwise,
  compose,
  counterClockwise,
  distance,
  endOf,
  meetingOf,
  openPathCutter,
  placesIn,
  pointAt,
  scaling,
  signedArea,
  steps,
  transform,
  translation,
} from '../geom/index.js';
import type { Layer, Operation, Path, Point, Stroke } from '../model.js';
import { ParamError } from '../params.js';
import { layer } from './layers.js';
import { type DrawnLine, lineRules, type Work } from './own-lines.js';

/** Lines of one operation made fit to be worked: each once, ends within `gap` mm joined. */
type Clean = (paths: readonly Path[], gap: number) => readonly Path[];

/** Many pieces are a sheet, not a motif. */
const MOST_PARTS = 60;

const at = ([x, y]: Point) => `${x.toFixed(1)}, ${y.toFixed(1)} mm`;

export function ownArt(file: string, lines: readonly DrawnLine[], clean: Clean): Motif {
  const refuse = (allowed: string, advice: string) =>
    new ParamError('motif', file, allowed, advice);
  const motif = defineMotif({
    id: file,
    family: 'own',
    summary: 'a drawing of your own',
    params: {
      size: {
        kind: 'length',
        default: 'auto',
        least: 5,
        most: 600,
        help: 'width of the finished drawing; auto keeps the size it was drawn in',
      },
      gap: {
        kind: 'length',
        default: 0.1,
        least: 0,
        most: 3,
        help: 'ends of lines that miss each other by no more than this are joined',
      },
      lines: {
        kind: 'text',
        default: '',
        longest: 400,
        help: 'what is done along lines, by colour or group: "red: cut, eyes: draw, rest: leave-out"',
      },
    },
    build({ size, gap, lines: rules }): readonly Layer[] {
      const workOf = lineRules(rules, lines);
      const byWork = new Map<Work, Path[]>();
      for (const line of lines) {
        const work = workOf(line);
        if (work !== 'leave-out') byWork.set(work, [...(byWork.get(work) ?? []), line.path]);
      }
      const cut = byWork.get('cut') ?? [];
      if (cut.length === 0) {
        throw refuse(
          'a drawing with a closed cut line round it, and there is nothing to cut in it',
          'say with lines: which colour or group is cut',
        );
      }
      const b = bounds(...cut);
      const wide = b.maxX - b.minX;
      if (!(wide > 0)) throw refuse('a drawing that is wider than nothing', 'redraw it');
      const scale = size === 'auto' ? 1 : size / wide;
      const map = compose(
        scaling(scale),
        translation(-(b.minX + b.maxX) / 2, -(b.minY + b.maxY) / 2),
      );
      const worked = (work: Operation) => {
        const paths = (byWork.get(work) ?? []).map(p => transform(p, map));
        return paths.length > 0 ? clean(paths, gap) : [];
      };
      const cuts = worked('cut');
      const parts = partsOf(
        cuts.filter(p => p.closed),
        cuts.filter(p => !p.closed),
        refuse,
      );
      const strokes: Stroke[] = [
        ...cuts.filter(p => !p.closed).map((path): Stroke => ({ operation: 'cut', path })),
        ...(['draw', 'score', 'perforate'] as const).flatMap(operation =>
          worked(operation).map((path): Stroke => ({ operation, path })),
        ),
      ];
      return withStrokes(parts, strokes, refuse);
    },
  });
  // The table's own types are narrower than `Motif`'s.
  return motif as unknown as Motif;
}

type Refuse = (allowed: string, advice: string) => ParamError;

/** Prepared when it is first asked: most loops have nothing in them. */
function placesLazily(outer: Path): (p: Point) => 'in' | 'on' | 'out' {
  let places: ReturnType<typeof placesIn> | undefined;
  return p => {
    places ??= placesIn({ outer, holes: [] });
    return places(p);
  };
}

/** Closed lines by how deep they lie: an outline, its holes, what lies in a hole, and so on. */
function partsOf(closed: readonly Path[], open: readonly Path[], refuse: Refuse): Layer[] {
  if (closed.length === 0) {
    const nearest = open.map(p => distance(p.start, endOf(p))).sort((a, b) => a - b)[0]!;
    throw refuse(
      `a closed cut line round it; the one that comes nearest is open by ${nearest.toFixed(2)} mm`,
      nearest <= 3 ? `close it, or give gap: ${(nearest + 0.05).toFixed(2)}mm` : 'close it',
    );
  }
  const crossing = meetingOf(closed);
  if (crossing) {
    throw refuse(
      `closed cut lines that neither touch nor cross each other; these do near ${at(crossing)} from its middle`,
      'unite the shapes in your drawing program, or draw one of them instead of cutting it',
    );
  }
  const sorted = closed
    .map(path => ({
      path,
      area: Math.abs(signedArea(path)),
      box: bounds(path),
      where: placesLazily(path),
    }))
    .sort((p, q) => q.area - p.area);
  const depth: number[] = [];
  const holes: Path[][] = sorted.map(() => []);
  for (const [i, { path, box }] of sorted.entries()) {
    // The smallest of the larger ones around it.
    let around = -1;
    for (let k = i - 1; k >= 0 && around < 0; k--) {
      const other = sorted[k]!;
      const inBox =
        other.box.minX <= box.minX &&
        other.box.maxX >= box.maxX &&
        other.box.minY <= box.minY &&
        other.box.maxY >= box.maxY;
      if (inBox && other.where(path.start) === 'in') around = k;
    }
    depth.push(around < 0 ? 0 : depth[around]! + 1);
    if (depth[i]! % 2 === 1) holes[around]!.push(clockwise(path));
  }
  const outlines = sorted.flatMap(({ path }, i) =>
    depth[i]! % 2 === 0 ? [{ path: counterClockwise(path), holes: holes[i]! }] : [],
  );
  if (outlines.length > MOST_PARTS) {
    throw refuse(
      `at most ${MOST_PARTS} separate pieces; it falls into ${outlines.length}`,
      'leave the small ones out, or draw them instead of cutting them',
    );
  }
  return outlines.map(({ path, holes }, i) =>
    layer(outlines.length === 1 ? 'front' : `part-${i + 1}`, path, { holes }),
  );
}

/** Every line on the piece that it lies on; what runs over an edge ends there. */
function withStrokes(parts: readonly Layer[], strokes: readonly Stroke[], refuse: Refuse): Layer[] {
  const lost = new Set(strokes);
  const laid = parts.map(part => {
    const cut = openPathCutter({ outer: part.outline, holes: part.holes });
    return strokes.flatMap(stroke => {
      const inside = cut(stroke.path);
      if (inside.length > 0) lost.delete(stroke);
      return inside.map((path): Stroke => ({ operation: stroke.operation, path }));
    });
  });
  for (const { operation, path } of lost) {
    const [first] = steps(path);
    throw refuse(
      `lines to ${operation} on its paper; one lies beside it near ${at(pointAt(first!, 0.5))} from its middle`,
      'move it onto the paper, or map its colour to leave-out',
    );
  }
  return parts.map((part, i) => ({ ...part, strokes: laid[i]! }));
}
