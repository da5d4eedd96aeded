/** Holes for hands, hooks and ribbons. */
import { defineFeature, type FeatureAsk, type Featured } from '../../contracts.js';
import {
  arcTo,
  bounds,
  circle,
  closedPath,
  compose,
  line,
  transform,
  translation,
} from '../../geom/index.js';
import type { Affine, Path, Point } from '../../model.js';
import { ParamError } from '../../params.js';
import { LEAST_WIDTH_MM } from '../../units/tolerances.js';
import { atLeast, atMost, auto } from '../bounds.js';
import { checkHole, checkNotGlued, extentIn, misplaced } from './clear.js';
import { EDGE, frameOn, shiftOn, wholeEdge } from './edges.js';
import { withHoles } from './outline.js';

const THROUGH = {
  kind: 'flag',
  default: false,
  help: 'Cut it through whatever lies on this panel in the closed box as well.',
} as const;

export const hangingHole = defineFeature({
  id: 'hanging-hole',
  summary: 'Hole near an edge to hang it by: round, or the slot of a shop hook',
  on: 'panel',
  params: {
    shape: {
      kind: 'choice',
      default: 'round',
      choices: ['round', 'slot'],
      help: 'Round, or a slot with a hump in its middle, as shop hooks of one or two wires take.',
    },
    size: {
      kind: 'length',
      default: 'auto',
      least: 2,
      most: 100,
      help: 'Diameter, 6 mm; or width of the slot, 32 mm (common practice, from memory).',
    },
    inset: {
      kind: 'length',
      default: 6,
      least: LEAST_WIDTH_MM,
      most: 500,
      help: 'From the edge to the hole.',
    },
    edge: { ...EDGE, choices: [...EDGE.choices, 'none'], help: `${EDGE.help} None: the middle.` },
    through: THROUGH,
  },
  apply(ask, values) {
    checkNotGlued(ask, 'hole');
    const size = auto(values.size, values.shape === 'slot' ? 32 : 6);
    const own = values.shape === 'slot' ? shopSlot(size) : circle([0, 0], size / 2);
    if (values.edge === 'none') return pierced(ask, [transform(own, ask.frame)], values, size);
    const edge = wholeEdge(ask, values.edge);
    const [along, deep] = shiftOn(ask, edge);
    const top = bounds(own).maxY;
    const frame = frameOn(edge, along, deep + values.inset + top);
    return pierced(ask, [transform(own, frame)], values, size, frame);
  },
});

/** The slot's height and the radius of its hump, in parts of 32 mm of width. Shop hooks and the
 *  packs made for them share this shape; its measures are common practice, from memory. */
const SLOT = { width: 32, height: 6.5, hump: 5.5 };

/** A slot with round ends, with half of a circle's top over its middle. */
function shopSlot(width: number): Path {
  const k = width / SLOT.width;
  const [h, r] = [(k * SLOT.height) / 2, k * SLOT.hump];
  const x = width / 2 - h;
  // The hump's circle is centred on the slot; it leaves its upper side here.
  const side = Math.sqrt(r * r - h * h);
  const sweep = Math.PI - 2 * Math.asin(h / r);
  return closedPath(
    [-x, -h],
    [
      line([x, -h]),
      arcTo([x, h], Math.PI),
      line([side, h]),
      arcTo([-side, h], sweep),
      line([-x, h]),
      arcTo([-x, -h], Math.PI),
    ],
  );
}

/** What a slot is wider than the ribbon, mm. */
const RIBBON_EASE = 1;
/** A ribbon of several layers slides through this (common practice, no source), mm. */
const SLOT_HEIGHT = 1.5;

export const ribbon = defineFeature({
  id: 'ribbon',
  summary: 'Slots or holes in a row, to thread a ribbon through',
  on: 'panel',
  params: {
    shape: {
      kind: 'choice',
      default: 'slots',
      choices: ['slots', 'holes'],
      help: 'Slots for a flat ribbon, or round holes for cord.',
    },
    width: {
      kind: 'length',
      default: 'auto',
      least: 1,
      most: 100,
      help: 'Of the ribbon, 10 mm; or diameter of the holes, 4 mm. Slots are 1 mm longer.',
    },
    apart: {
      kind: 'length',
      default: 12,
      least: 2,
      most: 500,
      help: 'From one slot or hole to the next, middle to middle.',
    },
    count: { kind: 'count', default: 2, least: 1, most: 12, help: 'How many in the row.' },
    through: THROUGH,
  },
  apply(ask, values) {
    checkNotGlued(ask, 'holes');
    const slots = values.shape === 'slots';
    const width = auto(values.width, slots ? 10 : 4);
    const thick = slots ? SLOT_HEIGHT : width;
    const { apart, count } = values;
    if (count > 1) {
      atLeast(
        'apart',
        apart,
        thick + LEAST_WIDTH_MM,
        'or no paper is left between them',
        'set them further apart',
      );
    }
    const one = slots ? upright(width + RIBBON_EASE, SLOT_HEIGHT / 2) : circle([0, 0], width / 2);
    const row = Array.from({ length: count }, (_, i) => {
      const x = (i - (count - 1) / 2) * apart;
      return transform(one, compose(ask.frame, translation(x, 0)));
    });
    const [wide] = extentIn(ask.frame, ask.panel.outline);
    const most = (wide - thick - 2 * LEAST_WIDTH_MM) / Math.max(1, count - 1);
    if (count > 1) {
      atMost('apart', apart, most, `which ${ask.panel.id} has room for`, 'set them nearer');
    }
    return pierced(ask, row, values, slots ? width + RIBBON_EASE : width);
  },
});

/** A slot with round ends, standing on end. */
function upright(length: number, r: number): Path {
  const y = length / 2 - r;
  return closedPath(
    [r, -y],
    [line([r, y]), arcTo([-r, y], Math.PI), line([-r, -y]), arcTo([r, -y], Math.PI)],
  );
}

function pierced(
  ask: FeatureAsk,
  holes: readonly Path[],
  { through }: { readonly through: boolean },
  size: number,
  frame: Affine = ask.frame,
): Featured {
  const { panel, facts } = ask;
  const least = Math.min(...extentIn(frame, panel.outline));
  atMost(
    'size',
    size,
    Math.max(...extentIn(frame, panel.outline)) - 2 * LEAST_WIDTH_MM,
    `which ${panel.id}, ${Number(least.toFixed(2))} mm across, has room for`,
    'make it smaller',
  );
  for (const hole of holes) checkHole(ask, hole);
  let net = withHoles(ask.net, panel.id, holes);
  if (!through) return { net };
  const b = bounds(...holes);
  const middle: Point = [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
  const behind = [...new Set(facts.over(ask.net, panel.id, middle).map(o => o.panel))];
  if (behind.length === 0) {
    throw new ParamError(
      'through',
      true,
      `a panel that others lie on, and nothing lies on ${panel.id} there`,
      'leave it out, or move the holes with at',
    );
  }
  for (const id of behind) {
    const m = facts.lay(ask.net, panel.id, id);
    if (!m) throw misplaced(ask, `where ${id} lies flat on ${panel.id}`);
    const other = { ...ask, net, panel: net.panels.find(p => p.id === id)! };
    const there = holes.map(h => transform(h, m));
    for (const hole of there) checkHole(other, hole);
    net = withHoles(net, id, there);
  }
  return { net };
}
