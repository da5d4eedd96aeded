/** The treat that a box is to hold, and what is fixed of its arrangement. */
import { type Choice, INSERTS, type Insert } from '../fit/index.js';
import type { Treat } from '../model.js';
import { type Context, presetOf } from './context.js';
import type { Entry } from './document.js';
import type { Span } from './fault.js';
import { countOf, flagOf } from './quantities.js';
import { ask, choiceOf, fields, headOf, type Reading } from './reading.js';
import { readTreat } from './treats.js';

export interface AskedTreat {
  readonly treat: Treat;
  readonly choice: Choice;
  /** What gives each piece a place of its own. */
  readonly insert?: { readonly insert: Insert; readonly at: Span } | undefined;
  readonly at: Span;
}

const NUMBERS = ['columns', 'rows', 'layers'] as const;
const CHOICE_KEYS = [...NUMBERS, 'straight', 'insert'] as const;
const CHOSEN = { least: 1, most: 500 };

/** A preset's name, or a treat of the job's own (perhaps `like` a preset) with rows or layers. */
export function readAskedTreat(
  r: Reading,
  library: Context['library'],
  entry: Entry,
): AskedTreat | undefined {
  if (entry.kind !== 'map') {
    const found = presetOf(r, library, 'treat', entry);
    return found && 'value' in found ? { treat: found.value, choice: {}, at: entry.at } : undefined;
  }
  const before = r.faults.length;
  const like = entry.pairs.find(p => p.key === 'like');
  const found =
    like && like.value.kind !== 'empty' ? presetOf(r, library, 'treat', like.value) : undefined;
  if (like && !(found && 'value' in found)) return undefined;
  const base = found && 'value' in found ? found.value : undefined;
  const treat = readTreat(r, entry, base?.id ?? 'treat', base, ['like', ...CHOICE_KEYS]);
  const f = fields(r, { ...entry, pairs: entry.pairs.filter(isChoice) }, 'a treat', CHOICE_KEYS);
  if (!treat || !f) return undefined;
  const choice = Object.fromEntries(
    NUMBERS.map(key => [key, ask(f, key, e => countOf(r, e, key, CHOSEN))]),
  );
  const straight = ask(f, 'straight', e => flagOf(r, e, 'straight'));
  const insert = ask(f, 'insert', e => {
    const found = choiceOf(r, e, 'insert', INSERTS);
    return found && { insert: found, at: e.at };
  });
  return r.faults.length > before
    ? undefined
    : { treat, choice: { ...choice, straight }, insert, at: headOf(r, entry.at) };
}

const isChoice = ({ key }: { readonly key: string }) =>
  (CHOICE_KEYS as readonly string[]).includes(key);
