import { defineFeature, type FeatureAsk } from '../../contracts.js';
import {
  apply,
  contains,
  cross,
  endOf,
  intersections,
  line,
  openPath,
  polygon,
  sub,
  transform,
  unit,
} from '../../geom/index.js';
import type { Affine, Join, Net, Path, Point } from '../../model.js';
import { ParamError } from '../../params.js';
import { LEAST_WIDTH_MM, MEASURE_MM } from '../../units/tolerances.js';
import { atLeast, atMost, auto } from '../bounds.js';
import { checkHole, extentIn } from './clear.js';
import { chosenEdge, type FreeEdge, frameOn } from './edges.js';
import { replaced, withHoles, withPanel } from './outline.js';

/** Measures of an arrow tongue that a hand can feed through a slit (common practice, no source), mm:
 *  how far an ear reaches past the neck, and how thick it is at its tip. */
const EAR = 2;
const EAR_TIP = 1;
const LEAST_NECK = 4;
const LEAST_DEPTH = 4;
/** One tongue holds so much of a flap. */
const PITCH = 45;
/** The slit is longer than the neck by this at each end, and wider than the paper. */
const EASE = 0.5;
const CLEARANCE = 0.2;
const NARROWEST = 0.5;
/** Sine of how far a head may lean from its fold. */
const LEAST_SINE = 0.02;

type GlueJoin = Extract<Join, { kind: 'glue' }>;

/**
 * The flap's head becomes tongues with ears; each goes through a slit in the panel that the flap was
 * to be glued to, and its ears catch behind the slit's ends. The tongues are cut from the flap, so
 * nothing else of the net is in their way.
 */
export const slitLock = defineFeature({
  id: 'slit-lock',
  summary: 'Tongues and slits in place of glue, on a glue flap',
  on: 'panel',
  params: {
    neck: {
      kind: 'length',
      default: 'auto',
      least: LEAST_NECK,
      most: 80,
      help: 'Width of a tongue where it goes through its slit; auto is half of its share of the flap.',
    },
    depth: {
      kind: 'length',
      default: 'auto',
      least: LEAST_DEPTH,
      most: 40,
      help: 'How far a tongue reaches past its slit; auto is 8 mm, at most half of the flap.',
    },
    count: {
      kind: 'count',
      default: 0,
      least: 0,
      most: 8,
      help: 'How many tongues; 0 is one for every 45 mm of the flap.',
    },
  },
  apply(ask, values) {
    const { net, panel, facts } = ask;
    const glue = glueOf(ask);
    const onto = glue.b.panel;
    const lay = facts.lay(net, panel.id, onto);
    if (!lay) {
      throw new ParamError('on', panel.id, `a flap that lies flat on ${onto}`, 'glue this one');
    }
    const frame = frameOn(headOf(ask), 0, 0);
    const [, deep] = extentIn(frame, panel.outline);
    const depth = auto(values.depth, 8, deep / 2);
    atMost('depth', depth, deep / 2, `half of ${panel.id}`, 'make the tongues shorter');
    atLeast('depth', depth, LEAST_DEPTH, 'or a tongue has no ears', 'make the flap deeper');
    checkHeadFree(ask, frame, depth);
    const [from, to] = shoulders(ask, frame, depth);
    const count = values.count || Math.max(1, Math.round((to.x - from.x) / PITCH));
    const share = (to.x - from.x) / count;
    const most = share - 2 * (EAR + LEAST_WIDTH_MM);
    const room = `what ${panel.id} has room for with ears of ${EAR} mm`;
    const neck = auto(values.neck, share / 2, most);
    atMost('neck', neck, most, room, 'make the tongues narrower or fewer, or the flap longer');
    atLeast('neck', neck, LEAST_NECK, 'or it tears', 'make the tongues fewer or the flap longer');

    const slit = Math.max(NARROWEST, net.thickness + CLEARANCE);
    const middles = Array.from({ length: count }, (_, i) => from.x + share * (i + 0.5));
    const place = { frame, depth, neck, slit };
    const cut = middles.flatMap(x => tongue(x, place));
    if (cut.some(p => contains(panel.outline, p) === 'out')) {
      const within = `less, since ${panel.id} leans in toward its head`;
      throw new ParamError('neck', neck, within, 'make the tongues narrower or shorter');
    }
    const changed = withPanel(net, panel.id, p => ({
      ...p,
      outline: replaced(p.outline, from.at, to.at, [...cut, to.at].map(line)),
    }));
    const gap = glue.gap ?? net.thickness;
    const others = net.joins.filter(j => j !== glue);
    const slits = middles.map(x => slitAt(x, place, lay));
    const made = slits.reduce<Net>((n, s) => cutSlit(ask, n, onto, s), {
      ...changed,
      joins: others,
    });
    const locks = middles.flatMap(x =>
      locksAt(x, place, lay, panel.id, onto, Math.hypot(EASE, gap)),
    );
    const tuck: Join = { ...glue, kind: 'tuck' };
    return { net: { ...made, joins: [...others, tuck, ...locks] } };
  },
});

