/** The contracts that variants are written to, on one page. */
import type {
  Affine,
  Bounds,
  BoxSpec,
  ClosureHalf,
  Convention,
  Drawing,
  Fill,
  GlueArea,
  Importing,
  Inside,
  Layer,
  Net,
  Panel,
  Path,
  Point,
  PrintPage,
  Region,
} from './model.js';
import type { ParamTable, Values } from './params.js';

interface Variant<P extends ParamTable> {
  /** kebab-case, unique in its list. */
  readonly id: string;
  /** One line, under 80 characters, that a papercrafter understands. */
  readonly summary: string;
  readonly params: P;
}

/** The room in a closed box. */
export interface Room {
  /** The box may as well lie on a wall: a carton that is filled from its end. */
  readonly lies: boolean;
  /** The inside to ask for so that an upright block of this size goes in, or nothing where none
   *  does; left out where the inside (the cylinder of a `round` plan) is clear to its edges. */
  insideFor?(block: Inside): Inside | undefined;
}

/** A family of boxes. It gives facts only; everything drawn is derived from them. */
export interface BoxStyle<P extends ParamTable = ParamTable> extends Variant<P> {
  /** Words of the carton trade; those from memory end in "?". */
  readonly tags: readonly string[];
  /** The inside size used for pictures, presets and tests. */
  readonly example: Inside;
  /** How the inside is read. `round`: length and width are one measure, the diameter of the largest
   *  round that stands in it; they must be equal. A rectangle if not said. */
  readonly plan?: 'rectangle' | 'round';
  /** What a treat may count on in the closed box; left out by styles that hold none (inserts, wraps). */
  readonly room?: Room;
  /** One net a part. Throws `ParamError` where the size or the parameters cannot be. */
  build(spec: BoxSpec, values: Values<P>): readonly Net[];
}

/** What a feature may ask of a net, in the flat and closed. All is in the net's frame. */
export interface NetFacts {
  /** Stretches of a panel's outline, counter-clockwise, that nothing hangs on, that no other panel
   *  shares and that need not meet anything; one closed path where all of it is free. */
  freeEdges(net: Net, panel: string): readonly Path[];
  /** The lines to fold, each whole; those of one panel where it is named. */
  scores(net: Net, panel?: string): readonly Path[];
  /** What lies over a point of a panel in the closed box, the nearest first: where on the other
   *  panel, and how far toward the first one's inside, mm. Only papers that lie on each
   *  other: a few sheets off. */
  over(
    net: Net,
    panel: string,
    at: Point,
  ): readonly { readonly panel: string; readonly at: Point; readonly toInside: number }[];
  /** Takes points of panel a to where they lie over panel b in the closed box; nothing for panels
   *  that are curled or do not lie flat on each other. */
  lay(net: Net, a: string, b: string): Affine | undefined;
  glueAreas(net: Net): readonly GlueArea[];
  /** As `glueAreas`, where a panel is tucked in behind another. */
  tuckAreas(net: Net): readonly GlueArea[];
  /** As `glueAreas`, where panels of one net are glued to another net of the box. */
  seatAreas(nets: readonly Net[]): readonly { readonly net: string; readonly area: GlueArea }[];
  /** Where edges of other panels hook in over this one when it is closed. */
  hooks(net: Net, panel: string): readonly { readonly panel: string; readonly line: Path }[];
  closureHalves(net: Net): readonly ClosureHalf[];
  /** A part of several that was changed, in the place that it had: what is cut off its edge moves its
   *  middle. */
  inPlace(before: Net, after: Net): Net;
}

/** What is asked of a feature, its names looked up. */
export interface FeatureAsk {
  readonly net: Net;
  /** The panel it goes on; the root for what belongs to the whole net. */
  readonly panel: Panel;
  readonly whole: boolean;
  /** As it was asked for, from the panel's middle; `frame` has it in it. */
  readonly at: Point;
  /** From the feature's frame to the net's: the panel's middle is its origin, and it is seen on the
   *  outside, so this mirrors. */
  readonly frame: Affine;
  /** A motif's outline about the origin, as seen. */
  readonly outline?: Path;
  /** Whether a piece is to go behind it. */
  readonly film: boolean;
  /** Where other parts of the box are glued to this net. */
  readonly seats: readonly GlueArea[];
  readonly facts: NetFacts;
}

/** A piece that a feature adds, in its own frame: its middle at the origin, as seen from inside. */
export interface FeaturePiece {
  readonly what: string;
  readonly outline: Path;
  /** From the piece's frame to the net's. */
  readonly at: Affine;
  readonly face: 'inside' | 'outside';
}

export interface Featured {
  readonly net: Net;
  readonly pieces?: readonly FeaturePiece[];
}

/** Something that any suitable panel of any net can take. Net to net: facts again. */
export interface Feature<P extends ParamTable = ParamTable> extends Variant<P> {
  /** Whether it goes on a panel, may, or belongs to the whole box. */
  readonly on: 'panel' | 'panel or box';
  /** What it takes beside its parameters: a motif for its outline, a stock for a piece behind it. */
  readonly takes?: readonly ('motif' | 'film')[];
  /** Throws `ParamError` where the panel cannot take it. */
  apply(ask: FeatureAsk, values: Values<P>): Featured;
  /** What a person should know, once all features of the box are made. */
  mind?(ask: FeatureAsk, values: Values<P>): readonly string[];
}

