/** Boxes sized by their treat: the arrangement of least paper, or why there is none. */
import type { BoxStyle } from '../contracts.js';
import { type BoxChoice, type Choices, chooseBoxes, outlinesFor } from '../fit/index.js';
import type { Arrangement, Cutter, ParamValues, Stock } from '../model.js';
import type { LengthUnit } from '../units/length.js';
import type { AskedBox, AskedSize } from './asked.js';
import type { AskedTreat } from './asked-treat.js';
import type { Context } from './context.js';
import type { Span } from './fault.js';
import { withInsert } from './inserts.js';
import { sheetOf, yieldOn } from './paper-yield.js';
import { inUnit } from './quantities.js';
import { cut, listed, type Reading } from './reading.js';
import type { Params } from './values.js';

/** Sides are rounded up to what people mark: a tenth of a millimetre, or 1/32 in. */
export const stepOf = (unit: LengthUnit): number => (unit === 'in' ? 25.4 / 32 : 0.1);

export interface Fitting {
  readonly asked: AskedTreat;
  readonly styles: readonly { readonly style: BoxStyle; readonly values: ParamValues }[];
  readonly stock: Stock;
  readonly cutter: Cutter;
  /** Sizes of each style to compare and to give back. */
  readonly sizes?: number;
  /** Boxes that stand and are rectangles, as inserts need them. */
  readonly upright?: boolean;
}

export const fitTreat = (r: Reading, { asked, stock, cutter, ...rest }: Fitting): Choices =>
  chooseBoxes({
    ...rest,
    treat: asked.treat,
    choice: asked.choice,
    sheet: sheetOf(stock, cutter),
    step: stepOf(r.unit),
    yieldOf: yieldOn(stock, cutter),
  });

export interface Sized {
  readonly size: AskedSize;
  readonly arrangement: Arrangement;
  /** For the templates of names and titles. */
  readonly words: ReadonlyMap<string, string>;
}

/** The size that an asked box gets from its treat. Nothing where something is at fault, which has
 *  been told. */
export function sizedByTreat(
  { r, library, cutter }: Context,
  {
    asked,
    style,
    params,
    paper,
  }: {
    readonly asked: AskedBox;
    readonly style: BoxStyle | undefined;
    readonly params: Params | undefined;
    readonly paper: Stock | undefined;
  },
): Sized | undefined {
  const treat = asked.treat && spaced(r, asked.treat, paper);
  if (!treat || !style || !params?.sound || !paper || !cutter) return undefined;
  const fitting: Fitting = {
    asked: treat,
    styles: [{ style, values: params.values }],
    stock: paper,
    cutter,
    upright: treat.insert !== undefined,
  };
  const box = bestBox(r, fitting, asked.style?.at ?? asked.at, library.styles);
  if (!box) return undefined;
  const { length, width, height } = box.inside;
  const { id, count } = treat.treat;
  return {
    size: { measure: 'inside', sides: [length, width, height], at: treat.at },
    arrangement: box.arrangement(),
    words: new Map([...asked.words, ['treat', id], ['pieces', String(count)]]),
  };
}

const spaced = (r: Reading, asked: AskedTreat, paper: Stock | undefined) =>
  asked.insert && paper
    ? withInsert(r, asked.insert.insert, asked.insert.at, asked, paper.caliper)
    : asked;

/** The best box of one style. What is wrong is told at its place. */
function bestBox(
  r: Reading,
  fitting: Fitting,
  styleAt: Span,
  all: readonly BoxStyle[],
): BoxChoice | undefined {
  const { style } = fitting.styles[0]!;
  if (!style.room) {
    return r.fault(styleAt, `${style.id} is not sized by a treat`, {
      allowed: listed(all.filter(s => s.room).map(s => s.id)),
      hint: 'give it a size: inside, outside or creases',
    });
  }
  const choices = fitTreat(r, fitting);
  if (choices.boxes.length > 0) return choices.boxes[0];
  return tellNoBox(r, fitting, choices);
}

/** Why no box was found. */
export function tellNoBox(
  r: Reading,
  { asked, styles, upright }: Fitting,
  choices: Choices,
): undefined {
  const { treat, choice } = asked;
  if (choices.outlines === 0) {
    const fixed = (['columns', 'rows', 'layers'] as const)
      .flatMap(key => (choice[key] === undefined ? [] : `${choice[key]} ${key}`))
      .join(' and ');
    const straight = choice.straight ? 'straight ' : '';
    const others = outlinesFor(treat, choice.straight ? { straight: true } : {})
      .filter(o => o.heap.pattern === 'grid')
      .map(o => `${o.columns} x ${o.rows} x ${o.layers}`);
    return r.fault(
      asked.at,
      `${treat.count} pieces have no ${straight}arrangement of ${fixed || 'that kind'}`,
      {
        allowed: `${listed([...new Set(others)])} (columns x rows x layers), among others`,
        hint: 'leave one of them out, or change the count',
      },
    );
  }
  const [first] = choices.refused;
  if (first) {
    const { error, style, inside } = first;
    const value =
      typeof error.value === 'number' ? inUnit(error.value, r.unit) : cut(String(error.value));
    const size = [inside.length, inside.width, inside.height].map(s => inUnit(s, r.unit));
    return r.fault(
      asked.at,
      `${style.id} of ${size.join(' x ')}: ${error.param} cannot be ${value}`,
      {
        allowed: error.allowed,
        hint: error.advice,
      },
    );
  }
  const names = styles.map(s => s.style.id);
  if (upright) {
    return r.fault(asked.at, `no insert goes into ${listed(names)}`, {
      hint: 'take a box whose inside is a plain block, as lid-and-base has it',
    });
  }
  return r.fault(asked.at, `no box of ${listed(names)} goes round this treat`, {
    hint: 'try another style (foldwright list styles), or another way to lie',
  });
}
