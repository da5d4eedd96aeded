/**
 * Parameters are data, declared once: from a table come the job file's checks, `--help`, the
 * listings, the documentation's tables and the sweeps of the tests.
 */
import type { ParamValue } from './model.js';
import { LEAST_LENGTH_MM } from './units/tolerances.js';

interface Spec {
  readonly help: string;
}
/** A length in mm. `'auto'` lets the style choose from the size; its help says how. */
export interface LengthSpec extends Spec {
  readonly kind: 'length';
  readonly default: number | 'auto';
  readonly least: number;
  readonly most: number;
}
/** An angle in degrees: the one place where people meet angles. */
export interface AngleSpec extends Spec {
  readonly kind: 'angleDeg';
  readonly default: number;
  readonly least: number;
  readonly most: number;
}
export interface NumberSpec extends Spec {
  readonly kind: 'number' | 'count';
  readonly default: number;
  readonly least: number;
  readonly most: number;
}
export interface ChoiceSpec extends Spec {
  readonly kind: 'choice';
  readonly default: string;
  readonly choices: readonly string[];
}
export interface FlagSpec extends Spec {
  readonly kind: 'flag';
  readonly default: boolean;
}
export interface TextSpec extends Spec {
  readonly kind: 'text';
  readonly default: string;
  readonly longest: number;
}
export type ParamSpec = LengthSpec | AngleSpec | NumberSpec | ChoiceSpec | FlagSpec | TextSpec;
export type ParamTable = Readonly<Record<string, ParamSpec>>;

type ValueOf<S extends ParamSpec> = S extends FlagSpec
  ? boolean
  : S extends ChoiceSpec
    ? S['choices'][number]
    : S extends TextSpec
      ? string
      : S extends LengthSpec
        ? 'auto' extends S['default']
          ? number | 'auto'
          : number
        : number;
/** The values a table describes, typed by name. */
export type Values<T extends ParamTable> = { readonly [K in keyof T]: ValueOf<T[K]> };

/** A value that a person gave and that cannot be used: the parameter, the bound, and what to do.
 *  Thrown by styles and motifs for bounds that depend on the size; caught where its place in the
 *  job file or on the command line is known. */
export class ParamError extends Error {
  override readonly name = 'ParamError';
  constructor(
    readonly param: string,
    readonly value: ParamValue,
    /** What is allowed: "at most 25.4 mm, half of the wall's height". */
    readonly allowed: string,
    /** What to do next: "make the tab smaller or the box higher". */
    readonly advice: string,
  ) {
    super(
      `${param}: ${typeof value === 'number' ? round(value) : value} is not possible: ${allowed}; ${advice}`,
    );
  }
}
const round = (n: number) => Number(n.toFixed(3));

/** What is wrong with one value, or `undefined`. NaN and infinities are always wrong. */
export function faultOf(spec: ParamSpec, value: ParamValue): string | undefined {
  switch (spec.kind) {
    case 'flag':
      return typeof value === 'boolean' ? undefined : 'true or false';
    case 'choice':
      return spec.choices.includes(value as string)
        ? undefined
        : `one of ${spec.choices.join(', ')}`;
    case 'text':
      return typeof value === 'string' && [...value].length <= spec.longest
        ? undefined
        : `text of at most ${spec.longest} characters`;
    default: {
      if (spec.kind === 'length' && spec.default === 'auto' && value === 'auto') return undefined;
      const unit = spec.kind === 'length' ? ' mm' : spec.kind === 'angleDeg' ? '°' : '';
      const ok =
        typeof value === 'number' &&
        value >= spec.least &&
        value <= spec.most &&
        (spec.kind !== 'count' || Number.isInteger(value));
      const tiny =
        spec.kind === 'length' && value !== 0 && Math.abs(value as number) < LEAST_LENGTH_MM;
      if (ok) return tiny ? `0 or at least ${LEAST_LENGTH_MM} mm` : undefined;
      const what = spec.kind === 'count' ? 'a whole number ' : '';
      return `${what}from ${spec.least}${unit} to ${spec.most}${unit}`;
    }
  }
}

/** Defaults filled in and every value checked; throws `ParamError` for the first fault. Unknown
 *  names are an error too: callers that know the place of each check those first. */
export function fillParams<T extends ParamTable>(
  table: T,
  given: Readonly<Record<string, ParamValue>>,
): Values<T> {
  for (const name of Object.keys(given)) {
    if (!Object.hasOwn(table, name)) {
      const known = Object.keys(table).join(', ') || 'none';
      throw new ParamError(name, given[name]!, `the parameters are ${known}`, 'use one of these');
    }
  }
  const values: Record<string, ParamValue> = {};
  for (const [name, spec] of Object.entries(table)) {
    const value = given[name] ?? spec.default;
    const fault = faultOf(spec, value);
    if (fault) throw new ParamError(name, value, fault, `see: ${spec.help}`);
    values[name] = value;
  }
  return values as Values<T>;
}
