import { defineFeature } from '../../contracts.js';
import { add, arcTo, closedPath, line, openPath, scale } from '../../geom/index.js';
import { LEAST_WIDTH_MM } from '../../units/tolerances.js';
import { atMost, auto } from '../bounds.js';
import { checkBite, checkNotGlued, checkOtherEdges, extentIn, misplaced } from './clear.js';
import { chosenEdge, EDGE, frameOn, shiftOn } from './edges.js';
import { replaced, withPanel } from './outline.js';

/** A thumb is about 20 mm wide (common practice, no source). */
const THUMB = 10;

/** A half-round bite out of a free edge, to get hold of what is behind it. */
export const thumbNotch = defineFeature({
  id: 'thumb-notch',
  summary: 'Half-round notch in a free edge, to get hold of what is behind it',
  on: 'panel',
  params: {
    radius: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 100,
      help: 'Radius of the notch; auto is 10 mm where it fits.',
    },
    edge: EDGE,
  },
  apply(ask, values) {
    const { net, panel } = ask;
    checkNotGlued(ask, 'notch');
    const edge = chosenEdge(ask, values.edge);
    const frame = frameOn(edge, 0, 0);
    const [, deep] = extentIn(frame, panel.outline);
    const most = Math.min(deep - LEAST_WIDTH_MM, edge.length / 2 - LEAST_WIDTH_MM);
    const radius = auto(values.radius, THUMB, Math.min(deep / 2, edge.length / 3));
    atMost(
      'radius',
      radius,
      most,
      `what the edge of ${panel.id} has room for`,
      'make the notch smaller',
    );
    const [along] = shiftOn(ask, edge);
    const room = edge.length / 2 - LEAST_WIDTH_MM - radius;
    if (!(Math.abs(along) <= room)) {
      throw misplaced(ask, `at most ${Number(room.toFixed(2))} mm from the middle of the edge`);
    }
    const middle = add(edge.middle, scale(edge.along, along));
    const [from, to] = [-radius, radius].map(d => add(middle, scale(edge.along, d))) as [
      typeof middle,
      typeof middle,
    ];
    const cut = arcTo(to, -Math.PI);
    const bite = closedPath(from, [cut, line(from)]);
    const arc = openPath(from, [cut]);
    checkBite(ask, arc, bite);
    checkOtherEdges(ask, arc, openPath(edge.from, [line(edge.to)]));
    return {
      net: withPanel(net, panel.id, p => ({ ...p, outline: replaced(p.outline, from, to, [cut]) })),
    };
  },
});
