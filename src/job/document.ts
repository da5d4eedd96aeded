/**
 * YAML text to a plain tree whose every part knows its place. All that is odd or dangerous in YAML
 * (aliases that multiply, keys given twice, tags, endless nesting) ends here; the rest of the room
 * sees texts, lists and maps.
 */
import { isAlias, isMap, isScalar, isSeq, LineCounter, type Node, parseDocument } from 'yaml';
import {
  type Fault,
  faultAt,
  faultOfFile,
  type Lines,
  linesOf,
  type Source,
  type Span,
} from './fault.js';
import { syntaxWords } from './yaml-words.js';

interface Placed {
  readonly at: Span;
}
export interface TextEntry extends Placed {
  readonly kind: 'text';
  readonly text: string;
}
/** Nothing written after a key; `note` tells a likely cause. */
export interface EmptyEntry extends Placed {
  readonly kind: 'empty';
  readonly note?: string;
}
export interface ListEntry extends Placed {
  readonly kind: 'list';
  readonly items: readonly Entry[];
}
export interface MapEntry extends Placed {
  readonly kind: 'map';
  readonly pairs: readonly Pair[];
}
export interface Pair {
  readonly key: string;
  readonly keyAt: Span;
  readonly value: Entry;
}
export type Entry = TextEntry | EmptyEntry | ListEntry | MapEntry;

/** A source read into a tree. The command line makes one without YAML (see `command-line.ts`). */
export interface Document extends Source {
  readonly root: Entry;
}

/** The largest file that is read: a thousand boxes take about 100 kB. */
export const MOST_BYTES = 1_000_000;
/** Entries after aliases are written out; a thousand boxes with decorations take about 30,000. */
const MOST_ENTRIES = 250_000;
/** Lists and maps inside each other; a job needs 7. */
const DEEPEST = 40;
/** Syntax faults told: after the first few, the rest follow from them. */
const MOST_SYNTAX_FAULTS = 5;

/** Refuses a file by its size, before it is read. `bytes` from the file system. */
export function faultOfSize(file: string, bytes: number): Fault | undefined {
  if (bytes <= MOST_BYTES) return undefined;
  const size = bytes >= 100_000 ? `${(bytes / 1e6).toFixed(1)} MB` : `${bytes} bytes`;
  return faultOfFile(file, `the file is too large to be a job or a preset: ${size}`, {
    allowed: `at most ${MOST_BYTES / 1e6} MB`,
    hint: 'use a size table for many sizes, or several jobs',
  });
}

/** Reads YAML. Never throws; syntax faults are told alone, since what follows them is guesswork. */
export function readDocument(source: Source): { document: Document } | { faults: Fault[] } {
  const tooLarge = faultOfSize(source.file, source.text.length);
  if (tooLarge) return { faults: [tooLarge] };
  const lines = linesOf(source.text);
  try {
    // Keys given twice are looked for below: the library compares each key with every other one,
    // which takes a minute for a file of a megabyte.
    const parsed = parseDocument(source.text, {
      strict: true,
      uniqueKeys: false,
      merge: false,
      prettyErrors: false,
      keepSourceTokens: false,
      // 'silent' also drops the fault of a second document.
      logLevel: 'error',
      lineCounter: new LineCounter(),
    });
    const syntax = [...parsed.errors, ...parsed.warnings].slice(0, MOST_SYNTAX_FAULTS);
    if (syntax.length > 0) {
      return {
        faults: syntax.map(({ code, message, pos }) => {
          const told = syntaxWords(code, message);
          return faultAt(source, lines, onText(source.text, pos), told.message, told.more);
        }),
      };
    }
    return treeOf(source, lines, parsed.contents);
  } catch (error) {
    // Brackets nested ten thousand deep overflow the library's stack.
    if (!(error instanceof RangeError)) throw error;
    return { faults: [faultOfFile(source.file, 'the file is nested too deeply to be read')] };
  }
}

/** What is missing at the end is shown after the last thing that is there. */
function onText(text: string, [start, end]: readonly [number, number]): Span {
  if (text.slice(start).trim() !== '') return { start, end };
  const last = Math.max(0, text.trimEnd().length - 1);
  return { start: last, end: last + 1 };
}

