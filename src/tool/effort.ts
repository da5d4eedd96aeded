/** How much a search may look at before it stops, and how far it came: no silence about the rest. */

/** What a search left: it looked at the first `looked` of `of`. */
export interface Unchecked {
  readonly looked: number;
  readonly of: number;
}

/** Counts what a search looks at, in the search's own units (pairs, chords). */
export class Effort {
  spent = 0;
  /** Where the search stopped before its end. */
  left: Unchecked | undefined;

  constructor(readonly most: number) {}

  get over(): boolean {
    return this.spent >= this.most;
  }

  /** Only the first stop counts: what came after it was looked at by chance. */
  stop(looked: number, of: number): void {
    if (looked < of) this.left ??= { looked, of };
  }
}
