/** From a planned item to the facts of its folding preview: nothing is worked out anew but words. */
import { find } from './contracts.js';
import { gathering, netFacts, type Proof, proveNet } from './fold/index.js';
import { foldsDone, foldText, partName, pieceName } from './guide/index.js';
import { faceMarks, filmsOf } from './item-finish.js';
import { type PlannedPictures, wholeBox } from './item-pictures.js';
import { previewPiece, previewSheets } from './item-sheets.js';
import type {
  Arrangement,
  Decal,
  Design,
  Item,
  Net,
  Operation,
  Piece,
  Place,
  Sheet,
  Triple,
} from './model.js';
import { OPERATIONS, SIDES } from './model.js';
import type { PreviewDecal, PreviewFacts, PreviewNet, PreviewTreat } from './preview-model.js';
import { STYLES } from './styles/index.js';
import { formatLength, formatSides } from './units/length.js';
import { ENGLISH, type Words } from './words/english.js';
import { previewPath } from './write/index.js';

/** More layers on one face than these are counted and not named. */
const MOST_NAMES = 12;

interface Planned extends Pick<PlannedPictures, 'box' | 'decals'> {
  readonly item: Item;
  readonly sheets: readonly Sheet[];
}

/** Of an item with a box; `proofs` are of the nets that are cut. */
export function itemPreview(
  plan: Planned,
  design: Design,
  proofs: readonly Proof[],
  words: Words = ENGLISH,
): PreviewFacts {
  const { item, sheets } = plan;
  const { box } = item;
  const { nets, decals } = wholeBox(plan);
  // What was cut up to fit its sheets is folded whole.
  const proven = nets.map(net => proofs.find(p => p.net === net) ?? proveNet(net));
  const joined = proven.length < proofs.length;
  if (!box) throw new Error(`${item.name} has no box to fold`);
  const length = (mm: number) => formatLength(mm, design.unit);
  const stock = design.stocks[box.stock]!;
  const pieces: Piece[] = [];
  const numberOf = (piece: Piece) => {
    const known = pieces.indexOf(piece);
    return known >= 0 ? known : pieces.push(piece) - 1;
  };
  const shownDecals = decals.map(
    (d): PreviewDecal => ({
      piece: numberOf(d.piece),
      net: d.net,
      panel: d.panel,
      side: d.side,
      at: d.at,
      lift: d.lift,
    }),
  );
  const shownSheets = sheets.flatMap(s => previewSheets(s, design, numberOf, words));
  const { inside } = box.spec;
  const treat = treatOf(item, length, words);
  const sides = formatSides([inside.length, inside.width, inside.height], design.unit);
  return {
    title: item.title,
    name: item.name,
    job: design.title,
    told: [
      words.preview.inside(sides),
      words.preview.boxes(item.count, words.called(stock.id, stock.summary)),
      ...(joined ? [words.preview.joined] : []),
      ...(treat && treat.things.length > 0 ? [treat.told] : []),
    ],
    decorated: decoratedOf(decals, nets, words),
    paper: stock.colour,
    nets: proven.map(p => netOf(p, nets.length > 1, words)),
    placing: placingOf(nets, words),
    gathering: gathering(nets),
    pieces: pieces.map(p => previewPiece(p, design, words)),
    decals: shownDecals,
    films: filmsOf(plan.box),
    marks: faceMarks(nets).map(({ path, ...mark }) => ({ ...mark, d: previewPath(path) })),
    sheets: shownSheets,
    ...(treat && { treat }),
    colours: coloursOf(design),
    words: { lang: words.lang, ...words.preview.page },
  };
}

const coloursOf = ({ convention }: Design): Record<Operation, string> =>
  Object.fromEntries(OPERATIONS.map(o => [o, convention.operations[o].colour] as const)) as Record<
    Operation,
    string
  >;

// ---- Words ---------------------------------------------------------------------------------------

function netOf(proof: Proof, several: boolean, words: Words): PreviewNet {
  const { net, steps } = proof;
  const glue = netFacts.glueAreas(net);
  const told = foldsDone({ net, steps, glue }, several).map(done => foldText(done, words));
  const flat = net.hinges.length === 0 && !net.panels.some(p => p.bend);
  return {
    net,
    steps: steps.map(({ folds, bentIn, manner }) => ({ folds, bentIn, manner })),
    // A net whose way was not found is folded all at once.
    told: told.length > 0 || flat ? told : [words.preview.foldAll(partName(net, words))],
  };
}

