/** A test card asked for on the command line: read by the code that reads jobs, its faults point into the
 *  command. */
import { CARDS, type Card, type CardKind } from '../cards/index.js';
import type { Cutter, MarkStyle, Stock } from '../model.js';
import { ParamError } from '../params.js';
import { commandText, map } from './command-line.js';
import { type Library, presetOf, presetOrOwn, readPapers } from './context.js';
import type { Document } from './document.js';
import { type Fault, inOrder } from './fault.js';
import { readCutter } from './preset-kinds.js';
import { oneOf, startReading } from './reading.js';
import { readParams, tellParamError } from './values.js';

export interface CardCommand {
  readonly card: string;
  /** `name=value` settings, as given. */
  readonly set: Readonly<Record<string, string>>;
  readonly cutter: string;
  readonly stock: string;
  readonly marks: string;
}

export interface AnsweredCard {
  readonly kind: CardKind;
  readonly card: Card;
  readonly cutter: Cutter;
  readonly stock: Stock;
  readonly marks: MarkStyle;
}

/** The card, or all that is wrong with the command. */
export function answerCard(
  command: CardCommand,
  library: Library,
): AnsweredCard | { readonly faults: readonly Fault[] } {
  const line = commandText('foldwright testcard');
  const name = line.entry(command.card);
  const settings = line.settings(command.set);
  const [cutterAt] = line.option('cutter', command.cutter);
  const [stockAt] = line.option('stock', command.stock);
  const [marksAt] = line.option('marks', command.marks);
  const document: Document = {
    file: 'command line',
    text: line.text(),
    root: map([], name.at),
  };
  const r = startReading(document, 'mm');
  const kind = oneOf(
    r,
    name,
    'test card',
    CARDS.map(c => c.id),
    id => CARDS.find(c => c.id === id),
  );
  const cutter = presetOrOwn(r, library, 'cutter', cutterAt!.value, (base: Cutter | undefined, e) =>
    readCutter(r, e, 'own', base, ['like']),
  );
  const papers = readPapers(r, library, undefined, stockAt!.value);
  const stock = papers.standard === undefined ? undefined : papers.get(papers.standard);
  const marks = presetOf(r, library, 'mark', marksAt!.value);
  const params = kind && readParams(r, settings, kind);
  const told = () => ({ faults: inOrder(r.faults) });
  if (!kind || !params || !cutter || !stock || !marks || !('value' in marks)) return told();
  if (r.faults.length > 0 || !library.tools) return told();
  try {
    const card = kind.build(params.values as never, { cutter, stock, tools: library.tools });
    const room = [cutter.width - card.width, cutter.height - card.height];
    if (!(Math.min(...room) >= 0)) {
      const mm = (n: number) => `${n.toFixed(1)} mm`;
      r.fault(name.at, `the card ${kind.id} is ${mm(card.width)} × ${mm(card.height)}`, {
        allowed: `${mm(cutter.width)} × ${mm(cutter.height)}, what the cutter ${cutter.id} takes`,
        hint: `see: foldwright show card ${kind.id}`,
      });
      return told();
    }
    return { kind, card, cutter, stock, marks: marks.value };
  } catch (error) {
    if (!(error instanceof ParamError)) throw error;
    tellParamError(r, error, params.places.get(error.param) ?? name.at, kind);
    return told();
  }
}
