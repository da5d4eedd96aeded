/** Sizes of a style that hold a treat's arrangements. */
import type { BoxStyle } from '../contracts.js';
import type { Inside, Side } from '../model.js';
import { SAME_POINT_MM } from '../units/tolerances.js';
import type { Outline } from './arrange-treats.js';

export interface Size {
  readonly outline: Outline;
  readonly inside: Inside;
  /** Which side of the standing arrangement becomes the box's length, width and height. */
  readonly from: readonly [Side, Side, Side];
}

/** Every size of a style that holds one of the arrangements, the least surface first; rounded up to
 *  whole steps (mm). `upright` leaves out boxes that lie. */
export function sizesIn(
  style: BoxStyle,
  outlines: readonly Outline[],
  { step, upright = false }: { readonly step: number; readonly upright?: boolean },
  roundOf: (outline: Outline) => number,
): Size[] {
  const sizes = outlines.flatMap(outline =>
    waysOf(style, outline.inside, upright).flatMap((from): Size[] => {
      const block = sidesFrom(outline.inside, from);
      const round = style.plan === 'round' ? roundOf(outline) : undefined;
      const inside = insideOf(style, block, round);
      return inside ? [{ outline, inside: rounded(inside, step), from }] : [];
    }),
  );
  return sizes.sort((a, b) => surface(a.inside) - surface(b.inside));
}

const UPRIGHT: readonly [Side, Side, Side] = ['length', 'width', 'height'];

/** The box as it stands, and if it may lie, on either of its walls; its length is at least its width. */
function waysOf(
  { room }: BoxStyle,
  inside: Inside,
  upright: boolean,
): (readonly [Side, Side, Side])[] {
  if (!room?.lies || upright) return [UPRIGHT];
  const lying = (['width', 'length'] as const).map((along): readonly [Side, Side, Side] => {
    const other = along === 'width' ? 'length' : 'width';
    return inside[other] >= inside.height ? [other, 'height', along] : ['height', other, along];
  });
  return [UPRIGHT, ...lying];
}

const sidesFrom = (inside: Inside, [l, w, h]: readonly [Side, Side, Side]): Inside => ({
  length: inside[l],
  width: inside[w],
  height: inside[h],
});

function insideOf(
  { room }: BoxStyle,
  block: Inside,
  round: number | undefined,
): Inside | undefined {
  const clear = round === undefined ? block : { ...block, length: round, width: round };
  return room?.insideFor ? room.insideFor(clear) : clear;
}

/** No style folds a box with a shorter side. */
const LEAST_SIDE_MM = 5;

function rounded(inside: Inside, step: number): Inside {
  // Steps of 0.1 mm added up leave 123.30000000000001.
  const up = (mm: number) => Number((Math.ceil((mm - SAME_POINT_MM) / step) * step).toFixed(6));
  const side = (mm: number) => up(Math.max(mm, LEAST_SIDE_MM));
  return { length: side(inside.length), width: side(inside.width), height: side(inside.height) };
}

const surface = ({ length: l, width: w, height: h }: Inside): number => l * w + l * h + w * h;
