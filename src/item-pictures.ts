/** Pictures of a planned item: folded and dressed, and its nets in the flat. */
import { drawNet, seenParts } from './fold/index.js';
import { inPlaces } from './item-guide.js';
import type { Decal, Design, Item, Net } from './model.js';
import { flatPicture, foldedPicture, loosePicture } from './write/index.js';

/** From the left front, above. */
const VIEW = { azimuth: -1.08, elevation: 0.46 };

interface Planned {
  readonly item: Item;
  readonly nets: readonly Net[];
  readonly decals: readonly Decal[];
  readonly loose: readonly Decal[];
  readonly box: { readonly whole: readonly Net[]; readonly parts: readonly (readonly Net[])[] };
}

/** As SVG: the closed box in its papers, or the decorations of an item that has none. */
export async function itemPicture(plan: Planned, design: Design, widthPx: number): Promise<string> {
  const { item } = plan;
  if (!item.box) return loosePicture(plan.loose, widthPx);
  const { colour } = design.stocks[item.box.stock]!;
  const { nets, decals } = wholeBox(plan);
  const paper = { outside: colour, inside: colour };
  const parts = seenParts(inPlaces(nets), VIEW);
  return foldedPicture({ parts, paper: () => paper, decals }, widthPx);
}

/** As SVG: what is cut of the box in the flat, its inside up; `undefined` for an item without a box. */
export function netPicture({ item, nets }: Planned, design: Design): string | undefined {
  if (!item.box) return undefined;
  const { colour } = design.stocks[item.box.stock]!;
  return flatPicture(nets.map(drawNet), colour, design.convention);
}

/** The nets as they are folded: before they were cut up to fit their sheets. */
export function wholeBox({ box, decals }: Pick<Planned, 'box' | 'decals'>): {
  readonly nets: readonly Net[];
  readonly decals: readonly Decal[];
} {
  const whole = new Map(
    box.whole.flatMap((net, i) => box.parts[i]!.map(part => [part.id, net.id] as const)),
  );
  return { nets: box.whole, decals: decals.map(d => ({ ...d, net: whole.get(d.net) ?? d.net })) };
}
