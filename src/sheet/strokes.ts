/** Everything that lies on a sheet, in the sheet's own frame. */
import { bounds, IDENTITY, outward, transform } from '../geom/index.js';
import type { Bounds, Ink, Path, Piece, PlacedArt, Sheet, Stroke } from '../model.js';
import { markInk, markPaths, wedgeInk } from './marks.js';

/** Every stroke of every placed piece (its strokes, its holes, then its outline, the last two as
 *  cuts), then the register marks. The order that the tools work in is not settled here. */
export function sheetStrokes(sheet: Sheet): Stroke[] {
  const pieces = sheet.placements.flatMap(({ piece, at }): Stroke[] => [
    ...piece.strokes.map(s => ({ ...s, path: transform(s.path, at) })),
    ...[...piece.holes, piece.outline].map(
      (path): Stroke => ({ operation: 'cut', path: transform(path, at) }),
    ),
  ]);
  const marks = sheet.marks
    .flatMap(markPaths)
    .map((path): Stroke => ({ operation: 'register', path }));
  return [...pieces, ...marks];
}

/** A printed sheet is laid by its marks, and its back has none: it is worked from its face alone. */
export const canBeTurned = ({ marks }: Sheet): boolean => marks.length === 0;

/** What is printed black beside the art. */
export const sheetInk = ({ marks, wedge }: Sheet): Ink[] => [
  ...marks.map(markInk),
  ...(wedge ? [wedgeInk(wedge)] : []),
];

/**
 * The printed art of the sheet's pieces and where each lies. Where pieces are neighbours their bleeds
 * are joined in the middle: none reaches nearer to another piece than half of `bleed`, mm.
 */
export function sheetArts({ placements, ground }: Sheet, bleed: number): PlacedArt[] {
  const grown = new Map<Piece, Path>();
  const others = placements.map(({ piece, at }) => {
    const own = grown.get(piece) ?? outward(piece.outline, bleed / 2);
    grown.set(piece, own);
    const path = transform(own, at);
    return { path, box: bounds(path) };
  });
  const under: PlacedArt[] = ground ? [{ art: ground, at: IDENTITY }] : [];
  const arts = placements.flatMap(({ piece: { art }, at }, i): PlacedArt[] => {
    if (!art) return [];
    const box = bounds(transform(art.bleed, at));
    const near = others.filter((o, k) => k !== i && meet(o.box, box));
    return [{ art, at, ...(near.length > 0 && { clear: near.map(o => o.path) }) }];
  });
  return [...under, ...arts];
}

const meet = (a: Bounds, b: Bounds): boolean =>
  a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;
