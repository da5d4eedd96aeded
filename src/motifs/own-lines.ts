/** What is done along the lines of a person's drawing: a mapping by colour and by group. */
import { OPERATIONS, type Operation, type Path } from '../model.js';
import { ParamError } from '../params.js';
import { hexOf } from '../units/colour.js';

/** What is done along a line; `text`: nothing, the words go where it runs round. */
export type Work = Operation | 'text' | 'leave-out';
const WORKS: readonly Work[] = [...OPERATIONS.filter(o => o !== 'register'), 'text', 'leave-out'];
const REST = 'rest';

/** What is done, and on which of a motif's papers; that is left open where nothing is said. */
export interface Rule {
  readonly work: Work;
  readonly paper?: string;
}

export interface DrawnLine {
  readonly path: Path;
  readonly colour: string | undefined;
  readonly names: readonly string[];
  readonly operation: Operation | undefined;
}

/**
 * From `red: cut, eyes: cut on white, rest: leave-out` to what is done along a line. Its groups are asked
 * first, the innermost before those around it, then its colour, then `rest`. Without that a group named
 * after what is done is worked so, then a colour of the convention, and the others are cut. Throws
 * `ParamError` for what cannot be read, and for a colour or group that the drawing does not have.
 */
export function lineRules(text: string, lines: readonly DrawnLine[]): (line: DrawnLine) => Rule {
  const names = new Set(lines.flatMap(l => l.names));
  const colours = new Set(lines.flatMap(l => l.colour ?? []));
  const byName = new Map<string, Rule>();
  const byColour = new Map<string, Rule>();
  let rest: Rule | undefined;
  const wrong = (allowed: string, advice: string) => new ParamError('lines', text, allowed, advice);
  const parts = text.split(',').map(part => part.trim());
  for (const part of text.trim() === '' ? [] : parts) {
    const [, key, word, paper] =
      /^(.+?)\s*:\s*([a-z-]+)(?:\s+on\s+([a-z][a-z0-9-]*))?$/i.exec(part) ?? [];
    const work = WORKS.find(w => w === word?.toLowerCase());
    if (key === undefined || !work) {
      throw wrong(
        `pairs of a colour or group and one of ${WORKS.join(', ')}, with "on" and a paper where it has several`,
        'write for example "red: cut, eyes: cut on white, rest: draw"',
      );
    }
    const rule: Rule = paper === undefined ? { work } : { work, paper: paper.toLowerCase() };
    const hex = hexOf(key);
    if (key === REST) rest = rule;
    else if (names.has(key)) byName.set(key, rule);
    else if (hex !== undefined && colours.has(hex)) byColour.set(hex, rule);
    else {
      const known = [...[...colours].sort(), ...[...names].sort()].slice(0, 12);
      throw wrong(
        `${key} is neither a colour nor a group of the drawing; it has ${known.join(', ') || 'neither'}`,
        'use one of these, or rest for all others',
      );
    }
  }
  return ({ names, colour, operation }) => {
    for (const name of names) {
      const rule = byName.get(name);
      if (rule) return rule;
    }
    const told = (colour === undefined ? undefined : byColour.get(colour)) ?? rest;
    if (told) return told;
    if (names.includes('text')) return { work: 'text' };
    return { work: operation === 'register' ? 'leave-out' : (operation ?? 'cut') };
  };
}
