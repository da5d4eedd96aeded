/** What the manifest says of decorations: which piece goes where on which face, in the order of gluing. */
import type { Decal } from '../model.js';
import { list, number, object, oneOf, text } from './checked-json.js';
import { rounded } from './number.js';

export interface ManifestPlaced {
  readonly item: string;
  readonly piece: string;
  readonly net: string;
  readonly panel: string;
  readonly face: 'inside' | 'outside';
  /** From the piece's frame to the net's: x' = a x + c y + e, y' = b x + d y + f (mm). */
  readonly at: readonly number[];
  /** Foam where it is lifted; glue, or tape, where it lies flat. */
  readonly adhesive: 'glue' | 'foam';
  /** Height of the foam under it, mm. */
  readonly liftMm: number;
}

/** Throws on numbers that are not finite. */
export const placedEntry = (item: string, d: Decal): ManifestPlaced => ({
  item,
  piece: d.piece.id,
  net: d.net,
  panel: d.panel,
  face: d.side,
  at: d.at.map(v => rounded(v, 6)),
  adhesive: d.lift > 0 ? 'foam' : 'glue',
  liftMm: rounded(d.lift, 3),
});

export const CHECK_PLACED = list(
  object({
    item: text(),
    piece: text(),
    net: text(),
    panel: text(),
    face: oneOf('inside', 'outside'),
    at: list(number()),
    adhesive: oneOf('glue', 'foam'),
    liftMm: number(0),
  }),
);
