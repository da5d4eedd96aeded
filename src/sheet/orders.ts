/** In which order pieces are placed: large ones first, in several senses of large. */
import type { PieceBox } from './footprint.js';

export type Order = (a: PieceBox, b: PieceBox) => number;

const longSide = (b: PieceBox) => Math.max(b.width, b.height);
const shortSide = (b: PieceBox) => Math.min(b.width, b.height);
const area = (b: PieceBox) => b.width * b.height;

export const ORDERS: readonly Order[] = [
  (a, b) => area(b) - area(a),
  (a, b) => longSide(b) - longSide(a) || shortSide(b) - shortSide(a),
  (a, b) => shortSide(b) - shortSide(a) || longSide(b) - longSide(a),
  (a, b) => b.height - a.height || b.width - a.width,
  (a, b) => b.width - a.width || b.height - a.height,
];

/** An order of our own before any other, so that the order of the caller never matters. */
export const inOwnOrder = (boxes: readonly PieceBox[]): PieceBox[] =>
  [...boxes].sort(
    (a, b) => area(b) - area(a) || b.width - a.width || (a.piece.id < b.piece.id ? -1 : 1),
  );
