/** From an item of a design to the nets that are cut: built, with its features, and cut up where
 *  the sheet is too small. */
import {
  type BoxStyle,
  type Feature,
  find,
  findPanel,
  type MotifTools,
  motifNamed,
} from './contracts.js';
import { netFacts, netPiece, type Split, splitNets } from './fold/index.js';
import type { ClosureHalf, Design, Item, Net, Panel, Path, Piece } from './model.js';
import { MOTIFS, motifOutline } from './motifs/index.js';
import { fillParams, ParamError } from './params.js';
import { largestScale, offerText, sheetNeeded, shrunk, tooBig } from './sheet/index.js';
import { applyFeatures, type FeaturedNets } from './styles/features/index.js';

/** What boxes are built with. */
export interface BoxKit {
  readonly styles: readonly BoxStyle[];
  readonly features: readonly Feature[];
  readonly tools: MotifTools;
}

export interface BoxNets {
  /** As built, with features. Panels are named by these. */
  readonly whole: readonly Net[];
  /** What is cut of each whole net: the net itself, or its parts. */
  readonly parts: readonly (readonly Net[])[];
  /** Pieces that features add, in the order of the features. */
  readonly pieces: FeaturedNets['pieces'];
  /** The cuts of each whole net. */
  readonly splits: readonly (readonly Split[])[];
  readonly warnings: readonly string[];
}

const NONE: BoxNets = { whole: [], parts: [], pieces: [], splits: [], warnings: [] };

export function boxNets(item: Item, design: Design, kit: BoxKit): BoxNets {
  const { box } = item;
  if (!box) return NONE;
  const { nets, pieces, warnings } = applyFeatures(built(item, kit), box.features ?? [], {
    features: kit.features,
    facts: netFacts,
    outline: ({ motif, values }) =>
      motifOutline(motifNamed(MOTIFS, motif, kit.tools)!, values, kit.tools),
  });
  const { parts, splits } =
    box.split === 'auto'
      ? splitNets(nets, net => fits(net, item, design))
      : { parts: nets.map(n => [n]), splits: nets.map(() => []) };
  const cut = nets.flatMap((net, i) => {
    const joints = splits[i]!.map(s => `${s.flap} to ${s.onto}`);
    if (joints.length === 0) return [];
    const what = `is larger than the sheet and is cut into ${parts[i]!.length} parts`;
    return [`${net.title} ${what}: glue ${joints.join(', ')}`];
  });
  return { whole: nets, parts, pieces, splits, warnings: [...warnings, ...cut] };
}

/** A panel by its name, in the net that is cut. */
export function panelIn(
  { whole, parts }: BoxNets,
  name: string,
): { readonly net: Net; readonly panel: Panel } | undefined {
  const named = findPanel(whole, name);
  const i = whole.findIndex(net => named && net.panels.includes(named));
  for (const net of parts[i] ?? []) {
    const panel = find(net.panels, named!.id);
    if (panel) return { net, panel };
  }
  return undefined;
}

/** Lines that a panel is folded along; not those that only curl. */
export const hingesOf = ({ hinges, ringHinges = [] }: Net, panel: string): readonly Path[] =>
  [...hinges, ...ringHinges]
    .filter(h => !h.soft && (h.parent === panel || h.child === panel))
    .map(h => h.along);

/** Every closure, with the net that is cut in which its first half lies. */
export function closuresOf({ whole, parts }: BoxNets) {
  return whole.flatMap((net, i) =>
    net.closures.map(closure => ({
      net: parts[i]!.find(p => find(p.panels, closure.a))!.id,
      closure,
    })),
  );
}

/** Halves of closures on one face of a panel. */
export function closuresOn(
  { whole }: BoxNets,
  name: string,
  face: ClosureHalf['face'],
): readonly ClosureHalf[] {
  const panel = findPanel(whole, name);
  const net = whole.find(n => panel && n.panels.includes(panel));
  if (!net || !panel) return [];
  return netFacts.closureHalves(net).filter(h => h.panel === panel.id && h.face === face);
}

/** What a person can do about nets that fit no sheet. */
export function largerOffer(item: Item, design: Design, kit: BoxKit, { whole }: BoxNets): string {
  const box = item.box!;
  const scale = largestScale(k => {
    try {
      return built(smaller(item, k), kit).every(net => fits(net, item, design));
    } catch (error) {
      // Smaller than its style can be.
      if (error instanceof ParamError) return false;
      throw error;
    }
  });
  const large = whole.filter(net => !fits(net, item, design));
  const { parts, splits } = splitNets(whole, net => fits(net, item, design));
  const helped = whole.every((net, i) => parts[i]!.length > 1 || fits(net, item, design));
  const seams = splits.flat().map(({ hinge }) => `${hinge.parent}–${hinge.child}`);
  return offerText({
    ...(scale > 0 && { inside: shrunk(box.spec.inside, scale, design.unit) }),
    sheet: sheetNeeded(
      large.map(net => pieceOf(net, item, design)),
      sheetOptions(design),
    ),
    seams: helped ? seams : 'none',
    asked: box.split === 'auto',
    unit: design.unit,
  });
}

function built({ box }: Item, { styles }: BoxKit): readonly Net[] {
  const style = find(styles, box!.style);
  if (!style) throw new Error(`a design with an unknown style: ${box!.style}`);
  return style.build(box!.spec, fillParams(style.params, box!.values));
}

function smaller(item: Item, scale: number): Item {
  const { inside, thickness } = item.box!.spec;
  const { length, width, height } = inside;
  const scaled = { length: length * scale, width: width * scale, height: height * scale };
  return { ...item, box: { ...item.box!, spec: { inside: scaled, thickness } } };
}

const sheetOptions = ({ cutter }: Design) => ({ cutter });

function fits(net: Net, item: Item, design: Design): boolean {
  const stock = design.stocks[item.box!.stock]!;
  return tooBig(pieceOf(net, item, design), stock, sheetOptions(design)) === undefined;
}

const pieceOf = (net: Net, item: Item, design: Design): Piece =>
  netPiece(net, design.stocks[item.box!.stock]!, item.count);
