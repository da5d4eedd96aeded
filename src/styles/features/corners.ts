import { defineFeature, type FeatureAsk } from '../../contracts.js';
import {
  add,
  arcTo,
  closedPath,
  cross,
  distance,
  dot,
  line,
  openPath,
  pathsOverlap,
  type Step,
  samePoint,
  scale,
  steps,
  sub,
  unit,
} from '../../geom/index.js';
import type { Path, Point } from '../../model.js';
import { ParamError } from '../../params.js';
import { LEAST_WIDTH_MM } from '../../units/tolerances.js';
import { atMost } from '../bounds.js';
import { checkBite } from './clear.js';
import { LEAST_EDGE } from './edges.js';
import { replaced, withPanel } from './outline.js';

/** A corner of a panel that nothing holds: the free straight edges before and after it. */
interface FreeCorner {
  readonly before: Point;
  readonly at: Point;
  readonly after: Point;
}

/** Corners flatter than this (sine of the turn) are no corners. */
const LEAST_TURN = 0.1;

export const corners = defineFeature({
  id: 'corners',
  summary: 'Rounded or chamfered corners, wherever two free edges meet',
  on: 'panel',
  params: {
    shape: {
      kind: 'choice',
      default: 'round',
      choices: ['round', 'chamfer'],
      help: 'Rounded, or cut off straight.',
    },
    size: {
      kind: 'length',
      default: 5,
      least: 0.5,
      most: 200,
      help: 'Radius, or how much of each edge a chamfer takes.',
    },
  },
  apply(ask, { shape, size }) {
    const { panel } = ask;
    const found = ask.facts.freeEdges(ask.net, panel.id).flatMap(freeCorners);
    if (found.length === 0) {
      throw new ParamError(
        'on',
        panel.id,
        'a panel with a sharp corner between two free edges',
        'choose a flap or a lid; corners that are round already have a parameter of the style',
      );
    }
    const most = Math.min(...found.map(c => mostAt(c, found, shape === 'round')));
    atMost('size', size, most, `what the edges of ${panel.id} hold`, 'make the corners smaller');
    let { net } = ask;
    for (const corner of found) {
      const { from, to, cut } = cutAt(corner, shape === 'round', size);
      const own = { ...ask, net, panel: net.panels.find(p => p.id === panel.id)! };
      const bite = closedPath(from, [line(corner.at), line(to), line(from)]);
      checkBite(own, openPath(from, [cut]), bite);
      checkTucks(own, bite, size);
      net = withPanel(net, panel.id, p => ({
        ...p,
        outline: replaced(p.outline, from, to, [cut]),
      }));
    }
    return { net };
  },
});

/** What is tucked in behind a corner would show. */
function checkTucks({ net, panel, facts }: FeatureAsk, bite: Path, size: number): void {
  const tuck = facts
    .tuckAreas(net)
    .find(
      t => t.panel === panel.id && t.area !== panel.outline && pathsOverlap(bite, t.area, 0.01),
    );
  if (!tuck) return;
  throw new ParamError(
    'size',
    size,
    `less, or ${tuck.onto} shows, which is tucked in behind ${panel.id}`,
    'make the corners smaller, or leave them',
  );
}

function freeCorners(run: Path): FreeCorner[] {
  const all = [...steps(run)];
  const pairs = all.slice(1).map((s, i) => [all[i]!, s] as const);
  if (run.closed && all.length > 2) pairs.push([all.at(-1)!, all[0]!]);
  return pairs.flatMap(([a, b]) => {
    if (a.segment.kind !== 'line' || b.segment.kind !== 'line') return [];
    if (!(lengthOf(a) >= LEAST_EDGE && lengthOf(b) >= LEAST_EDGE)) return [];
    const turn = cross(unitOf(a), unitOf(b));
    return turn > LEAST_TURN ? [{ before: a.from, at: b.from, after: b.segment.to }] : [];
  });
}

const lengthOf = ({ from, segment }: Step) => distance(from, segment.to);
const unitOf = ({ from, segment }: Step): Point => unit(sub(segment.to, from));

/** How much of each edge a size takes. */
function reachOf({ before, at, after }: FreeCorner, round: boolean): number {
  const [u, v] = [unit(sub(at, before)), unit(sub(after, at))];
  // A radius takes r·tan(turn/2) of each edge.
  return round ? Math.tan(Math.atan2(cross(u, v), dot(u, v)) / 2) : 1;
}

/** The largest size that the corner's two edges hold: other corners on them are counted, and folds
 *  at their ends kept clear of. */
function mostAt(corner: FreeCorner, all: readonly FreeCorner[], round: boolean): number {
  const own = reachOf(corner, round);
  const edge = (a: Point, b: Point, other: FreeCorner | undefined) =>
    other
      ? distance(a, b) / (own + reachOf(other, round))
      : (distance(a, b) - LEAST_WIDTH_MM) / own;
  const { before, at, after } = corner;
  return Math.min(
    edge(
      before,
      at,
      all.find(c => samePoint(c.at, before)),
    ),
    edge(
      at,
      after,
      all.find(c => samePoint(c.at, after)),
    ),
  );
}

function cutAt(corner: FreeCorner, round: boolean, size: number) {
  const { before, at, after } = corner;
  const [u, v] = [unit(sub(at, before)), unit(sub(after, at))];
  const reach = size * reachOf(corner, round);
  const from = add(at, scale(u, -reach));
  const to = add(at, scale(v, reach));
  const cut = round ? arcTo(to, Math.atan2(cross(u, v), dot(u, v))) : line(to);
  return { from, to, cut };
}
