/** Which style, in which size, takes the least paper for a treat. */
import type { BoxStyle } from '../contracts.js';
import { type Arrangement, type Inside, type Net, SIDES, type Side, type Treat } from '../model.js';
import type { ParamError } from '../params.js';
import { arranged, type Choice, type Outline, outlinesFor } from './arrange-treats.js';
import { type Blank, leastPaper, type Sheet, type StyleAsked } from './least-paper.js';
import { laid, placedIn, roundAbout } from './move.js';
import { sizesIn } from './sizes.js';

/** What a sheet gives. Both are by blanks: pieces cut close together may do better. */
export interface SheetYield {
  /** Whole boxes from one sheet; 0 where one box takes more. */
  readonly perSheet: number;
  /** Sheets that one box takes; undefined where a part of it fits on none. */
  readonly sheets: number | undefined;
}

export interface Question {
  readonly treat: Treat;
  readonly choice?: Choice;
  readonly styles: readonly StyleAsked[];
  readonly sheet: Sheet;
  /** Insides are rounded up to whole steps, so that they can be read and marked, mm. */
  readonly step: number;
  /** Sizes of each style in the answer, the least paper first; 2 if not given. */
  readonly sizes?: number;
  /** Only boxes that stand and are clear to their corners, as inserts need them. */
  readonly upright?: boolean;
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

/** Sizes of one style beyond the answer's that are laid on a sheet: those of least paper. */
const MORE_LAID = 2;

export function chooseBoxes(question: Question): Choices {
  const outlines = outlinesFor(question.treat, question.choice);
  const rounds = new Map<Outline, number>();
  const roundOf = (outline: Outline): number => {
    const diameter = rounds.get(outline) ?? roundAbout(arranged(question.treat, outline));
    rounds.set(outline, diameter);
    return diameter;
  };
  const refused: Refusal[] = [];
  const { styles, sizes: most = 2, upright = false } = question;
  const boxes = styles.flatMap(asked => {
    const { room, plan } = asked.style;
    if (!room || (upright && (room.insideFor || plan === 'round'))) return [];
    const { style, values } = asked;
    const { sheet, treat } = question;
    const sizes = sizesIn(style, outlines, question, roundOf);
    const tried = leastPaper(asked, sheet, sizes, most + MORE_LAID);
    if (tried.built.length === 0 && tried.refused) refused.push({ style, ...tried.refused });
    return tried.built
      .map(({ size, ...box }): BoxChoice => {
        const { outline, inside, from } = size;
        const afloat = style.room?.insideFor !== undefined;
        return {
          style,
          values,
          inside,
          ...box,
          yield: question.yieldOf(box.blanks),
          outline,
          up: SIDES[from.indexOf('height')]!,
          arrangement: () => placedIn(laid(arranged(treat, outline), from), inside, afloat),
        };
      })
      .sort(byPaper)
      .slice(0, most);
  });
  return { boxes: boxes.sort(byPaper), refused, outlines: outlines.length };
}

const byPaper = (a: BoxChoice, b: BoxChoice): number =>
  share(a.yield) - share(b.yield) || a.paper - b.paper;

/** Sheets a box. */
const share = ({ perSheet, sheets }: SheetYield): number =>
  perSheet > 0 ? 1 / perSheet : (sheets ?? Number.MAX_VALUE);
