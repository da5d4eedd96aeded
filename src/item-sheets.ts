/** The sheets of a folding preview and the pieces on them, each side that is worked as it lies. */
import { bounds, compose } from './geom/index.js';
import { pieceName } from './guide/index.js';
import type { Affine, Design, Operation, Path, Piece, Sheet, Stroke } from './model.js';
import { isFromBack } from './model.js';
import type { PreviewPiece, PreviewSheet } from './preview-model.js';
import { canBeTurned, sheetArts, sheetStrokes } from './sheet/index.js';
import { turnedOver } from './tool/index.js';
import { formatSides } from './units/length.js';
import type { Words } from './words/english.js';
import { artPaths, previewPath } from './write/index.js';

/** More kinds of pieces than these are counted and not named. */
const MOST_KINDS = 8;

export function previewPiece(piece: Piece, design: Design, words: Words): PreviewPiece {
  const b = bounds(piece.outline);
  const { id, colour, summary } = design.stocks[piece.stock]!;
  const paths = (list: readonly Path[]) => list.map(previewPath).join('');
  const lines: Partial<Record<Operation, string>> = {};
  const strokes: readonly Stroke[] = [
    ...piece.strokes,
    ...[piece.outline, ...piece.holes].map((path): Stroke => ({ operation: 'cut', path })),
  ];
  const back = strokes.filter(s => isFromBack(s, design.cutter.folds));
  for (const stroke of strokes) {
    if (back.includes(stroke)) continue;
    const { operation, path } = stroke;
    lines[operation] = (lines[operation] ?? '') + previewPath(path);
  }
  return {
    title: pieceName(piece.name, words),
    size: formatSides([b.maxX - b.minX, b.maxY - b.minY], design.unit),
    count: piece.count,
    stock: words.called(id, summary),
    colour,
    box: [b.minX, b.minY, b.maxX, b.maxY],
    paper: paths([piece.outline, ...piece.holes]),
    lines,
    ...(back.length > 0 && { back: paths(back.map(s => s.path)) }),
    art: piece.art ? artPaths(piece.art, [1, 0, 0, 1, 0, 0], 0) : [],
  };
}

/** A sheet that is worked from both sides comes twice: its back first, as it lies for the machine. */
export function previewSheets(
  sheet: Sheet,
  design: Design,
  numberOf: (piece: Piece) => number,
  words: Words,
): PreviewSheet[] {
  const { stock, copies, id } = sheet;
  const arts = sheetArts(sheet, design.bleed);
  const clearOf = (piece: Piece, at: Affine) => {
    const clear = arts.find(a => a.art === piece.art && a.at === at)?.clear ?? [];
    return clear.length > 0 && { clear: clear.map(previewPath).join('') };
  };
  const titled = (side?: 'face' | 'back') => ({
    title: words.preview.sheet(id, words.called(stock.id, stock.summary), copies, side),
    ...(side && { side }),
  });
  const whole: PreviewSheet = {
    id,
    ...titled(),
    holds: holdsOf(sheet, words),
    width: stock.width,
    height: stock.height,
    copies,
    colour: stock.colour,
    placed: sheet.placements.map(({ piece, at }) => ({
      piece: numberOf(piece),
      at,
      ...clearOf(piece, at),
    })),
    marks: sheetStrokes({ ...sheet, placements: [] })
      .map(s => previewPath(s.path))
      .join(''),
  };
  const { folds } = design.cutter;
  if (!canBeTurned(sheet) || !sheetStrokes(sheet).some(s => isFromBack(s, folds))) return [whole];
  const over = turnedOver(stock.width);
  const back: PreviewSheet = {
    ...whole,
    id: `${id}-back`,
    ...titled('back'),
    placed: sheet.placements.map(({ piece, at }) => ({
      piece: numberOf(piece),
      at: compose(over, at),
    })),
  };
  return [back, { ...whole, ...titled('face') }];
}

/** The kinds of pieces on a sheet, as a list in words. */
function holdsOf({ placements }: Sheet, words: Words): string {
  const counts = new Map<string, number>();
  for (const { piece } of placements) {
    const name = pieceName(piece.name, words);
    counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  const kinds = [...counts];
  return words.preview.holds(kinds.slice(0, MOST_KINDS), Math.max(0, kinds.length - MOST_KINDS));
}