/** Text to be set. Its lines are parted by line breaks or by " / ". */
export interface TextAsk {
  readonly text: string;
  readonly font: string;
  /** Height of a capital letter, mm. */
  readonly height: number;
  /** The middle where nothing is said. */
  readonly align?: 'left' | 'centre' | 'right';
  /** Baseline to baseline, in capitals. */
  readonly leading?: number;
  /** More air between the letters, in capitals. */
  readonly spacing?: number;
  /** Radians that the widest line turns through: arched where positive, hanging where negative. */
  readonly bend?: number;
  /** In place of `bend`: of the first baseline's circle, mm; negative for text that stands under it. */
  readonly radius?: number;
}

/** Text as outlines that are welded or, in a face for the pen, as single lines. */
export interface SetText {
  readonly regions: readonly Region[];
  readonly lines: readonly Path[];
  /** Each line's width from its first letter's origin to its last one's end, its place when straight. */
  readonly baselines: readonly { readonly from: Point; readonly width: number }[];
  /** Height of a capital letter, mm. */
  readonly capital: number;
  /** The way up of the letters at a point: a unit vector. */
  up(at: Point): Point;
}

/** What a motif may ask for without touching the disk. */
export interface MotifTools {
  /** Text about the baseline of its first line: x = 0 is where it is aligned. Throws `ParamError` for
   *  a character the face lacks. */
  set(ask: TextAsk): SetText;
  /** One line of text as welded outlines, its baseline on y = 0, starting at x = 0. `height` is
   *  the height of a capital letter, mm. Throws `ParamError` for a character the face lacks. */
  letter(text: string, font: string, height: number): readonly Region[];
  /** Repeatable random numbers in [0, 1): one run of them for each seed, so that the order in which
   *  motifs are made changes nothing. Seeds are a parameter of the motif's own. */
  seeded(seed: number): () => number;
  /** A drawing of the person's own as a motif, by the name of its file; nothing for a name that is none.
   *  Throws `ParamError` for a file that cannot be used. */
  drawing?(file: string): Motif | undefined;
}

/** A parametric shape for decorating, centred on the origin, in layers from back to front. */
export interface Motif<P extends ParamTable = ParamTable> extends Variant<P> {
  readonly family: string;
  build(values: Values<P>, tools: MotifTools): readonly Layer[];
}

/** A printed pattern that fills an area. `palette` is the ground, then the inks; what is printed is an ink
 *  or a shade between two of the palette. Where it lies does not depend on the area: two pieces of one
 *  seed are cut from one paper. */
export interface Pattern<P extends ParamTable = ParamTable> extends Variant<P> {
  /** Two steps, mm, each of which takes the pattern onto itself; left out where it does not repeat. */
  repeat?(values: Values<P>, palette: readonly string[]): readonly [Point, Point];
  build(
    values: Values<P>,
    area: Bounds,
    palette: readonly string[],
    random: () => number,
  ): readonly Fill[];
}

/** Drawing to bytes. Pure: the same drawing gives the same bytes. */
export interface CutWriter {
  readonly id: string;
  readonly summary: string;
  readonly extension: string;
  /** As plainly as can be where nothing is said of the importing software. */
  write(drawing: Drawing, convention: Convention, importing?: Importing): string;
}
/** As `CutWriter`, with art beneath. */
export interface PrintWriter {
  readonly id: string;
  readonly summary: string;
  readonly extension: string;
  write(page: PrintPage, convention: Convention): Promise<Uint8Array>;
}

/** Keeps the literal types of a variant's parameter table. */
export const defineStyle = <const P extends ParamTable>(style: BoxStyle<P>): BoxStyle<P> => style;
export const defineMotif = <const P extends ParamTable>(motif: Motif<P>): Motif<P> => motif;
export const defineFeature = <const P extends ParamTable>(f: Feature<P>): Feature<P> => f;
export const definePattern = <const P extends ParamTable>(p: Pattern<P>): Pattern<P> => p;

/** A motif by its name, or a drawing of the person's own by its file's. */
export const motifNamed = (
  motifs: readonly Motif[],
  name: string,
  tools: MotifTools | undefined,
): Motif | undefined => find(motifs, name) ?? tools?.drawing?.(name);

/** Finds a variant by id. */
export function find<V extends { readonly id: string }>(
  list: readonly V[],
  id: string,
): V | undefined {
  return list.find(v => v.id === id);
}

/** The ways to name a panel of these nets: a net for its root panel, a panel that only one net has,
 *  `net/panel` for the others. */
export function panelNames(nets: readonly Net[]): string[] {
  const all = nets.flatMap(net => net.panels.map(p => [net, p.id] as const));
  const several = nets.length > 1 ? nets.map(net => net.id) : [];
  const names = all.map(([net, id]) =>
    all.filter(([, other]) => other === id).length === 1 ? id : `${net.id}/${id}`,
  );
  return [...new Set([...several, ...names])];
}

/** The panel of a name that `panelNames` lists. */
export function findPanel(nets: readonly Net[], name: string): Panel | undefined {
  const slash = name.indexOf('/');
  if (slash >= 0) {
    const net = find(nets, name.slice(0, slash));
    return net && find(net.panels, name.slice(slash + 1));
  }
  const own = nets.flatMap(net => net.panels.filter(p => p.id === name));
  if (own.length === 1) return own[0];
  const net = nets.length > 1 ? find(nets, name) : undefined;
  return net && find(net.panels, net.root);
}
