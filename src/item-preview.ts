/** From a planned item to the facts of its folding preview: nothing is worked out anew but words. */
import { type Proof, proveNet } from './fold/index.js';
import { bounds } from './geom/index.js';
import { type PlannedPictures, wholeBox } from './item-pictures.js';
import type {
  Arrangement,
  Design,
  Item,
  Join,
  Net,
  Operation,
  Path,
  Piece,
  Place,
  Sheet,
  Stroke,
  Triple,
} from './model.js';
import { OPERATIONS, SIDES } from './model.js';
import type {
  PreviewDecal,
  PreviewFacts,
  PreviewNet,
  PreviewPiece,
  PreviewSheet,
  PreviewTreat,
} from './preview-model.js';
import { sheetStrokes } from './sheet/index.js';
import { formatLength } from './units/length.js';
import { artPaths, previewPath } from './write/index.js';

interface Planned extends Pick<PlannedPictures, 'box' | 'decals'> {
  readonly item: Item;
  readonly sheets: readonly Sheet[];
}

/** Of an item with a box; `proofs` are of the nets that are cut. */
export function itemPreview(plan: Planned, design: Design, proofs: readonly Proof[]): PreviewFacts {
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
  const shownSheets = sheets.map((s): PreviewSheet => sheetOf(s, numberOf));
  const { inside } = box.spec;
  const treat = treatOf(item, length);
  const sides = [inside.length, inside.width, inside.height].map(length).join(' × ');
  const each = item.count > 1 ? `${item.count} boxes` : '1 box';
  return {
    title: item.title,
    name: item.name,
    job: design.title,
    told: [
      `Inside ${sides}`,
      `${each} of ${stock.summary}`,
      ...(joined ? [JOINED] : []),
      ...(treat.things.length > 0 ? [treat.told] : []),
    ],
    paper: stock.colour,
    nets: proven.map(p => netOf(p, nets.length > 1)),
    placing: placingOf(nets),
    pieces: pieces.map(p => pieceOf(p, design, length)),
    decals: shownDecals,
    sheets: shownSheets,
    treat,
    colours: coloursOf(design),
  };
}

const JOINED = 'Shown with its parts glued to each other';

const coloursOf = ({ convention }: Design): Record<Operation, string> =>
  Object.fromEntries(OPERATIONS.map(o => [o, convention.operations[o].colour] as const)) as Record<
    Operation,
    string
  >;

// ---- Pieces and sheets ---------------------------------------------------------------------------

function pieceOf(piece: Piece, design: Design, length: (mm: number) => string): PreviewPiece {
  const b = bounds(piece.outline);
  const { colour, summary } = design.stocks[piece.stock]!;
  const paths = (list: readonly Path[]) => list.map(previewPath).join('');
  const lines: Partial<Record<Operation, string>> = {};
  const strokes: readonly Stroke[] = [
    ...piece.strokes,
    ...[piece.outline, ...piece.holes].map((path): Stroke => ({ operation: 'cut', path })),
  ];
  for (const { operation, path } of strokes) {
    lines[operation] = (lines[operation] ?? '') + previewPath(path);
  }
  return {
    title: piece.title,
    size: `${length(b.maxX - b.minX)} × ${length(b.maxY - b.minY)}`,
    count: piece.count,
    stock: summary,
    colour,
    box: [b.minX, b.minY, b.maxX, b.maxY],
    paper: paths([piece.outline, ...piece.holes]),
    lines,
    art: piece.art ? artPaths(piece.art, [1, 0, 0, 1, 0, 0], 0) : [],
  };
}

function sheetOf(sheet: Sheet, numberOf: (piece: Piece) => number): PreviewSheet {
  const { stock, copies, id } = sheet;
  const marks = sheetStrokes({ ...sheet, placements: [] });
  const times = copies > 1 ? `, ${copies} alike` : '';
  return {
    id,
    title: `${id}: ${stock.summary}${times}`,
    width: stock.width,
    height: stock.height,
    copies,
    colour: stock.colour,
    placed: sheet.placements.map(({ piece, at }) => ({ piece: numberOf(piece), at })),
    marks: marks.map(s => previewPath(s.path)).join(''),
  };
}

// ---- Words ---------------------------------------------------------------------------------------

const named = (id: string) => id.replaceAll('-', ' ');
const partName = ({ title }: Net) => `the ${title.replaceAll(':', '').toLowerCase()}`;
const and = (names: readonly string[]) =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
const upper = (text: string) => text.slice(0, 1).toUpperCase() + text.slice(1);

