/** JSON that is read strictly: every field known, of its type and in its range. Each check takes a
 *  value and the place where it stands, and gives the value back typed or throws `ReadError`. */
import { ReadError } from './read-error.js';

export type Check<T> = (value: unknown, where: string) => T;

const ADVICE = 'the file was changed or is not ours: write it again';

function refuse(value: unknown, where: string, allowed: string): never {
  const shown = JSON.stringify(value) ?? String(value);
  const short = shown.length > 60 ? `${shown.slice(0, 60)}…` : shown;
  throw new ReadError(`${short} is not ${allowed}`, where, ADVICE);
}

export const number =
  (least = Number.NEGATIVE_INFINITY, most = Number.POSITIVE_INFINITY): Check<number> =>
  (value, where) =>
    typeof value === 'number' && Number.isFinite(value) && value >= least && value <= most
      ? value
      : refuse(value, where, `a number from ${least} to ${most}`);

export const count: Check<number> = (value, where) =>
  Number.isSafeInteger(value) && (value as number) >= 0
    ? (value as number)
    : refuse(value, where, 'a whole number');

export const truth: Check<boolean> = (value, where) =>
  typeof value === 'boolean' ? value : refuse(value, where, 'true or false');

export const text =
  (form = /^/, allowed = 'text'): Check<string> =>
  (value, where) =>
    typeof value === 'string' && form.test(value) ? value : refuse(value, where, allowed);

export const oneOf =
  <T extends string>(...allowed: readonly T[]): Check<T> =>
  (value, where) =>
    allowed.includes(value as T)
      ? (value as T)
      : refuse(value, where, `one of ${allowed.join(', ')}`);

export const list =
  <T>(item: Check<T>): Check<readonly T[]> =>
  (value, where) =>
    Array.isArray(value)
      ? value.map((v, i) => item(v, `${where}[${i}]`))
      : refuse(value, where, 'a list');

type Fields = Readonly<Record<string, Check<unknown>>>;
type Read<F extends Fields> = { readonly [K in keyof F]: F[K] extends Check<infer T> ? T : never };

/** An object with exactly these fields. */
export const object =
  <F extends Fields>(fields: F): Check<Read<F>> =>
  (value, where) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      refuse(value, where, 'an object');
    }
    for (const key of Object.keys(value)) {
      if (!Object.hasOwn(fields, key)) {
        throw new ReadError(`unknown field ${JSON.stringify(key)}`, where, ADVICE);
      }
    }
    const read: Record<string, unknown> = {};
    for (const [key, check] of Object.entries(fields)) {
      const place = where === '' ? key : `${where}.${key}`;
      if (!Object.hasOwn(value, key)) throw new ReadError('missing', place, ADVICE);
      read[key] = check((value as Record<string, unknown>)[key], place);
    }
    return read as Read<F>;
  };

/** Numbers by name, the names from a list; any may be missing. */
export const numbersBy =
  <K extends string>(names: readonly K[]): Check<Readonly<Partial<Record<K, number>>>> =>
  (value, where) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      refuse(value, where, 'an object');
    }
    const read: Partial<Record<K, number>> = {};
    for (const [key, v] of Object.entries(value)) {
      const name = oneOf(...names)(key, where);
      read[name] = number(0)(v, `${where}.${key}`);
    }
    return read;
  };

export function parseJson<T>(source: string, check: Check<T>): T {
  let value: unknown;
  try {
    value = JSON.parse(source);
  } catch (error) {
    throw new ReadError(`no JSON (${(error as Error).message})`, '', ADVICE);
  }
  return check(value, '');
}
