/** The README's picture: boxes of the demo job standing on a table, and two of their sheets. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { openSession, type Session } from '../../src/cli/session.js';
import { litParts, type Standing, standingExtent } from '../../src/fold/index.js';
import { faceMarks, filmsOf } from '../../src/item-finish.js';
import { sheetPicture as drawn } from '../../src/item-pictures.js';
import type { Decal, FaceMark, Item, Net } from '../../src/model.js';
import { type PlannedItem, planItem } from '../../src/pipeline.js';
import { foldedPicture } from '../../src/write/index.js';

const VIEW = { azimuth: -1.08, elevation: 0.46 };

export function fairSession(presetsDir: string): Session {
  const file = join(presetsDir, 'jobs', 'orchard-fair.yaml');
  const source = { file, text: readFileSync(file, 'utf8') };
  return openSession(source, {}, { presetsDir, cwd: presetsDir });
}

/** Where each box of the scene stands, mm: x along the table, y away from the eye. */
const PLACES: readonly (readonly [
  item: string,
  net: string,
  x: number,
  y: number,
  turn: number,
])[] = [
  ['apple-butter', 'box', -172, 70, 0.12],
  ['mulling-spices', 'box', -80, 118, -0.08],
  ['hazelnut-shortbread', 'box', 98, 132, 0.02],
  ['plum-truffles', 'box', -163, -42, -0.2],
  ['pear-fudge-3x2', 'base', 182, 4, 0.15],
  ['pear-fudge-3x2', 'lid', 150, -78, 0.4],
  ['apple-rings', 'box', 34, -12, -0.1],
  ['cider-caramels', 'box', -66, -134, 0.06],
];

/** Nets of several boxes in one scene: named apart. */
function sceneOf({ design, kit }: Session) {
  const planned = new Map<string, PlannedItem>();
  const standing: Standing[] = [];
  const decals: Decal[] = [];
  const marks: FaceMark[] = [];
  const colour = new Map<string, string>();
  for (const [name, netId, x, y, turn] of PLACES) {
    const item = design.items.find(i => i.name === name) as Item;
    const plan = planned.get(name) ?? planItem(item, design, kit);
    planned.set(name, plan);
    const net = plan.nets.find(n => n.id === netId) as Net;
    const id = `${name}/${netId}`;
    const own = <T extends { net: string }>(list: readonly T[]): T[] =>
      list.filter(d => d.net === netId).map(d => ({ ...d, net: id }));
    // A lid beside its base lies on the table too.
    const height = -standingExtent([net])[0][2];
    standing.push({ net: { ...net, id }, at: [x, y], height, turn, films: own(filmsOf(plan.box)) });
    decals.push(...own(plan.decals));
    marks.push(...own(faceMarks([net])));
    colour.set(id, design.stocks[item.box!.stock]!.colour);
  }
  return { standing, decals, colour, marks };
}

export function fairScene(session: Session): string {
  const { standing, decals, colour, marks } = sceneOf(session);
  const { parts, table } = litParts(standing, VIEW);
  const paper = (net: string) => ({ outside: colour.get(net)!, inside: colour.get(net)! });
  return foldedPicture({ parts, table, paper, decals, marks }, 1200);
}

/** A sheet of an item as it lies on the cutter, with its legend. */
export function sheetPicture({ design, kit }: Session, name: string, id: string): Promise<string> {
  const item = design.items.find(i => i.name === name)!;
  const sheet = planItem(item, design, kit).sheets.find(s => s.id === id)!;
  return drawn(sheet, design, kit.tools);
}
