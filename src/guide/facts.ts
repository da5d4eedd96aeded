/** The facts of a guide: what a person is told and shown of one item, without a word of any language.
 *  Plain and readonly; millimetres. */
import type { FoldedView, Pattern } from '../guide-model.js';
import type { PartName, Piece, PieceName, Triple } from '../model.js';
import type { NoRecipe, Recipe } from './recipe.js';

/** A net in the flat, and how it is made by hand. */
export interface GuidePattern {
  readonly pattern: Pattern;
  /** Kinds of slanted or curved lines that got no letter, being too many. */
  readonly unlettered: number;
  readonly recipe: Recipe | { readonly none: NoRecipe };
}

/** A panel that is laid on another: on which face of it, where that is known; by an edge alone. */
export interface Meeting {
  readonly panel: string;
  readonly onto: string;
  readonly face?: 'inside' | 'outside';
  readonly edge?: boolean;
}
export interface Fold {
  readonly panel: string;
  /** Toward the eye that looks at the inside, away from it, flat onto its neighbour, or curled. */
  readonly how: 'up' | 'back' | 'over' | 'curl';
}
/** What is done in one step of folding. */
export interface FoldDone {
  /** The part; nothing where there is only one. */
  readonly part?: PartName;
  readonly folds: readonly Fold[];
  readonly glue: readonly Meeting[];
  readonly tuck: readonly Meeting[];
  readonly lock: readonly Meeting[];
}
export type GuideStep =
  | (FoldDone & { readonly kind: 'fold'; readonly view: FoldedView })
  /** Parts of a net that was too large for the sheet, glued before anything is folded. */
  | { readonly kind: 'splice'; readonly joints: readonly Meeting[]; readonly parts: number }
  /** Film that goes behind an opening, on the inside. */
  | { readonly kind: 'film'; readonly panel: string; readonly feature: string }
  /** Panels of one part, glued onto another. */
  | {
      readonly kind: 'seat';
      readonly part: PartName;
      readonly onto: PartName;
      readonly panels: readonly string[];
      readonly view: FoldedView;
    }
  /** Parts put into or over each other. */
  | { readonly kind: 'join'; readonly parts: readonly PartName[]; readonly view: FoldedView }
  /** A ribbon through holes in these panels, or through slots of its own. */
  | { readonly kind: 'ribbon'; readonly panels: readonly string[] }
  | { readonly kind: 'closures'; readonly closures: readonly ClosureRow[] };

/** What is glued on one face of a panel, in stacking order. */
export interface DecoratingStep {
  readonly part?: PartName;
  readonly panel: string;
  readonly face: 'inside' | 'outside';
  readonly layers: readonly LayerRow[];
  readonly view: FoldedView;
}
export interface LayerRow {
  readonly name: PieceName;
  readonly copies: number;
  /** Height of the foam under it; 0 is glued flat. */
  readonly lift: number;
}

export interface CutRow {
  readonly piece: Piece;
  /** For all boxes. */
  readonly count: number;
  readonly paper: string;
  readonly colour: string;
  readonly size: readonly [width: number, height: number];
  readonly print: boolean;
  readonly score: boolean;
  /** Some of its folds are scored from the back, before all else. */
  readonly back: boolean;
  readonly draw: boolean;
}
export interface PaperRow {
  readonly id: string;
  readonly paper: string;
  readonly sheets: number;
  readonly width: number;
  readonly height: number;
  /** Share of the paper that becomes pieces. */
  readonly used: number;
  /** Of all its sheets. */
  readonly cost?: number;
}
export interface ClosureRow {
  readonly means: 'hook-and-loop' | 'sticker' | 'magnet';
  /** Of all boxes; each of hook-and-loop and magnets is a pair. */
  readonly count: number;
  readonly diameter: number;
}
/** For all boxes. */
export interface Materials {
  readonly papers: readonly PaperRow[];
  /** Of all papers; of those whose price is known where `priced` says not all are. */
  readonly cost?: number;
  readonly priced: boolean;
  /** Lengths of glue or double-sided tape: on the flaps, and under the layers that lie flat. */
  readonly flaps: number;
  readonly layers: number;
  readonly foam: readonly { readonly height: number; readonly squares: number }[];
  readonly closures: readonly ClosureRow[];
  readonly ribbon: number;
}

export const CAUTIONS = ['blades', 'small-parts', 'magnets', 'food', 'local'] as const;
export type Caution = (typeof CAUTIONS)[number];

export interface Guide {
  readonly item: string;
  readonly title: string;
  readonly job: string;
  readonly unit: 'mm' | 'in';
  readonly count: number;
  /** Clear space, and whether it is a round one's. */
  readonly inside?: Triple;
  readonly round: boolean;
  /** Over all, closed. */
  readonly outside?: Triple;
  readonly closed?: FoldedView;
  readonly patterns: readonly GuidePattern[];
  readonly cuts: readonly CutRow[];
  readonly materials: Materials;
  readonly steps: readonly GuideStep[];
  readonly decorating: readonly DecoratingStep[];
  readonly cautions: readonly Caution[];
}
