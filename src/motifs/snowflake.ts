/** A snowflake with any number of equal arms, grown from a seed. Drawn with arms 50 long. */
import { defineMotif } from '../contracts.js';
import {
  arcTo,
  circle,
  clockwise,
  closedPath,
  line,
  openPath,
  polar,
  polygon,
  rotation,
  transform,
} from '../geom/index.js';
import type { Path, Point, Segment } from '../model.js';
import { figure } from './figure.js';
import { layer, mirrored, sizeParam } from './layers.js';
import { between, pick } from './random.js';

const REACH = 50;
/** Half the width of an arm and of its branches. */
const ARM = 2.7;
const TWIG = 2;
/** The least gap between two twigs. With the least size it keeps slots and twigs a millimetre wide. */
const GAP = 4.4;
const LEAST_SIZE_MM = 28;
/** Twigs stand off their arm by this angle. */
const LEAN = Math.PI / 3;
const MOST_TWIGS = 6;

type End = 'round' | 'point' | 'bud';
/** How far an end reaches past the middle of what it ends, and to its sides. */
const BUD = 3.4;
const endRadius = (end: End) => (end === 'bud' ? BUD : TWIG);

/** Round a bar's end from its right side to its left: the bar points along `angle`, its middle line
 *  ends at `at`, and it is 2 `half` wide. */
function ending(end: End, at: Point, angle: number, half: number): readonly [Point, Segment[]] {
  const right = polar(half, angle - Math.PI / 2, at);
  const left = polar(half, angle + Math.PI / 2, at);
  if (end === 'point') return [right, [line(polar(2.2 * half, angle, at)), line(left)]];
  if (end === 'round') return [right, [arcTo(left, Math.PI)]];
  const foot = Math.sqrt(BUD ** 2 - half ** 2);
  const back = (p: Point) => polar(-foot, angle, p);
  return [back(right), [arcTo(back(left), 2 * Math.PI - 2 * Math.asin(half / BUD))]];
}

interface Plan {
  /** How far the plate in the middle reaches between two arms. */
  readonly plate: number;
  readonly twigs: readonly { readonly root: number; readonly long: number; readonly end: End }[];
  readonly tip: End;
}

/** Chooses a plate, twigs that keep their distance from those of the next arm, and ends. */
function plan(arms: number, random: () => number): Plan {
  const half = Math.PI / arms;
  const least = (ARM + 1.2) / Math.sin(half);
  const plate = between(least, Math.max(least + 7, 15), random);
  const end = pick<End>(['round', 'point', 'bud'], random);
  const other = pick<End>(['round', 'point', 'bud'], random);
  const tip = pick<End>(['point', 'bud', 'round'], random);
  const habit = pick([feather, spear, even], random);
  const widest = Math.max(endRadius(end), endRadius(other));
  const step = (between(1, 1.25, random) * (widest + TWIG + GAP)) / Math.sin(LEAN);
  const twigs: Plan['twigs'][number][] = [];
  let root = edgeOf(plate, half) + between(5, 8, random);
  for (let i = 0; i < MOST_TWIGS; i++, root += step) {
    const own = i % 2 === 0 ? end : other;
    const radius = endRadius(own);
    // From the line between two arms the end of a twig stays half a gap away.
    const room = root * Math.sin(half) - GAP / 2 - radius;
    const most = room / Math.max(Math.sin(LEAN - half), 0.2);
    const inside = (REACH - 3 - radius - root) / Math.cos(LEAN);
    const long = Math.min(most, inside, habit(root / REACH) * REACH);
    if (root > REACH - 11) break;
    if (long > ARM / Math.sin(LEAN) + 2 * radius) twigs.push({ root, long, end: own });
  }
  return { plate, twigs, tip };
}

/** How long twigs are along an arm: as a part of it, from the middle (0) to the tip (1). */
const feather = (t: number) => 0.12 + 0.62 * Math.sin(Math.PI * t) ** 1.4;
const spear = (t: number) => 0.62 * (1.08 - t);
const even = () => 0.34;

