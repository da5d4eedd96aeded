import { defineFeature, type FeatureAsk } from '../../contracts.js';
import { apply, circle, contains, pathsApart } from '../../geom/index.js';
import type { Closure, Point } from '../../model.js';
import { ParamError } from '../../params.js';
import { CLOSE_MM } from '../../units/tolerances.js';
import { atMost, auto } from '../bounds.js';
import { checkNotGlued, gluedIn, misplaced, mm } from './clear.js';
import { EDGE, type FreeEdge, frameOn, shiftOn, wholeEdge } from './edges.js';

/** Common sizes of hook-and-loop dots, double-sided stickers and thin magnets (common practice). */
const DIAMETER = { 'hook-and-loop': 10, sticker: 12, magnet: 6 } as const;

/** Marks where the two halves of a closure go; the second is found by folding. */
export const closure = defineFeature({
  id: 'closure',
  summary: 'Marks for hook-and-loop dots, stickers or magnets, on both faces that meet',
  on: 'panel',
  params: {
    means: {
      kind: 'choice',
      default: 'hook-and-loop',
      choices: ['hook-and-loop', 'sticker', 'magnet'],
      help: 'What holds: it sets the diameter that auto stands for.',
    },
    diameter: {
      kind: 'length',
      default: 'auto',
      least: 2,
      most: 40,
      help: 'Of a dot; auto is 10 mm for hook-and-loop, 12 mm for stickers, 6 mm for magnets.',
    },
    inset: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 300,
      help: 'From the edge to the dot; auto is a quarter of the diameter.',
    },
    count: {
      kind: 'count',
      default: 1,
      least: 1,
      most: 8,
      help: 'How many, evenly along the edge.',
    },
    edge: EDGE,
    to: {
      kind: 'text',
      default: 'auto',
      longest: 60,
      help: 'The panel that the other halves go on; auto is the one that lies there when closed.',
    },
  },
  apply(ask, values) {
    const { net, panel } = ask;
    checkNotGlued(ask, 'closure');
    const { means, count, to } = values;
    const diameter = auto(values.diameter, DIAMETER[means as Closure['means'] & string]);
    const inset = auto(values.inset, diameter / 4);
    const edge = wholeEdge(ask, values.edge);
    const pitch = edge.length / count;
    const room = `what the edge of ${panel.id}, ${mm(edge.length)} long, has room for`;
    atMost('diameter', diameter, pitch, room, 'make the dots smaller or fewer');
    const places = spots(ask, edge, count, inset + diameter / 2);
    if (to !== 'auto' && !net.panels.some(p => p.id === to)) {
      const names = net.panels.map(p => p.id).filter(id => id !== panel.id);
      throw new ParamError('to', to, `one of ${names.join(', ')}`, 'name a panel of this net');
    }
    const closures = places.map((at): Closure => {
      checkDot(ask, panel.id, at, diameter, 'inset');
      return { a: panel.id, b: mateOf(ask, at, to, diameter), at, diameter, means: meansOf(means) };
    });
    return { net: { ...net, closures: [...net.closures, ...closures] } };
  },
});

const meansOf = (means: string) => means as NonNullable<Closure['means']>;

function spots(ask: FeatureAsk, edge: FreeEdge, count: number, deep: number): Point[] {
  const [along, more] = shiftOn(ask, edge);
  return Array.from({ length: count }, (_, i) => {
    const x = along + edge.length * ((i + 0.5) / count - 0.5);
    return apply(frameOn(edge, x, deep + more), [0, 0]);
  });
}

/** A dot lies whole on a panel's paper, beside the dots that are there. */
function checkDot(ask: FeatureAsk, id: string, at: Point, diameter: number, param: string): void {
  const panel = ask.net.panels.find(p => p.id === id)!;
  const dot = circle(at, diameter / 2);
  const point = circle(at, diameter / 1000);
  const onPaper =
    contains(panel.outline, at) === 'in' && panel.holes.every(h => contains(h, at) === 'out');
  const cuts = panel.strokes.filter(s => s.operation !== 'draw' && s.operation !== 'score');
  const ends = [panel.outline, ...panel.holes, ...cuts.map(s => s.path)];
  const least = Math.min(...ends.map(e => pathsApart(point, e))) + diameter / 1000;
  if (!onPaper || least < diameter / 2) {
    throw new ParamError(
      param,
      mm(diameter),
      `a dot that lies whole on ${id}, and there it has ${mm(onPaper ? least : 0)} to the edge`,
      'make it smaller, or move it with inset, edge or at',
    );
  }
  for (const h of ask.facts.closureHalves(ask.net).filter(c => c.panel === id)) {
    if (pathsApart(dot, circle(h.at, h.diameter / 2)) === 0 || contains(dot, h.at) === 'in') {
      throw misplaced(ask, `clear of the closure dots that ${id} has`);
    }
  }
}

/** The panel that the other half goes on. */
function mateOf(ask: FeatureAsk, at: Point, to: string, diameter: number): string {
  const { net, panel, facts } = ask;
  const glued = new Set(gluedIn(ask).flatMap(g => (g.onto === panel.id ? [g.panel] : [])));
  // Between the halves there is no more than one layer of paper beside their own two.
  const most = 2 * net.thickness + CLOSE_MM;
  const over = facts
    .over(net, panel.id, at)
    .filter(o => !glued.has(o.panel) && Math.abs(o.toInside) <= most);
  const found = to === 'auto' ? over : over.filter(o => o.panel === to);
  const [first] = found;
  if (!first) {
    const lies = over.map(o => o.panel).join(', ') || 'nothing';
    throw new ParamError(
      'to',
      to,
      `a panel that lies on ${panel.id} there when the box is closed, and ${lies} does`,
      'choose another panel, edge or inset',
    );
  }
  checkDot(ask, first.panel, first.at, diameter, 'diameter');
  return first.panel;
}
