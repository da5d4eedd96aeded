/**
 * What is on a guide, in words and pictures, for the writers to lay out: one content for paper and for the
 * browser. Plain and readonly; millimetres, y up. The facts behind it are in `src/guide/facts.ts`.
 */
import type { Decal, Design, FaceMark, PartName, Path, Piece, Point, SeenPart } from './model.js';

/** Paper of the guide. */
export type GuidePaper = Design['guidePaper'];
export const GUIDE_PAPERS = ['a4', 'letter'] as const satisfies readonly GuidePaper[];

/** A line of the flat pattern by what is done there, seen from the inside: a valley folds to the eye. */
export interface PatternLine {
  readonly kind: 'valley' | 'mountain' | 'cut' | 'perforate' | 'draw';
  readonly path: Path;
}

/** A distance along one axis, from line to line, told outside the drawing: below or at the left
 *  (`low`), above or at the right (`high`). `reach` is where on the other axis the two lines begin. */
export interface Measure {
  readonly axis: 'x' | 'y';
  readonly side: 'low' | 'high';
  readonly from: number;
  readonly to: number;
  readonly reach: readonly [from: number, to: number];
  /** From edge to edge of the paper. */
  readonly whole: boolean;
}

/** Slanted or curved lines of one length, or holes of one size, told by a letter on them. */
export interface Lettered {
  readonly letter: string;
  readonly length: number;
  /** Of arcs; of other curves, how far they rise over their chord. */
  readonly radius?: number;
  readonly rise?: number;
  /** Of holes: width and height, and how far the middle is from the fold that their panel hangs on. */
  readonly hole?: {
    readonly size: readonly [width: number, height: number];
    readonly round: boolean;
    readonly fromFold?: number;
  };
  readonly at: readonly Point[];
}

/** A net in the flat, seen from the inside of the box, and measured. */
export interface Pattern {
  readonly net: string;
  /** It, and others of this very shape. */
  readonly parts: readonly PartName[];
  /** Nets of this very shape in one box. */
  readonly count: number;
  readonly colour: string;
  readonly outline: Path;
  readonly holes: readonly Path[];
  readonly lines: readonly PatternLine[];
  /** Where glue goes: on the side that is seen (`inside`) and on the back. */
  readonly glue: readonly {
    readonly panel: string;
    readonly face: 'inside' | 'outside';
    readonly area: Path;
  }[];
  /** Where a dot, a sticker or a magnet goes. */
  readonly dots: readonly { readonly at: Point; readonly radius: number }[];
  /** Panels to be named, with the room for it about the place. */
  readonly panels: readonly {
    readonly id: string;
    readonly at: Point;
    readonly room: readonly [width: number, height: number];
  }[];
  readonly measures: readonly Measure[];
  readonly lettered: readonly Lettered[];
}

/** A box as it is seen. */
export interface Seen {
  readonly parts: readonly SeenPart[];
  /** What falls on the table, for points of the lamp. */
  readonly table?: readonly (readonly (readonly Point[])[])[];
  /** Cuts, pen lines and dots on its paper. */
  readonly marks?: readonly FaceMark[];
}
/** With what is put in evidence. */
export interface FoldedView extends Seen {
  readonly decals: readonly Decal[];
  /** Colour of the paper by net. */
  readonly paper: Readonly<Record<string, string>>;
  /** Panels that move in this step. */
  readonly moving: readonly { readonly net: string; readonly panel: string }[];
  /** Where glue is put in this step. */
  readonly glue: readonly {
    readonly net: string;
    readonly panel: string;
    readonly side: 'inside' | 'outside';
    readonly area: Path;
  }[];
}

/** A picture and what it shows, for who does not see it. */
export interface Shown<T> {
  readonly of: T;
  readonly told: string;
}
export interface StepWords {
  readonly text: string;
  /** Under the text, in order. */
  readonly layers: readonly string[];
  readonly picture?: Shown<FoldedView>;
}
/** A pattern with its lengths in words, in the order of `measures`, `lettered` and `panels`. */
export interface PatternWords {
  readonly title: string;
  readonly pattern: Shown<Pattern>;
  readonly measures: readonly string[];
  readonly lettered: readonly string[];
  readonly names: readonly string[];
}
export const LEGEND = [
  'cut',
  'valley',
  'mountain',
  'perforate',
  'draw',
  'glue',
  'back',
  'dot',
] as const;
export type LegendMark = (typeof LEGEND)[number];

/** A section of steps. */
export interface StepsWords {
  readonly title: string;
  readonly intro: string;
  readonly steps: readonly StepWords[];
}
/** In the order in which it is read. Sections that have nothing to say are left out. */
export interface GuidePage {
  /** Language of the words, as in HTML. */
  readonly lang: string;
  /** The item's own, which any face can spell. */
  readonly name: string;
  readonly job: string;
  readonly title: string;
  readonly lines: readonly string[];
  readonly closed?: Shown<FoldedView>;
  readonly needs: {
    readonly title: string;
    readonly groups: readonly { readonly title: string; readonly items: readonly string[] }[];
  };
  readonly pieces: {
    readonly title: string;
    /** Of the columns after the picture. */
    readonly head: readonly string[];
    readonly rows: readonly {
      readonly cells: readonly string[];
      readonly piece: Piece;
      readonly colour: string;
    }[];
    /** What is said of rows that found no room. */
    readonly more: string;
    /** How sheets are laid that are worked from both sides. */
    readonly notes: readonly string[];
  };
  readonly patterns?: {
    readonly title: string;
    readonly intro: string;
    readonly legend: readonly { readonly mark: LegendMark; readonly text: string }[];
    readonly nets: readonly PatternWords[];
    readonly notes: readonly string[];
  };
  readonly byHand?: {
    readonly title: string;
    readonly intro: string;
    readonly nets: readonly { readonly title: string; readonly lines: readonly string[] }[];
  };
  readonly steps?: StepsWords;
  readonly decorating?: StepsWords;
  readonly scale: {
    readonly title: string;
    readonly text: string;
    readonly labels: readonly string[];
  };
  readonly care: { readonly title: string; readonly items: readonly string[] };
  /** With `{page}` and `{pages}`. */
  readonly foot: string;
}
