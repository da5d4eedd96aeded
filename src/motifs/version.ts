/** A decoration as one box gets it: its layers, and what lies behind them. */
import { type MotifTools, motifNamed } from '../contracts.js';
import {
  clockwise,
  compose,
  counterClockwise,
  IDENTITY,
  transform,
  translation,
} from '../geom/index.js';
import type { ArtSpec, Decoration, Layer, Panel, ParamValues, Path, Region } from '../model.js';
import { fillParams, ParamError } from '../params.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import { backingOutlines, footprint } from './backing.js';
import { cutThrough } from './cut-through.js';
import { turnedOver } from './figure.js';
import { MOTIFS } from './list.js';
import { type Dot, overlayFor } from './overlay.js';
import { boxAboutMiddle, overlayStrips } from './overlay-strips.js';
import { MIRROR, middleOf } from './panel-frame.js';

/** A layer with the art under what is printed on it of its own. */
export interface Front {
  readonly layer: Layer;
  readonly art: ArtSpec | undefined;
}
/** A decoration as one box gets it. */
export interface Version {
  readonly own: ParamValues;
  readonly fronts: readonly Front[];
  readonly behind: readonly Region[];
  /** Holes through everything. */
  readonly through: readonly Path[];
  readonly widest: Path;
}

export function versionOf(
  decoration: Decoration,
  own: ParamValues,
  panel: Panel | undefined,
  tools: MotifTools,
  closures: readonly Dot[],
): Version {
  const { what } = decoration;
  if (what.kind === 'overlay') return overlayVersion(decoration, what, panel, closures);
  const motif = motifNamed(MOTIFS, what.motif, tools);
  if (!motif) {
    const names = MOTIFS.map(m => m.id).join(', ');
    throw new ParamError('motif', what.motif, `one of ${names}`, 'choose one of these');
  }
  const whole = motif.build(fillParams(motif.params, { ...what.values, ...own }), tools);
  const least = decoration.leastWidth ?? LEAST_WIDTH_MM;
  const built = cutThrough(whole, decoration.cutOuts ?? [], MOTIFS, tools, least);
  const layers = decoration.mirror ? built.map(turnedOver) : built;
  const through = layers.flatMap(l => l.through ?? []);
  const behind = backingOutlines(footprint(layers), decoration.backings).map(outer => ({
    outer,
    holes: through,
  }));
  const fronts = layers.map(layer => ({
    layer,
    art: layer.paper === 'main' ? decoration.art : undefined,
  }));
  return { own, fronts, behind, through, widest: behind.at(-1)?.outer ?? footprint(layers) };
}

type OverlayWhat = Extract<Decoration['what'], { kind: 'overlay' }>;

function overlayVersion(
  { face, backings, art, over = [] }: Decoration,
  { reveal, strips }: OverlayWhat,
  panel: Panel | undefined,
  closures: readonly Dot[],
): Version {
  if (!panel) throw new RangeError('an overlay needs the panel that it lies on');
  const dots = over.includes('closure') ? [] : closures;
  const piece = (showing: number) => overlayPiece(panel, face, showing, dots);
  const whole = piece(reveal);
  const plain = { strokes: [], fills: [], lift: 0 };
  const fronts: Front[] = strips
    ? overlayStrips(whole, boxAboutMiddle(panel.outline), strips).flatMap((parts, i) =>
        parts.map(({ outer, holes }, k) => {
          const paper = `strip-${i + 1}`;
          const id = parts.length > 1 ? `${paper}-${k + 1}` : paper;
          return {
            layer: { ...plain, id, outline: outer, holes, paper },
            art: strips[i]!.art ?? art,
          };
        }),
      )
    : [
        {
          layer: { ...plain, id: 'front', outline: whole.outer, holes: whole.holes, paper: 'main' },
          art,
        },
      ];
  let left = reveal;
  const behind = (strips ? [] : backings).map(backing => {
    left -= backing.reveal;
    if (left >= 0) return piece(left);
    throw new ParamError(
      'reveal',
      backing.reveal,
      `at most ${(left + backing.reveal).toFixed(2)} mm: all that the overlay leaves of the panel`,
      "make it smaller or the overlay's own reveal larger",
    );
  });
  return { own: {}, fronts, behind, through: [], widest: behind.at(-1)?.outer ?? whole.outer };
}

/** An overlay in its own frame: about the panel's middle, as seen on its face. */
function overlayPiece(
  panel: Panel,
  face: Decoration['face'],
  reveal: number,
  dots: readonly Dot[],
): Region {
  const region = overlayFor(panel, reveal, dots);
  const [x, y] = middleOf(panel);
  const toPiece = compose(face === 'outside' ? MIRROR : IDENTITY, translation(-x, -y));
  return {
    outer: counterClockwise(transform(region.outer, toPiece)),
    holes: region.holes.map(h => clockwise(transform(h, toPiece))),
  };
}
