/**
 * The data, on one page. Every stage of the pipeline is a pure function from one of these plain,
 * readonly types to the next. Millimetres and radians; y up; counter-clockwise is positive.
 */
import type { Affine, Path, Point, Region } from './geom/types.js';
import type { Convention, Cutter, FoldWay, Importing, Operation } from './machine-model.js';
import type { Lit } from './picture-model.js';

export type {
  Affine,
  Arc,
  Bounds,
  Cubic,
  Line,
  Path,
  Point,
  Region,
  Segment,
} from './geom/types.js';

export * from './machine-model.js';
export * from './picture-model.js';

// ---- Strokes, papers ----------------------------------------------------------------------------

export interface Stroke {
  readonly operation: Operation;
  readonly path: Path;
  /** Of a score whose fold is known: toward the eye (valley) or away from it (mountain), as the sheet lies
   *  to be cut. */
  readonly fold?: FoldWay;
}

/** A paper. `grain` says which side of the sheet the fibres run along. */
export interface Stock {
  readonly id: string;
  readonly summary: string;
  readonly width: number;
  readonly height: number;
  readonly gsm: number;
  /** Thickness of one sheet, mm. */
  readonly caliper: number;
  /** Whether `caliper` was measured by the person or worked out from grammage and bulk. */
  readonly caliperFrom: 'measured' | 'bulk';
  readonly grain: 'width' | 'height' | 'unknown';
  readonly colour: string;
  /** Price of one sheet in the person's own currency. */
  readonly price?: number;
}

// ---- Treats ------------------------------------------------------------------------------------

/** A point or a size in space. In a box: along its length, across its width, up its height. */
export type Triple = readonly [length: number, width: number, height: number];
export const SIDES = ['length', 'width', 'height'] as const;
export type Side = (typeof SIDES)[number];

/** A treat's shape, measured as it lies before the person. `squash` of a pouch is the share of its
 *  thickness (`height`) by which it may be pressed flatter. */
export type TreatShape =
  | {
      readonly kind: 'block';
      readonly length: number;
      readonly width: number;
      readonly height: number;
    }
  | { readonly kind: 'round'; readonly diameter: number; readonly height: number }
  | { readonly kind: 'ball'; readonly diameter: number }
  | {
      readonly kind: 'pouch';
      readonly length: number;
      readonly width: number;
      readonly height: number;
      readonly squash: number;
    }
  | { readonly kind: 'stick'; readonly length: number; readonly diameter: number };

/** `flat`: as low as it can; `upright`: as tall as it can; `side`: between, on its long edge;
 *  `as-measured`: its height stays its height. */
export const LIES = ['any', 'flat', 'side', 'upright', 'as-measured'] as const;
export type Lie = (typeof LIES)[number];

/** What goes into one box. */
export interface Treat {
  readonly id: string;
  readonly summary: string;
  readonly shape: TreatShape;
  /** Pieces in one box. */
  readonly count: number;
  /** Room kept on every side of a piece: to its neighbours, to the walls and to the lid, mm. What is
   *  piled up touches. */
  readonly clearance: number;
  /** Least distance between neighbours, where it is to be more than the clearance, mm. */
  readonly apart: number;
  /** The most layers on each other: 1 for what is crushed or smeared. */
  readonly stack: number;
  readonly lie: Lie;
}

/** Where one piece goes: the middle of the least upright box around it, from the lower left front
 *  corner of the clear space, and that box's sides. */
export interface Place {
  readonly at: Triple;
  readonly size: Triple;
  /** The side of the box along which a round's or a stick's axis runs. */
  readonly axis?: Side;
  /** From 0 at the bottom, along the side that is up. */
  readonly layer: number;
}