/** Parts that go to a place of their own once they are folded. */
function placingOf(nets: readonly Net[], words: Words): Record<string, string> {
  const { preview } = words;
  const stand = (net: Net) => (net.up ? net.up[2] < 1 - 1e-9 : false);
  const [only] = nets;
  if (only && nets.length === 1) return stand(only) ? { [only.id]: preview.standUp } : {};
  return Object.fromEntries(
    nets.flatMap((net, i) => {
      if (!net.stands) return [];
      const named = partName(net, words);
      if (net.seats) return [[net.id, preview.placed(named, 'glued')]];
      if (i === 0 && !stand(net)) return [];
      const lid = net.up !== undefined && net.up[2] < 0;
      return [[net.id, preview.placed(named, lid ? 'lid' : 'put')]];
    }),
  );
}

/** What is on each face, from the lowest up, in one sentence a face. */
function decoratedOf(decals: readonly Decal[], nets: readonly Net[], words: Words): string {
  const faces = new Map<string, Decal[]>();
  for (const d of decals) {
    const key = `${d.net}/${d.panel}/${d.side}`;
    faces.set(key, [...(faces.get(key) ?? []), d]);
  }
  const told = [...faces.values()].map(list => {
    const { net, panel, side } = list[0]!;
    const part = nets.length > 1 ? nets.find(n => n.id === net) : undefined;
    const names = new Set(list.map(d => pieceName(d.piece.name, words)));
    const face = words.face(words.panel(panel), side, part && partName(part, words));
    return words.preview.onFace(face, [...names].slice(0, MOST_NAMES), names.size - MOST_NAMES);
  });
  return told.join(' ');
}

// ---- What lies in it -----------------------------------------------------------------------------

const SHAPES = {
  block: 'block',
  pouch: 'pouch',
  round: 'cylinder',
  stick: 'cylinder',
  ball: 'ball',
} as const;

/** Nothing of a box whose clear space is known only with a treat in it. */
function treatOf(
  item: Item,
  length: (mm: number) => string,
  words: Words,
): PreviewTreat | undefined {
  const { preview } = words;
  const { spec, arrangement, style: id } = item.box!;
  const style = find(STYLES, id);
  const triple = ({ length: l, width, height }: typeof spec.inside): Triple => [l, width, height];
  const round = style?.plan === 'round';
  if (!arrangement) {
    if (!style?.room || style.room.insideFor) return undefined;
    return { told: preview.clear, inside: triple(spec.inside), round, things: [] };
  }
  const { treat } = arrangement;
  // Where the inside is not clear to its corners, the space is a block about the pieces.
  const afloat = style?.room?.insideFor !== undefined;
  const { inside, places } = afloat ? blockAbout(arrangement) : arrangement;
  return {
    told: preview.treat(
      treat.count,
      words.called(treat.id, treat.summary) || preview.treats[treat.shape.kind],
      length(treat.clearance),
    ),
    inside: triple(inside),
    ...(afloat && { within: triple(spec.inside) }),
    round,
    things: places.map(p => thingOf(p, arrangement)),
  };
}

/** The least block about the pieces with their clearance, and the pieces in it. */
function blockAbout({ places, treat }: Arrangement): Pick<Arrangement, 'inside' | 'places'> {
  const side = (i: 0 | 1 | 2) => {
    const low = Math.min(...places.map(p => p.at[i] - p.size[i] / 2)) - treat.clearance;
    const high = Math.max(...places.map(p => p.at[i] + p.size[i] / 2)) + treat.clearance;
    return [low, high - low] as const;
  };
  const [x, y, z] = [side(0), side(1), side(2)];
  return {
    inside: { length: x[1], width: y[1], height: z[1] },
    places: places.map(p => ({ ...p, at: [p.at[0] - x[0], p.at[1] - y[0], p.at[2] - z[0]] })),
  };
}

const thingOf = ({ at, size, axis = 'height' }: Place, { treat }: Arrangement) => ({
  at,
  size,
  shape: SHAPES[treat.shape.kind],
  axis: SIDES.indexOf(axis),
});
