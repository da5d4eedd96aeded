import { defineFeature, type FeatureAsk, type FeaturePiece } from '../../contracts.js';
import {
  apply,
  bounds,
  circle,
  counterClockwise,
  offsetExactly,
  offsetRegions,
  pathsApart,
  rectangle,
  roundedPolygon,
  signedArea,
  transform,
  translation,
} from '../../geom/index.js';
import type { Path } from '../../model.js';
import { ParamError } from '../../params.js';
import { LEAST_WIDTH_MM } from '../../units/tolerances.js';
import { atMost, auto } from '../bounds.js';
import { checkHole, checkNotGlued, extentIn, gluedIn } from './clear.js';
import { withHoles } from './outline.js';

/** Of the panel, where nothing else is asked. */
const SHARE = 0.6;
/** Film needs so much to be glued by (common practice, no source), mm. */
const OVERLAP = 6;
const LEAST_OVERLAP = 2;

/** An opening to see the treat through, and a piece of film that covers it from inside. */
export const window = defineFeature({
  id: 'window',
  summary: 'Opening to see the treat, with a film patch to glue behind it',
  on: 'panel',
  takes: ['motif', 'film'],
  params: {
    shape: {
      kind: 'choice',
      default: 'rounded',
      choices: ['rectangle', 'rounded', 'round'],
      help: "Its shape; with motif: it is that motif's outline, in the motif's own size.",
    },
    size: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 2000,
      help: 'Diameter, or width of a rectangle; auto is three fifths of the panel.',
    },
    height: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 2000,
      help: "Height of a rectangle; auto keeps the panel's proportions.",
    },
    corner: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 100,
      help: 'Radius of rounded corners; auto is 6 mm, less on a small window.',
    },
    overlap: {
      kind: 'length',
      default: 'auto',
      least: LEAST_OVERLAP,
      most: 50,
      help: 'How far the film reaches past the opening; auto is 6 mm, less where the panel ends.',
    },
  },
  /** What shows in the window, when it is not the treat. */
  mind({ net, panel, frame, facts }) {
    const behind = facts.over(net, panel.id, apply(frame, [0, 0])).find(o => o.toInside >= 0);
    if (!behind) return [];
    return [`the window in ${panel.id} shows ${behind.panel} behind it: give that a window too`];
  },
  apply(ask, values) {
    const { panel, frame } = ask;
    checkNotGlued(ask, 'window');
    const [wide, high] = extentIn(frame, panel.outline);
    const own = ask.outline ?? shapeOf();
    const b = bounds(own);
    const cut = transform(own, frame);
    within('size', b.maxX - b.minX, wide, 'wide');
    within(
      ask.outline || values.shape === 'round' ? 'size' : 'height',
      b.maxY - b.minY,
      high,
      'high',
    );
    checkHole(ask, cut);
    const net = withHoles(ask.net, panel.id, [cut]);
    if (!ask.film) return { net };
    const mitred = !ask.outline && values.shape === 'rectangle';
    return { net, pieces: [film(ask, cut, values.overlap, mitred)] };

    function shapeOf(): Path {
      const size = auto(
        values.size,
        SHARE * (values.shape === 'round' ? Math.min(wide, high) : wide),
      );
      if (values.shape === 'round') return circle([0, 0], size / 2);
      const height = auto(values.height, (size * high) / wide);
      const [x, y] = [size / 2, height / 2];
      if (values.shape === 'rectangle') return rectangle(-x, -y, size, height);
      const most = Math.min(x, y);
      const corner = auto(values.corner, OVERLAP, most / 2);
      atMost('corner', corner, most, 'half of the window', 'make the radius smaller');
      const corners = [
        [-x, -y],
        [x, -y],
        [x, y],
        [-x, y],
      ] as const;
      return roundedPolygon(corners, corner);
    }
    function within(param: string, value: number, all: number, how: string) {
      atMost(
        param,
        value,
        all - 2 * LEAST_WIDTH_MM,
        `since ${panel.id} is ${Number(all.toFixed(2))} mm ${how} and keeps ${LEAST_WIDTH_MM} mm round it`,
        'make the window smaller',
      );
    }
  },
});

function film(ask: FeatureAsk, cut: Path, wanted: number | 'auto', mitred: boolean): FeaturePiece {
  const { net, panel, facts } = ask;
  const inside = gluedIn(ask)
    .filter(g => g.panel === panel.id && g.face === 'inside')
    .map(g => g.area);
  const dots = facts
    .closureHalves(net)
    .filter(h => h.panel === panel.id && h.face === 'inside')
    .map(h => circle(h.at, h.diameter / 2));
  const ends = [panel.outline, ...panel.holes, ...inside, ...dots];
  const room = Math.min(...ends.map(e => pathsApart(cut, e)));
  const most = room - LEAST_WIDTH_MM;
  const overlap = auto(wanted, OVERLAP, most);
  const what = `which ${panel.id} has room for round the window`;
  if (!(most >= LEAST_OVERLAP)) {
    const least = `the film needs ${LEAST_OVERLAP} mm to be glued by, and there are ${Math.max(0, most).toFixed(1)} mm`;
    throw new ParamError(
      'overlap',
      wanted,
      least,
      'make the window smaller, or move it with at, or leave out the film',
    );
  }
  atMost('overlap', overlap, most, what, 'make the overlap or the window smaller');
  const b = bounds(cut);
  const middle = [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2] as const;
  const outline = transform(grown(cut, overlap, mitred), translation(-middle[0], -middle[1]));
  return { what: 'film', outline, at: translation(...middle), face: 'inside' };
}

/** The outline moved outward: exactly for lines and arcs. */
function grown(path: Path, by: number, mitred: boolean): Path {
  const join = mitred ? 'mitre' : 'round';
  const outer = counterClockwise(path);
  const exact = offsetExactly(outer, by, join);
  if (exact) return exact;
  const all = offsetRegions([{ outer, holes: [] }], by, join).map(r => r.outer);
  return all.reduce((a, c) => (signedArea(c) > signedArea(a) ? c : a));
}
