/** A scalloped edge round a shape that is its own mirror image: equal arcs about beads that are
 *  strung along it at equal distances. */
import {
  add,
  angleOf,
  arcTo,
  circle,
  clockwise,
  distance,
  length,
  lerp,
  openPath,
  pathLength,
  perp,
  pointAt,
  type Step,
  scale,
  steps,
  sub,
  turnOn,
} from '../geom/index.js';
import type { Path, Point, Segment } from '../model.js';
import { ParamError } from '../params.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import { mirrored } from './layers.js';

/** Halvings in a search: to the last bits of a length. */
const HALVINGS = 48;
/** A segment is looked at in this many steps for where a bead's distance is reached. */
const LOOKS = 24;

/** The parameters of a scalloped edge. */
export const scallopParams = (count: number, least = 12, sweep = 155) =>
  ({
    scallops: { kind: 'count', default: count, least, most: 60, help: 'how many arcs' },
    sweep: {
      kind: 'angleDeg',
      default: sweep,
      least: 90,
      most: 180,
      help: 'how much of a circle each arc is: 180 is a half circle',
    },
    eyelet: {
      kind: 'length',
      default: 0,
      least: 0,
      most: 6,
      help: 'hole in each scallop; 0 is none, 1 or more is lace',
    },
  }) as const;

/**
 * Beads on the right half of a shape, `half`, which begins on the axis x = 0 and comes back to it:
 * the first at its start and `more` after it, each as far from the one before as the last is from
 * the end (`end` 'on': there is one more bead there) or from its own mirror image ('across').
 */
export function beadsAlong(half: Path, more: number, end: 'on' | 'across'): Point[] {
  const all = [...steps(half)];
  const last = half.segments.at(-1)!.to;
  const whole = pathLength(half);
  let lo = 0;
  let hi = (2 * whole) / (more + 0.5);
  let beads: Point[] = [];
  for (let i = 0; i < HALVINGS; i++) {
    const pitch = (lo + hi) / 2;
    const walked = walk(half.start, all, more, pitch);
    const bead = walked?.at(-1);
    const left = bead && (end === 'on' ? distance(bead, last) : 2 * bead[0]);
    if (walked && left !== undefined && left >= pitch) {
      lo = pitch;
      beads = walked;
    } else hi = pitch;
  }
  if (beads.length === 0) throw new RangeError(`no ${more} beads on a path of ${whole} mm`);
  return end === 'on' ? [...beads, last] : beads;
}

function walk(start: Point, all: readonly Step[], more: number, pitch: number) {
  const beads = [start];
  let at = 0;
  let t = 0;
  for (let k = 0; k < more; k++) {
    const from = beads.at(-1)!;
    const reached = () => distance(from, pointAt(all[at]!, t)) >= pitch;
    let before = t;
    while (!reached()) {
      if (t >= 1) {
        at++;
        t = 0;
        if (at === all.length) return undefined;
      }
      before = t;
      t = Math.min(1, t + 1 / LOOKS);
    }
    let [lo, hi] = [before, t];
    for (let i = 0; i < HALVINGS && hi > lo; i++) {
      t = (lo + hi) / 2;
      if (reached()) hi = t;
      else lo = t;
    }
    t = hi;
    beads.push(pointAt(all[at]!, t));
  }
  return beads;
}

/**
 * The outline round beads of the right half, from the bottom of the axis to its top. A bead on the
 * axis stands there for itself, one beside it for two. On a straight run each arc turns by `sweep`
 * radians and the notches stand outside the string; round a bend an arc turns more.
 */
export function scallopEdge(beads: readonly Point[], sweep: number): Path {
  const first = beads[0]!;
  const last = beads.at(-1)!;
  const pitch = distance(first, beads[1]!);
  const radius = pitch / 2 / Math.sin(sweep / 2);
  const out = (pitch / 2) * Math.max(0, 1 / Math.tan(sweep / 2));
  const notches: Point[] = [[0, first[1] - (first[0] === 0 ? radius : out)]];
  for (let i = 1; i < beads.length; i++) {
    const [a, b] = [beads[i - 1]!, beads[i]!];
    const along = sub(b, a);
    notches.push(add(lerp(a, b, 0.5), scale(perp(along), -out / length(along))));
  }
  notches.push([0, last[1] + (last[0] === 0 ? radius : out)]);
  const arcs = beads.map((bead, i): Segment => {
    const [from, to] = [notches[i]!, notches[i + 1]!];
    return arcTo(to, turnOn(angleOf(sub(from, bead)), angleOf(sub(to, bead)), 1));
  });
  return mirrored(openPath(notches[0]!, arcs));
}

/** Eyelets at all beads of both halves, clockwise. Throws `ParamError` where less than the least
 *  width of paper would be left round them; `pitch` and `radius` are those of the edge, mm. */
export function eyelets(beads: readonly Point[], sweep: number, diameter: number): Path[] {
  if (diameter === 0) return [];
  const pitch = distance(beads[0]!, beads[1]!);
  const radius = pitch / 2 / Math.sin(sweep / 2);
  const most = Math.min(2 * (radius - LEAST_WIDTH_MM), pitch - LEAST_WIDTH_MM);
  if (!(diameter >= 1 && diameter <= most)) {
    throw new ParamError(
      'eyelet',
      diameter,
      most < 1 ? 'there is no room for one' : `0, or from 1 to ${most.toFixed(2)} mm here`,
      'use fewer scallops, a larger size, or 0',
    );
  }
  return beads.flatMap(([x, y]) =>
    (x === 0 ? [0] : [x, -x]).map(at => clockwise(circle([at, y], diameter / 2))),
  );
}
