/** What is done along the lines of a person's drawing: a mapping by colour and by group. */
import { OPERATIONS, type Operation, type Path } from '../model.js';
import { ParamError } from '../params.js';
import { hexOf } from '../units/colour.js';

export type Work = Operation | 'leave-out';
const WORKS: readonly Work[] = [...OPERATIONS.filter(o => o !== 'register'), 'leave-out'];
const REST = 'rest';

export interface DrawnLine {
  readonly path: Path;
  readonly colour: string | undefined;
  readonly names: readonly string[];
  readonly operation: Operation | undefined;
}

/**
 * From `red: cut, eyes: draw, rest: leave-out` to what is done along a line. Its groups are asked first, the
 * innermost before those around it, then its colour, then `rest`. Without that a group named after an
 * operation is worked so, then a colour of the convention, and what nothing is said of is cut. Throws
 * `ParamError` for what cannot be read, and for a colour or group that the drawing does not have.
 */
export function lineRules(text: string, lines: readonly DrawnLine[]): (line: DrawnLine) => Work {
  const names = new Set(lines.flatMap(l => l.names));
  const colours = new Set(lines.flatMap(l => l.colour ?? []));
  const byName = new Map<string, Work>();
  const byColour = new Map<string, Work>();
  let rest: Work | undefined;
  const wrong = (allowed: string, advice: string) => new ParamError('lines', text, allowed, advice);
  const parts = text.split(',').map(part => part.trim());
  for (const part of text.trim() === '' ? [] : parts) {
    const [, key, word] = /^(.+?)\s*:\s*([a-z-]+)$/i.exec(part) ?? [];
    const work = WORKS.find(w => w === word?.toLowerCase());
    if (key === undefined || !work) {
      throw wrong(
        `pairs of a colour or group and one of ${WORKS.join(', ')}`,
        'write for example "red: cut, eyes: draw, rest: leave-out"',
      );
    }
    const hex = hexOf(key);
    if (key === REST) rest = work;
    else if (names.has(key)) byName.set(key, work);
    else if (hex !== undefined && colours.has(hex)) byColour.set(hex, work);
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
      const work = byName.get(name);
      if (work) return work;
    }
    const coloured = colour === undefined ? undefined : byColour.get(colour);
    return coloured ?? rest ?? (operation === 'register' ? 'leave-out' : operation) ?? 'cut';
  };
}
