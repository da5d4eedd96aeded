/** A net in the flat with its folds, glue, dots and lengths. */
import { bounds } from '../geom/index.js';
import type { Pattern, PatternLine } from '../guide-model.js';
import type { Net, Operation } from '../model.js';
import type { CutNet } from './ask.js';
import type { GuidePattern } from './facts.js';
import { letteredOf, measuresOf } from './measures.js';
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
    const { lettered, over } = letteredOf(first!.drawn);
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
    ...strokes.map(s => ({ kind: LINE_OF[s.operation] ?? ('valley' as const), path: s.path })),
  ];
  return {
    net: net.id,
    title: alike.length > 1 ? alike.map(a => a.net.title).join(', ') : net.title,
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
    panels: net.panels.map(p => {
      const b = bounds(p.outline);
      const [w, h] = [b.maxX - b.minX, b.maxY - b.minY];
      return {
        id: p.id,
        at: [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2],
        room: [NAME_ROOM * w, NAME_ROOM * h],
      };
    }),
    measures: measuresOf(drawn),
    lettered,
  };
}

/** Glue goes on the flap, which is covered whole, and not on what it is pressed against. */
export function flapsOf(net: Net, areas: CutNet['glue']): CutNet['glue'] {
  const outlines = new Map(net.panels.map(p => [p.id, p.outline]));
  return areas.filter(a => a.area === outlines.get(a.panel));
}