/** Where an arm's edge leaves the plate, whose sides stand square between two arms. */
function edgeOf(plate: number, half: number): number {
  const along = (plate * Math.sin(half) - ARM) / Math.cos(half);
  return plate * Math.cos(half) + along * Math.sin(half);
}

/** One arm that points up, from the plate on its right to the plate on its left. */
function arm(half: number, { plate, twigs, tip }: Plan): Path {
  const notch = polar(plate, Math.PI / 2 - half);
  const right: Segment[] = [line([ARM, edgeOf(plate, half)])];
  const along = Math.PI / 2 - LEAN;
  for (const { root, long, end } of twigs) {
    // A twig meets the arm's edge where its own sides do.
    const on = (side: number): Point => [
      ARM,
      root + ARM / Math.tan(LEAN) + (side * TWIG) / Math.sin(LEAN),
    ];
    const [start, round] = ending(end, polar(long, along, [0, root]), along, TWIG);
    right.push(line(on(-1)), line(start), ...round, line(on(1)));
  }
  const [start, round] = ending(
    tip,
    [0, REACH - (tip === 'point' ? 2.2 * ARM : tip === 'bud' ? BUD : ARM)],
    Math.PI / 2,
    ARM,
  );
  right.push(line(start));
  return joined(notch, right, round, tip);
}

/** The right side, the end, and the right side's mirror image. */
function joined(start: Point, right: readonly Segment[], end: readonly Segment[], tip: End): Path {
  // Exactly on the axis, where rounding would leave it a hair beside.
  const toAxis =
    tip === 'point' ? line([0, end[0]!.to[1]]) : arcTo([0, REACH], sweepOf(end[0]!) / 2);
  const whole = mirrored(openPath([0, 0], [line(start), ...right, toAxis]));
  // The mirror image begins and ends in the middle: those two lines are not the arm's.
  return openPath(start, whole.segments.slice(1, -1));
}

const sweepOf = (s: Segment): number => (s.kind === 'arc' ? 4 * Math.atan(s.bulge) : 0);

/** Openings in the plate: one in the middle, or one before each notch; none where it is too small. */
function openings(arms: number, plate: number, random: () => number): Path[] {
  const half = Math.PI / arms;
  const kind = pick(['middle', 'ring', 'none'], random);
  const radius = plate - 5.5;
  if (kind === 'middle' && radius > 3.5) {
    const corners = Array.from({ length: arms }, (_, i) =>
      polar(radius, Math.PI / 2 + half + 2 * half * i),
    );
    return [clockwise(polygon(corners))];
  }
  const drop = 2.3;
  const away = plate - 4.2 - drop;
  if (kind === 'ring' && 2 * away * Math.sin(half) > 2 * drop + 4) {
    return Array.from({ length: arms }, (_, i) =>
      clockwise(circle(polar(away, Math.PI / 2 + half + 2 * half * i), drop)),
    );
  }
  return [];
}

export const snowflake = defineMotif({
  id: 'snowflake',
  family: 'stars',
  summary: 'a snowflake, another one for each seed',
  params: {
    size: { ...sizeParam(60), least: LEAST_SIZE_MM },
    arms: { kind: 'count', default: 6, least: 4, most: 8, help: 'arms; real snow has six' },
    seed: { kind: 'count', default: 13, least: 1, most: 9999, help: 'which snowflake' },
  },
  build({ size, arms, seed }, tools) {
    const random = tools.seeded(seed);
    const half = Math.PI / arms;
    const chosen = plan(arms, random);
    const one = arm(half, chosen);
    const all = Array.from({ length: arms }, (_, i) => transform(one, rotation(2 * half * i)));
    const outline = closedPath(
      all[0]!.start,
      all.flatMap(p => p.segments),
    );
    const holes = openings(arms, chosen.plate, random);
    return figure([layer('front', outline, { holes })], size);
  },
});
