/** From one decoration to the pieces that make it, and where each of them goes on its panel. */
import type { MotifTools } from '../contracts.js';
import { compose, IDENTITY, transform, translation } from '../geom/index.js';
import type { Affine, Decoration, Layer, Panel, Path, Piece, Point } from '../model.js';
import { ParamError } from '../params.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import { printed } from './art.js';
import { cutOutWarnings } from './cut-outs.js';
import { legibilityWarnings } from './legible.js';
import type { Dot } from './overlay.js';
import { boxAboutMiddle } from './overlay-strips.js';
import { faceFrame } from './panel-frame.js';
import { isClear } from './placement.js';
import { type PlacingFault, placingFaults } from './placing-faults.js';
import { posesOf } from './poses.js';
import { type Version, versionOf } from './version.js';

export interface DecorateOptions {
  /** How far printed art reaches past the cut, mm. */
  readonly bleed: number;
  /** How many of each piece. */
  readonly count: number;
  /** The item's name, for titles and warnings. */
  readonly itemName: string;
  /** Closure dots on the decorated face of the panel, in the net's frame: to be kept clear. */
  readonly closures?: readonly Dot[];
  /** Lines that the panel folds about, in the net's frame: to be kept clear. */
  readonly hinges?: readonly Path[];
  /** Colour of a stock, for whether words on it can be read. */
  readonly colourOf?: (stock: string) => string | undefined;
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
  /** One for each piece and copy, in the order in which they are glued; of pieces that differ from box
   *  to box, the first box's. */
  readonly placed: readonly PlacedPiece[];
  readonly warnings: readonly string[];
  readonly faults: readonly PlacingFault[];
  /** What each copy covers, and the boxes of its words, in the net's frame. */
  readonly covers: readonly {
    readonly at: Affine;
    readonly outline: Path;
    readonly words: readonly Path[];
  }[];
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
  const what = `${options.itemName}: ${decoration.name}`;
  const versions = (decoration.each ?? [{}]).map(own =>
    versionOf(decoration, own, panel, tools, options.closures ?? []),
  );
  const [first] = versions;
  if (!first) throw new RangeError('a list of names without names');
  const ground = panel && { panel, hinges: options.hinges ?? [], closures: options.closures ?? [] };
  const over = decoration.over ?? [];
  const toNet = faceFrame(decoration.face, panel);
  const clear = (pose: Affine) =>
    !ground || isClear(transform(first.widest, compose(toNet, pose)), ground, over);
  const poses =
    decoration.what.kind === 'motif'
      ? posesOf(decoration, first.widest, panel && boxAboutMiddle(panel.outline), clear, tools)
      : [IDENTITY];
  const frames = poses.map(pose => compose(toNet, pose));
  const each = options.count / versions.length;
  if (!Number.isInteger(each)) {
    throw new RangeError(`${versions.length} names for ${options.count} of ${what}`);
  }
  const sets = versions.map(v =>
    piecesOf(decoration, v, { ...options, count: each * poses.length }),
  );
  const pieces = merged(sets, versions, what);
  const [own] = sets;
  const placed = frames.flatMap(at =>
    own!.map(({ id, lift, aside: [x, y] }): PlacedPiece => {
      const piece =
        pieces.find(p => p.id === id) ?? pieces.find(p => p.id === numbered(id, 0, decoration));
      return {
        piece: piece!.id,
        panel: panel?.id,
        face: decoration.face,
        at: compose(translation(panel && decoration.face === 'outside' ? -x : x, y), at),
        lift,
      };
    }),
  );
  const outlines = distinct(versions.map(v => v.widest));
  const faults =
    ground && decoration.what.kind === 'motif'
      ? outlines.flatMap(outline => placingFaults(outline, frames, ground, decoration, what))
      : [];
  const warnings = versions.flatMap(v => warningsOf(decoration, v, options, what));
  const covers = frames.map(at => ({
    at,
    outline: transform(first.widest, at),
    words: first.fronts.flatMap(f => (f.layer.words ?? []).map(w => transform(w.box, at))),
  }));
  return { pieces, placed, warnings: [...new Set(warnings)], faults, covers };
}

const distinct = (paths: readonly Path[]): Path[] => [
  ...new Map(paths.map(p => [JSON.stringify(p), p])).values(),
];

interface OwnPiece extends Piece {
  readonly layer: Layer | undefined;
  /** Height of the foam under it, mm. */
  readonly lift: number;
  /** How far it is moved from the others, as seen on the face, mm. */
  readonly aside: Point;
}

