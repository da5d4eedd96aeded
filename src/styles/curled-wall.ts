/** Walls of curled paper: strips with teeth along one edge, which are folded in and glued to a flat
 *  piece. */
import type { Bend, EdgeRef } from '../model.js';
import type { ParamTable } from '../params.js';
import { CLOSE_MM, LEAST_WIDTH_MM } from '../units/tolerances.js';
import { atMost, auto, radians } from './bounds.js';
import { type NetBuilder, part } from './build.js';
import { flap, rect, type Shape } from './shapes.js';

/** Teeth lean in by this at least: common practice, no source. */
const LEAN = radians(12);
/** And by this more than a radius does, so that they do not touch when folded in. */
const CLEAR = radians(3);

export const TEETH_PARAMS = {
  tooth: {
    kind: 'length',
    default: 6,
    least: 2,
    most: 20,
    help: 'Width of the teeth that hold a wall, about; narrower where it curls tightly.',
  },
  depth: {
    kind: 'length',
    default: 'auto',
    least: 1,
    most: 30,
    help: 'Depth of the teeth; auto is 8 mm, less where they would run to a point.',
  },
} as const satisfies ParamTable;

export interface AskedTeeth {
  readonly tooth: number;
  readonly depth: number | 'auto';
}

export interface Teeth {
  readonly count: number;
  readonly width: number;
  readonly depth: number;
  /** Angle by which their sides lean in, radians. */
  readonly lean: number;
}

/** Teeth for a stretch of wall of that length, curled to that radius. */
export function teethFor(length: number, radius: number, asked: AskedTeeth): Teeth {
  // A tooth keeps its foot straight: the arc over it is longer, by w³ / 24 R².
  const widest = 0.9 * Math.cbrt(24 * CLOSE_MM * radius * radius);
  const count = Math.max(1, Math.ceil(length / Math.min(asked.tooth, widest)));
  const width = length / count;
  const lean = Math.max(LEAN, width / radius / 2 + CLEAR);
  const most = Math.min((width - LEAST_WIDTH_MM) / (2 * Math.tan(lean)), radius / 2);
  const depth = atMost(
    'depth',
    auto(asked.depth, 8, most),
    most,
    'where the teeth run to a point',
    'make the teeth less deep, or wider',
  );
  return { count, width, depth, lean };
}

/** Teeth side by side along an edge from a place on it, each glued onto the flat piece of another
 *  net. */
export function toothed(
  net: NetBuilder,
  edge: EdgeRef,
  from: number,
  { count, width, depth, lean }: Teeth,
  onto: { readonly net: string; readonly panel: string },
  name = 'tooth',
): void {
  for (let i = 0; i < count; i++) {
    const foot = part(edge, from + i * width, from + (i + 1) * width);
    const tooth = net.fold(foot, `${name}-${i + 1}`, 'glue-flap', w =>
      flap(w, depth, { mitre: lean }),
    );
    net.seat(tooth, onto.net, onto.panel);
  }
}

/** A strip that stands on its teeth and curls from left to right. */
export function strip(tall: number, stretches: Bend['stretches']): Shape {
  const whole = stretches.reduce((sum, s) => sum + s.length, 0);
  return { ...rect(whole, tall), bend: { from: [0, 0], across: [1, 0], stretches } };
}

/** What lies inside the beginning of a strip as its other end: a lap that curls on, hinged by its
 *  foot. */
export function lap(width: number, deep: number, radius: number): Shape {
  const stretches = [{ length: deep, turn: deep / radius }];
  return { ...rect(width, deep), bend: { from: [0, 0], across: [0, 1], stretches } };
}