function treeOf(
  source: Source,
  lines: Lines,
  root: Node | null,
): { document: Document } | { faults: Fault[] } {
  const faults: Fault[] = [];
  const fault = (at: Span, message: string, more = {}) =>
    faults.push(faultAt(source, lines, at, message, more));
  /** Each anchor's entry and how many entries it stands for, aliases written out. */
  const anchors = new Map<string, { entry: Entry; size: number } | 'open'>();
  let bombed = false;

  function read(node: Node | null | undefined, deep: number, fallback: Span): [Entry, number] {
    const at = spanOf(source.text, node, fallback);
    if (isAlias(node)) {
      const found = anchors.get(node.source);
      if (found && found !== 'open') {
        if (found.size <= MOST_ENTRIES) return [{ ...found.entry, at }, found.size];
      } else {
        fault(
          at,
          found === 'open'
            ? `*${node.source} stands inside the thing it repeats`
            : `*${node.source} repeats something that is not named before it`,
          { hint: `name it with &${node.source} at an earlier place` },
        );
      }
      return [{ kind: 'empty', at }, 1];
    }
    const anchor = isScalar(node) || isMap(node) || isSeq(node) ? node.anchor : undefined;
    if (anchor) anchors.set(anchor, 'open');
    const [entry, size] = readOwn(node, deep, at);
    if (size > MOST_ENTRIES && !bombed) {
      bombed = true;
      fault(at, 'the repeats (*name) in this part multiply to more than a job can hold', {
        allowed: `at most ${MOST_ENTRIES} entries once repeats are written out`,
      });
    }
    if (anchor) anchors.set(anchor, { entry, size });
    return [entry, size];
  }

  function readOwn(node: Node | null | undefined, deep: number, at: Span): [Entry, number] {
    if (deep > DEEPEST) {
      fault(at, 'lists and maps are nested too deeply', { allowed: `at most ${DEEPEST} levels` });
      return [{ kind: 'empty', at }, 1];
    }
    if (node && 'tag' in node && node.tag && !node.tag.startsWith('tag:yaml.org,2002:')) {
      fault(at, `the tag ${node.tag} has no meaning here`, { hint: 'leave it out' });
    }
    if (isMap(node)) {
      const pairs: Pair[] = [];
      const first = new Map<string, Span>();
      let size = 1;
      for (const pair of node.items) {
        const key = pair.key as Node | null;
        const keyAt =
          key?.range?.[0] === key?.range?.[1] ? emptyAt(key, at) : spanOf(source.text, key, at);
        const name = isScalar(key) ? textOf(source.text, key) : undefined;
        if (name === undefined || name === '') {
          fault(keyAt, 'a key must be a plain word', { hint: 'write it as  key: value' });
          continue;
        }
        const before = first.get(name);
        if (before) {
          fault(keyAt, `${name} is given twice`, {
            hint: `it was first given on line ${lines.at(before).line}; keep one of them`,
          });
          continue;
        }
        first.set(name, keyAt);
        const [value, n] = read(pair.value as Node | null, deep + 1, keyAt);
        size += n;
        pairs.push({ key: name, keyAt, value });
      }
      return [{ kind: 'map', pairs, at }, size];
    }
    if (isSeq(node)) {
      const items: Entry[] = [];
      let size = 1;
      for (const item of node.items) {
        const [entry, n] = read(item as Node | null, deep + 1, at);
        items.push(entry);
        size += n;
      }
      return [{ kind: 'list', items, at }, size];
    }
    if (isScalar(node)) {
      const text = textOf(source.text, node);
      if (text !== undefined) return [{ kind: 'text', text, at }, 1];
    }
    return [{ kind: 'empty', at, ...commentNote(source.text, at) }, 1];
  }

  const [entry] = read(root, 0, { start: 0, end: 1 });
  return faults.length > 0 ? { faults } : { document: { ...source, root: entry } };
}

const emptyAt = (node: Node | null, fallback: Span): Span =>
  node?.range ? { start: node.range[0], end: node.range[0] + 1 } : fallback;

/** A scalar as the person wrote it (`007`, `1e3`, `1/2`), or `undefined` for nothing. */
function textOf(
  text: string,
  node: { value: unknown; source?: string; type?: string; range?: readonly number[] | null },
): string | undefined {
  if (node.value === null || node.value === undefined) {
    // `null` and `~` are words of YAML's; in a job only an empty place is empty.
    const range = node.range;
    const own = range ? text.slice(range[0], range[1]).trim() : '';
    return own === '' || own === '~' || own.toLowerCase() === 'null' ? undefined : own;
  }
  if (typeof node.value === 'string') return node.value;
  return node.source ?? String(node.value);
}

/** `colour: #fff` is a key with nothing after it: the hex colour is a comment. */
function commentNote(text: string, at: Span): { note: string } | undefined {
  const newline = text.indexOf('\n', at.end);
  const rest = text.slice(at.start, newline < 0 ? undefined : newline);
  return /#[0-9a-f]{3,6}\b/i.test(rest)
    ? { note: 'an unquoted # starts a comment: put the colour in quotes, as "#D55E00"' }
    : undefined;
}

/** A block's last line break belongs to the file, not to what is underlined. */
function spanOf(text: string, node: Node | null | undefined, fallback: Span): Span {
  const range = node?.range;
  if (!range) return fallback;
  const [start, end] = range;
  if (end <= start)
    return { start: Math.max(fallback.start, 0), end: Math.max(fallback.end, start) };
  return { start, end: start + text.slice(start, end).trimEnd().length };
}
