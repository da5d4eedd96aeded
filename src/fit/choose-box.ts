/** Which style, in which size, takes the least paper for a treat. */
import type { BoxStyle } from '../contracts.js';
import { bounds } from '../geom/index.js';
import {
  type Arrangement,
  type Inside,
  type Net,
  type ParamValues,
  SIDES,
  type Side,
  type Treat,
} from '../model.js';
import { ParamError } from '../params.js';
import { SAME_POINT_MM } from '../units/tolerances.js';
import { arranged, type Choice, type Outline, outlinesFor } from './arrange-treats.js';
import { laid, placedIn, roundAbout } from './move.js';

/** The least upright rectangle around a net in the flat, mm. */
export interface Blank {
  readonly width: number;
  readonly height: number;
}
/** What a sheet gives. Both are by blanks: pieces cut close together may do better. */
export interface SheetYield {
  /** Whole boxes from one sheet; 0 where one box takes more. */
  readonly perSheet: number;
  /** Sheets that one box takes; undefined where a part of it fits on none. */
  readonly sheets: number | undefined;
}

/** A style with its parameters. */
export interface StyleAsked {
  readonly style: BoxStyle;
  readonly values: ParamValues;
}
export interface Question {
  readonly treat: Treat;
  readonly choice?: Choice;
  readonly styles: readonly StyleAsked[];
  /** Of the paper, mm. */
  readonly thickness: number;
  yieldOf(blanks: readonly Blank[]): SheetYield;
}

/** A style in a size that holds the treat. */
export interface BoxChoice extends StyleAsked {
  readonly inside: Inside;
  readonly nets: readonly Net[];
  readonly blanks: readonly Blank[];
  /** Area of the blanks, mm². */
  readonly paper: number;
  readonly yield: SheetYield;
  readonly outline: Outline;
  readonly up: Side;
  /** Where the pieces go: worked out when asked. */
  arrangement(): Arrangement;
}
export interface Refusal {
  readonly style: BoxStyle;
  readonly inside: Inside;
  readonly error: ParamError;
}
export interface Choices {
  /** The least paper first: by what a sheet gives, then by blanks. Those that fit no sheet last. */
  readonly boxes: readonly BoxChoice[];
  /** Styles that refuse every size tried, each with its first word. */
  readonly refused: readonly Refusal[];
  /** Arrangements that there were to choose from. */
  readonly outlines: number;
}

/** Sizes of one style that are built: those of least surface. */
const MOST_BUILT = 10;
/** Sizes of one style that are laid on a sheet: those of least paper. */
const MOST_LAID = 4;
/** Insides are rounded up to this, so that they can be read and marked, mm. */
const STEP_MM = 0.1;

export function chooseBoxes(question: Question): Choices {
  const outlines = outlinesFor(question.treat, question.choice);
  const rounds = new Map<Outline, number>();
  const roundOf = (outline: Outline): number => {
    const diameter = rounds.get(outline) ?? roundAbout(arranged(question.treat, outline));
    rounds.set(outline, diameter);
    return diameter;
  };
  const refused: Refusal[] = [];
  const boxes = question.styles.flatMap(asked => {
    if (!asked.style.room) return [];
    const sizes = sizesIn(asked.style, outlines, roundOf).slice(0, MOST_BUILT);
    const tried = sizes.map(size => build(question, asked, size));
    const built = tried.flatMap(t => ('error' in t ? [] : t));
    const first = tried.find(t => 'error' in t);
    if (built.length === 0 && first && 'error' in first) refused.push(first);
    return built
      .sort((a, b) => a.paper - b.paper)
      .slice(0, MOST_LAID)
      .map((b): BoxChoice => ({ ...b, yield: question.yieldOf(b.blanks) }));
  });
  return { boxes: boxes.sort(byPaper), refused, outlines: outlines.length };
}

const byPaper = (a: BoxChoice, b: BoxChoice): number =>
  share(a.yield) - share(b.yield) || a.paper - b.paper;

/** Sheets a box. */
const share = ({ perSheet, sheets }: SheetYield): number =>
  perSheet > 0 ? 1 / perSheet : (sheets ?? Number.MAX_VALUE);

interface Size {
  readonly outline: Outline;
  readonly inside: Inside;
  /** Which side of the standing arrangement becomes the box's length, width and height. */
  readonly from: readonly [Side, Side, Side];
}

/** Every size of a style that holds one of the arrangements, the least surface first. */
function sizesIn(
  style: BoxStyle,
  outlines: readonly Outline[],
  roundOf: (outline: Outline) => number,
): Size[] {
  const sizes = outlines.flatMap(outline =>
    waysOf(style, outline.inside).flatMap((from): Size[] => {
      const block = sidesFrom(outline.inside, from);
      const round = style.plan === 'round' ? roundOf(outline) : undefined;
      const inside = insideOf(style, block, round);
      return inside ? [{ outline, inside: rounded(inside), from }] : [];
    }),
  );
  return sizes.sort((a, b) => surface(a.inside) - surface(b.inside));
}

const UPRIGHT: readonly [Side, Side, Side] = ['length', 'width', 'height'];

/** The box as it stands, and if it may lie, on either of its walls; its length is at least its width. */
function waysOf({ room }: BoxStyle, inside: Inside): (readonly [Side, Side, Side])[] {
  if (!room?.lies) return [UPRIGHT];
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

function rounded(inside: Inside): Inside {
  // Divided out, since 0.1 mm steps multiplied leave 123.30000000000001.
  const up = (mm: number) => Math.ceil((mm - SAME_POINT_MM) / STEP_MM) / Math.round(1 / STEP_MM);
  return { length: up(inside.length), width: up(inside.width), height: up(inside.height) };
}

const surface = ({ length: l, width: w, height: h }: Inside): number => l * w + l * h + w * h;

function build(
  { treat, thickness }: Question,
  { style, values }: StyleAsked,
  { outline, inside, from }: Size,
): Omit<BoxChoice, 'yield'> | Refusal {
  try {
    const nets = style.build({ inside, thickness }, values);
    const blanks = nets.map(blankOf);
    return {
      style,
      values,
      inside,
      nets,
      blanks,
      paper: blanks.reduce((sum, b) => sum + b.width * b.height, 0),
      outline,
      up: SIDES[from.indexOf('height')]!,
      arrangement: () =>
        placedIn(laid(arranged(treat, outline), from), inside, style.room?.insideFor !== undefined),
    };
  } catch (error) {
    if (error instanceof ParamError) return { style, inside, error };
    throw error;
  }
}

export function blankOf({ panels }: Net): Blank {
  const all = panels.map(p => bounds(p.outline));
  return {
    width: Math.max(...all.map(b => b.maxX)) - Math.min(...all.map(b => b.minX)),
    height: Math.max(...all.map(b => b.maxY)) - Math.min(...all.map(b => b.minY)),
  };
}