/** Pieces in a box, each in its own place. */
export interface Arrangement {
  readonly treat: Treat;
  /** Straight rows; rows each moved by half a place; two grids side by side, the pieces of one
   *  turned; layers that lie in the hollows of the one below. */
  readonly pattern: 'grid' | 'staggered' | 'mixed' | 'nested';
  readonly lie: 'flat' | 'side' | 'upright';
  /** The most pieces in a row, rows, and layers. Rows run along the box's length, or across it
   *  where `rowsAcross`; a mixed pattern has no rows to count: 0. */
  readonly columns: number;
  readonly rows: number;
  readonly layers: number;
  readonly rowsAcross: boolean;
  readonly inside: Inside;
  /** The side of the box that is up while the pieces lie as asked: `height`, or another where a
   *  closed carton lies on one of its walls. */
  readonly up: Side;
  /** As many as the treat's count, the lowest layer first. */
  readonly places: readonly Place[];
  /** Further places that stay empty. */
  readonly spare: number;
}

// ---- What is asked for -------------------------------------------------------------------------

/** The clear space inside a box: length ≥ width at the opening by custom, height from base up. */
export interface Inside {
  readonly length: number;
  readonly width: number;
  readonly height: number;
}

/** What a box style is given: the space wanted and the paper's thickness. `thickness` 0 gives the
 *  ideal net, crease to crease. */
export interface BoxSpec {
  readonly inside: Inside;
  readonly thickness: number;
}

export type ParamValue = number | string | boolean;
export type ParamValues = Readonly<Record<string, ParamValue>>;

export interface ArtSpec {
  readonly pattern: string;
  readonly values: ParamValues;
  /** Hex colours: the ground first, then the inks. */
  readonly palette: readonly string[];
  readonly seed: number;
}

export interface BackingSpec {
  readonly reveal: number;
  readonly stock: string;
  /** How its corners are made; round when left out. `soft` fills clefts too. */
  readonly join?: 'round' | 'mitre' | 'soft';
  /** Height of the foam under it, mm; 0 when left out. */
  readonly lift?: number;
  readonly art?: ArtSpec;
}

/** A strip of an overlay, as seen on the decorated face. It ends where the overlay does. */
export interface StripSpec {
  readonly width: number;
  /** From edge to edge of the overlay where it is left out. */
  readonly length?: number;
  /** The way it runs. */
  readonly along: 'x' | 'y';
  /** Where `offset` is measured from: the panel's middle to the strip's middle, or an edge to the
   *  strip's near edge. `before`: the strip before it, of which `offset` is left to be seen. */
  readonly from: 'middle' | 'left' | 'right' | 'top' | 'bottom' | 'before';
  readonly offset: number;
  /** How far its middle is moved along its own length. */
  readonly shift: number;
  readonly art?: ArtSpec;
}

/** Where on a panel's box a decoration goes: fractions from the lower left as seen on its face. With
 *  `inset` its own edge stands so far inside the panel's, otherwise its middle is there. */
export interface Anchor {
  readonly x: number;
  readonly y: number;
  readonly inset?: number;
}

/** Copies of a decoration on its panel. */
export type Repeat =
  /** Evenly along a line at `angle` about its place: `distance` from middle to middle, or between. */
  | {
      readonly kind: 'row';
      readonly count: number;
      readonly measure: 'pitch' | 'gap';
      readonly distance: number;
      readonly angle: number;
    }
  /** Evenly round its place, the first on top; turned with the ring unless upright. */
  | {
      readonly kind: 'ring';
      readonly count: number;
      readonly radius: number;
      readonly upright: boolean;
    }
  /** By chance over the whole panel, at least `gap` apart, each turned by up to `turn` either way. */
  | {
      readonly kind: 'scatter';
      readonly count: number;
      readonly seed: number;
      readonly gap: number;
      readonly turn: number;
    };

/** What a decoration may lie over where it is said; over nothing of it otherwise. */
export const OBSTACLES = ['edge', 'hinge', 'window', 'closure', 'slit', 'decoration'] as const;
export type Obstacle = (typeof OBSTACLES)[number];

/** A copy of the widest layer in another paper, moved aside behind all: a shadow to cut. */
export interface ShadowSpec {
  /** As it is seen on the panel, whatever way the motif is turned, mm. */
  readonly by: Point;
  readonly stock: string;
}

/** A motif's outline cut through one layer, so that the next shows. */
export interface CutOutSpec {
  readonly motif: string;
  readonly values: ParamValues;
  /** From the decoration's own middle, before it is turned, mm. */
  readonly at: Point;
  readonly turn: number;
  /** The layer's id; the topmost if not said. */
  readonly through?: string;
}

