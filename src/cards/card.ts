/** What a test card is: lines and words on a small sheet, and how to read what comes of it. */
import type { MotifTools } from '../contracts.js';
import { rectangle, transform, translation } from '../geom/index.js';
import type { Cutter, Operation, Path, Point, Stock, Stroke } from '../model.js';
import type { ParamTable, Values } from '../params.js';

/** Lines worked with a setting of their own, in place of the cutter's. */
export interface OwnLines {
  readonly operation: Extract<Operation, 'cut' | 'perforate'>;
  readonly paths: readonly Path[];
  /** What the file allows for: an offset, mm, and how far closed cuts run on. Nothing at all is
   *  allowed for where both are 0. */
  readonly blade?: { readonly offset: number; readonly overcut: number };
  /** Cut in dashes, mm; the cutter's own blade. */
  readonly dashes?: { readonly dash: number; readonly gap: number };
}

export interface Card {
  /** mm; a scrap of this size will do. */
  readonly width: number;
  readonly height: number;
  readonly strokes: readonly Stroke[];
  readonly own: readonly OwnLines[];
  /** Printed first, with register marks: black lines of this width, mm. */
  readonly printed?: { readonly lines: readonly Path[]; readonly width: number };
  /** How to read it: a sentence or two each, in order. */
  readonly read: readonly string[];
}

/** What a card is made for. */
export interface CardAsk {
  readonly cutter: Cutter;
  readonly stock: Stock;
  readonly tools: MotifTools;
}

export interface CardKind<P extends ParamTable = ParamTable> {
  readonly id: string;
  readonly summary: string;
  readonly params: P;
  /** Throws `ParamError` for what cannot be. */
  build(values: Values<P>, ask: CardAsk): Card;
}

export const defineCard = <const P extends ParamTable>(card: CardKind<P>): CardKind<P> => card;

/** The face of the numbers: single lines, quick to draw and easy to read small. */
const FACE = 'ems-readability';

/** Words for the pen; `at` is the middle of the first line's baseline, its left end or its right one. */
export function words(
  { tools }: Pick<CardAsk, 'tools'>,
  text: string,
  at: Point,
  height = 2.6,
  align: 'left' | 'centre' | 'right' = 'centre',
): Stroke[] {
  const { lines } = tools.set({ text, font: FACE, height, align });
  return lines.map(path => ({ operation: 'draw', path: transform(path, translation(...at)) }));
}

export const cutOf = (path: Path): Stroke => ({ operation: 'cut', path });

/** A closed square about a point. */
export const squareAt = ([x, y]: Point, side: number): Path =>
  rectangle(x - side / 2, y - side / 2, side, side);

/** From one number to another in even steps, both ends included, without rounding that gathers. */
export function inSteps(from: number, to: number, step: number): number[] {
  const count = Math.round((to - from) / step) + 1;
  return Array.from({ length: count }, (_, i) => Number((from + i * step).toFixed(6)));
}

/** A length as it is drawn beside its shape: mm, without noughts at its end. */
export const mm = (value: number): string => String(Number(value.toFixed(2)));

/** White round everything: what the tools do not reach, and a little. */
export const border = ({ cutter }: Pick<CardAsk, 'cutter'>): number => cutter.margin + 2;
