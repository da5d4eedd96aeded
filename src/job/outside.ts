/** The size over all of a closed box, measured on its folded nets, and the inside that gives it. */
import type { BoxStyle } from '../contracts.js';
import { normalAt, type PanelPose, place, pose } from '../fold/pose.js';
import { flatten } from '../geom/index.js';
import type { BoxSpec, Inside, Net, ParamValues, Point } from '../model.js';
import { fillParams, ParamError } from '../params.js';
import { CLOSE_MM, MEASURE_MM } from '../units/tolerances.js';

type Three = readonly [number, number, number];

/** Corrections until the size over all is right; one is enough for straight boxes. */
const MOST_TRIES = 8;
/** Slopes beyond this and its inverse are accidents of a side that has hardly moved. */
const LEAST_SLOPE = 0.2;

/** The sides of the least upright box around a folded net, paper and all, along x, y and z. */
function extent(net: Net): Three {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const panel of pose(net).values()) {
    for (const at of outlinePoints(panel)) {
      const normal = normalAt(panel, at);
      place(panel, at).forEach((middle, k) => {
        const half = (Math.abs(normal[k]!) * net.thickness) / 2;
        low[k] = Math.min(low[k]!, middle - half);
        high[k] = Math.max(high[k]!, middle + half);
      });
    }
  }
  return [high[0]! - low[0]!, high[1]! - low[1]!, high[2]! - low[2]!];
}

/** Steps along the rim of a curled panel, mm: on a curl of radius 20 mm a chord so long lies within
 *  0.0016 mm of it. */
const STEP_MM = 0.5;

/** A curled panel is ruled, and its rulings end on its rim, so the rim reaches as far as the panel;
 *  but a straight edge of it is curved once closed. */
function outlinePoints({ panel, curl }: PanelPose): readonly Point[] {
  const rim = flatten(panel.outline, MEASURE_MM);
  if (!curl) return rim;
  return rim.flatMap((a, i) => {
    const b = rim[(i + 1) % rim.length]!;
    const steps = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / STEP_MM));
    return Array.from({ length: steps }, (_, k): Point => {
      const t = k / steps;
      return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
    });
  });
}

/** Which of x, y, z is which side, net by net. The height is along the net's `up`; for the others the
 *  style's example is folded, and the order nearest to its inside taken. */
function ordersOf({ example, params, build }: BoxStyle): readonly Three[] {
  const nets = build({ inside: example, thickness: 0 }, fillParams(params, {}));
  return nets.map((net): Three => {
    const { up = [0, 0, 1] } = net;
    const height = up.map(Math.abs).indexOf(Math.max(...up.map(Math.abs)));
    const [a, b] = [0, 1, 2].filter(axis => axis !== height) as [number, number];
    const sides = extent(net);
    const far = (length: number, width: number) =>
      Math.abs(sides[length]! - example.length) + Math.abs(sides[width]! - example.width);
    return far(b, a) < far(a, b) ? [b, a, height] : [a, b, height];
  });
}

/** Parts of several nets go one over the other: each further one adds its thickness to the height,
 *  so that the closed box is never larger than told. */
function measure(nets: readonly Net[], orders: readonly Three[]): Inside {
  const sides = nets.map(extent);
  const most = (k: number) => Math.max(...sides.map((s, i) => s[orders[i]![k]!]!));
  const further = nets.slice(1).reduce((sum, net) => sum + net.thickness, 0);
  return { length: most(0), width: most(1), height: most(2) + further };
}

/** The size over all of a closed box. `ParamError`s of the style pass through. */
export const outsideOf = (style: BoxStyle, spec: BoxSpec, values: ParamValues): Inside =>
  measure(style.build(spec, values), ordersOf(style));

/** Whether length and width are free of each other: `one`, they are one measure; `either`, the style
 *  builds the same box whichever of them is the longer. */
type Tie = 'free' | 'one' | 'either';