/** One decoration of one panel: an overlay that follows the panel, or a motif placed on it. */
export interface Decoration {
  readonly name: string;
  readonly panel: string;
  readonly face: 'outside' | 'inside';
  readonly what:
    | {
        readonly kind: 'overlay';
        readonly reveal: number;
        /** In place of the whole: strips of it, each over the one before. */
        readonly strips?: readonly StripSpec[];
      }
    | { readonly kind: 'motif'; readonly motif: string; readonly values: ParamValues };
  /** One piece each, for a list of names: what differs of the motif's values. As many as the item's
   *  count. */
  readonly each?: readonly ParamValues[];
  /** Where the motif's middle goes, from the panel's middle or from its anchor, as seen on its face,
   *  mm. */
  readonly at: Point;
  readonly anchor?: Anchor;
  readonly turn: number;
  /** Turned over, left for right. */
  readonly mirror?: boolean;
  readonly repeat?: Repeat;
  readonly over?: readonly Obstacle[];
  /** Stock by the motif's layer paper; `main` is the default for all. */
  readonly stocks: Readonly<Record<string, string>>;
  readonly backings: readonly BackingSpec[];
  readonly art?: ArtSpec;
  readonly shadow?: ShadowSpec;
  readonly cutOuts?: readonly CutOutSpec[];
  /** Height of the foam under the lowest of the motif's own layers, mm; the motif's if not said. */
  readonly lift?: number;
  /** Necks, holes and slots narrower than this are refused, mm; `LEAST_WIDTH_MM` if not said. */
  readonly leastWidth?: number;
}

/** Something cut into a panel or drawn on it: a window, a notch, a hanging hole. What is put where
 *  is decided when the net is built. */
export interface FeatureSpec {
  readonly feature: string;
  /** The panel's name; empty for what belongs to the whole box. */
  readonly panel: string;
  /** From the panel's middle, and turned, as seen on the outside with the net's y up. */
  readonly at: Point;
  readonly turn: number;
  readonly values: ParamValues;
  /** A motif whose outline is cut. */
  readonly outline?: { readonly motif: string; readonly values: ParamValues };
  /** Stock of the piece that goes behind it. */
  readonly film?: string;
}

/** How a box was rounded for scoring by hand: all its folds lie on marks `step` mm apart. */
export interface HandRounding {
  readonly step: number;
  /** Its size crease to crease, which it is built to. */
  readonly creases: Inside;
  /** The clear space that its paper leaves, mm. */
  readonly clear: Inside;
  /** Parameters that were set to marks, mm. */
  readonly set: Readonly<Record<string, number>>;
}

/** One box of a design, or decorations alone when `box` is absent. */
export interface Item {
  readonly name: string;
  readonly title: string;
  readonly count: number;
  readonly box?: {
    readonly style: string;
    readonly spec: BoxSpec;
    readonly values: ParamValues;
    readonly stock: string;
    /** Where the treats lie, of a box that was sized by them. */
    readonly arrangement?: Arrangement;
    /** In the order in which they are made. */
    readonly features?: readonly FeatureSpec[];
    /** `spec` and `values` are rounded for scoring by hand. */
    readonly rounding?: HandRounding;
    /** A net too big for the sheet is cut up along its folds and glued. */
    readonly split?: 'auto';
  };
  readonly decorations: readonly Decoration[];
}

/** Files that are cut, files that are printed, and the guide on paper and for the browser. */
export const FORMATS = ['svg', 'dxf', 'pdf', 'print-svg', 'print-png', 'guide', 'preview'] as const;
export type FormatId = (typeof FORMATS)[number];

