/** Bounds that depend on the size: said the same way by every style. */
import type { BoxSpec } from '../model.js';
import { ParamError } from '../params.js';
import { LEAST_LENGTH_MM } from '../units/tolerances.js';

/** Smaller boxes cannot be folded by hand; larger ones fit no sheet of any cutter. */
const LEAST_SIDE_MM = 5;
const MOST_SIDE_MM = 2000;
/** Thicker than this is board that does not fold at a score (common practice, no source). */
const MOST_THICKNESS_MM = 1;
/** Nor does paper fold to a box whose least side is not so many times as long as it is thick. */
const LEAST_PAPERS = 8;

/** Inside size and thickness, checked; NaN and infinities fail. `least` is for sides that are no
 *  box's, mm. */
export function checkedSize(
  { inside, thickness }: BoxSpec,
  least: Partial<Record<keyof BoxSpec['inside'], number>> = {},
): {
  readonly length: number;
  readonly width: number;
  readonly height: number;
  readonly t: number;
} {
  for (const name of ['length', 'width', 'height'] as const) {
    const value = inside[name];
    const from = least[name] ?? LEAST_SIDE_MM;
    if (!(value >= from && value <= MOST_SIDE_MM)) {
      throw new ParamError(
        name,
        value,
        `from ${from} mm to ${MOST_SIDE_MM} mm inside`,
        value < from
          ? `make the ${name} larger, or check the unit`
          : `make the ${name} smaller, or check the unit`,
      );
    }
  }
  const most = Math.min(MOST_THICKNESS_MM, leastSide(inside, least) / LEAST_PAPERS);
  const paper = thickness >= LEAST_LENGTH_MM && thickness <= most;
  if (!paper && thickness !== 0) {
    throw new ParamError(
      'thickness',
      thickness,
      `0, or from ${LEAST_LENGTH_MM} mm to ${mm(most)}, an eighth of the least side at most`,
      thickness > most
        ? 'take thinner paper or make the box larger'
        : 'measure ten sheets together and divide by ten',
    );
  }
  return { length: inside.length, width: inside.width, height: inside.height, t: thickness };
}

/** A side that may be less than a box's is not counted: an envelope is as flat as it likes. */
const leastSide = (
  inside: BoxSpec['inside'],
  least: Partial<Record<keyof BoxSpec['inside'], number>>,
) =>
  Math.min(
    ...(['length', 'width', 'height'] as const)
      .filter(k => least[k] === undefined)
      .map(k => inside[k]),
  );

export const mm = (n: number) => `${Number(n.toFixed(2))} mm`;

/** The value, if it is at most `most`. `why` says what the bound is: "half of the end wall". */
export function atMost(
  param: string,
  value: number,
  most: number,
  why: string,
  advice: string,
): number {
  if (value <= most) return value;
  // Where there is room for nothing the bound comes out below it.
  throw new ParamError(param, value, `at most ${mm(Math.max(0, most))}, ${why}`, advice);
}
export function atLeast(
  param: string,
  value: number,
  least: number,
  why: string,
  advice: string,
): number {
  if (value >= least) return value;
  throw new ParamError(param, value, `at least ${mm(least)}, ${why}`, advice);
}

/** The value given, or the style's own choice; the choice is kept at or under `most`. */
export const auto = (value: number | 'auto', choice: number, most = Number.POSITIVE_INFINITY) =>
  value === 'auto' ? Math.min(choice, most) : value;

export const radians = (angleDeg: number): number => (angleDeg * Math.PI) / 180;
