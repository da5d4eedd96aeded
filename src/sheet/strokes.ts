/** Everything that lies on a sheet, in the sheet's own frame. */
import { transform } from '../geom/index.js';
import type { Affine, Art, Sheet, Stroke } from '../model.js';
import { markPaths } from './marks.js';

/** Every stroke of every placed piece (its strokes, its holes, then its outline, the last two as
 *  cuts), then the register marks. The order that the tools work in is not settled here. */
export function sheetStrokes(sheet: Sheet): Stroke[] {
  const pieces = sheet.placements.flatMap(({ piece, at }): Stroke[] => [
    ...piece.strokes.map(s => ({ operation: s.operation, path: transform(s.path, at) })),
    ...[...piece.holes, piece.outline].map(
      (path): Stroke => ({ operation: 'cut', path: transform(path, at) }),
    ),
  ]);
  const marks = sheet.marks
    .flatMap(markPaths)
    .map((path): Stroke => ({ operation: 'register', path }));
  return [...pieces, ...marks];
}

/** The printed art of the sheet's pieces and where each lies. */
export const sheetArts = (sheet: Sheet): { readonly art: Art; readonly at: Affine }[] =>
  sheet.placements.flatMap(({ piece, at }) => (piece.art ? [{ art: piece.art, at }] : []));
