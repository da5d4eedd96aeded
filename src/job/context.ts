/** What the readers of a job share: the variants and presets on offer, and the job's own papers. */
import type { BoxStyle, Feature, Motif, MotifTools, Pattern } from '../contracts.js';
import type { Cutter, Stock } from '../model.js';
import type { Entry, Pair } from './document.js';
import type { Span } from './fault.js';
import { faultOfName, sameOnDisk } from './names.js';
import { readStock } from './preset-stock.js';
import type { Presets, ReadKind } from './presets.js';
import { cut, namedPairs, oneOf, type Reading } from './reading.js';

/** All that a job can name. */
export interface Library {
  readonly styles: readonly BoxStyle[];
  readonly features?: readonly Feature[];
  readonly motifs: readonly Motif[];
  readonly patterns: readonly Pattern[];
  readonly presets: Presets;
  /** When given, every motif is drawn once, so that a missing letter is told with its place. */
  readonly tools?: MotifTools;
  /** The text of a file that a job names beside itself, or why there is none. */
  readonly readList?: (path: string) => string | { readonly why: string; readonly advice: string };
}

/** The papers of a job by the names that it uses. */
export interface Papers {
  /** Looks a paper up, in the job first and then in the presets; a fault when there is none. */
  use(entry: Entry): string | undefined;
  /** The paper of whatever names none. */
  readonly standard: string | undefined;
  get(name: string): Stock | undefined;
  all(): Readonly<Record<string, Stock>>;
}

export interface Context {
  readonly r: Reading;
  readonly library: Library;
  readonly papers: Papers;
  /** What nothing may be narrower than, mm, where the job says so. */
  readonly leastWidth?: number | undefined;
  /** Undefined when it was at fault, which has been told. */
  readonly cutter: Cutter | undefined;
}

/** The preset for a name; its own faults are told beside the job's. */
export function presetOf<K extends ReadKind>(r: Reading, library: Library, kind: K, entry: Entry) {
  const { presets } = library;
  return oneOf(r, entry, `${kind} preset`, presets.ids(kind), id => {
    const result = presets.get(kind, id);
    if ('value' in result) return result;
    r.faults.push(...result.faults);
    return result;
  });
}

/** A preset by its name, or an entry of the job's own, perhaps `like` a preset. */
export function presetOrOwn<K extends ReadKind, T>(
  r: Reading,
  library: Library,
  kind: K,
  entry: Entry,
  read: (base: T | undefined, entry: Entry) => T | undefined,
): T | undefined {
  if (entry.kind !== 'map') {
    const found = presetOf(r, library, kind, entry);
    return found && 'value' in found ? (found.value as T) : undefined;
  }
  const like = entry.pairs.find(p => p.key === 'like');
  if (!like || like.value.kind === 'empty') return read(undefined, entry);
  const base = presetOf(r, library, kind, like.value);
  return base && 'value' in base ? read(base.value as T, entry) : undefined;
}

/** The paper that is used where a job names none. */
const STANDARD_STOCK = 'cardstock-65lb-12x12';

export function readPapers(
  r: Reading,
  library: Library,
  declared: Entry | undefined,
  standard: Entry | undefined,
): Papers {
  /** Undefined: declared, but at fault, which is told once. */
  const known = new Map<string, Stock | undefined>();
  for (const pair of declared ? namedPairs(r, declared, 'stocks') : []) {
    // Sheets, and so files, are named after their paper.
    const fault = faultOfName(pair.key);
    if (fault) r.fault(pair.keyAt, fault.message, fault);
    const same = [...known.keys()].find(name => sameOnDisk(name) === sameOnDisk(pair.key));
    if (same !== undefined)
      r.fault(pair.keyAt, `two stocks have names that differ only in case: "${cut(pair.key)}"`, {
        hint: `the other is ${same}; their sheets need files of their own`,
      });
    const stock = presetOrOwn(r, library, 'stock', pair.value, (base: Stock | undefined, e) =>
      readStock(r, summed(e, pair), pair.key, base, ['like']),
    );
    known.set(pair.key, stock && { ...stock, id: pair.key });
  }
  const own = [...known.keys()];
  const use = (entry: Entry): string | undefined => {
    const names = [...new Set([...own, ...library.presets.ids('stock')])];
    return oneOf(r, entry, 'stock', names, name => {
      if (!known.has(name)) {
        const result = library.presets.get('stock', name);
        if ('faults' in result) r.faults.push(...result.faults);
        known.set(name, 'value' in result ? result.value : undefined);
      }
      return name;
    });
  };
  const first = standard ? use(standard) : (own[0] ?? useStandard());
  function useStandard(): string | undefined {
    return library.presets.ids('stock').includes(STANDARD_STOCK)
      ? use({ kind: 'text', text: STANDARD_STOCK, at: NOWHERE })
      : undefined;
  }
  return {
    use,
    standard: first,
    get: name => known.get(name),
    all: () => Object.fromEntries([...known].filter((pair): pair is [string, Stock] => !!pair[1])),
  };
}

const NOWHERE: Span = { start: 0, end: 0 };

/** A paper that is described in the job needs no summary: its name there says enough. */
function summed(entry: Entry, pair: Pair): Entry {
  if (entry.kind !== 'map' || entry.pairs.some(p => p.key === 'summary' || p.key === 'like'))
    return entry;
  const summary: Pair = {
    key: 'summary',
    keyAt: pair.keyAt,
    value: { kind: 'text', text: pair.key, at: pair.keyAt },
  };
  return { ...entry, pairs: [summary, ...entry.pairs] };
}
