/** Pictures that stand in a guide, on paper and in the browser. */
import { bounds, transform } from '../geom/index.js';
import type { FoldedView } from '../guide-model.js';
import type { Piece } from '../model.js';
import type { Figure, Mark } from './figure.js';
import { foldedFigure } from './folded-picture.js';

/** Panels that move in a step are tinted. */
const TINT = '#f4d35e';

/** Every picture is drawn once, its longer side so many mm, and shown in any size. */
const SIDE_MM = 100;
const PX_MM = 0.32;
const drawn = new WeakMap<FoldedView, Figure>();

/** A folded box, without a margin. */
export function viewFigure(view: FoldedView): Figure {
  const known = drawn.get(view);
  if (known) return known;
  const moving = new Set(view.moving.map(m => `${m.net}/${m.panel}`));
  const paper = (net: string, panel: string) => {
    const colour = moving.has(`${net}/${panel}`) ? TINT : (view.paper[net] ?? '#ffffff');
    return { outside: colour, inside: colour };
  };
  const figure = foldedFigure({ ...view, paper }, SIDE_MM, PX_MM);
  drawn.set(view, figure);
  return figure;
}

/** A piece in its paper, small. */
export function thumb(piece: Piece, colour: string, width: number, height: number): Figure {
  const b = bounds(piece.outline);
  const k = Math.min(width / (b.maxX - b.minX), height / (b.maxY - b.minY));
  const at = [
    k,
    0,
    0,
    k,
    width / 2 - (k * (b.minX + b.maxX)) / 2,
    height / 2 - (k * (b.minY + b.maxY)) / 2,
  ] as const;
  const cut = [piece.outline, ...piece.holes].map(p => transform(p, at));
  const { art } = piece;
  const fill = (art && art.ground !== '#ffffff' ? art.ground : colour) as `#${string}`;
  const marks: Mark[] = [
    { kind: 'shape', paths: cut, fill, line: { colour: 'faint', width: 0.15, round: true } },
  ];
  if (art) marks.push({ kind: 'clip', by: cut, marks: [{ kind: 'art', art, at }] });
  return { width, height, marks };
}