/** A job with every default filled in and every name resolved. */
export interface Design {
  readonly name: string;
  readonly title: string;
  readonly items: readonly Item[];
  readonly stocks: Readonly<Record<string, Stock>>;
  readonly cutter: Cutter;
  readonly convention: Convention;
  readonly formats: readonly FormatId[];
  /** Unit in which lengths are shown to the person. */
  readonly unit: 'mm' | 'in';
  /** How far printed art reaches past its cut line, mm; half the way to a piece that lies nearer. */
  readonly bleed: number;
  readonly printMargin: number;
  readonly marks: MarkStyle;
  readonly importing: Importing;
  /** Resolution of printed pages as pictures, pixels an inch. */
  readonly dpi: number;
  readonly guidePaper: 'a4' | 'letter';
}

// ---- Nets --------------------------------------------------------------------------------------

export type PanelRole =
  | 'base'
  | 'wall'
  | 'lid'
  | 'roof'
  | 'flap'
  | 'dust-flap'
  | 'tuck-flap'
  | 'glue-flap'
  | 'gusset'
  | 'handle'
  | 'insert';

/**
 * A face of a net, in the net's own frame, seen from the inside of the box. The outline is closed
 * and counter-clockwise; notches are part of it. `strokes` are lines inside the face: slits (cut),
 * tear lines (perforate), marks (draw).
 */
export interface Panel {
  readonly id: string;
  readonly role: PanelRole;
  readonly outline: Path;
  readonly holes: readonly Path[];
  readonly strokes: readonly Stroke[];
  /** How the panel curls when the box is closed; a panel without it stays flat. */
  readonly bend?: Bend;
}

/**
 * Paper curled round parallel lines, its rulings, as on a cylinder. Seen along the rulings the
 * panel is a chain of circular stretches; before the first and after the last it goes on straight.
 */
export interface Bend {
  /** Where the first stretch begins, in the net's frame. */
  readonly from: Point;
  /** Unit direction in which the panel curls; the rulings run square to it. */
  readonly across: Point;
  /** Each turns evenly by `turn` radians over `length` mm; positive curls toward the inside. */
  readonly stretches: readonly { readonly length: number; readonly turn: number }[];
}

/**
 * The line that two panels share and fold about. `along` lies on both outlines and runs
 * counter-clockwise on the parent's. `angle` (radians) is the fold when the box is closed:
 * positive folds the child toward the inside (a valley seen from the inside). Along a curved
 * hinge the angle changes: `angle` is the one at the middle of `along`, and parent and child both
 * say how they bend. `packed` is the fold of a glued box that is pressed flat, where it is not 0.
 */
export interface Hinge {
  readonly parent: string;
  readonly child: string;
  readonly along: Path;
  readonly angle: number;
  readonly packed?: number;
  /** Of a fold right over (`angle` ±π): how far apart the two mid-surfaces lie when it is closed,
   *  mm. The paper rolls over what lies between; nothing if not said. */
  readonly lift?: number;
  /** The paper curls over it by itself or goes on straight: it is not scored. */
  readonly soft?: boolean;
}

export interface PanelRef {
  readonly panel: string;
}
/** Part of a panel's outline, in the net's frame. */
export interface EdgeRef extends PanelRef {
  readonly along: Path;
}

/**
 * Two things that must meet when the box is closed.
 * - `glue`: panel a lies on panel b, inside its outline, one thickness away.
 * - `edge`: edge a lies on edge b, point for point; `gap` apart where paper lies between.
 * - `tuck`: panel a slides in behind panel b: parallel, inside its outline (notches apart), no
 *   farther off than `gap`. With an edge of panel a only that edge hooks in, over the paper of b and
 *   on its inside.
 * - `lock`: edge a (a slit's or a tab's) meets edge b and holds it; checked like `edge`.
 * `gap` is the distance between the two mid-surfaces, mm; without it one thickness for `glue` and
 * `tuck`, nothing for `edge` and `lock`.
 */
export type Join =
  | { readonly kind: 'glue'; readonly a: PanelRef; readonly b: PanelRef; readonly gap?: number }
  | {
      readonly kind: 'tuck';
      readonly a: PanelRef | EdgeRef;
      readonly b: PanelRef;
      readonly gap?: number;
    }
  | {
      readonly kind: 'edge' | 'lock';
      readonly a: EdgeRef;
      readonly b: EdgeRef;
      readonly gap?: number;
    };

