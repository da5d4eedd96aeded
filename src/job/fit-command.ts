/** `fit TREAT …` on the command line: what is asked, and the boxes for it. */
import { type BoxStyle, find } from '../contracts.js';
import {
  type BoxChoice,
  type Fullest,
  fullest,
  INSERTS,
  type Insert,
  insertValues,
} from '../fit/index.js';
import type { Cutter, Inside, ParamValues, Stock, Treat } from '../model.js';
import { fillParams } from '../params.js';
import type { LengthUnit } from '../units/length.js';
import { type AskedTreat, readAskedTreat } from './asked-treat.js';
import { commandText, map, unitOf } from './command-line.js';
import { type Library, presetOrOwn, readPapers } from './context.js';
import type { Document, Entry, Pair } from './document.js';
import { type Fault, inOrder } from './fault.js';
import { type Fitting, fitTreat, tellNoBox } from './fit-treat.js';
import { withInsert } from './inserts.js';
import { readCutter } from './preset-kinds.js';
import { sizeOf } from './quantities.js';
import { choiceOf, listed, oneOf, type Reading, startReading } from './reading.js';
import { SHAPES } from './treats.js';

const MEASURES = ['size', 'length', 'width', 'height', 'diameter', 'squash'] as const;
const HOW = ['count', 'clearance', 'apart', 'stack', 'lie', 'columns', 'rows', 'layers'] as const;

/** Options as they were typed. */
export type FitCommand = {
  readonly treat: string;
  readonly style: readonly string[];
  readonly straight?: true | undefined;
} & {
  readonly [K in
    | (typeof MEASURES)[number]
    | (typeof HOW)[number]
    | 'stock'
    | 'cutter'
    | 'inside'
    | 'insert']?: string | undefined;
};

export interface FitAnswer {
  readonly treat: Treat;
  readonly stock: Stock;
  readonly cutter: Cutter;
  readonly unit: LengthUnit;
  /** The least paper first. Empty where the question was how many go into a box. */
  readonly boxes: readonly FittedBox[];
  /** Styles that refuse this treat, with their reason. */
  readonly refused: readonly { readonly style: string; readonly reason: string }[];
  /** Of the box that the person has. */
  readonly into?: { readonly inside: Inside; readonly fullest: Fullest };
}
export interface FittedBox {
  readonly box: BoxChoice;
  /** A style for the inside of the box, and what to set. */
  readonly insert?: { readonly style: string; readonly values: ParamValues };
}

/** Reads the command and answers it. `sizes` of each style are compared and given back. */
export function answerFit(
  command: FitCommand,
  library: Library,
  sizes: number,
): FitAnswer | { readonly faults: readonly Fault[] } {
  const line = commandText('foldwright fit');
  const name = line.entry(command.treat);
  const measures = MEASURES.flatMap(m => line.option(m, command[m]));
  const straight = command.straight ? [line.flag('straight')] : [];
  const how = [...HOW.flatMap(h => line.option(h, command[h])), ...straight];
  const [stock] = line.option('stock', command.stock);
  const [cutter] = line.option('cutter', command.cutter);
  const styles = command.style.flatMap(s => line.option('style', s));
  const [inside] = line.option('inside', command.inside);
  const [insert] = line.option('insert', command.insert);
  const { size, diameter, length } = command;
  const unit = unitOf(size ?? diameter ?? length ?? command.inside).value as { text: LengthUnit };
  const text = line.text();
  const document: Document = { file: 'command line', text, root: map([], name.at) };
  const r = startReading(document, unit.text);
  const asked = askedIn(r, library, { name, measures, how });
  const answer = withPaper(r, library, { asked, stock, cutter, styles, inside, insert, sizes });
  return !answer || r.faults.length > 0 ? { faults: inOrder(r.faults) } : answer;
}