function tieOf(style: BoxStyle, values: ParamValues, thickness: number): Tie {
  if (style.plan === 'round') return 'one';
  const { length, width, height } = style.example;
  const long = 1.2 * Math.max(length, width);
  const nets = [
    { length: long, width, height },
    { length: width, width: long, height },
  ].map(inside => tried(style, { inside, thickness }, values));
  const [a, b] = nets.map(n => n?.flatMap(extent));
  if (!a || !b) return 'free';
  return a.every((v, i) => Math.abs(v - b[i]!) < CLOSE_MM / 10) ? 'either' : 'free';
}

const tied = (inside: Inside, tie: Tie): Inside =>
  tie === 'free'
    ? inside
    : { ...inside, width: tie === 'one' ? inside.length : Math.min(inside.width, inside.length) };

/** The inside that gives a size over all, or nothing when paper leaves none or none was found: a
 *  style whose inside is no box may refuse every inside that is tried. `ParamError`s about anything
 *  but the size pass through. */
export function insideFor(
  outside: Inside,
  style: BoxStyle,
  values: ParamValues,
  thickness: number,
): BoxSpec | undefined {
  const tie = tieOf(style, values, thickness);
  const found = search(outside, style, values, thickness, tie);
  if (found || tie !== 'either') return found;
  // Across, it is the same box turned by a quarter.
  const across = (s: Inside): Inside => ({ ...s, length: s.width, width: s.length });
  const turned = search(across(outside), style, values, thickness, tie);
  return turned && { ...turned, inside: across(turned.inside) };
}

function search(
  outside: Inside,
  style: BoxStyle,
  values: ParamValues,
  thickness: number,
  tie: Tie,
): BoxSpec | undefined {
  const orders = ordersOf(style);
  const less = (side: number) => side - 2 * thickness;
  const { length, width, height } = outside;
  let inside = tied({ length: less(length), width: less(width), height: less(height) }, tie);
  // By each side on its own, with the slope seen last: a header or an arch grows faster than the
  // inside does, a band that covers half of a side slower.
  let last: Tried | undefined;
  for (let i = 0; i < MOST_TRIES; i++) {
    if (!(Math.min(inside.length, inside.width, inside.height) > 0)) return undefined;
    const nets = tried(style, { inside, thickness }, values);
    if (!nets) return undefined;
    const got = measure(nets, orders);
    const off = (side: keyof Inside) => outside[side] - got[side];
    const sides = ['length', 'width', 'height'] as const;
    if (Math.max(...sides.map(k => Math.abs(off(k)))) < CLOSE_MM / 10) return { inside, thickness };
    const here = { inside, got };
    // Never by more than half: what seems to leave no room may only grow faster than thought.
    const next = (side: keyof Inside) =>
      Math.max(inside[side] / 2, inside[side] + off(side) / slopeOf(side, here, last));
    inside = tied({ length: next('length'), width: next('width'), height: next('height') }, tie);
    last = here;
  }
  return undefined;
}

/** The nets of an inside that nobody asked for, or nothing where the style refuses that size. */
function tried(style: BoxStyle, spec: BoxSpec, values: ParamValues): readonly Net[] | undefined {
  try {
    return style.build(spec, values);
  } catch (error) {
    if (error instanceof ParamError && SIZES.includes(error.param)) return undefined;
    throw error;
  }
}
const SIZES: readonly string[] = ['length', 'width', 'height'];

interface Tried {
  readonly inside: Inside;
  readonly got: Inside;
}

/** How fast the size over all grows with the inside; a straight box's as fast. */
function slopeOf(side: keyof Inside, here: Tried, last: Tried | undefined): number {
  if (!last) return 1;
  const run = here.inside[side] - last.inside[side];
  const slope = (here.got[side] - last.got[side]) / run;
  return slope > LEAST_SLOPE && slope < 1 / LEAST_SLOPE ? slope : 1;
}
