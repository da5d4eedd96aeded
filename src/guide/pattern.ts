/** A net in the flat with its folds, glue, dots and lengths. */

import { bounds, flatten } from '../geom/index.js';
import type { Pattern, PatternLine } from '../guide-model.js';
import type { Net, Operation, Path, Point } from '../model.js';
import type { CutNet } from './ask.js';
import type { GuidePattern } from './facts.js';
import { letteredOf, measuresOf } from './measures.js';
import { partOf } from './names.js';
import { recipeFor } from './recipe.js';

/** Share of a panel's bounds that a name may fill: flaps lean in, corners are round. */
const NAME_ROOM = 0.82;

/** Nets of one shape come once. */
export function patternsOf(
  cut: readonly CutNet[],
  colour: string,
  seats: (net: string) => CutNet['glue'],
): GuidePattern[] {
  const shapes = new Map<string, CutNet[]>();
  for (const c of cut) {
    const key = shapeOf(c.net);
    shapes.set(key, [...(shapes.get(key) ?? []), c]);
  }
  return [...shapes.values()].map(alike => {
    const [first] = alike;
    const { lettered, over } = letteredOf(first!.drawn, first!.net);
    return {
      pattern: patternOf(first!, alike, colour, seats(first!.net.id), lettered),
      unlettered: over,
      recipe: recipeFor(first!.net, first!.drawn),
    };
  });
}

/** Alike to a hundredth of a millimetre, wherever it lies. */
function shapeOf(net: Net): string {
  const all = bounds(...net.panels.map(p => p.outline));
  const at = (v: number) => Math.round(v * 100);
  return net.panels
    .map(p =>
      p.outline.segments.map(s => [at(s.to[0] - all.minX), at(s.to[1] - all.minY)]).join(';'),
    )
    .join('|');
}

const LINE_OF: Readonly<Partial<Record<Operation, PatternLine['kind']>>> = {
  cut: 'cut',
  perforate: 'perforate',
  draw: 'draw',
};

function patternOf(
  { net, drawn, glue, halves }: CutNet,
  alike: readonly CutNet[],
  colour: string,
  seated: CutNet['glue'],
  lettered: Pattern['lettered'],
): Pattern {
  const { outline, holes, slits, scores, strokes } = drawn;
  const lines: PatternLine[] = [
    ...scores.map(s => ({
      kind: s.angle < 0 ? ('mountain' as const) : ('valley' as const),
      path: s.path,
    })),
    ...slits.map(path => ({ kind: 'cut' as const, path })),
    ...strokes.map(s => ({ kind: LINE_OF[s.operation] ?? s.fold ?? 'valley', path: s.path })),
  ];
  return {
    net: net.id,
    parts: (alike.length > 1 ? alike.map(a => a.net) : [net]).map(partOf),
    count: alike.length,
    colour,
    outline,
    holes,
    lines,
    glue: flapsOf(net, [...glue, ...seated]).map(({ panel, face, area }) => ({
      panel,
      face,
      area,
    })),
    dots: halves.map(h => ({ at: h.at, radius: h.diameter / 2 })),
    panels: net.panels.map(p => ({ id: p.id, ...placeOfName(p.outline) })),
    measures: measuresOf(drawn),
    lettered,
  };
}

/** Heights at which a name is tried, in shares of the panel's; the middle is best. */
const LEVELS = [0.5, 0.38, 0.62, 0.26, 0.74, 0.15, 0.85];
/** A place elsewhere must be so much wider than the middle. */
const WIDER = 1.2;
const FLAT_MM = 0.2;

/** The middle of the widest stretch across a panel, and the room about it. */
function placeOfName(outline: Path): Pick<Pattern['panels'][number], 'at' | 'room'> {
  const points = flatten(outline, FLAT_MM);
  const { minY, maxY } = bounds(outline);
  let best: { at: Point; run: readonly [number, number] } | undefined;
  for (const level of LEVELS) {
    const y = minY + level * (maxY - minY);
    for (const run of stretches(points, y, 0)) {
      const wide = run[1] - run[0];
      if (best && wide <= WIDER * (best.run[1] - best.run[0])) continue;
      best = { at: [(run[0] + run[1]) / 2, y], run };
    }
  }
  const { at, run } = best ?? { at: points[0]!, run: [0, 0] as const };
  const up = stretches(points, at[0], 1).find(([a, b]) => a <= at[1] && at[1] <= b) ?? [
    at[1],
    at[1],
  ];
  const high = 2 * Math.min(at[1] - up[0], up[1] - at[1]);
  return { at, room: [NAME_ROOM * (run[1] - run[0]), NAME_ROOM * high] };
}

/** Where a line along an axis is inside a loop, at a place on the other axis. */
function stretches(loop: readonly Point[], at: number, axis: 0 | 1): [number, number][] {
  const other = axis === 0 ? 1 : 0;
  const marks = loop.flatMap((p, i) => {
    const q = loop[(i + 1) % loop.length]!;
    if (p[other] > at === q[other] > at) return [];
    return [p[axis] + ((q[axis] - p[axis]) * (at - p[other])) / (q[other] - p[other])];
  });
  marks.sort((a, b) => a - b);
  return Array.from({ length: marks.length >> 1 }, (_, i) => [marks[2 * i]!, marks[2 * i + 1]!]);
}

/** Glue goes on the flap, which is covered whole, and not on what it is pressed against. */
export function flapsOf(net: Net, areas: CutNet['glue']): CutNet['glue'] {
  const outlines = new Map(net.panels.map(p => [p.id, p.outline]));
  return areas.filter(a => a.area === outlines.get(a.panel));
}
