/** From a planned item to the facts of its guide: what folding, placing and arranging know of it is
 *  gathered, and pictures are taken on the way. */
import { find } from './contracts.js';
import {
  drawNet,
  litParts,
  netFacts,
  type Proven,
  proveWay,
  type Standing,
  seenParts,
  standingExtent,
  type ViewPoint,
} from './fold/index.js';
import { bounds } from './geom/index.js';
import {
  type CutNet,
  type FoldedNet,
  type Guide,
  guidePage,
  makeGuide,
  type Together,
} from './guide/index.js';
import type { Seen } from './guide-model.js';
import { faceMarks, filmsOf } from './item-finish.js';
import type { Decal, Design, Net, Triple } from './model.js';
import type { Kit, MadeFile, PlannedItem } from './pipeline.js';
import { writeGuideHtml, writeGuidePdf } from './write/index.js';

/** From the left front, above; while folding from higher up, to see into the box. */
const CLOSED_VIEW = { azimuth: -1.08, elevation: 0.46 };
const FOLDING_VIEW = { azimuth: -1.25, elevation: 0.8 };
/** How far a step has come in its picture: the fold is seen, and what goes where. */
const ON_THE_WAY = 0.62;
/** Curled paper in the large picture, and in small ones, mm. */
const FINE_STRIPS_MM = 0.3;
const STRIPS_MM = 1;
/** Points of the lamp for the large picture, and for small ones: a shadow tells where a panel is. */
const LAMP = { table: 3, face: 2, strips: 1, least: 100 };
const SMALL_LAMP = { table: 1, face: 1, strips: 2, least: 200 };
/** Parts that go together are shown this far apart, in shares of the box's height. */
const APART = 0.55;
/** Between parts that stand side by side, mm. */
const BESIDE_MM = 12;

/** The guide of an item on paper and for the browser, and what of it could not be spelled. */
export async function guideFiles(
  plan: PlannedItem,
  design: Design,
  kit: Kit,
  ways?: readonly Proven[],
): Promise<{ readonly files: readonly MadeFile[]; readonly warnings: readonly string[] }> {
  const page = guidePage(itemGuide(plan, design, kit, ways));
  const { guidePaper } = design;
  const { bytes, missing } = await writeGuidePdf(page, guidePaper, kit.guideFonts);
  const html = writeGuideHtml(page, guidePaper, kit.guideFonts);
  const { name } = plan.item;
  const path = `${name}/${name}.guide`;
  const warnings =
    missing.length === 0
      ? []
      : [
          `the guide on paper cannot spell ${missing.join(' ')}: its faces have Latin, Hebrew and Arabic letters; ${path}.html shows them`,
        ];
  const holds = 'guide: what is needed, the measured pattern, the steps';
  return {
    files: [
      { path: `${path}.pdf`, bytes, holds: `${holds}, to print` },
      {
        path: `${path}.html`,
        bytes: new TextEncoder().encode(html),
        holds: `${holds}, for the browser`,
      },
    ],
    warnings,
  };
}

/** `ways` are those of the nets that are cut, where they are known. */
export function itemGuide(
  plan: PlannedItem,
  design: Design,
  kit: Kit,
  ways: readonly Proven[] = plan.nets.map(proveWay),
): Guide {
  const { item, box } = plan;
  const wholeOf = new Map(
    box.whole.flatMap((net, i) => box.parts[i]!.map(part => [part.id, net.id] as const)),
  );
  const splices = box.splits.flat();
  const folded = box.whole.map((net, i) => {
    const [part] = box.parts[i]!;
    return foldedNet(ways.find(w => w.net === part && part === net) ?? proveWay(net));
  });
  const style = item.box && find(kit.styles, item.box.style);
  const decals = plan.decals.map((d): Decal => ({ ...d, net: wholeOf.get(d.net) ?? d.net }));
  return makeGuide({
    item,
    design,
    cut: plan.nets.map(cutNet),
    folded,
    seats: netFacts.seatAreas(box.whole),
    together: togetherOf(box.whole),
    splices: splices.map(s => ({ panel: s.flap, onto: s.onto })),
    films: box.pieces.map(p => ({ panel: p.panel, feature: p.spec.feature })),
    ...(box.whole.length > 0 && {
      closed: closedBox(box),
      outside: outsideOf(box.whole),
    }),
    round: style?.plan === 'round',
    closures: plan.closures.map(c => c.closure),
    decals: item.box ? decals : plan.loose,
    sheets: plan.sheets,
  });
}

/** A picture of a step. Curled paper has its light from its strips: casting their shadows takes longer than
 *  all else in a guide. */
function smallView(nets: readonly Standing[], view: ViewPoint, tolerance?: number): Seen {
  const curls = nets.some(({ net }) => net.panels.some(p => p.bend));
  if (curls) return { parts: seenParts(nets, view, tolerance) };
  return litParts(nets, view, tolerance, SMALL_LAMP);
}

