/** The contracts that variants are written to, on one page. */
import type {
  Bounds,
  BoxSpec,
  Convention,
  Drawing,
  Fill,
  Inside,
  Layer,
  Net,
  Panel,
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

/** A family of boxes. It gives facts only; everything drawn is derived from them. */
export interface BoxStyle<P extends ParamTable = ParamTable> extends Variant<P> {
  /** Words of the carton trade; those from memory end in "?". */
  readonly tags: readonly string[];
  /** The inside size used for pictures, presets and tests. */
  readonly example: Inside;
  /** One net a part. Throws `ParamError` where the size or the parameters cannot be. */
  build(spec: BoxSpec, values: Values<P>): readonly Net[];
}

/** What a motif may ask for without touching the disk. */
export interface MotifTools {
  /** One line of text as welded outlines, its baseline on y = 0, starting at x = 0. `height` is
   *  the height of a capital letter, mm. Throws `ParamError` for a character the face lacks. */
  letter(text: string, font: string, height: number): readonly Region[];
  /** A repeatable random number in [0, 1). */
  random(): number;
}

/** A parametric shape for decorating, centred on the origin, in layers from back to front. */
export interface Motif<P extends ParamTable = ParamTable> extends Variant<P> {
  readonly family: string;
  build(values: Values<P>, tools: MotifTools): readonly Layer[];
}

/** A printed pattern that fills an area. `palette` is the ground, then the inks. */
export interface Pattern<P extends ParamTable = ParamTable> extends Variant<P> {
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
  write(drawing: Drawing, convention: Convention): string;
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
export const definePattern = <const P extends ParamTable>(p: Pattern<P>): Pattern<P> => p;

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