/** More names than this in one sentence are counted. */
const MOST_NAMES = 6;
function listed(ids: readonly string[]): string {
  if (ids.length <= MOST_NAMES) return `the ${and(ids.map(named))}`;
  const stem = named(ids[0]!.replace(/-?\d+$/, ''));
  const same = ids.every(id => named(id.replace(/-?\d+$/, '')) === stem);
  return same ? `all ${ids.length} ${stem} panels` : `${ids.length} panels`;
}

/** A fold of more than this (radians) lays a panel flat on its neighbour. */
const OVER = 2.6;

function netOf({ net, steps }: Proof, several: boolean): PreviewNet {
  const told = steps.map(s => {
    const joins = s.joins.map(i => net.joins[i]!);
    const words = [...foldWords(net, s.folds), ...joinWords(joins)];
    return several ? `${upper(partName(net))}: ${words.join(' ')}` : words.join(' ');
  });
  const flat = net.hinges.length === 0 && !net.panels.some(p => p.bend);
  return {
    net,
    steps: steps.map(({ folds, bentIn, manner }) => ({ folds, bentIn, manner })),
    // A net whose way was not found is folded all at once.
    told: told.length > 0 || flat ? told : [`Fold ${partName(net)}.`],
  };
}

function foldWords(net: Net, folds: readonly string[]): string[] {
  const by = new Map<string, string[]>();
  for (const id of folds) {
    const hinge = net.hinges.find(h => h.child === id);
    const angle = hinge?.angle ?? 0;
    const how = !hinge
      ? 'Curl'
      : Math.abs(angle) > OVER
        ? 'Fold right over'
        : angle < 0
          ? 'Fold back'
          : 'Fold up';
    if (hinge && angle === 0) continue;
    by.set(how, [...(by.get(how) ?? []), id]);
  }
  return [...by].map(([how, ids]) => `${how} ${listed(ids)}.`);
}

function joinWords(joins: readonly Join[]): string[] {
  const of = (kind: Join['kind']) => joins.filter(j => j.kind === kind);
  const say = (verb: string, link: string, list: readonly Join[]) => {
    if (list.length === 0) return [];
    const onto = [...new Set(list.map(j => j.b.panel))];
    const what = [...new Set(list.map(j => j.a.panel))];
    return [`${verb} ${listed(what)} ${link} ${listed(onto)}.`];
  };
  return [
    ...say('Glue', 'to', of('glue')),
    ...say('Tuck in', 'behind', of('tuck')),
    ...say('Lock', 'into', of('lock')),
  ].map(upper);
}

/** Parts that go to a place of their own once they are folded. */
function placingOf(nets: readonly Net[]): Record<string, string> {
  const stand = (net: Net) => (net.up ? net.up[2] < 1 - 1e-9 : false);
  const [only] = nets;
  if (only && nets.length === 1) {
    return stand(only) ? { [only.id]: 'Stand the box up.' } : {};
  }
  return Object.fromEntries(
    nets.flatMap((net, i) => {
      if (!net.stands) return [];
      if (net.seats) return [[net.id, `Glue ${partName(net)} in its place.`]];
      const lid = net.up !== undefined && net.up[2] < 0;
      if (i === 0 && !stand(net)) return [];
      return [[net.id, lid ? `Put ${partName(net)} on.` : `Put ${partName(net)} in its place.`]];
    }),
  );
}

// ---- What lies in it -----------------------------------------------------------------------------

const SHAPES = {
  block: 'block',
  pouch: 'block',
  round: 'cylinder',
  stick: 'cylinder',
  ball: 'ball',
} as const;

function treatOf(item: Item, length: (mm: number) => string): PreviewTreat {
  const { spec, arrangement } = item.box!;
  const triple = ({ length: l, width, height }: typeof spec.inside): Triple => [l, width, height];
  if (!arrangement) {
    return { told: 'The clear space inside', inside: triple(spec.inside), things: [] };
  }
  const { treat, places } = arrangement;
  return {
    told: `${treat.count} × ${treat.summary || treat.shape.kind}, with ${length(treat.clearance)} kept clear`,
    inside: triple(arrangement.inside),
    things: places.map(p => thingOf(p, arrangement)),
  };
}

const thingOf = ({ at, size, axis = 'height' }: Place, { treat }: Arrangement) => ({
  at,
  size,
  shape: SHAPES[treat.shape.kind],
  axis: SIDES.indexOf(axis),
});
