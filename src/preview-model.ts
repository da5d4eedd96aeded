/**
 * What the folding preview is told, as plain data: it stands in the page as JSON. Lengths in mm, y up but
 * in path data, which is SVG's, y down, with the piece's or the net's origin as its own.
 */
import type {
  Affine,
  AssemblyStep,
  FaceMark,
  Film,
  Gathering,
  Net,
  Operation,
  Triple,
} from './model.js';
import type { Words } from './words/english.js';

export interface PreviewNet {
  readonly net: Net;
  readonly steps: readonly Pick<AssemblyStep, 'folds' | 'bentIn' | 'manner'>[];
  /** One sentence or two for each step. */
  readonly told: readonly string[];
}

/** One thing cut from paper. */
export interface PreviewPiece {
  readonly title: string;
  /** Its size as it is told, and how many. */
  readonly size: string;
  readonly count: number;
  readonly stock: string;
  readonly colour: string;
  /** Bounds: left, bottom, right, top. */
  readonly box: readonly [number, number, number, number];
  /** Outline and holes; even-odd is the paper. */
  readonly paper: string;
  readonly lines: Readonly<Partial<Record<Operation, string>>>;
  /** Score lines that are worked from the back, where its sheet is turned. */
  readonly back?: string;
  readonly art: readonly { readonly colour: string; readonly d: string }[];
}

/** A piece on a face of a panel, as `Decal` says it. */
export interface PreviewDecal {
  readonly piece: number;
  readonly net: string;
  readonly panel: string;
  readonly side: 'inside' | 'outside';
  readonly at: Affine;
  readonly lift: number;
}

/** What else is seen on a panel's paper, as `FaceMark` says it; path data in the net's frame. */
export interface PreviewMark extends Omit<FaceMark, 'path'> {
  readonly d: string;
}

export interface PreviewSheet {
  /** Of no other in the page; the back of a sheet is a sheet of its own. */
  readonly id: string;
  /** From which side it is seen and worked, where it is worked from both. */
  readonly side?: 'face' | 'back';
  /** What is cut from it, in words. */
  readonly holds: string;
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly copies: number;
  readonly colour: string;
  readonly placed: readonly {
    readonly piece: number;
    readonly at: Affine;
    /** Where its print must not reach: about its neighbours, in the sheet's frame. */
    readonly clear?: string;
  }[];
  /** Register marks. */
  readonly marks: string;
}

/** What lies in the box: each thing's middle from the lower left front corner of the clear space, and the
 *  sides of the box around it. */
export interface PreviewTreat {
  readonly told: string;
  readonly inside: Triple;
  /** The box's own inside where that is not it: a block in a pillow. */
  readonly within?: Triple;
  /** The clear space is a cylinder, its ends level. */
  readonly round?: boolean;
  readonly things: readonly {
    readonly at: Triple;
    readonly size: Triple;
    readonly shape: 'block' | 'cylinder' | 'ball' | 'pouch';
    /** 0 to 2: the side of the box along which a cylinder's axis runs. */
    readonly axis: number;
  }[];
}

export interface PreviewFacts {
  readonly title: string;
  readonly name: string;
  readonly job: string;
  /** Lines about it: finished size, paper. */
  readonly told: readonly string[];
  /** What is on its faces, in words; empty for a plain box. */
  readonly decorated: string;
  readonly paper: string;
  readonly nets: readonly PreviewNet[];
  /** How the closed parts come together. */
  readonly gathering: readonly Gathering[];
  /** What is said when a part goes to its place, by net; and at the end. */
  readonly placing: Readonly<Record<string, string>>;
  readonly pieces: readonly PreviewPiece[];
  readonly decals: readonly PreviewDecal[];
  readonly films: readonly Film[];
  readonly marks: readonly PreviewMark[];
  readonly sheets: readonly PreviewSheet[];
  readonly treat?: PreviewTreat;
  readonly colours: Readonly<Record<Operation, string>>;
  /** What the page says by itself, and in which language. */
  readonly words: Words['preview']['page'] & { readonly lang: string };
}
