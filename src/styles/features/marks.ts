/** Marks for hands that glue and fold: drawn, never cut. */
import { defineFeature, type FeatureAsk } from '../../contracts.js';
import {
  bounds,
  distanceToPath,
  offsetExactly,
  offsetRegions,
  partOf,
  pathLength,
} from '../../geom/index.js';
import type { GlueArea, Net, Path, Stroke } from '../../model.js';
import { ParamError } from '../../params.js';
import { ON_PATH_MM } from '../../units/tolerances.js';
import { gluedIn } from './clear.js';
import { withStrokes } from './outline.js';

export const glueAreas = defineFeature({
  id: 'glue-areas',
  summary: 'Glued areas: outlined on the draw layer, or told in the guide only',
  on: 'panel or box',
  params: {
    show: {
      kind: 'choice',
      default: 'draw',
      choices: ['draw', 'guide'],
      help: 'draw: a pen line on the inside; guide: in the guide only, as without this feature.',
    },
    inset: {
      kind: 'length',
      default: 1,
      least: 0,
      most: 20,
      help: 'How far inside the glued area the line runs, so that it does not show.',
    },
  },
  apply(ask, { show, inset }) {
    const { net, panel, whole } = ask;
    // The pen draws on the inside of the net: of the two glued faces one is an inside.
    const areas = gluedIn(ask)
      .filter(g => g.face === 'inside')
      .filter(g => whole || g.panel === panel.id || g.onto === panel.id);
    if (areas.length === 0) {
      const where = whole ? 'a box that is glued, and this one is not' : 'a panel that is glued';
      throw new ParamError('on', panel.id, where, 'leave it out');
    }
    if (show === 'draw') {
      const fresh = areas.filter(a => !a.drawn);
      return { net: fresh.reduce((made, area) => drawn(made, area, inset), net) };
    }
    const already = areas.find(a => a.drawn);
    if (already) {
      const where = `draw, since a glue-areas before it draws that of ${already.panel}`;
      throw new ParamError('show', show, where, 'leave one of the two out');
    }
    return { net };
  },
});

function drawn(net: Net, { panel, onto, area }: GlueArea, inset: number): Net {
  const paths = insetOf(area, inset);
  const strokes = paths.map((path): Stroke => ({ operation: 'draw', path }));
  const { glueDrawn = [] } = net;
  return { ...withStrokes(net, panel, strokes), glueDrawn: [...glueDrawn, { panel, onto }] };
}

/** Nothing is left of an area narrower than two insets: then half of what it has. */
function insetOf(area: Path, inset: number): Path[] {
  if (inset === 0) return [area];
  const b = bounds(area);
  const by = Math.min(inset, Math.min(b.maxX - b.minX, b.maxY - b.minY) / 4);
  const exact = offsetExactly(area, -by, 'mitre');
  if (exact) return [exact];
  return offsetRegions([{ outer: area, holes: [] }], -by, 'mitre').map(r => r.outer);
}

export const hingeMarks = defineFeature({
  id: 'hinge-marks',
  summary: 'Short pen ticks at the ends of each fold, to lay a ruler against',
  on: 'panel or box',
  params: {
    length: {
      kind: 'length',
      default: 3,
      least: 0.5,
      most: 30,
      help: 'Of a tick; it runs along the fold from its end.',
    },
  },
  apply(ask, { length }) {
    const { net, panel, whole, facts } = ask;
    const scores = facts.scores(net, whole ? undefined : panel.id);
    const ticks = scores.flatMap(score => {
      const all = pathLength(score);
      // Ticks that would meet are one line.
      if (all <= 2 * length) return [score];
      return [partOf(score, 0, length), partOf(score, all - length, all)];
    });
    return {
      net: ticks.reduce(
        (made, tick) => withStrokes(made, ownerOf(ask, tick), [asDrawn(tick)]),
        net,
      ),
    };
  },
});

const asDrawn = (path: Path): Stroke => ({ operation: 'draw', path });

/** The panel on whose edge a tick lies. */
function ownerOf({ net }: FeatureAsk, tick: Path): string {
  const folds = [...net.hinges, ...(net.ringHinges ?? [])];
  const on = folds.find(h => distanceToPath(tick.start, h.along) <= ON_PATH_MM);
  if (!on) throw new Error(`${net.id}: a tick lies on no fold`);
  return on.parent;
}
