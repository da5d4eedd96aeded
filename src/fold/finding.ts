import type { Point } from '../model.js';

/** What a sound net obeys, in the order in which the laws are tried. */
export const LAWS = [
  'finite',
  'tree',
  'hinge',
  'outline',
  'overlap',
  'curve',
  'ring',
  'join',
  'closure',
  'through',
  'crowded',
  'way',
] as const;
export type Law = (typeof LAWS)[number];

/** One law that a net breaks. */
export interface Finding {
  readonly law: Law;
  readonly panels: readonly string[];
  /** A point of the first panel, in the net's frame, where it shows most. */
  readonly where?: Point;
  /** mm. */
  readonly measured: number;
  readonly allowed: number;
  readonly message: string;
}