/** A dot, sticker or magnet in two halves. `at` is on panel a, in the net's frame; where the other
 *  half goes on panel b is worked out by folding. */
export interface Closure {
  readonly a: string;
  readonly b: string;
  readonly at: Point;
  readonly diameter: number;
  /** What it is; hook-and-loop where nothing is said. */
  readonly means?: 'hook-and-loop' | 'sticker' | 'magnet';
}

/** One half of a closure, where it is stuck. `at` is in the net's frame. */
export interface ClosureHalf {
  readonly panel: string;
  readonly face: 'inside' | 'outside';
  readonly at: Point;
  readonly diameter: number;
}

/** Where a panel's face takes glue, because it lies on another when the box is closed. */
export interface GlueArea {
  readonly panel: string;
  readonly face: 'inside' | 'outside';
  /** The panel on the other side of the glue. */
  readonly onto: string;
  /** Closed, in the net's frame. */
  readonly area: Path;
  /** The pen outlines it; otherwise it is shown in the guide only. */
  readonly drawn: boolean;
}

/** A closed part's place in its box: where the middle of its root's bounds goes, to the right and to
 *  the back of the box's middle, mm; how high its lowest point is over the table, mm; its turn about the
 *  upright axis, radians. Nothing said is 0. */
export interface Stands {
  readonly at?: Point;
  readonly height?: number;
  readonly turn?: number;
}

/** A panel of one part that lies on a panel of another and is glued to it, inside its outline; one
 *  thickness away if not said. */
export interface Seat extends PanelRef {
  readonly onto: PanelRef & { readonly net: string };
  readonly gap?: number;
}

/** What a part of a box is called, and which part of it this is, where it is cut up to fit its sheets. */
export interface PartName {
  readonly title: string;
  readonly portion?: { readonly of: string; readonly number: number; readonly count: number };
}

/** The flat pattern of one box part: facts only, no drawing. */
export interface Net extends PartName {
  readonly id: string;
  readonly thickness: number;
  /** The panel that stays still when the net folds. */
  readonly root: string;
  /** Panels with holes for a ribbon that holds the box closed. */
  readonly tied?: readonly string[];
  /** What is up when the closed box stands on a table, as a direction in the root's frame (z is the
   *  inside); z if not given. A carton that lies on its front when folded stands along y. */
  readonly up?: readonly [x: number, y: number, z: number];
  /** Where a part of several stands in the finished box. */
  readonly stands?: Stands;
  /** Panels that are glued onto another part's. */
  readonly seats?: readonly Seat[];
  /** Panels that lie flat on the floor under the closed net, nothing lower than they. */
  readonly rests?: readonly PanelRef[];
  readonly panels: readonly Panel[];
  readonly hinges: readonly Hinge[];
  /** Folds that close a ring of panels round a point inside the paper, as at the corners of a gusset.
   *  They are creased like the others, but `hinges` already say where both panels go: there the two
   *  must share the fold, at its angle. */
  readonly ringHinges?: readonly Hinge[];
  readonly joins: readonly Join[];
  readonly closures: readonly Closure[];
  /** Glued areas that the pen outlines: the panel each is on, and what is glued there. */
  readonly glueDrawn?: readonly { readonly panel: string; readonly onto: string }[];
}

/** One move of closed parts: what is glued to another goes to it where that lies on the table, its inside up;
 *  a part goes to its place in the box with all that is glued to it. */
export interface Gathering {
  /** The one that is told first. */
  readonly nets: readonly string[];
  readonly onto?: string;
  /** Unit direction from the place to where it comes from: from above where nothing hinders. */
  readonly way: readonly [x: number, y: number, z: number];
}

/** A flap that is bent aside for a moment, and by how much at most, mm. */
export interface Spring {
  readonly panel: string;
  readonly by: number;
}

