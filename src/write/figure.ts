/**
 * Drawings for people as plain data: what a figure shows is decided once, and each writer (SVG, PDF)
 * paints the same marks in the same order. Millimetres, y up, the origin at the lower left.
 */
import { polyline } from '../geom/index.js';
import type { Affine, Art, Path, Point } from '../model.js';

/** `#rrggbb`, or one of the page's own colours, which a page in the dark may change. */
export type Colour = `#${string}` | 'ink' | 'faint' | 'hair' | 'accent' | 'card' | 'page';

export interface Line {
  readonly colour: Colour;
  readonly width: number;
  readonly dash?: readonly number[];
  /** Ends and corners are round. */
  readonly round?: boolean;
}

/** What marks are to who does not see the page: an element of a PDF's structure (ISO 32000-1, 14.8.4),
 *  in the one that holds it. Elements follow each other as they are first used. */
export interface Tag {
  readonly type:
    | 'Document'
    | 'H1'
    | 'H2'
    | 'H3'
    | 'P'
    | 'L'
    | 'LI'
    | 'Lbl'
    | 'LBody'
    | 'Table'
    | 'TR'
    | 'TH'
    | 'TD'
    | 'Figure';
  readonly within?: Tag;
  /** Of figures: what is seen. */
  readonly alt?: string;
  /** Of the head of a column or of a row. */
  readonly scope?: 'Column' | 'Row';
}

export type Mark =
  /** Filled by the even-odd rule, or with `all` everywhere in any of its paths, which turn one way; then
   *  stroked. */
  | {
      readonly kind: 'shape';
      readonly paths: readonly Path[];
      readonly all?: boolean;
      readonly fill?: Colour;
      /** Of the fill. */
      readonly opacity?: number;
      readonly line?: Line;
    }
  /** Where `by` is by the even-odd rule, or with `all` everywhere in any of its paths, which turn one
   *  way. */
  | {
      readonly kind: 'clip';
      readonly by: readonly Path[];
      readonly all?: boolean;
      readonly marks: readonly Mark[];
    }
  /** A fill that changes evenly from one place to another, everywhere in any of its paths; with `seam` also
   *  that much past their sides, mm, for which it must be opaque. On paper it is its mean. */
  | {
      readonly kind: 'soft';
      readonly paths: readonly Path[];
      readonly from: Point;
      readonly to: Point;
      readonly ends: readonly [SoftEnd, SoftEnd];
      readonly seam?: number;
    }
  /** What its marks cover, in one colour, blurred by a Gauss bell of this standard deviation, mm; on paper
   *  as they are. */
  | {
      readonly kind: 'blurred';
      readonly by: number;
      readonly colour: `#${string}`;
      readonly marks: readonly Mark[];
    }
  /** The fills of printed art: one art may be painted many times, and is written once. */
  | { readonly kind: 'art'; readonly art: Art; readonly at: Affine }
  /** A figure in a figure, its lower left corner at a place. */
  | {
      readonly kind: 'placed';
      readonly figure: Figure;
      readonly at: Point;
      readonly scale?: number;
    }
  /** On a page; marks there without a tag are its ornament. */
  | { readonly kind: 'tagged'; readonly tag: Tag; readonly marks: readonly Mark[] }
  | Words;

export interface SoftEnd {
  readonly colour: `#${string}`;
  readonly opacity: number;
}

/** One line of text. `at` is where its baseline begins, has its middle or ends; turned text reads
 *  upward. */
export interface Words {
  readonly kind: 'words';
  readonly text: string;
  readonly at: Point;
  /** The em, mm. */
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly turned?: boolean;
  readonly bold?: boolean;
  readonly colour: Colour;
}

export interface Figure {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

/** Width of one line of text, mm. */
export type TextWidth = (text: string, size: number, bold?: boolean) => number;

export const stroke = (points: readonly Point[], line: Line): Mark => ({
  kind: 'shape',
  paths: [polyline(points)],
  line,
});

/** Parallel lines at 45° over an area, `step` mm apart. */
export function hatch(
  area: readonly Path[],
  { minX, minY, maxX, maxY }: { minX: number; minY: number; maxX: number; maxY: number },
  step: number,
  line: Line,
  leaning: 'right' | 'left' = 'right',
): Mark {
  const paths: Path[] = [];
  const high = maxY - minY;
  // Lines stand on a lattice of the page, so that neighbouring areas are hatched as one.
  const first = Math.floor((minX - high) / step) * step;
  for (let x = first; x < maxX; x += step) {
    const [low, top] = leaning === 'right' ? [x, x + high] : [x + high, x];
    paths.push(
      polyline([
        [low, minY],
        [top, maxY],
      ]),
    );
  }
  return { kind: 'clip', by: area, marks: [{ kind: 'shape', paths, line }] };
}

/** The page's own colours on white paper: a brown-black ink, WCAG 2 contrast 4.5 : 1 or more on the
 *  page and on the card for all that is read. */
export const PAPER_COLOURS: Readonly<Record<Exclude<Colour, `#${string}`>, string>> = {
  ink: '#3a3029',
  faint: '#6f6257',
  hair: '#cdc1b1',
  accent: '#a3421f',
  card: '#f7f0e4',
  page: '#ffffff',
};

export const plainColour = (colour: Colour): string =>
  colour.startsWith('#') ? colour : PAPER_COLOURS[colour as keyof typeof PAPER_COLOURS];
