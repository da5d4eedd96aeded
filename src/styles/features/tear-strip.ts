import { defineFeature, type FeatureAsk } from '../../contracts.js';
import {
  apply,
  bounds,
  clipOpenPaths,
  distance,
  distanceToPath,
  endOf,
  intersections,
  line,
  openPath,
  partOf,
  pathLength,
  vertices,
} from '../../geom/index.js';
import type { Net, Panel, Path, Point, Stroke } from '../../model.js';
import { ParamError } from '../../params.js';
import { LEAST_WIDTH_MM } from '../../units/tolerances.js';
import { checkOpenings, misplaced } from './clear.js';
import { withStrokes } from './outline.js';

/** Where the strip begins it is cut so far, so that fingers get hold of it, mm. */
const START = 6;

/** Two perforated lines side by side, from edge to edge. */
export const tearStrip = defineFeature({
  id: 'tear-strip',
  summary: 'Strip between two perforated lines, to tear the box open',
  on: 'panel',
  params: {
    width: {
      kind: 'length',
      default: 8,
      least: 3,
      most: 60,
      help: 'Between the two lines.',
    },
    reach: {
      kind: 'choice',
      default: 'panel',
      choices: ['panel', 'around'],
      help: 'Across this panel only, or on over every fold that the strip meets, round the box.',
    },
    start: {
      kind: 'flag',
      default: true,
      help: 'Cut the first 6 mm, as seen from the left, so that fingers get hold of the strip.',
    },
  },
  apply(ask, { width, reach, start }) {
    const { net, panel } = ask;
    const found = reach === 'around' ? along(ask, width) : [panel];
    const strips = found.map(p => ({ panel: p, lines: linesOn(ask, p, width) }));
    // The first end met from the left as seen.
    const left = strips
      .flatMap(s => s.lines.flatMap(l => [l.start, endOf(l)]))
      .reduce((a, b) => (ownX(ask, b) < ownX(ask, a) ? b : a));
    let made: Net = net;
    for (const { panel: on, lines } of strips) {
      const strokes = lines.flatMap((path): Stroke[] => {
        const from = [path.start, endOf(path)].findIndex(
          p => Math.abs(ownX(ask, p) - ownX(ask, left)) < width,
        );
        const whole = pathLength(path);
        if (!start || from < 0 || whole <= 2 * START) return [{ operation: 'perforate', path }];
        const [cut, rest] =
          from === 0
            ? [partOf(path, 0, START), partOf(path, START, whole)]
            : [partOf(path, whole - START, whole), partOf(path, 0, whole - START)];
        return [
          { operation: 'cut', path: cut },
          { operation: 'perforate', path: rest },
        ];
      });
      made = withStrokes(made, on.id, strokes);
    }
    return { net: made };
  },
});

/** How far right a point is, as seen. */
function ownX({ frame }: FeatureAsk, p: Point): number {
  return (p[0] - frame[4]) * frame[0] + (p[1] - frame[5]) * frame[1];
}

/** The strip's two lines, longer than the net. */
function endless(ask: FeatureAsk, width: number): Path[] {
  const b = bounds(...ask.net.panels.map(p => p.outline));
  const far = 2 * (b.maxX - b.minX + b.maxY - b.minY);
  return [-1, 1].map(side => {
    const at = (x: number) => apply(ask.frame, [x, (side * width) / 2]);
    return openPath(at(-far), [line(at(far))]);
  });
}

/** The two lines on one panel, from edge to edge. */
function linesOn(ask: FeatureAsk, panel: Panel, width: number): Path[] {
  const { outline } = panel;
  const own = { ...ask, panel };
  return endless(ask, width).flatMap(whole => {
    const parts = clipOpenPaths([whole], { outer: outline, holes: [] });
    // A flap that it runs out on may have notches.
    if (parts.length === 0 || (parts.length > 1 && panel.id === ask.panel.id)) {
      throw misplaced(own, `where both lines run across ${panel.id} from edge to edge`);
    }
    for (const part of parts) checkLine(own, part);
    return parts;
  });
}

function checkLine(ask: FeatureAsk, path: Path): void {
  const { net, panel, facts } = ask;
  const ends = vertices(panel.outline).some(v => distanceToPath(v, path) < LEAST_WIDTH_MM);
  if (ends || pathLength(path) < 2 * LEAST_WIDTH_MM) {
    throw misplaced(ask, `at least ${LEAST_WIDTH_MM} mm clear of the corners of ${panel.id}`);
  }
  checkOpenings(ask, path, LEAST_WIDTH_MM);
  for (const half of facts.closureHalves(net).filter(h => h.panel === panel.id)) {
    if (distanceToPath(half.at, path) < half.diameter / 2) {
      throw misplaced(ask, `clear of the closure dot of ${panel.id}`);
    }
  }
}

/** The panel and those that the strip runs on to, over the folds that it crosses whole. */
function along(ask: FeatureAsk, width: number): Panel[] {
  const { net, panel } = ask;
  const lines = endless(ask, width);
  const reached = [panel.id];
  for (const id of reached) {
    for (const h of net.hinges) {
      if (h.parent !== id && h.child !== id) continue;
      const next = h.parent === id ? h.child : h.parent;
      const ends = [h.along.start, endOf(h.along)];
      const whole = lines.every(l => {
        const [at, ...more] = intersections(h.along, l);
        return at && more.length === 0 && ends.every(e => distance(e, at) >= LEAST_WIDTH_MM);
      });
      if (whole && !reached.includes(next)) reached.push(next);
    }
  }
  if (reached.length === 1) {
    throw new ParamError(
      'reach',
      'around',
      `a strip that crosses a fold, and this one ends on ${panel.id}`,
      'turn it by 90 with turn, or let it reach across the panel only',
    );
  }
  return reached.map(id => net.panels.find(p => p.id === id)!);
}
