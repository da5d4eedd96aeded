/**
 * A box or a decoration asked for on the command line, as a document of its own: read by the same
 * code as a job file, its faults point into the command.
 */

import type { Document, Entry, Pair } from './document.js';
import { motifWord } from './drawings.js';
import type { Span } from './fault.js';
import { plainName } from './names.js';

interface Common {
  /** `name=value` settings, as given. */
  readonly set: Readonly<Record<string, string>>;
  readonly stock?: string | undefined;
  readonly cutter?: string | undefined;
  readonly count?: string | undefined;
  readonly name?: string | undefined;
}
export interface BoxCommand extends Common {
  readonly style: string;
  readonly inside?: string | undefined;
  readonly outside?: string | undefined;
  readonly creases?: string | undefined;
  /** Each as `NAME on=PANEL parameter=value …`. */
  readonly feature?: readonly string[];
  readonly split?: string | undefined;
  readonly round?: string | undefined;
}
export interface DecorCommand extends Common {
  readonly motif: string;
  readonly size?: string | undefined;
  readonly backing: readonly string[];
  readonly leastWidth?: string | undefined;
  readonly pattern?: string | undefined;
  readonly palette?: string | undefined;
  readonly marks?: string | undefined;
}

/** Writes the command down, remembering where each word stands in it. */
export function commandText(start: string) {
  let text = start;
  const word = (value: string): Span => {
    text += ' ';
    const plain = /^[\w.,:=/+@%×-]+$/u.test(value);
    const at = { start: text.length + (plain ? 0 : 1), end: 0 };
    text += plain ? value : `'${value}'`;
    return { start: at.start, end: at.start + value.length };
  };
  const entry = (value: string): Entry => ({ kind: 'text', text: value, at: word(value) });
  return {
    text: () => text,
    entry,
    /** `--flag value` as a pair under `key`, or nothing when it is not given. */
    option(key: string, value: string | undefined, flag = key): Pair[] {
      if (value === undefined) return [];
      const keyAt = word(`--${flag}`);
      return [{ key, keyAt, value: entry(value) }];
    },
    /** `--flag` alone, as a pair that says yes. */
    flag(key: string): Pair {
      const keyAt = word(`--${key}`);
      return { key, keyAt, value: { kind: 'text', text: 'yes', at: keyAt } };
    },
    settings(set: Readonly<Record<string, string>>): Pair[] {
      return Object.entries(set).map(([key, value]) => {
        word('--set');
        const at = word(`${key}=${value}`);
        const from = at.start + key.length + 1;
        return {
          key,
          keyAt: { start: at.start, end: at.start + key.length },
          value: { kind: 'text', text: value, at: { start: from, end: from + value.length } },
        };
      });
    },
  };
}

/** `window on=lid size=40mm` as an entry of a `features:` list, its places in the word. */
function featureEntry(text: string, at: Span): Entry {
  const words = [...text.matchAll(/\S+/g)].map(m => ({
    text: m[0],
    at: { start: at.start + m.index, end: at.start + m.index + m[0].length },
  }));
  const [name, ...settings] = words;
  if (!name) return { kind: 'empty', at };
  if (settings.length === 0) return { kind: 'text', text: name.text, at: name.at };
  const pairs = settings.map(({ text: setting, at: { start, end } }): Pair => {
    const equals = setting.indexOf('=');
    const key = equals < 0 ? setting : setting.slice(0, equals);
    const valueAt = { start: start + key.length + 1, end };
    const value: Entry =
      equals < 0 || equals === setting.length - 1
        ? { kind: 'empty', at: { start, end } }
        : { kind: 'text', text: setting.slice(equals + 1), at: valueAt };
    return { key, keyAt: { start, end: start + key.length }, value };
  });
  return map([{ key: name.text, keyAt: name.at, value: map(pairs, at) }], at);
}

