/** From one decoration to the pieces that make it, and where each of them goes on its panel. */
import { find, type MotifTools } from '../contracts.js';
import {
  bounds,
  clockwise,
  compose,
  counterClockwise,
  IDENTITY,
  rotation,
  scaling,
  transform,
  translation,
} from '../geom/index.js';
import type { Affine, Decoration, Layer, Panel, Piece, Point, Region } from '../model.js';
import { fillParams, ParamError } from '../params.js';
import { printed } from './art.js';
import { backingOutlines, footprint } from './backing.js';
import { cutOutWarnings } from './cut-outs.js';
import { MOTIFS } from './list.js';
import { overlayFor } from './overlay.js';
import { type Dot, placementWarnings } from './placement.js';

export interface DecorateOptions {
  /** How far printed art reaches past the cut, mm. */
  readonly bleed: number;
  /** How many of each piece. */
  readonly count: number;
  /** The item's name, for titles and warnings. */
  readonly itemName: string;
  /** Closure dots on the decorated face of the panel, in the net's frame: to be kept clear. */
  readonly closures?: readonly Dot[];
}

/** Where a piece goes. */
export interface PlacedPiece {
  readonly piece: string;
  readonly panel: string | undefined;
  readonly face: Decoration['face'];
  /** From the piece's frame to the net's, which is seen from the inside: so it mirrors on the
   *  outside. Without a panel, to the decoration's own frame. */
  readonly at: Affine;
  /** Foam under this piece, mm; 0 is glued flat. */
  readonly lift: number;
}

export interface Decorated {
  readonly pieces: readonly Piece[];
  /** One for each piece, in the order in which they are glued. */
  readonly placed: readonly PlacedPiece[];
  readonly warnings: readonly string[];
}

/**
 * The pieces of one decoration from back to front: backings, the widest first, then the motif's
 * layers, or the overlay. `panel` is the panel it goes on, or `undefined` for a decoration made
 * alone. `at` and `turn` are as seen by a person who looks at the decorated face with the net's
 * y up: on the outside the net's x runs the other way. Throws `ParamError` for a motif, a value,
 * a pattern, a stock or a reveal that cannot be used.
 */
export function decorationPieces(
  decoration: Decoration,
  panel: Panel | undefined,
  tools: MotifTools,
  options: DecorateOptions,
): Decorated {
  const frame = frameOf(decoration, panel);
  const layers = layersOf(decoration, panel, tools);
  const behind = backingsOf(decoration, panel, layers);
  const { name } = decoration;
  const { count, bleed, itemName } = options;

  const backings = decoration.backings.map((backing, i): Piece => {
    const { outer: outline, holes } = behind[i]!;
    const art = printed([], backing.art, outline, bleed);
    return {
      id: `${name}-backing-${i + 1}`,
      title: `${itemName}: ${name}, backing ${i + 1}`,
      stock: backing.stock,
      count,
      outline,
      holes,
      strokes: [],
      ...(art && { art }),
    };
  });
  const fronts = layers.map((layer): Piece => {
    const spec = layer.paper === 'main' ? decoration.art : undefined;
    const art = printed(layer.fills, spec, layer.outline, bleed);
    return {
      id: `${name}-${layer.id}`,
      title: `${itemName}: ${name}, ${layer.id}`,
      stock: stockOf(decoration, layer),
      count,
      outline: layer.outline,
      holes: layer.holes,
      strokes: layer.strokes,
      ...(art && { art }),
    };
  });
  const pieces = [...backings.reverse(), ...fronts];
  const placed = pieces.map((piece, i): PlacedPiece => {
    const lift = layers[i - backings.length]?.lift ?? 0;
    return { piece: piece.id, panel: panel?.id, face: decoration.face, at: frame, lift };
  });

  const widest = behind.at(-1)?.outer ?? footprint(layers);
  const warnings = [
    ...(panel
      ? placementWarnings(
          transform(widest, frame),
          // An overlay is cut clear of the windows.
          decoration.what.kind === 'overlay' ? { ...panel, holes: [] } : panel,
          options.closures ?? [],
          `${itemName}: ${name}`,
        )
      : []),
    ...cutOutWarnings(layers, `${itemName}: ${name}`),
  ];
  return { pieces, placed, warnings };
}

/** The middle of a panel: that of its bounds. */
export function middleOf(panel: Panel): Point {
  const b = bounds(panel.outline);
  return [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
}

const MIRROR = scaling(-1, 1);

/** From the pieces' frame to the net's. */
function frameOf({ at, turn, face, what }: Decoration, panel: Panel | undefined): Affine {
  const looking = what.kind === 'motif' ? compose(translation(...at), rotation(turn)) : IDENTITY;
  if (!panel) return looking;
  const onFace = face === 'outside' ? compose(MIRROR, looking) : looking;
  return compose(translation(...middleOf(panel)), onFace);
}

function layersOf(
  decoration: Decoration,
  panel: Panel | undefined,
  tools: MotifTools,
): readonly Layer[] {
  const { what, face } = decoration;
  if (what.kind === 'motif') {
    const motif = find(MOTIFS, what.motif);
    if (!motif) {
      const names = MOTIFS.map(m => m.id).join(', ');
      throw new ParamError('motif', what.motif, `one of ${names}`, 'choose one of these');
    }
    return motif.build(fillParams(motif.params, what.values), tools);
  }
  const { outer, holes } = overlayPiece(panel, face, what.reveal);
  return [{ id: 'front', outline: outer, holes, strokes: [], fills: [], paper: 'main', lift: 0 }];
}

/** An overlay in its own frame: about the panel's middle, as seen on its face. */
function overlayPiece(panel: Panel | undefined, face: Decoration['face'], reveal: number): Region {
  if (!panel) throw new RangeError('an overlay needs the panel that it lies on');
  const region = overlayFor(panel, reveal);
  const [x, y] = middleOf(panel);
  const toPiece = compose(face === 'outside' ? MIRROR : IDENTITY, translation(-x, -y));
  return {
    outer: counterClockwise(transform(region.outer, toPiece)),
    holes: region.holes.map(h => clockwise(transform(h, toPiece))),
  };
}

/** What lies behind, the nearest first. A mat behind an overlay is an overlay itself, so it stays
 *  clear of the windows; behind a motif there is whole paper. */
function backingsOf(
  { what, face, backings }: Decoration,
  panel: Panel | undefined,
  layers: readonly Layer[],
): Region[] {
  if (what.kind === 'motif') {
    return backingOutlines(footprint(layers), backings).map(outer => ({ outer, holes: [] }));
  }
  let left = what.reveal;
  return backings.map(({ reveal }) => {
    left -= reveal;
    if (left < 0) {
      throw new ParamError(
        'reveal',
        reveal,
        `at most ${(left + reveal).toFixed(2)} mm: all that the overlay leaves of the panel`,
        "make it smaller or the overlay's own reveal larger",
      );
    }
    return overlayPiece(panel, face, left);
  });
}

function stockOf({ stocks, name }: Decoration, { paper }: Layer): string {
  const stock = stocks[paper] ?? stocks.main;
  if (stock === undefined) {
    throw new ParamError(
      'stock',
      name,
      `a stock for its paper "${paper}"`,
      'name one, or one for "main", which stands for all',
    );
  }
  return stock;
}
