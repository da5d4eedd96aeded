/** Pieces, papers and cutters for the tests of this room. */

import {
  arcTo,
  circle,
  closedPath,
  cubic,
  line,
  outward,
  polygon,
  rectangle,
} from '../../src/geom/index.js';
import type { Cutter, MarkStyle, Path, Piece, Stock } from '../../src/model.js';

export const stock = (width: number, height: number, more: Partial<Stock> = {}): Stock => ({
  id: 'card',
  summary: 'card for tests',
  width,
  height,
  gsm: 220,
  caliper: 0.28,
  caliperFrom: 'measured',
  grain: 'unknown',
  colour: '#ffffff',
  ...more,
});

export const cutter = (width: number, height: number, margin = 3): Cutter => ({
  id: 'bench',
  summary: 'cutter for tests',
  width,
  height,
  margin,
  blade: { offset: 0.25, overcut: 0.5, compensatedBy: 'file' },
  speed: { draw: 100, score: 60, perforate: 40, cut: 60, register: 100, travel: 200 },
});

/** As the preset of this name. */
export const RING: MarkStyle = {
  id: 'ring-and-cross',
  summary: 'ring and cross',
  shape: 'ring-and-cross',
  size: 8,
  stroke: 0.25,
  inset: 0,
  count: 5,
};

export const piece = (id: string, outline: Path, more: Partial<Piece> = {}): Piece => ({
  id,
  title: id,
  name: { part: { title: id } },
  stock: 'card',
  count: 1,
  outline,
  holes: [],
  strokes: [],
  ...more,
});

export function printedPiece(id: string, outline: Path, bleed: number, count = 1): Piece {
  const art = { ground: '#ffeedd', fills: [], bleed: outward(outline, bleed) };
  return piece(id, outline, { count, art });
}

export const disc = (id: string, diameter: number, count = 1) =>
  piece(id, circle([0, 0], diameter / 2), { count });
export const block = (id: string, w: number, h: number, count = 1) =>
  piece(id, rectangle(0, 0, w, h), { count });

/** A leaf of two cubics that lies away from its own origin. */
export const leaf = (id: string, length: number, count = 1) =>
  piece(
    id,
    closedPath(
      [7, -11],
      [
        cubic(
          [7 + length / 3, -11 - length / 4],
          [7 + length, -11 - length / 8],
          [7 + length, -11],
        ),
        cubic([7 + length, -11 + length / 4], [7 + length / 3, -11 + length / 3], [7, -11]),
      ],
    ),
    { count },
  );

/** Point down, two half circles on top. */
export const heart = (id: string, width: number, count = 1) =>
  piece(
    id,
    closedPath(
      [0, 0],
      [
        line([width / 2, width * 0.6]),
        arcTo([0, width * 0.6], Math.PI),
        arcTo([-width / 2, width * 0.6], Math.PI),
      ],
    ),
    { count },
  );

/** A triangle with its base and its height of the same length. */
export const pennant = (id: string, size: number, count = 1) =>
  piece(
    id,
    polygon([
      [0, 0],
      [size, 0],
      [size / 2, size],
    ]),
    { count },
  );
