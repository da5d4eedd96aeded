/** What works on a sheet: operations, the machine's tools, and what its software asks of a file. */
import type { Point } from './geom/types.js';

/** What a tool does along a path, in working order; `register` is for marks. */
export const OPERATIONS = ['draw', 'score', 'perforate', 'cut', 'register'] as const;
export type Operation = (typeof OPERATIONS)[number];

export interface Blade {
  /** From the swivel axis to the cutting point, mm. */
  readonly offset: number;
  /** How far a closed cut runs on past its start, mm. */
  readonly overcut: number;
  /** Who allows for the offset: this program in the file, or the cutter's own software. Both at
   *  once spoils the cut. */
  readonly compensatedBy: 'file' | 'cutter';
  /** Of a beam, which has neither offset nor overcut: the width that it burns away, mm. The file allows
   *  for it if `compensatedBy` says so. */
  readonly kerf?: number;
}

/** From which sides of the sheet folds are scored: all from the face, or each from the outer side of its
 *  bend, the sheet turned over in between. */
export const FOLD_SIDES = ['face', 'both'] as const;

export const FOLD_WAYS = ['tool', 'pen', 'perforation', 'light-cut'] as const;

/** How folds are made on the machine. Lengths in mm. */
export interface Folding {
  /** With a scoring tool; drawn for a bone folder; cut through in dashes; cut lightly, which the person
   *  sets at the machine. */
  readonly by: (typeof FOLD_WAYS)[number];
  /** Of a perforated fold; stretched or shrunk to fit. */
  readonly dash: number;
  readonly gap: number;
  /** There and back, so many times. */
  readonly passes: number;
  /** What is left between a fold and the cut edge it ends on; not of a perforated one. */
  readonly setback: number;
  /** `both` only with a tool or a light cut: a pen's line or a dash is the same from either side. */
  readonly sides: (typeof FOLD_SIDES)[number];
}

/** With nothing said: a scoring tool, once, from end to end, from the face. */
export const BY_TOOL: Folding = {
  by: 'tool',
  dash: 2,
  gap: 1,
  passes: 1,
  setback: 0,
  sides: 'face',
};

/** Seen on the face that lies up to be cut: toward the eye, or away from it. */
export type FoldWay = 'valley' | 'mountain';

/**
 * A fold is pressed, or lightly cut, on the outer side of its bend: the paper folds away from the groove,
 * and the bead lies in the fold (common practice, no source). So a valley is scored from the back, where
 * both sides are; a fold that nobody knows the way of, from the face.
 */
export const isFromBack = (
  { operation, fold }: { readonly operation: Operation; readonly fold?: FoldWay },
  { sides }: Folding = BY_TOOL,
): boolean => sides === 'both' && operation === 'score' && fold === 'valley';

export interface Cutter {
  readonly id: string;
  readonly summary: string;
  /** The largest sheet the machine holds, mm. */
  readonly width: number;
  readonly height: number;
  /** A border of the sheet that the tools cannot reach, mm. */
  readonly margin: number;
  readonly blade: Blade;
  /** A scoring tool, once, if not said. */
  readonly folds?: Folding;
  /** Tool speed by operation and while lifted, mm/s: for the estimate of time only. */
  readonly speed: Readonly<Record<Operation | 'travel', number>>;
}

/** How a stroke looks for each operation, in files and in pictures. */
export interface StrokeStyle {
  readonly colour: string;
  /** The nearest AutoCAD colour index, for DXF layers. */
  readonly aci: number;
  /** Dash lengths in mm for pictures and print; empty is continuous (ISO 128). */
  readonly dash: readonly number[];
}
export interface Convention {
  readonly id: string;
  readonly summary: string;
  readonly operations: Readonly<Record<Operation, StrokeStyle>>;
}

export const DXF_KINDS = ['r12', 'r2000', 'r2000-splines'] as const;
export type DxfKind = (typeof DXF_KINDS)[number];
export const IMPORT_ORIGINS = ['lower-left', 'upper-left', 'middle'] as const;
export const IMPORT_Y = ['up', 'down'] as const;
export const IMPORT_FILES = ['together', 'by-operation'] as const;

/** What the software that takes the cut files asks of them. Everything in it stays true to size. */
export interface Importing {
  /** Units to the inch that SVG numbers are written in, for programs that read the numbers and not the
   *  size beside them; nothing for millimetres. */
  readonly svgUnits?: 72 | 90 | 96;
  /** Where a DXF's numbers begin on the sheet, and which way they count. */
  readonly origin: (typeof IMPORT_ORIGINS)[number];
  readonly y: (typeof IMPORT_Y)[number];
  /** Version of DXF, and what it makes of cubics: arcs within tolerance, or splines (which R12 has not). */
  readonly dxf: DxfKind;
  /** All operations of a sheet in one file, or one file for each. */
  readonly files: (typeof IMPORT_FILES)[number];
  /** Side of a square drawn in the waste to measure the import by, mm; 0 is none. */
  readonly scaleSquare: number;
}

/** Millimetres, y up from the lower left, R12, one file. */
export const PLAIN_IMPORT: Importing = {
  origin: 'lower-left',
  y: 'up',
  dxf: 'r12',
  files: 'together',
  scaleSquare: 0,
};

/** How bad it is: a `fault` spoils the cut and fails the inspection, a `warning` is to be looked at first,
 *  a `note` is to know. */
export const SEVERITIES = ['fault', 'warning', 'note'] as const;
export type Severity = (typeof SEVERITIES)[number];

/** A place on a sheet, mm from its lower left corner, y up. */
export interface FoundPlace {
  readonly at: Point;
  /** What is measured there, mm: how wide, how far off. */
  readonly size?: number;
}

/** Something that a look at a cut file found: the text, the JSON and the picture all tell it. */
export interface Finding {
  readonly kind: string;
  readonly severity: Severity;
  /** For a person: what, how much, what to do. */
  readonly message: string;
  /** The worst first; none where it is the file as a whole. */
  readonly places: readonly FoundPlace[];
  /** Places in all, where not every one is listed. */
  readonly total: number;
}
