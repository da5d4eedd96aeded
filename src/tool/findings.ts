/** The one list of what an inspection finds. */
import type { Point } from '../geom/index.js';
import { type Finding, type FoundPlace, SEVERITIES, type Severity } from '../model.js';
import type { Unchecked } from './effort.js';

/** Most places listed for one finding. */
const MOST_PLACES = 20;

export type FindingKind =
  | 'not-finite'
  | 'nothing'
  | 'open-cut'
  | 'nearly-closed'
  | 'duplicate'
  | 'crossing'
  | 'swing'
  | 'too-short'
  | 'outside-sheet'
  | 'outside-area'
  | 'narrow'
  | 'loose'
  | 'small-part'
  | 'tip'
  | 'unchecked';

/** What was looked for, and among how many of what: the rest was not checked. */
export interface NotChecked extends Unchecked {
  readonly sought: string;
  readonly units: string;
}

export class Findings {
  readonly notChecked: NotChecked[] = [];
  private readonly found: Finding[];

  constructor(already: readonly Finding[] = []) {
    this.found = [...already];
  }

  add(
    kind: FindingKind,
    severity: Severity,
    message: string,
    places: readonly FoundPlace[] = [],
  ): void {
    const listed = places.slice(0, MOST_PLACES);
    this.found.push({ kind, severity, message, places: listed, total: places.length });
  }

  /** Tells what a search did not come to; as grave as what it might have found. */
  unchecked(
    severity: Severity,
    sought: string,
    units: string,
    left: Unchecked | undefined,
    advice = 'the lines lie too dense; take away what lies on other lines, or divide the file',
  ): void {
    if (!left) return;
    this.notChecked.push({ sought, units, ...left });
    this.add(
      'unchecked',
      severity,
      `looked for ${sought} among the first ${left.looked} of ${left.of} ${units}; the rest was not checked: ${advice}`,
    );
  }

  /** The worst first; of one severity as they were found. */
  list(): Finding[] {
    const rank = (f: Finding) => SEVERITIES.indexOf(f.severity);
    return [...this.found].sort((a, b) => rank(a) - rank(b));
  }
}

export const placesOf = (points: readonly Point[]): FoundPlace[] => points.map(at => ({ at }));

/** A length in a sentence. */
export const mm = (n: number): string => `${Number(n.toFixed(3))} mm`;

export const many = (n: number, one: string, more = `${one}s`): string =>
  `${n} ${n === 1 ? one : more}`;
