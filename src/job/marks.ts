/** Where register marks were found, as a person writes it down. */
import { parse } from 'yaml';
import type { Point } from '../model.js';
import { didYouMean } from './nearest.js';

/** What was measured at one mark, mm, right and up. */
export interface Measured {
  readonly name: string;
  readonly by: Point;
}
type Read<T> = { readonly value: T } | { readonly fault: string };

/** No printed mark is farther off its place: more is a slip of the unit or the decimal point. */
const MOST_MISS_MM = 25;
const MOST_TEXT = 20_000;

/**
 * Misses in mm by mark, `lower-left 0.4,-0.2; fifth -0.1,0.3`: how far the printed mark lies right of
 * and above (negative: left, below) the cross that the pen drew for it.
 */
export function readMisses(text: string, known: readonly string[]): Read<readonly Measured[]> {
  const measured: Measured[] = [];
  for (const part of text.split(';').map(p => p.trim())) {
    if (part === '') continue;
    const [, name = '', rest = ''] = /^(\S+)\s*(.*)$/.exec(part) ?? [];
    const unknown = unknownMark(name, known);
    if (unknown) return { fault: unknown };
    const numbers = rest.split(',').map(n => n.trim());
    const comma = decimalComma(part, name, rest, text.includes('.'));
    if (comma) return { fault: comma };
    const [x, y] = numbers.map(plainNumber);
    if (x === undefined || y === undefined || numbers.length < 2) {
      return {
        fault: `"${part}": allowed is a mark and two numbers in mm, as in ${name} 0.4,-0.2.`,
      };
    }
    if (!(Math.abs(x) <= MOST_MISS_MM && Math.abs(y) <= MOST_MISS_MM)) {
      return {
        fault: `"${part}": a miss of more than ${MOST_MISS_MM} mm is no slip of the printer. Give millimetres, right and up; a sheet that lies turned or face down has to be laid as it was printed first.`,
      };
    }
    measured.push({ name, by: [x, y] });
  }
  return measured.length > 0
    ? once(measured)
    : { fault: 'no mark is named: write as in "lower-left 0.4,-0.2; fifth -0.1,0.3".' };
}

/** What is wrong with numbers whose decimals seem to be written with a comma. "0,4" is two numbers by
 *  itself; nobody who wrote a decimal point elsewhere (`points`) means one by it. */
function decimalComma(
  part: string,
  name: string,
  rest: string,
  points: boolean,
): string | undefined {
  const numbers = rest.split(',').map(n => n.trim());
  const [a = '', b = '', c = '', d = ''] = numbers;
  if (numbers.length > 2) {
    const whole = numbers.length === 4 && [a, b, c, d].every(n => /^[+\-−]?\d+$/.test(n));
    const meant = whole ? `${name} ${a}.${b},${c}.${d}` : `${name} 0.4,-0.2`;
    return `"${part}": one comma parts the two numbers. Write decimals with a point, as in ${meant}.`;
  }
  if (/^[-−]0,\s*\d+$/.test(rest)) {
    return `"${part}": is "${rest}" one number? Write decimals with a point, and both numbers, as in ${name} ${a}.${b},0.`;
  }
  if (points || !/^[+\-−]?\d+,\d+$/.test(rest) || Number(b) === 0) return undefined;
  return `"${part}": is "${rest}" one number, ${a}.${b}, or ${a} mm across and ${b} mm up? Write decimals with a point, and both numbers: ${name} ${a}.${b},0 for the one, ${name} ${a}.0,${b}.0 for the other.`;
}

/** YAML of where the marks are in the machine's own millimetres: a list of pairs by mark. */
export function readPositions(text: string, known: readonly string[]): Read<readonly Measured[]> {
  if (text.length > MOST_TEXT)
    return { fault: `more than ${MOST_TEXT} characters: this is no list of marks.` };
  let tree: unknown;
  try {
    tree = parse(text, { maxAliasCount: 0 });
  } catch (error) {
    return { fault: `not YAML: ${(error as Error).message.split('\n')[0]}` };
  }
  const example = 'Write one line for each mark, as in "lower-left: [12.4, 9.8]".';
  if (typeof tree !== 'object' || tree === null || Array.isArray(tree))
    return { fault: `no marks. ${example}` };
  const measured: Measured[] = [];
  for (const [name, value] of Object.entries(tree)) {
    const unknown = unknownMark(name, known);
    if (unknown) return { fault: unknown };
    const [x, y, ...more] = Array.isArray(value) ? value : [];
    if (more.length === 2 && [x, y, ...more].every(Number.isInteger)) {
      return {
        fault: `${name}: ${JSON.stringify(value)} is four numbers. Write decimals with a point, as in "${name}: [${x}.${y}, ${more.join('.')}]".`,
      };
    }
    if (!(Number.isFinite(x) && Number.isFinite(y)) || more.length > 0) {
      return {
        fault: `${name}: ${JSON.stringify(value)}: allowed are two numbers in mm. ${example}`,
      };
    }
    measured.push({ name, by: [x, y] });
  }
  return measured.length > 0 ? { value: measured } : { fault: `no marks. ${example}` };
}

function unknownMark(name: string, known: readonly string[]): string | undefined {
  if (known.includes(name)) return undefined;
  const near = didYouMean(name, known);
  return `"${name}" is no mark of this sheet${near ? ` (${near})` : ''}. Its marks are ${known.join(', ')}.`;
}

function once(measured: readonly Measured[]): Read<readonly Measured[]> {
  const names = measured.map(m => m.name);
  const twice = names.find((n, i) => names.indexOf(n) < i);
  return twice
    ? { fault: `${twice} is given twice: leave out the one that is wrong.` }
    : { value: measured };
}

/** No exponent, no hex, no thousands. */
const plainNumber = (text: string): number | undefined =>
  /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)$/.test(text.replace('−', '-'))
    ? Number(text.replace('−', '-'))
    : undefined;
