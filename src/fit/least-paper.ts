/**
 * The sizes of a style that take the least paper, without building all of them. A net's blank grows
 * about evenly with length, width and height, so a few sizes tell what the others will take.
 */
import type { BoxStyle } from '../contracts.js';
import { bounds } from '../geom/index.js';
import { type Inside, type Net, type ParamValues, SIDES } from '../model.js';
import { ParamError } from '../params.js';
import type { Size } from './sizes.js';

/** The least upright rectangle around a net in the flat, mm. */
export interface Blank {
  readonly width: number;
  readonly height: number;
}
/** A style with its parameters. */
export interface StyleAsked {
  readonly style: BoxStyle;
  readonly values: ParamValues;
}
export interface Built {
  readonly size: Size;
  readonly nets: readonly Net[];
  readonly blanks: readonly Blank[];
  /** Area of the blanks, mm². */
  readonly paper: number;
}
export interface Refused {
  readonly inside: Inside;
  readonly error: ParamError;
}

/** The paper that boxes are cut from. */
export interface Sheet {
  /** mm. */
  readonly thickness: number;
  /** Whether a blank can be cut from a sheet of it. */
  fits(blank: Blank): boolean;
}

/** Comes after every box that fits a sheet: more than any blank, mm². */
const TOO_BIG = 1e9;
/** So few sizes are all built. */
const FEW = 8;
/** Sizes built after each look at how paper grows. */
const BUILT_EACH = 4;
/** Looks, each at the best size so far. */
const MOST_LOOKS = 4;
/** A guess as near as this needs no further look. */
const SURE = 0.005;
/** Sizes that are tried for a first one that the style does not refuse. */
const FIRST_TRIED = 12;
/** How much a side is changed to see how the blanks grow. */
const CHANGE = 1.25;

/** At most `most` of `sizes`: those whose blanks all fit a sheet first, then by paper. Of what the style
 *  refuses, the first. */
export function leastPaper(
  asked: StyleAsked,
  { thickness, fits }: Sheet,
  sizes: readonly Size[],
  most: number,
): { readonly built: readonly Built[]; readonly refused?: Refused } {
  const built: Built[] = [];
  let refused: Refused | undefined;
  const left = new Set(sizes);
  const order = (b: Pick<Built, 'blanks' | 'paper'>) =>
    b.paper + (b.blanks.every(fits) ? 0 : TOO_BIG);
  const add = (some: readonly Size[]) => {
    for (const size of some) {
      left.delete(size);
      const made = build(asked, size.inside, thickness);
      if ('error' in made) refused ??= { inside: size.inside, error: made.error };
      else built.push({ size, ...made });
    }
    built.sort((a, b) => order(a) - order(b));
  };
  const few = sizes.length <= FEW;
  if (few) add(sizes);
  for (let i = 0; !few && i < FIRST_TRIED && built.length === 0; i++) {
    add([sizes[Math.floor((i * sizes.length) / FIRST_TRIED)]!]);
  }
  for (let look = 0; look < MOST_LOOKS && left.size > 0 && built[0]; look++) {
    const blanksOf = guess(asked, built[0], thickness);
    const guessed = ({ inside }: Size) => {
      const blanks = blanksOf?.(inside) ?? [];
      return order({ blanks, paper: areaOf(blanks) });
    };
    const next = [...left].map(size => ({ size, order: guessed(size) }));
    next.sort((a, b) => a.order - b.order);
    const before = built[0];
    add(next.slice(0, Math.max(BUILT_EACH, most)).map(n => n.size));
    if (built[0] === before) break;
    const got = order(built[0]);
    if (blanksOf && Math.abs(guessed(built[0].size) - got) <= SURE * built[0].paper) break;
  }
  return { built: built.slice(0, most), ...(refused && { refused }) };
}

/** The blanks of other sizes, from how those of `here` grow; nothing where a larger one is refused. */
function guess(
  asked: StyleAsked,
  here: Built,
  thickness: number,
): ((inside: Inside) => readonly Blank[]) | undefined {
  const at = here.size.inside;
  // A round plan has one measure for both.
  const moves: Partial<Inside>[] =
    asked.style.plan === 'round'
      ? [{ length: at.length * CHANGE, width: at.width * CHANGE }, { height: at.height * CHANGE }]
      : SIDES.map(side => ({ [side]: at[side] * CHANGE }));
  const looks = moves.map(move => build(asked, { ...at, ...move }, thickness));
  const grown = looks.flatMap(look => ('error' in look ? [] : [look]));
  if (grown.length < looks.length || grown.some(g => g.blanks.length !== here.blanks.length))
    return undefined;
  const sides = moves.map(move => Object.keys(move)[0] as keyof Inside);
  return inside =>
    here.blanks.map((blank, i) => {
      const along = (key: keyof Blank) =>
        sides.reduce((value, side, k) => {
          const rate = (grown[k]!.blanks[i]![key] - blank[key]) / (at[side] * (CHANGE - 1));
          return value + rate * (inside[side] - at[side]);
        }, blank[key]);
      return { width: along('width'), height: along('height') };
    });
}

function build(
  { style, values }: StyleAsked,
  inside: Inside,
  thickness: number,
): Omit<Built, 'size'> | { readonly error: ParamError } {
  try {
    const nets = style.build({ inside, thickness }, values);
    const blanks = nets.map(blankOf);
    return { nets, blanks, paper: areaOf(blanks) };
  } catch (error) {
    if (error instanceof ParamError) return { error };
    throw error;
  }
}

const areaOf = (blanks: readonly Blank[]): number =>
  blanks.reduce((sum, b) => sum + b.width * b.height, 0);

export function blankOf({ panels }: Net): Blank {
  const all = panels.map(p => bounds(p.outline));
  return {
    width: Math.max(...all.map(b => b.maxX)) - Math.min(...all.map(b => b.minX)),
    height: Math.max(...all.map(b => b.maxY)) - Math.min(...all.map(b => b.minY)),
  };
}