function glueOf({ net, panel }: FeatureAsk): GlueJoin {
  const glued = net.joins.filter((j): j is GlueJoin => j.kind === 'glue');
  const own = glued.find(j => j.a.panel === panel.id);
  if (own) return own;
  const flaps = glued.map(j => j.a.panel);
  const allowed =
    flaps.length > 0 ? `a flap that is glued: ${flaps.join(', ')}` : 'a box with glued flaps';
  throw new ParamError('on', panel.id, allowed, 'put the lock on a glue flap');
}

/** The edge opposite the flap's fold, along it. */
function headOf(ask: FeatureAsk): FreeEdge {
  const edge = chosenEdge(ask, 'auto');
  const fold = ask.net.hinges.find(h => h.child === ask.panel.id)?.along;
  const along = fold && unit(sub(endOf(fold), fold.start));
  if (along && Math.abs(cross(along, edge.along)) <= LEAST_SINE) return edge;
  throw new ParamError(
    'on',
    ask.panel.id,
    'a flap whose head runs along its fold',
    'glue this one',
  );
}

/** What becomes tongues holds nothing: no fold, and no edge that must meet another. */
function checkHeadFree({ net, panel }: FeatureAsk, frame: Affine, depth: number): void {
  const bound: { other: string; along: Path }[] = [];
  for (const h of [...net.hinges, ...(net.ringHinges ?? [])]) {
    if (h.parent === panel.id) bound.push({ other: h.child, along: h.along });
    if (h.child === panel.id) bound.push({ other: h.parent, along: h.along });
  }
  for (const { a, b } of net.joins) {
    if (a.panel === panel.id && 'along' in a) bound.push({ other: b.panel, along: a.along });
    if (b.panel === panel.id && 'along' in b) bound.push({ other: a.panel, along: b.along });
  }
  // y runs out of the flap's head.
  const y = (p: Point) => (p[0] - frame[4]) * frame[2] + (p[1] - frame[5]) * frame[3];
  const held = bound.find(e =>
    [e.along.start, endOf(e.along)].some(p => y(p) > MEASURE_MM - depth),
  );
  if (!held) return;
  const allowed = `a flap whose head is free, and ${held.other} is joined to that of ${panel.id}`;
  throw new ParamError('on', panel.id, allowed, 'glue this one');
}

interface Shoulder {
  readonly at: Point;
  readonly x: number;
}

/** Where the flap's outline is `depth` below its head, on either side. */
function shoulders({ panel }: FeatureAsk, frame: Affine, depth: number): [Shoulder, Shoulder] {
  const [wide] = extentIn(frame, panel.outline);
  const across = openPath(apply(frame, [-2 * wide, -depth]), [
    line(apply(frame, [2 * wide, -depth])),
  ]);
  const found = intersections(across, panel.outline)
    .map(at => ({ at, x: (at[0] - frame[4]) * frame[0] + (at[1] - frame[5]) * frame[1] }))
    .sort((a, b) => a.x - b.x);
  const [from, to] = found;
  if (!from || !to || found.length > 2) {
    throw new ParamError('on', panel.id, 'a plain flap without notches', 'glue this one');
  }
  return [from, to];
}

interface Place {
  /** On the middle of the flap's head, y outward. */
  readonly frame: Affine;
  readonly depth: number;
  readonly neck: number;
  readonly slit: number;
}

/** A tongue's corners from its left shoulder to its right one: neck, ears, nose. */
function tongue(x: number, { frame, depth, neck, slit }: Place): Point[] {
  const n = neck / 2;
  const under = slit + CLEARANCE;
  const left = [
    [-n, 0],
    [-n, under],
    [-n - EAR, under],
    [-n - EAR, under + EAR_TIP],
    [-n * 0.6, depth],
  ] as const;
  const right = left.map(([u, v]) => [-u, v] as const).reverse();
  return [...left, ...right].map(([u, v]) => apply(frame, [x + u, v - depth]));
}

/** The slit of a tongue, on the other panel. */
function slitAt(x: number, { frame, depth, neck, slit }: Place, lay: Affine): Path {
  const half = neck / 2 + EASE;
  const corners = [
    [x - half, -depth],
    [x + half, -depth],
    [x + half, slit - depth],
    [x - half, slit - depth],
  ] as const;
  return transform(polygon(corners.map(c => apply(frame, c))), lay);
}

function cutSlit(ask: FeatureAsk, net: Net, onto: string, slit: Path): Net {
  const other = { ...ask, net, panel: net.panels.find(p => p.id === onto)! };
  try {
    checkHole(other, slit);
  } catch (e) {
    if (!(e instanceof ParamError)) throw e;
    const advice = 'make the tongues shorter, narrower or fewer';
    throw new ParamError('depth', 'auto', `slits ${e.allowed}`, advice);
  }
  return withHoles(net, onto, [slit]);
}

/** The sides of a neck, held by the ends of its slit. */
function locksAt(
  x: number,
  { frame, depth, neck, slit }: Place,
  lay: Affine,
  flap: string,
  onto: string,
  gap: number,
): Join[] {
  const upright = (u: number) =>
    openPath(apply(frame, [u, -depth]), [line(apply(frame, [u, slit - depth]))]);
  return [-1, 1].map((side): Join => {
    const a = { panel: flap, along: upright(x + (side * neck) / 2) };
    const end = upright(x + side * (neck / 2 + EASE));
    return { kind: 'lock', a, b: { panel: onto, along: transform(end, lay) }, gap };
  });
}