/** One step of putting a net together: what is folded in it all at once. */
export interface AssemblyStep {
  /** From 1. */
  readonly step: number;
  /** The hinges that are folded in it, from flat to closed. */
  readonly hinges: readonly { readonly parent: string; readonly child: string }[];
  /** The panels that these turn, with all that hangs on them; a root that curls. */
  readonly panels: readonly string[];
  /** Indices into the net's joins: what meets at the end of it, for good. */
  readonly joins: readonly number[];
  readonly springs: readonly Spring[];
  /** What is folded of itself from flat to closed: hinges by their child, the root for its curl. */
  readonly folds: readonly string[];
  /** Flaps that are bent in further while they go in behind another panel. */
  readonly bentIn: readonly string[];
  readonly manner: FoldManner;
}

/** How a tuck flap goes in while what it hangs on closes: square as it was creased; its tip sliding
 *  down the wall that it goes behind; or upright, clear of it. Rings of panels fold as they must. */
export type FoldManner = 'square' | 'sliding' | 'upright' | 'ring';

// ---- Pictures of folded boxes -------------------------------------------------------------------

/**
 * A convex part of a folded panel as it is seen, on the picture plane (mm, x right, y up). Parts come
 * farthest first: each is painted over those before it.
 */
export interface SeenPart {
  readonly net: string;
  readonly panel: string;
  readonly side: 'inside' | 'outside';
  readonly polygon: readonly Point[];
  /** `edges[i]`: the side i → i + 1 is an edge of the panel's paper, not a cut of the painter's. */
  readonly edges: readonly boolean[];
  /** Cosine of the angle between the side that is seen and the light. */
  readonly light: number;
  /** From the net's frame to the picture: a flat part is seen as an affine image. */
  readonly at: Affine;
  /** It is film: what is behind it shows. */
  readonly film?: boolean;
  readonly lit?: Lit;
}

/** A piece that lies on a panel's face. `at` takes the piece's frame to the net's. */
export interface Decal {
  readonly piece: Piece;
  readonly net: string;
  readonly panel: string;
  readonly side: 'inside' | 'outside';
  readonly at: Affine;
  readonly colour: string;
  /** Height of the foam under it, mm. */
  readonly lift: number;
  /** It may reach past its panel, and is seen there. */
  readonly overhangs?: boolean;
}

// ---- Pieces, art, sheets -----------------------------------------------------------------------

/** Printed shapes of one colour, painted in order; a region's holes are left unpainted. */
export interface Fill {
  readonly colour: string;
  readonly regions: readonly Region[];
}

/** Printed art in the piece's frame. All fills are already cut to `bleed`, which reaches past the
 *  piece's cut line on every side. */
export interface Art {
  readonly ground: string;
  readonly fills: readonly Fill[];
  readonly bleed: Path;
}

/** One layer of a motif, centred on the origin, outermost paper first in the stack. */
export interface Layer {
  readonly id: string;
  readonly outline: Path;
  readonly holes: readonly Path[];
  readonly strokes: readonly Stroke[];
  /** Printed shapes of the layer's own (a label's lettering): over any pattern. */
  readonly fills: readonly Fill[];
  /** Which of the decoration's stocks it is cut from. */
  readonly paper: string;
  /** Height of the foam under it, mm; 0 is glued flat. */
  readonly lift: number;
  /** Words that are to be read: the boxes that they fill, and the height of their capitals, mm. */
  readonly words?: readonly Words[];
  /** Those of its holes that go through everything behind it as well: for a string. */
  readonly through?: readonly Path[];
  /** What the person should know of how it was made. */
  readonly notes?: readonly string[];
}
export type Words = { readonly box: Path; readonly capital: number } & (
  | { readonly by: 'draw' | 'cut'; readonly ink?: undefined }
  | { readonly by: 'print'; readonly ink: string }
);

/** What a piece is, for catalogues of words: a part of a box, a layer of a decoration (with its number, and
 *  its own words where they differ from box to box), or film behind a feature. */
export type PieceName =
  | { readonly part: PartName }
  | {
      readonly decoration: string;
      readonly layer: string;
      readonly number?: number;
      readonly said?: string;
    }
  | { readonly film: string; readonly panel: string };

