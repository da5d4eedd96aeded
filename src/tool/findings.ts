/** The one list of what an inspection finds. */
import type { Point } from '../geom/index.js';
import { type Finding, type FoundPlace, SEVERITIES, type Severity } from '../model.js';

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
  | 'tip';

export class Findings {
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