const NOWHERE: Span = { start: 0, end: 0 };
export const given = (key: string, text: string): Pair => ({
  key,
  keyAt: NOWHERE,
  value: { kind: 'text', text, at: NOWHERE },
});
export const map = (pairs: readonly Pair[], at: Span): Entry => ({ kind: 'map', pairs, at });
export const list = (items: readonly Entry[], at: Span): Entry => ({ kind: 'list', items, at });

/** People are told lengths in the unit of the size they gave. */
export function unitOf(size: string | undefined): Pair {
  const inches = /(?:in\.?|inch(?:es)?|["″”])\s*$/iu.test(size ?? '');
  return given('units', inches ? 'in' : /cm\s*$/i.test(size ?? '') ? 'cm' : 'mm');
}

const document = (text: string, pairs: readonly Pair[]): Document => ({
  file: 'command line',
  text,
  root: map(pairs, { start: 0, end: text.length }),
});

/** The job of `box STYLE --inside …`: one box. Bare lengths are millimetres where its size has no
 *  unit, else they take the size's. */
export function boxDocument(command: BoxCommand): Document {
  const line = commandText('foldwright box');
  const style = line.entry(command.style);
  const size = (['inside', 'outside', 'creases'] as const).flatMap(m => line.option(m, command[m]));
  const params = line.settings(command.set);
  const own = [
    ...line.option('stock', command.stock),
    ...line.option('count', command.count),
    ...line.option('name', command.name),
  ];
  const features = (command.feature ?? []).flatMap(text =>
    line.option('features', text, 'feature').map(p => featureEntry(text, p.value.at)),
  );
  const split = line.option('split', command.split);
  const round = line.option('round', command.round);
  const cutter = line.option('cutter', command.cutter);
  const box = map(
    [
      { key: 'style', keyAt: style.at, value: style },
      ...size,
      ...own,
      { key: 'params', keyAt: style.at, value: map(params, style.at) },
      ...split,
      ...round,
      ...(features.length > 0
        ? [{ key: 'features', keyAt: style.at, value: list(features, style.at) }]
        : []),
    ],
    style.at,
  );
  return document(line.text(), [
    given('job', 'box'),
    unitOf(command.inside ?? command.outside ?? command.creases),
    ...cutter,
    { key: 'boxes', keyAt: style.at, value: list([box], style.at) },
  ]);
}

/** The job of `decor MOTIF …`: one decoration without a box. */
export function decorDocument(command: DecorCommand): Document {
  const line = commandText('foldwright decor');
  const motif = line.entry(command.motif);
  const size = line.option('size', command.size);
  const params = [...size, ...line.settings(command.set)];
  const backings = command.backing.flatMap(b => line.option('backings', b, 'backing'));
  const least = line.option('least-width', command.leastWidth);
  const pattern = line.option('pattern', command.pattern);
  const palette = line.option('palette', command.palette);
  const own = [
    ...line.option('stock', command.stock),
    ...line.option('count', command.count),
    ...line.option('name', command.name),
  ];
  const cutter = line.option('cutter', command.cutter);
  const marks = line.option('marks', command.marks);
  const name = plainName([motifWord(command.motif), command.size].filter(Boolean).join('-'));
  const art = [...pattern, ...palette];
  const decor = map(
    [
      { key: 'motif', keyAt: motif.at, value: motif },
      { key: 'params', keyAt: motif.at, value: map(params, motif.at) },
      ...(command.name === undefined && name ? [given('name', name)] : []),
      ...own,
      ...least,
      ...(backings.length > 0
        ? [
            {
              key: 'backings',
              keyAt: motif.at,
              value: list(
                backings.map(b => b.value),
                motif.at,
              ),
            },
          ]
        : []),
      ...(art.length > 0
        ? [{ key: 'art', keyAt: art[0]!.keyAt, value: map(art, art[0]!.keyAt) }]
        : []),
    ],
    motif.at,
  );
  return document(line.text(), [
    given('job', 'decor'),
    unitOf(command.size),
    ...cutter,
    ...marks,
    { key: 'decor', keyAt: motif.at, value: list([decor], motif.at) },
  ]);
}
