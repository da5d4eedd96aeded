/** The README's picture: boxes of the demo job standing on a table, and two of their sheets. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { openSession, type Session } from '../../src/cli/session.js';
import { type Standing, seenParts } from '../../src/fold/index.js';
import { sheetPicture as drawn } from '../../src/item-pictures.js';
import type { Decal, Item, Net } from '../../src/model.js';
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
  ['apple-butter', 'box', -165, 75, 0.12],
  ['mulling-spices', 'box', -70, 110, -0.08],
  ['hazelnut-shortbread', 'box', 75, 105, 0.02],
  ['plum-truffles', 'box', -150, -35, -0.2],
  ['pear-fudge-3x2', 'base', 185, 5, 0.15],
  ['pear-fudge-3x2', 'lid', 165, -85, 0.35],
  ['apple-rings', 'box', 50, -22, -0.1],
  ['cider-caramels', 'box', -60, -135, 0.06],
];

/** Nets of several boxes in one scene: named apart. */
function sceneOf({ design, kit }: Session) {
  const planned = new Map<string, PlannedItem>();
  const standing: Standing[] = [];
  const decals: Decal[] = [];
  const colour = new Map<string, string>();
  for (const [name, netId, x, y, turn] of PLACES) {
    const item = design.items.find(i => i.name === name) as Item;
    const plan = planned.get(name) ?? planItem(item, design, kit);
    planned.set(name, plan);
    const net = plan.nets.find(n => n.id === netId) as Net;
    const id = `${name}/${netId}`;
    standing.push({ net: { ...net, id }, at: [x, y], turn });
    decals.push(...plan.decals.filter(d => d.net === netId).map(d => ({ ...d, net: id })));
    colour.set(id, design.stocks[item.box!.stock]!.colour);
  }
  return { standing, decals, colour };
}

export function fairScene(session: Session): string {
  const { standing, decals, colour } = sceneOf(session);
  return foldedPicture(
    {
      parts: seenParts(standing, VIEW),
      paper: net => ({ outside: colour.get(net)!, inside: colour.get(net)! }),
      decals,
    },
    1200,
  );
}

/** A sheet of an item as it lies on the cutter, with its legend. */
export function sheetPicture({ design, kit }: Session, name: string, id: string): Promise<string> {
  const item = design.items.find(i => i.name === name)!;
  const sheet = planItem(item, design, kit).sheets.find(s => s.id === id)!;
  return drawn(sheet, design, kit.tools);
}