/** As it stands when it is done, with its films. */
function closedBox(box: PlannedItem['box']): Seen {
  const films = filmsOf(box);
  const standing = inPlaces(box.whole).map(s => ({ ...s, films }));
  return { ...litParts(standing, CLOSED_VIEW, FINE_STRIPS_MM, LAMP), marks: faceMarks(box.whole) };
}

const cutNet = (net: Net): CutNet => ({
  net,
  drawn: drawNet(net),
  glue: netFacts.glueAreas(net),
  halves: netFacts.closureHalves(net),
});

/** The net lies on the table with its inside up, wherever its box stands. */
function foldedNet({ net, steps, folding }: Proven): FoldedNet {
  const { up: _, stands: __, ...lying } = net;
  const views = steps.map((_, i): Seen => {
    const onTheWay = { net: lying, folding: folding((i + ON_THE_WAY) / steps.length) };
    return smallView([onTheWay], FOLDING_VIEW);
  });
  return { net, glue: netFacts.glueAreas(net), steps, views };
}

/** The closed parts in their places; those that say no place stand in a row. */
export function inPlaces(nets: readonly Net[]): Standing[] {
  let x = 0;
  return nets.map((net): Standing => {
    if (net.stands || nets.length === 1) return { net };
    const b = bounds(net.panels.find(p => p.id === net.root)!.outline);
    const side = Math.max(b.maxX - b.minX, b.maxY - b.minY);
    const at = x + side / 2;
    x += side + BESIDE_MM;
    return { net, at: [at, 0] };
  });
}

/** Over all, with the paper's own thickness on either side; of parts with places of their own. */
function outsideOf(nets: readonly Net[]): Triple | undefined {
  if (nets.length > 1 && nets.some(n => !n.stands)) return undefined;
  const [low, high] = standingExtent(nets);
  const t = nets[0]!.thickness;
  return [high[0] - low[0] + t, high[1] - low[1] + t, high[2] - low[2] + t];
}

/** First what is glued to what; then the groups that this makes, put together. */
function togetherOf(nets: readonly Net[]): Together[] {
  const byId = new Map(nets.map(n => [n.id, n]));
  const group = new Map(nets.map(n => [n.id, n.id]));
  const seats = nets.flatMap((net): Together[] => {
    const onto = [...new Set((net.seats ?? []).map(s => s.onto.net))];
    return onto.flatMap(id => {
      const base = byId.get(id);
      if (!base) return [];
      const [from, to] = [group.get(net.id)!, group.get(id)!];
      for (const [k, g] of group) if (g === from) group.set(k, to);
      const panels = net.seats!.filter(s => s.onto.net === id).map(s => s.panel);
      // Into the part: a lid is laid on its back.
      const isLid = (base.up ?? [0, 0, 1])[2] < 0;
      const glued = nets.filter(n => group.get(n.id) === to);
      const pair = glued.map(n => ({ net: isLid ? overturned(n) : n }));
      const seen = smallView(pair, FOLDING_VIEW, STRIPS_MM);
      return [{ kind: 'seat', net: net.id, onto: id, panels, seen }];
    });
  });
  const groups = [...new Set(group.values())].map(g => nets.filter(n => group.get(n.id) === g));
  if (groups.length < 2 || nets.some(n => !n.stands)) return seats;
  const boxes = groups.map(own => ({ own, extent: standingExtent(own) }));
  const height = Math.max(...boxes.map(b => b.extent[1][2]));
  // What reaches higher, or goes over the others, is lifted off them.
  const order = boxes.sort((a, b) => topOf(a.extent, a.own) - topOf(b.extent, b.own));
  const apart = order.flatMap(({ own }, i) =>
    own.map((net): Standing => ({ net, height: i * APART * height })),
  );
  const leaders = order.map(({ own }) => own[0]!.id);
  return [
    ...seats,
    { kind: 'join', nets: leaders, seen: smallView(apart, CLOSED_VIEW, STRIPS_MM) },
  ];
}

/** A part of a box turned over about the x axis, with its place. */
function overturned(net: Net): Net {
  const { up = [0, 0, 1], stands = {} } = net;
  const { at = [0, 0], turn = 0 } = stands;
  const [, high] = standingExtent([net]);
  const place = { at: [at[0], -at[1]] as const, height: -high[2], turn: -turn };
  return { ...net, up: [up[0], -up[1], -up[2]], stands: place };
}

/** Lids are upside down. */
function topOf([low, high]: ReturnType<typeof standingExtent>, [net]: readonly Net[]): number {
  const isLid = (net!.up ?? [0, 0, 1])[2] < 0;
  return (low[2] + high[2]) / 2 + (isLid ? 1000 : 0);
}
