/**
 * What is wrong with something a person wrote: what, where, what is allowed, what to do next. Faults
 * are gathered, never thrown, so that a job's are all told at once.
 */

/** Part of a source's text, as offsets in UTF-16 units; `end` is not included. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** A file (or a command line) with its text. */
export interface Source {
  readonly file: string;
  readonly text: string;
}

export interface Fault {
  readonly file: string;
  /** Both count from 1; columns count characters. A file that was not read at all has line 0. */
  readonly line: number;
  readonly column: number;
  /** How many characters the caret underlines, at least 1. */
  readonly width: number;
  readonly message: string;
  /** The source's line, without its line break. */
  readonly source: string;
  readonly allowed?: string;
  readonly hint?: string;
}

export interface More {
  readonly allowed?: string;
  readonly hint?: string;
}

/** Line breaks of one text, found once: a job may have as many faults as lines. */
export interface Lines {
  at(span: Span): { line: number; column: number; width: number; source: string };
}

export function linesOf(text: string): Lines {
  const starts = [0];
  for (let i = text.indexOf('\n'); i >= 0; i = text.indexOf('\n', i + 1)) starts.push(i + 1);
  return {
    at({ start, end }) {
      const offset = Math.max(0, Math.min(start, text.length));
      let low = 0;
      let high = starts.length - 1;
      while (low < high) {
        const middle = (low + high + 1) >> 1;
        if (starts[middle]! <= offset) low = middle;
        else high = middle - 1;
      }
      const from = starts[low]!;
      const next = starts[low + 1];
      const source = text.slice(from, next === undefined ? text.length : next - 1);
      const whole = source.endsWith('\r') ? source.slice(0, -1) : source;
      const last = Math.min(Math.max(end, offset + 1), from + whole.length);
      return {
        line: low + 1,
        column: [...text.slice(from, offset)].length + 1,
        width: Math.max(1, [...text.slice(offset, last)].length),
        source: whole,
      };
    },
  };
}

/** A fault at a place in a text. */
export function faultAt(
  source: Source,
  lines: Lines,
  span: Span,
  message: string,
  more: More = {},
): Fault {
  return { file: source.file, ...lines.at(span), message, ...more };
}

/** A fault of a file as a whole, before anything of it was read. */
export function faultOfFile(file: string, message: string, more: More = {}): Fault {
  return { file, line: 0, column: 0, width: 1, message, source: '', ...more };
}

/** Longest stretch of a source line that is shown, characters. */
const SHOWN = 96;
/** Faults told in full; a job with more has one cause, and the first ones show it. */
const TOLD = 50;

/** What a person wrote is shown, but never as an order to the terminal. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const UNSHOWABLE = /[\u0000-\u001f\u007f-\u009f\u200e\u200f\u2028-\u202e\u2066-\u2069]/gu;
export const shown = (text: string) => text.replace(UNSHOWABLE, c => (c === '\t' ? ' ' : '\ufffd'));

function excerpt(fault: Fault): string[] {
  const all = [...shown(fault.source)];
  if (all.length === 0 || fault.line === 0) return [];
  const from = all.length <= SHOWN ? 0 : Math.max(0, fault.column - 1 - SHOWN / 2);
  const part = all.slice(from, from + SHOWN).join('');
  const before = from > 0 ? '…' : '';
  const after = from + SHOWN < all.length ? '…' : '';
  const gutter = `${fault.line} | `;
  const caretAt = gutter.length + before.length + fault.column - 1 - from;
  const room = Math.max(1, before.length + gutter.length + SHOWN - caretAt);
  const caret = ' '.repeat(caretAt) + '^'.repeat(Math.min(fault.width, room));
  return [`  ${gutter}${before}${part}${after}`, `  ${caret}`];
}

/** One fault, several lines: `file:line:column: message`, the line, a caret, what is allowed. */
export function formatFault(fault: Fault): string {
  const place = fault.line > 0 ? `${fault.file}:${fault.line}:${fault.column}` : fault.file;
  return [
    `${shown(place)}: ${shown(fault.message)}`,
    ...excerpt(fault),
    ...(fault.allowed ? [`  allowed: ${shown(fault.allowed)}`] : []),
    ...(fault.hint ? [`  ${shown(fault.hint)}`] : []),
  ].join('\n');
}

/** All faults in the order of the text, a blank line between, with a count when there are several. */
export function formatFaults(faults: readonly Fault[]): string {
  const told = inOrder(faults);
  const parts = told.slice(0, TOLD).map(formatFault);
  if (told.length > TOLD) parts.push(`… and ${told.length - TOLD} more.`);
  if (told.length > 1) parts.push(`${told.length} faults; nothing was made.`);
  return parts.join('\n\n');
}

/** By file (in the order they first appear), line and column; equal faults once. */
export function inOrder(faults: readonly Fault[]): Fault[] {
  const files = [...new Set(faults.map(f => f.file))];
  const seen = new Set<string>();
  return faults
    .filter(f => {
      const key = `${f.file}\n${f.line}:${f.column}\n${f.message}`;
      return !seen.has(key) && seen.add(key);
    })
    .sort(
      (a, b) =>
        files.indexOf(a.file) - files.indexOf(b.file) || a.line - b.line || a.column - b.column,
    );
}