const IN_PLACE: Point = [0, 0];

function piecesOf(
  decoration: Decoration,
  { fronts, behind, through, widest }: Version,
  { bleed, count, itemName }: DecorateOptions,
): readonly OwnPiece[] {
  const { name } = decoration;
  const backings = behind.map(({ outer: outline, holes }, i): OwnPiece => {
    const backing = decoration.backings[i]!;
    const art = printed([], backing.art, outline, bleed);
    return {
      id: `${name}-backing-${i + 1}`,
      title: `${itemName}: ${name}, backing ${i + 1}`,
      name: { decoration: name, layer: 'backing', number: i + 1 },
      stock: backing.stock,
      count,
      outline,
      holes,
      strokes: [],
      layer: undefined,
      lift: backing.lift ?? 0,
      aside: IN_PLACE,
      ...(art && { art }),
    };
  });
  const own = fronts.map(({ layer, art: spec }, i): OwnPiece => {
    const art = printed(layer.fills, spec, layer.outline, bleed);
    return {
      id: `${name}-${layer.id}`,
      title: `${itemName}: ${name}, ${layer.id}`,
      name: { decoration: name, layer: layer.id },
      stock: stockOf(decoration, layer),
      count,
      outline: layer.outline,
      holes: layer.holes,
      strokes: layer.strokes,
      layer,
      lift: (i === 0 ? decoration.lift : undefined) ?? layer.lift,
      aside: IN_PLACE,
      ...(art && { art }),
    };
  });
  const { shadow } = decoration;
  const dark: OwnPiece[] = shadow
    ? [
        {
          id: `${name}-shadow`,
          title: `${itemName}: ${name}, shadow`,
          name: { decoration: name, layer: 'shadow' },
          stock: shadow.stock,
          count,
          outline: widest,
          // It lies aside, and its hole where the others are.
          holes: through.map(p => transform(p, translation(-shadow.by[0], -shadow.by[1]))),
          strokes: [],
          layer: undefined,
          lift: 0,
          aside: shadow.by,
        },
      ]
    : [];
  return [...dark, ...backings.reverse(), ...own];
}

const numbered = (id: string, version: number, { name }: Pick<Decoration, 'name'>) =>
  `${name}-${version + 1}${id.slice(name.length)}`;

/** Pieces of all versions: those alike in all of them once, the others each with its number. */
function merged(
  sets: readonly (readonly OwnPiece[])[],
  versions: readonly Version[],
  what: string,
): Piece[] {
  const bare = ({ layer: _, lift: _l, aside: _a, ...piece }: OwnPiece): Piece => piece;
  const [first] = sets;
  if (sets.length === 1) return first!.map(bare);
  const shape = ({ outline, holes, strokes, art }: Piece) =>
    JSON.stringify([outline, holes, strokes, art]);
  const name = what.slice(what.indexOf(': ') + 2);
  const ids = [...new Set(sets.flatMap(set => set.map(p => p.id)))];
  return ids.flatMap(id => {
    const same = sets.map(set => set.find(p => p.id === id));
    const [one] = same;
    if (one && same.every(p => p && shape(p) === shape(one))) {
      const count = same.reduce((sum, p) => sum + p!.count, 0);
      return [{ ...bare(one), count }];
    }
    return same.flatMap((piece, i) => {
      if (!piece) return [];
      const said = Object.values(versions[i]!.own).join(', ').replace(/\s+/g, ' ');
      const own = numbered(id, i, { name });
      const title = `${piece.title} "${said}"`;
      return [{ ...bare(piece), id: own, title, name: { ...piece.name, said } }];
    });
  });
}

function warningsOf(
  decoration: Decoration,
  { fronts, own }: Version,
  { colourOf }: DecorateOptions,
  what: string,
): string[] {
  const said = Object.keys(own).length > 0 ? `${what} "${Object.values(own).join(', ')}"` : what;
  return [
    ...fronts.flatMap(({ layer }) => (layer.notes ?? []).map(note => `${said}: ${note}`)),
    ...fronts.flatMap(({ layer, art }) =>
      layer.words
        ? legibilityWarnings(
            layer,
            {
              mirrored: decoration.mirror === true,
              art,
              paper: colourOf?.(stockOf(decoration, layer)),
            },
            said,
          )
        : [],
    ),
    ...cutOutWarnings(
      fronts.map(f => f.layer),
      said,
      decoration.leastWidth ?? LEAST_WIDTH_MM,
    ),
  ];
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