function askedIn(
  r: Reading,
  library: Library,
  given: {
    readonly name: Entry;
    readonly measures: readonly Pair[];
    readonly how: readonly Pair[];
  },
): AskedTreat | undefined {
  const { name, measures, how } = given;
  const presets = library.presets.ids('treat');
  const known = oneOf(r, name, 'treat', [...SHAPES, ...presets], id => id);
  if (known === undefined) return undefined;
  const isShape = (SHAPES as readonly string[]).includes(known);
  const [first] = measures;
  if (!isShape && first) {
    return r.fault(first.keyAt, `${known} has measures of its own`, {
      hint: `name a shape in place of it to give other ones: ${listed(SHAPES)}`,
    });
  }
  const shape: Pair = isShape
    ? { key: known, keyAt: name.at, value: map(measures, name.at) }
    : { key: 'like', keyAt: name.at, value: name };
  return readAskedTreat(r, library, map([shape, ...how], name.at));
}

interface Asked {
  readonly asked: AskedTreat | undefined;
  readonly stock: Pair | undefined;
  readonly cutter: Pair | undefined;
  readonly styles: readonly Pair[];
  readonly inside: Pair | undefined;
  readonly insert: Pair | undefined;
  readonly sizes: number;
}

function withPaper(r: Reading, library: Library, given: Asked): FitAnswer | undefined {
  const { asked } = given;
  const papers = readPapers(r, library, undefined, given.stock?.value);
  const stock = papers.standard === undefined ? undefined : papers.get(papers.standard);
  const cutter =
    given.cutter &&
    presetOrOwn(r, library, 'cutter', given.cutter.value, (base: Cutter | undefined, e) =>
      readCutter(r, e, 'own', base, ['like']),
    );
  const styles = stylesIn(r, library, given.styles);
  const sides = given.inside && sizeOf(r, given.inside.value, 'inside');
  const insert = given.insert && choiceOf(r, given.insert.value, 'insert', INSERTS);
  if (!asked || !stock || !cutter || !styles || r.faults.length > 0) return undefined;
  const common = { stock, cutter, unit: r.unit };
  if (sides) {
    const [length, width, height] = sides;
    const inside = { length, width, height };
    const into = { inside, fullest: fullest(asked.treat, inside) };
    return { ...common, treat: asked.treat, boxes: [], refused: [], into };
  }
  const spaced = insert
    ? withInsert(r, insert, given.insert!.value.at, asked, stock.caliper)
    : asked;
  if (!spaced) return undefined;
  const { treat } = spaced;
  const fitting: Fitting = {
    asked: spaced,
    styles: styles.map(style => ({ style, values: fillParams(style.params, {}) })),
    stock,
    cutter,
    sizes: given.sizes,
    upright: insert !== undefined,
  };
  const choices = fitTreat(r, fitting);
  if (choices.boxes.length === 0) return tellNoBox(r, fitting, choices);
  const refused = choices.refused.map(x => ({ style: x.style.id, reason: x.error.message }));
  const boxes = choices.boxes.map(box => fitted(box, insert));
  return { ...common, treat, boxes, refused };
}

const fitted = (box: BoxChoice, insert: Insert | undefined): FittedBox =>
  insert
    ? { box, insert: { style: insert, values: insertValues(insert, box.arrangement()) } }
    : { box };

/** The styles that are named, or all that hold a treat. */
function stylesIn(
  r: Reading,
  { styles }: Library,
  named: readonly Pair[],
): readonly BoxStyle[] | undefined {
  const able = styles.filter(s => s.room);
  if (named.length === 0) return able;
  const found = named.map(({ value }) => {
    const style = oneOf(
      r,
      value,
      'box style',
      styles.map(s => s.id),
      id => find(styles, id),
    );
    if (!style || style.room) return style;
    return r.fault(value.at, `${style.id} is not sized by a treat`, {
      allowed: listed(able.map(s => s.id)),
    });
  });
  return found.every(s => s !== undefined) ? (found as BoxStyle[]) : undefined;
}
