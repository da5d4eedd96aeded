/** What the guide is made from: what the other rooms know of an item, handed over by the pipeline. */
import type { Seen } from '../guide-model.js';
import type {
  AssemblyStep,
  Closure,
  ClosureHalf,
  Decal,
  Design,
  GlueArea,
  Item,
  Net,
  Sheet,
  Stroke,
  Triple,
} from '../model.js';
import type { Meeting } from './facts.js';
import type { Drawn } from './recipe.js';

/** A net that is cut. */
export interface CutNet {
  readonly net: Net;
  readonly drawn: Drawn & {
    readonly holes: readonly Drawn['outline'][];
    readonly strokes: readonly Stroke[];
  };
  readonly glue: readonly GlueArea[];
  readonly halves: readonly ClosureHalf[];
}

/** A net that is folded: one that is cut, or all of its parts glued together. */
export interface FoldedNet {
  readonly net: Net;
  readonly glue: readonly GlueArea[];
  readonly steps: readonly AssemblyStep[];
  /** The net on its way in each step. */
  readonly views: readonly Seen[];
}

/** How closed parts come together. */
export type Together =
  | {
      readonly kind: 'seat';
      readonly net: string;
      readonly onto: string;
      readonly panels: readonly string[];
      readonly seen: Seen;
    }
  | {
      readonly kind: 'join';
      readonly nets: readonly string[];
      readonly seen: Seen;
    };

export interface GuideAsk {
  readonly item: Item;
  readonly design: Design;
  readonly cut: readonly CutNet[];
  readonly folded: readonly FoldedNet[];
  /** Where parts are glued to each other, by the net of the panel. */
  readonly seats: readonly { readonly net: string; readonly area: GlueArea }[];
  readonly together: readonly Together[];
  readonly splices: readonly Meeting[];
  /** Films, and what they go behind. */
  readonly films: readonly { readonly panel: string; readonly feature: string }[];
  /** The box as it stands when it is done, and its size over all. */
  readonly closed?: Seen;
  readonly outside?: Triple;
  /** The inside is a round one's. */
  readonly round: boolean;
  readonly closures: readonly Closure[];
  /** What lies on which panel, in the order in which it is glued. Of decorations without a box, on
   *  nothing: the net and panel are empty. */
  readonly decals: readonly Decal[];
  readonly sheets: readonly Sheet[];
}