/** One thing cut from one stock. */
export interface Piece {
  readonly id: string;
  /** In messages, in English. */
  readonly title: string;
  readonly name: PieceName;
  readonly stock: string;
  readonly count: number;
  readonly outline: Path;
  readonly holes: readonly Path[];
  readonly strokes: readonly Stroke[];
  readonly art?: Art;
  /** Direction of the piece that must run along the paper's grain, if it matters. */
  readonly grain?: 'x' | 'y';
}

export interface Placement {
  readonly piece: Piece;
  /** From the piece's frame to the sheet's: a turn and a shift, never a mirror. */
  readonly at: Affine;
}

/** Ring and cross is the printing trade's register mark; a corner is two lines that meet; a disc is
 *  solid. */
export const MARK_SHAPES = ['ring-and-cross', 'corner', 'disc'] as const;

/** How the register marks of a printed sheet look and where they stand. They are always black. */
export interface MarkStyle {
  readonly id: string;
  readonly summary: string;
  readonly shape: (typeof MARK_SHAPES)[number];
  /** Across what is printed, mm. */
  readonly size: number;
  /** Width of the printed lines, mm. */
  readonly stroke: number;
  /** From what the printer prints and the tools reach to the marks, mm. */
  readonly inset: number;
  /** Four at the corners and one to three off the symmetry. */
  readonly count: number;
}

/** One register mark. `at` is what is found of it: the middle of a ring or a disc, the point where a
 *  corner's lines meet. */
export interface RegisterMark {
  readonly name: string;
  readonly at: Point;
  readonly style: Pick<MarkStyle, 'shape' | 'size' | 'stroke'>;
  /** A corner's lines run right and up; turned counter-clockwise by so many quarters. */
  readonly quarters: 0 | 1 | 2 | 3;
}

/** What is printed black beside the art: lines of one width, and solid shapes. */
export interface Ink {
  readonly lines: readonly Path[];
  /** mm */
  readonly width: number;
  readonly solids: readonly Path[];
}

/** A mark as a camera or a scanner sees it in print: `ink` is in the sheet's frame, like `at`. */
export interface PrintedMark {
  readonly name: string;
  readonly at: Point;
  readonly ink: Ink;
}

/** Art on a sheet: `at` takes its piece's frame to the sheet's. Inside the loops of `clear`, in the
 *  sheet's frame and apart from each other, nothing of it is printed: there the bleed of others begins. */
export interface PlacedArt {
  readonly art: Art;
  readonly at: Affine;
  readonly clear?: readonly Path[];
}

/** One sheet of stock, origin at its lower left corner. `copies` sheets are cut alike. */
export interface Sheet {
  readonly id: string;
  readonly stock: Stock;
  readonly placements: readonly Placement[];
  readonly marks: readonly RegisterMark[];
  /** Of a printed sheet: a solid wedge whose point shows where the upper edge is. */
  readonly wedge?: Path;
  /** Printed on the bare sheet, in its frame: a grid to stamp on. */
  readonly ground?: Art;
  readonly copies: number;
}

// ---- What the tools and the writers get --------------------------------------------------------

/** One tool's ordered paths on one sheet. `drawn` is where the tip must go; `driven` is where the
 *  machine is told to go, path for path (the same where nobody compensates in the file). */
export interface Pass {
  readonly operation: Operation;
  readonly drawn: readonly Path[];
  readonly driven: readonly Path[];
}

export interface DrawingLayer {
  readonly operation: Operation;
  readonly paths: readonly Path[];
}

/** What a cut-file writer gets: millimetres, origin at the lower left, y up. */
export interface Drawing {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly layers: readonly DrawingLayer[];
}

/** A printed page seen from afar, in squares from its upper left corner: by this a scan of another page is
 *  told. */
export interface PageTone {
  /** Side of a square, mm. */
  readonly squareMm: number;
  /** Rows from the top; each square a hex digit, from 0 for bare paper to f for black. */
  readonly rows: readonly string[];
}
/** What the print writer gets: the same sheet as `drawing`, with the art under it. */
export interface PrintPage {
  readonly drawing: Drawing;
  readonly arts: readonly PlacedArt[];
  /** Marks as they are printed. */
  readonly ink: readonly Ink[];
  /** Lines of text outside the cut area, from the top. */
  readonly captions: readonly string[];
}
